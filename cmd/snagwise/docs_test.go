package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestDocsAreTrue runs every command block of README.md and DEVELOPERS.md and
// compares what it says. A yaml block with a file name is written to that file
// first. UPDATE=1 writes the output anew. A line "..." stands for lines left
// out.
func TestDocsAreTrue(t *testing.T) {
	if testing.Short() {
		t.Skip("builds and runs the program and would take minutes with the race detector, for which -short is there")
	}
	repository, err := filepath.Abs("../..")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"README.md", "DEVELOPERS.md"} {
		t.Run(name, func(t *testing.T) {
			file := filepath.Join(repository, name)
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			t.Chdir(t.TempDir())
			t.Setenv("COLUMNS", "80")
			t.Setenv("SNAGWISE_CLOCK", "2026-08-15T14:20:00+01:00")
			if err := os.Symlink(filepath.Join(repository, "cases"), "cases"); err != nil {
				t.Fatal(err)
			}
			got, commands := runDoc(t, string(text))
			if commands < 2 {
				t.Errorf("%d commands, want some", commands)
			}
			if got == string(text) {
				return
			}
			if os.Getenv("UPDATE") == "" {
				t.Errorf("%s is not what the commands say; UPDATE=1 go test ./cmd/snagwise (-file +commands):\n%s", name, cmp.Diff(string(text), got))
			} else if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		})
	}
}

// runDoc carries out the blocks of a document and returns it with the output
// of its commands, and how many there were.
func runDoc(t *testing.T, text string) (string, int) {
	var out []string
	commands := 0
	lines := strings.Split(text, "\n")
	for i := 0; i < len(lines); i++ {
		out = append(out, lines[i])
		info, ok := strings.CutPrefix(lines[i], "```")
		if !ok {
			continue
		}
		end := i + 1 + slices.Index(lines[i+1:], "```")
		if end <= i {
			t.Fatalf("line %d: the block has no end", i+1)
		}
		block := lines[i+1 : end]
		switch kind, file, _ := strings.Cut(info, " "); {
		case kind == "console":
			for _, c := range splitBlock(block) {
				commands++
				out = append(append(out, "$ "+c.line), shorten(runLine(t, c.line), c.output)...)
			}
		case file != "":
			if err := os.MkdirAll(filepath.Dir(file), 0o700); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, []byte(strings.Join(block, "\n")+"\n"), 0o600); err != nil {
				t.Fatal(err)
			}
			out = append(out, block...)
		default:
			out = append(out, block...)
		}
		out = append(out, "```")
		i = end
	}
	return strings.Join(out, "\n"), commands
}

// A docCommand is one command of a block with the output that stands below it.
type docCommand struct {
	line   string
	output []string
}

func splitBlock(block []string) []docCommand {
	var list []docCommand
	for _, line := range block {
		if c, ok := strings.CutPrefix(line, "$ "); ok {
			list = append(list, docCommand{line: c})
		} else if len(list) > 0 {
			list[len(list)-1].output = append(list[len(list)-1].output, line)
		}
	}
	return list
}

// runLine runs one command line. Only our own commands are run; "go test" runs
// this very test and says nothing here.
func runLine(t *testing.T, line string) []string {
	rest, ok := strings.CutPrefix(line, "go run ./cmd/snagwise")
	if !ok {
		rest, ok = strings.CutPrefix(line, "snagwise")
	}
	if !ok {
		if line == "go test ./..." {
			return nil
		}
		t.Fatalf("%q is no command of ours", line)
	}
	args, file := splitWords(rest), ""
	if i := slices.Index(args, ">"); i >= 0 {
		args, file = args[:i], args[i+1]
	}
	var typed []byte
	if i := slices.Index(args, "<"); i >= 0 {
		var err error
		if typed, err = os.ReadFile(args[i+1]); err != nil {
			t.Fatal(err)
		}
		args = args[:i]
	}
	var said bytes.Buffer
	status := run(args, bytes.NewReader(typed), &said, &said)
	if file != "" {
		if status != answered {
			t.Fatalf("%q ends with status %d: %s", line, status, &said)
		}
		if err := os.WriteFile(file, said.Bytes(), 0o600); err != nil {
			t.Fatal(err)
		}
		return nil
	}
	return strings.Split(strings.TrimRight(said.String(), "\n"), "\n")
}

// splitWords parts a command line at blanks, save those between quotes.
func splitWords(line string) []string {
	var list []string
	var quote rune
	var word []rune
	in := false
	for _, r := range line + " " {
		switch {
		case quote != 0 && r == quote:
			quote = 0
		case quote == 0 && (r == '"' || r == '\''):
			quote, in = r, true
		case quote == 0 && r == ' ':
			if in {
				list = append(list, string(word))
			}
			word, in = nil, false
		default:
			word, in = append(word, r), true
		}
	}
	return list
}

// shorten leaves out of an output what the document leaves out: as many lines
// as stand before and after its "..." are kept.
func shorten(said, shown []string) []string {
	at := slices.Index(shown, "...")
	if at < 0 || len(said) <= len(shown) {
		return said
	}
	after := len(shown) - at - 1
	return slices.Concat(said[:at], []string{"..."}, said[len(said)-after:])
}

func TestShorten(t *testing.T) {
	said := []string{"a", "b", "c", "d", "e"}
	for _, tt := range []struct{ shown, want string }{
		{"x", "a b c d e"},
		{"x ...", "a ..."},
		{"x ... y z", "a ... d e"},
		{"... y", "... e"},
	} {
		if got := fmt.Sprint(shorten(said, strings.Fields(tt.shown))); got != "["+tt.want+"]" {
			t.Errorf("shorten(%v, %s) = %s, want [%s]", said, tt.shown, got, tt.want)
		}
	}
}
