package main

import (
	"bytes"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"snagwise/cmd/snagwise/internal/screen"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"snagwise": main})
}

// TestScripts runs the commands as a person meets them. UPDATE=1 writes what
// they are compared with anew.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata",
		UpdateScripts:       os.Getenv("UPDATE") != "",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"narrow": narrow,
			"fill":   fill,
			"lines":  lineCount,
			"status": status,
		},
	})
}

// narrow fails if a line of a stream or file is wider than 80 columns or holds
// what a terminal would obey.
func narrow(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: narrow FILE...")
	}
	for _, name := range args {
		for line := range strings.SplitSeq(ts.ReadFile(name), "\n") {
			if n := screen.Columns(line); n > 80 {
				ts.Fatalf("%s: %d columns, want at most 80: %q", name, n, line)
			}
			if strings.ContainsRune(line, '\x1b') {
				ts.Fatalf("%s: colour where none may be: %q", name, line)
			}
		}
	}
}

// fill writes a file that repeats a text: fill FILE TIMES TEXT, with Go escapes
// in the text.
func fill(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: fill FILE TIMES TEXT")
	}
	times, err := strconv.Atoi(args[1])
	ts.Check(err)
	text, err := strconv.Unquote(`"` + args[2] + `"`)
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), bytes.Repeat([]byte(text), times), 0o600))
}

// lineCount fails unless a stream has as many lines that begin with a text:
// lines FILE NUMBER TEXT. "! lines" fails if it has.
func lineCount(ts *testscript.TestScript, neg bool, args []string) {
	if len(args) != 3 {
		ts.Fatalf("usage: lines FILE NUMBER TEXT")
	}
	want, err := strconv.Atoi(args[1])
	ts.Check(err)
	got := 0
	for line := range strings.Lines(ts.ReadFile(args[0])) {
		if strings.HasPrefix(line, args[2]) {
			got++
		}
	}
	if (got == want) == neg {
		ts.Fatalf("%s: %d lines begin with %q, want %d (not: %v)", args[0], got, args[2], want, neg)
	}
}

// status runs a command line of ours and fails unless it ends with a status:
// status NUMBER ARGS. What it says goes to stdout and stderr as usual.
func status(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) == 0 {
		ts.Fatalf("usage: status NUMBER ARGS...")
	}
	err := ts.Exec("snagwise", args[1:]...)
	got := "0"
	if err != nil {
		got = strings.TrimPrefix(err.Error(), "exit status ")
	}
	if got != args[0] {
		ts.Fatalf("snagwise %s: exit status %s, want %s", strings.Join(args[1:], " "), got, args[0])
	}
}
