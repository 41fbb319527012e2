//go:build unix

package main

import (
	"os"
	"os/exec"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"

	"snagwise/cmd/snagwise/internal/screen"
)

// TestHuntOnTerminal talks on a pseudo-terminal, a small and dumb one: what is
// typed shows once, no line is too wide, nothing is sent that a terminal would
// obey, and the page stays readable.
func TestHuntOnTerminal(t *testing.T) {
	for _, tt := range []struct {
		columns uint16
		term    string
	}{{80, "dumb"}, {48, "dumb"}} {
		c := exec.Command("snagwise", "hunt", "--dir", t.TempDir(), "--clock", "2026-08-15T14:40:00Z")
		c.Env = append(slicesWithout(os.Environ(), "COLUMNS="), "TERM="+tt.term)
		f, err := pty.StartWithSize(c, &pty.Winsize{Rows: 24, Cols: tt.columns})
		if err != nil {
			t.Skipf("no pseudo-terminal here: %v", err)
		}
		said := make(chan string, 1024)
		go func() {
			defer close(said)
			buf := make([]byte, 4096)
			for {
				n, err := f.Read(buf)
				if n > 0 {
					said <- string(buf[:n])
				}
				if err != nil {
					return // a terminal whose program has gone gives an error
				}
			}
		}()
		var all strings.Builder
		prompts := func(want int) {
			t.Helper()
			late := time.After(20 * time.Second)
			for strings.Count(all.String(), "\n> ") < want {
				select {
				case text, ok := <-said:
					if !ok {
						t.Fatalf("it ended early: %s", &all)
					}
					all.WriteString(text)
				case <-late:
					t.Fatalf("no prompt %d: %s", want, &all)
				}
			}
		}
		for i, a := range []string{"help", "cranks well but won't fire", "quit"} {
			prompts(i + 1)
			if _, err := f.WriteString(a + "\n"); err != nil {
				t.Fatal(err)
			}
		}
		for text := range said {
			all.WriteString(text)
		}
		if err := c.Wait(); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(all.String(), "\r", "")
		if n := strings.Count(text, "> cranks well but won't fire"); n != 1 {
			t.Errorf("%d columns: what was typed shows %d times, want once", tt.columns, n)
		}
		for _, want := range []string{"every answer is on disk", "likely now:", "told 1", "--resume"} {
			if !strings.Contains(strings.ToLower(text), want) {
				t.Errorf("%d columns: %q is not said:\n%s", tt.columns, want, text)
			}
		}
		for line := range strings.SplitSeq(text, "\n") {
			if n := screen.Columns(line); n > int(tt.columns) {
				t.Errorf("%d columns: a line of %d: %q", tt.columns, n, line)
			}
			if strings.ContainsRune(line, '\x1b') {
				t.Errorf("%d columns: an order to the terminal: %q", tt.columns, line)
			}
		}
	}
}

func slicesWithout(list []string, prefix string) []string {
	var out []string
	for _, v := range list {
		if !strings.HasPrefix(v, prefix) {
			out = append(out, v)
		}
	}
	return out
}
