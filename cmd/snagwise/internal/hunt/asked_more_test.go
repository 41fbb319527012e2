package hunt

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/hunt"
)

// turned returns a sitting that was told some signs, with its turn, and what its
// page shows.
func turned(t *testing.T, signs ...string) (*Session, *bytes.Buffer) {
	t.Helper()
	var b bytes.Buffer
	s := sitting(t, "")
	s.Page = screen.Open(&b, func(string) string { return "" })
	for _, id := range signs {
		if _, err := s.Answer(id, []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Seen, Name: id}}}); err != nil {
			t.Fatal(err)
		}
	}
	turn, l := s.hunt.Turn(s.finder, s.clock())
	if len(l) > 0 {
		t.Fatal(l)
	}
	s.turn, s.told = turn, turn
	return s, &b
}

// TestSameAsBefore: of the snags kept here, those of the month that is asked for
// are told, the one that shares most first, and no others.
func TestSameAsBefore(t *testing.T) {
	s, b := turned(t, "black_smoke", "surges")
	kept := func(name, date, signs, found string) {
		text := "rig: hollin\ndate: " + date + "\nmoments:\n  - {phase: idle, symptoms: [" + signs + "]}\nabout: real\nwhat: A snag.\nfound: [" + found + "]\nremedy: Put right.\n"
		if err := os.WriteFile(filepath.Join(s.Dir, name+".yaml"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	kept("a", "2025-08-20", "black_smoke", "main_metering_rich")
	kept("b", "2025-08-02", "black_smoke, surges", "fuel_filter_choked")
	kept("c", "2025-07-02", "black_smoke, surges", "fuel_water")
	if _, err := s.reply("same as last August?"); err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(b.String()), " ")
	first, second := strings.Index(text, "2025-08-02"), strings.Index(text, "2025-08-20")
	if first < 0 || second < first || strings.Contains(text, "2025-07") {
		t.Errorf("told %q, want 2025-08-02 and then 2025-08-20 alone", text)
	}
	if !strings.Contains(text, "Shares: black smoke; surges") {
		t.Errorf("told %q, want what is shared", text)
	}
	if len(s.hunt.Facts()) != 2 {
		t.Errorf("the question told something: %v", s.hunt.Facts())
	}
}

// TestMemoryNotListedAgain: a question from memory that stands as it did is not
// listed again, unless somebody asks for it by an empty line.
func TestMemoryNotListedAgain(t *testing.T) {
	s, b := turned(t, "rough_all")
	if s.turn.Question.About != hunt.Recall {
		t.Fatalf("asked about %v, want a question from memory", s.turn.Question.About)
	}
	listed := s.turn.Question.Options[0].Means
	count := func() int { return strings.Count(strings.Join(strings.Fields(b.String()), " "), listed) }
	s.question()
	s.question()
	if n := count(); n != 1 {
		t.Errorf("listed %d times, want once", n)
	}
	if _, err := s.reply(""); err != nil {
		t.Fatal(err)
	}
	if n := count(); n != 2 {
		t.Errorf("after an empty line listed %d times, want twice", n)
	}
}

// TestBottleToldOnce: with the bottle told, the strokes left are worked out.
func TestBottleToldOnce(t *testing.T) {
	s, b := turned(t)
	steps, _ := s.tell("at rest, air bottle pressure 300 psi")
	if _, err := s.Answer("bottle", steps); err != nil {
		t.Fatal(err)
	}
	if _, err := s.reply("how many brake applications left?"); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(b.String(), "left in the air bottle: ") {
		t.Errorf("answered %q, want a number of strokes", b.String())
	}
}
