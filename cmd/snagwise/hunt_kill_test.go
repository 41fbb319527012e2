package main

import (
	"bufio"
	"bytes"
	"errors"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// killAnswers go through a hunt with every sort of question.
var killAnswers = []string{
	"cranks well but won't fire, strong smell of petrol", "?", "oil pressure", "52", "1", "d", "1 2m", "?", "slot 15:40", "x", "white smok", "1", "back 3",
}

// huntOn starts or goes on with a hunt whose input stays open.
func huntOn(t *testing.T, dir string, resume bool) (*exec.Cmd, io.WriteCloser, *bufio.Reader) {
	t.Helper()
	args := []string{"hunt", "--dir", dir, "--clock", "2026-08-15T14:40:00Z"}
	if resume {
		args = append(args, "--resume")
	}
	c := exec.Command("snagwise", args...)
	c.Env = append(os.Environ(), "COLUMNS=80")
	in, err := c.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	return c, in, bufio.NewReader(out)
}

// toPrompt reads up to the next prompt and returns the question before it: the
// last block of lines. At the end of what is said ok is false.
func toPrompt(out *bufio.Reader) (question string, ok bool) {
	var b bytes.Buffer
	for {
		c, err := out.ReadByte()
		if err != nil {
			return b.String(), false
		}
		b.WriteByte(c)
		if text := b.String(); strings.HasSuffix(text, "\n> ") || strings.HasSuffix(text, "] > ") {
			text = text[:strings.LastIndex(text, "\n")+1]
			at := strings.LastIndex(text, "\n\n")
			return strings.TrimSpace(text[at+1:]), true
		}
	}
}

// questions answers a hunt without stopping and returns the question before
// each answer and the last one.
func questions(t *testing.T) []string {
	t.Helper()
	c, in, out := huntOn(t, t.TempDir(), false)
	var list []string
	for _, a := range append(slices.Clone(killAnswers), "") {
		q, ok := toPrompt(out)
		if !ok {
			t.Fatalf("the hunt ended after %d answers", len(list))
		}
		list = append(list, q)
		if a != "" {
			if _, err := io.WriteString(in, a+"\n"); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := errors.Join(in.Close(), func() error { _, err := io.Copy(io.Discard, out); return err }(), c.Wait()); err != nil {
		t.Fatal(err)
	}
	return list
}

// TestKilledHunt kills a hunt at random moments with a signal that cannot be
// caught, and goes on with it: the question is that of the answers on disk,
// and no answer whose next question had shown is lost.
func TestKilledHunt(t *testing.T) {
	if _, err := exec.LookPath("snagwise"); err != nil {
		t.Fatal("the program is not on the path: TestMain puts it there")
	}
	want := questions(t)
	times := 8
	if testing.Short() {
		times = 4
	}
	chance := rand.New(rand.NewPCG(1, 2))
	for range times {
		dir := t.TempDir()
		c, in, out := huntOn(t, dir, false)
		n := 1 + chance.IntN(len(killAnswers))
		shown := 0 // answers whose next question has shown
		for i := range n {
			if _, ok := toPrompt(out); !ok {
				t.Fatalf("the hunt ended after %d answers", i)
			}
			shown = i
			if _, err := io.WriteString(in, killAnswers[i]+"\n"); err != nil {
				t.Fatal(err)
			}
		}
		time.Sleep(time.Duration(chance.IntN(60_000)) * time.Microsecond)
		if err := c.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		rest, err := io.ReadAll(out)
		if err != nil {
			t.Fatal(err)
		}
		var exit *exec.ExitError
		if err := c.Wait(); !errors.As(err, &exit) {
			t.Fatalf("killed hunt: %v", err)
		}
		if bytes.HasSuffix(rest, []byte("> ")) {
			shown = n
		}
		kept := answersOnDisk(t, dir)
		if kept < shown {
			t.Fatalf("%d answers on disk, and the question after answer %d had shown", kept, shown)
		}
		c, in, out = huntOn(t, dir, true)
		q, ok := toPrompt(out)
		if !ok {
			t.Fatalf("no question after going on with %d answers: %s", kept, q)
		}
		if kept > len(want) || q != want[kept] {
			t.Errorf("after %d answers, killed and gone on with, it asks\n%s\nwant\n%s", kept, q, want[kept])
		}
		if err := errors.Join(in.Close(), func() error { _, err := io.Copy(io.Discard, out); return err }(), c.Wait()); err != nil {
			t.Fatal(err)
		}
	}
}

// answersOnDisk counts the whole lines of the only journal after its header.
func answersOnDisk(t *testing.T, dir string) int {
	t.Helper()
	files, err := filepath.Glob(filepath.Join(dir, "*.jsonl"))
	if err != nil || len(files) != 1 {
		t.Fatalf("journals %v, %v, want one", files, err)
	}
	text, err := os.ReadFile(files[0])
	if err != nil {
		t.Fatal(err)
	}
	return bytes.Count(text, []byte("\n")) - 1
}
