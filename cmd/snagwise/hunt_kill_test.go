package main

import (
	"bufio"
	"bytes"
	"errors"
	"flag"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"
)

// kills is how many hunts TestKilledHunt kills. Before a release:
//
//	go test ./cmd/snagwise -run TestKilledHunt -kills 1000
var kills = flag.Int("kills", 40, "how many times TestKilledHunt kills a hunt")

// killScripts go through hunts with every sort of question. Each answer leaves
// one line in the journal.
var killScripts = [][]string{
	{"cranks well but won't fire, strong smell of petrol", "?", "oil pressure", "52", "1", "d", "1 2m", "?", "slot 15:40", "x", "white smok", "1", "back 3"},
	{"at display power, pops back, oil_cooler.leaks=oil", "left magneto.changed=no help", "?", "oil coler.leaks=oil", "1", "undo", "fix 2 black smoke",
		"fuel good as far as the engine fuel pump, gone at the fuel fine filter", "x", "note seen at dusk", "lack spanner", "x"},
	{"black smoke", "?", "rig earthed", "d", "rig running", "0", "0", "?", "s", "s", "oil pressure 55", "2"},
}

// A sitter is a hunt that runs with its input open.
type sitter struct {
	c   *exec.Cmd
	in  io.WriteCloser
	out *bufio.Reader
}

// sit starts a hunt, or goes on with one.
func sit(dir string, resume bool) (*sitter, error) {
	args := []string{"hunt", "--dir", dir, "--clock", "2026-08-15T14:40:00Z"}
	if resume {
		args = append(args, "--resume")
	}
	c := exec.Command("snagwise", args...)
	c.Env = append(os.Environ(), "COLUMNS=80", "GOMAXPROCS=1")
	in, err := c.StdinPipe()
	if err != nil {
		return nil, err
	}
	out, err := c.StdoutPipe()
	if err != nil {
		return nil, err
	}
	return &sitter{c: c, in: in, out: bufio.NewReader(out)}, c.Start()
}

func (s *sitter) say(line string) error {
	_, err := io.WriteString(s.in, line+"\n")
	return err
}

// kill ends it by a signal that cannot be caught and returns what it had still
// said.
func (s *sitter) kill() ([]byte, error) {
	if err := s.c.Process.Kill(); err != nil && !errors.Is(err, os.ErrProcessDone) {
		return nil, err
	}
	rest, err := io.ReadAll(s.out)
	var exit *exec.ExitError
	if werr := s.c.Wait(); werr != nil && !errors.As(werr, &exit) {
		return nil, werr
	}
	return rest, err // Wait has closed its input
}

// close lets it end by itself.
func (s *sitter) close() error {
	err := s.in.Close()
	_, rerr := io.Copy(io.Discard, s.out)
	return errors.Join(err, rerr, s.c.Wait())
}

// toPrompt reads up to the next prompt and returns the question before it: the
// last block of lines. One that stands as it was listed above is listed again
// first: who goes on later has nothing above. At the end of what is said ok is
// false.
func (s *sitter) toPrompt() (question string, ok bool) {
	text, ok, _ := s.upTo(1 << 20)
	if ok && bytes.Contains(text, []byte("Enter lists it again")) {
		if s.say("") != nil {
			return string(text), false
		}
		text, ok, _ = s.upTo(1 << 20)
	}
	if !ok {
		return string(text), false
	}
	return lastBlock(text), true
}

// upTo reads so many bytes, fewer where a prompt comes first: then prompt is
// set.
func (s *sitter) upTo(most int) (text []byte, prompt bool, err error) {
	for len(text) < most {
		c, err := s.out.ReadByte()
		if err != nil {
			return text, false, err
		}
		text = append(text, c)
		if c == ' ' && (bytes.HasSuffix(text, []byte("\n> ")) || bytes.HasSuffix(text, []byte("] > "))) {
			return text, true, nil
		}
	}
	return text, false, nil
}

// lastBlock returns the last block of lines before a prompt.
func lastBlock(text []byte) string {
	text = text[:bytes.LastIndexByte(text, '\n')+1]
	return strings.TrimSpace(string(text[bytes.LastIndex(text, []byte("\n\n"))+1:]))
}

// questions answers a hunt without stopping and returns the question before
// each answer and the last one.
func questions(t *testing.T, script []string) []string {
	t.Helper()
	dir := t.TempDir()
	s, err := sit(dir, false)
	if err != nil {
		t.Fatal(err)
	}
	var list []string
	for i := 0; ; i++ {
		q, ok := s.toPrompt()
		if !ok {
			t.Fatalf("the hunt ended after %d answers", i)
		}
		list = append(list, q)
		if n, err := linesOnDisk(dir); err != nil || n != i {
			t.Fatalf("%d answers on disk, %v, after %d: %q left none", n, err, i, script[max(0, i-1)])
		}
		if i == len(script) {
			break
		}
		if err := s.say(script[i]); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.close(); err != nil {
		t.Fatal(err)
	}
	return list
}

// A killer kills one hunt after another, each again and again until all its
// answers are given.
type killer struct {
	chance *rand.Rand
	dir    string
	want   [][]string // questions of the scripts
	took   time.Duration
	counts killCounts
}

// killCounts says at what moments hunts were killed.
type killCounts struct {
	kills, atStart, lost, cut, unbegun int
}

// TestKilledHunt kills hunts at random moments with a signal that cannot be
// caught, while they start, go on, answer or wait, and goes on with them: the
// question is that of the answers on disk, and no answer whose next question
// had shown is lost.
func TestKilledHunt(t *testing.T) {
	if _, err := exec.LookPath("snagwise"); err != nil {
		t.Fatal("the program is not on the path: TestMain puts it there")
	}
	var want [][]string
	from := time.Now()
	for _, s := range killScripts {
		want = append(want, questions(t, s))
	}
	turn := time.Since(from) / time.Duration(len(killScripts)*14) // a start is some turns
	times := *kills
	if testing.Short() {
		times = min(times, 10)
	}
	workers := min(runtime.NumCPU(), times)
	var all killCounts
	var lock sync.Mutex
	var done sync.WaitGroup
	for w := range workers {
		k := &killer{chance: rand.New(rand.NewPCG(1, uint64(w))), dir: t.TempDir(), want: want, took: turn}
		n := times/workers + min(1, max(0, times%workers-w))
		done.Go(func() {
			for i := 0; k.counts.kills < n; i++ {
				if err := k.hunt(filepath.Join(k.dir, fmt.Sprint(i)), n); err != nil {
					t.Errorf("worker %d, hunt %d, kill %d: %v", w, i, k.counts.kills, err)
					break
				}
			}
			lock.Lock()
			defer lock.Unlock()
			all.kills += k.counts.kills
			all.atStart += k.counts.atStart
			all.lost += k.counts.lost
			all.cut += k.counts.cut
			all.unbegun += k.counts.unbegun
		})
	}
	done.Wait()
	t.Logf("%d kills, %d of them before the first question and %d before there was a journal to go on with; %d times answers were sent and not yet on disk, %d times a line was cut short",
		all.kills, all.atStart, all.unbegun, all.lost, all.cut)
	if all.kills != times && !t.Failed() {
		t.Errorf("%d kills, want %d", all.kills, times)
	}
}

// hunt goes through one script, killed and gone on with until it is through or
// enough were killed.
func (k *killer) hunt(dir string, enough int) error {
	which := k.chance.IntN(len(killScripts))
	script, want := killScripts[which], k.want[which]
	kept, begun := 0, false
	for kept < len(script) && k.counts.kills < enough {
		s, err := sit(dir, begun)
		if err != nil {
			return err
		}
		k.counts.kills++
		sent, shown, err := k.talk(s, script, want, kept)
		rest, kerr := s.kill()
		if err = errors.Join(err, kerr); err != nil {
			return err
		}
		if shown < 0 {
			k.counts.atStart++
			shown = kept
		}
		if n := bytes.Count(rest, []byte("\n> ")) + bytes.Count(rest, []byte("] > ")); n > 0 && sent > shown {
			shown = sent // the last question had shown, unread
		}
		n, err := linesOnDisk(dir)
		switch {
		case errors.Is(err, errUnbegun) && !begun && sent == 0:
			k.counts.unbegun++
			continue // nothing was asked yet: it begins anew
		case err != nil:
			return err
		case n < shown || n > sent:
			return fmt.Errorf("%d answers on disk; %d were sent and the question after answer %d had shown", n, sent, shown)
		case n < sent:
			k.counts.lost++
		}
		if ok, err := wholeLines(dir); err != nil {
			return err
		} else if !ok {
			k.counts.cut++
		}
		kept, begun = n, true
	}
	return os.RemoveAll(dir)
}

// talk goes on with a hunt of which some answers are kept, up to a moment drawn
// at random: within the start, some time after an answer, or after some bytes
// of what it says. It returns how many answers were sent, and after how many
// the question had shown, -1 for none.
func (k *killer) talk(s *sitter, script, want []string, kept int) (sent, shown int, err error) {
	sent, shown = kept, -1
	if k.chance.IntN(4) == 0 {
		time.Sleep(time.Duration(k.chance.Int64N(int64(3*k.took) + 1)))
		return sent, shown, nil
	}
	q, ok := s.toPrompt()
	if !ok {
		return sent, shown, fmt.Errorf("no question after going on with %d answers: %s", kept, q)
	}
	if q != want[kept] {
		return sent, shown, fmt.Errorf("after %d answers, killed and gone on with, it asks\n%s\nwant\n%s", kept, q, want[kept])
	}
	shown = kept
	for range k.chance.IntN(4) {
		if sent == len(script) {
			return sent, shown, nil
		}
		if err := s.say(script[sent]); err != nil {
			return sent, shown, err
		}
		sent++
		if q, ok = s.toPrompt(); !ok || q != want[sent] {
			return sent, shown, fmt.Errorf("after %d answers it asks\n%s\nwant\n%s", sent, q, want[sent])
		}
		shown = sent
	}
	if sent == len(script) {
		return sent, shown, nil
	}
	if err := s.say(script[sent]); err != nil {
		return sent, shown, err
	}
	sent++
	if k.chance.IntN(2) == 0 {
		time.Sleep(time.Duration(k.chance.Int64N(int64(k.took) + 1)))
		return sent, shown, nil
	}
	if _, ok, err := s.upTo(1 + k.chance.IntN(1500)); err != nil || !ok {
		return sent, shown, err
	}
	return sent, sent, nil
}

// errUnbegun says that a hunt was killed before its journal held its first line.
var errUnbegun = errors.New("no journal to go on with")

// journalOf reads the journal that a killed hunt left. One without a first line
// may lie beside it.
func journalOf(dir string) ([]byte, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.jsonl"))
	if err != nil {
		return nil, err
	}
	var found [][]byte
	for _, f := range files {
		text, err := os.ReadFile(f)
		if err != nil {
			return nil, err
		}
		if bytes.IndexByte(text, '\n') >= 0 {
			found = append(found, text)
		}
	}
	switch len(found) {
	case 0:
		return nil, errUnbegun
	case 1:
		return found[0], nil
	}
	return nil, fmt.Errorf("%d journals in %s, want one", len(found), dir)
}

// linesOnDisk counts the whole lines of the journal after its header.
func linesOnDisk(dir string) (int, error) {
	text, err := journalOf(dir)
	return bytes.Count(text, []byte("\n")) - 1, err
}

// wholeLines says whether the journal ends with a whole line.
func wholeLines(dir string) (bool, error) {
	text, err := journalOf(dir)
	return bytes.HasSuffix(text, []byte("\n")), err
}

// TestCutJournal goes on with journals cut at every byte of their last lines,
// as a loss of current in the middle of a write leaves them: the question is
// that of the whole lines.
func TestCutJournal(t *testing.T) {
	script := killScripts[1]
	want := questions(t, script)
	dir := t.TempDir()
	s, err := sit(dir, false)
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range script[:3] {
		if err := s.say(a); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.close(); err != nil {
		t.Fatal(err)
	}
	text, err := journalOf(dir)
	if err != nil {
		t.Fatal(err)
	}
	head := bytes.IndexByte(text, '\n') + 1
	chance := rand.New(rand.NewPCG(3, 4))
	places := []int{head, head + 1, len(text) - 1}
	for range 7 {
		places = append(places, head+chance.IntN(len(text)-head))
	}
	slices.Sort(places)
	for _, n := range places {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, "x.jsonl"), text[:n], 0o600); err != nil {
			t.Fatal(err)
		}
		s, err := sit(dir, true)
		if err != nil {
			t.Fatal(err)
		}
		kept := bytes.Count(text[:n], []byte("\n")) - 1
		if q, ok := s.toPrompt(); !ok || q != want[kept] {
			t.Errorf("cut at byte %d of %d, %d answers whole: it asks\n%s\nwant\n%s", n, len(text), kept, q, want[kept])
		}
		if err := s.close(); err != nil {
			t.Fatal(err)
		}
	}
}
