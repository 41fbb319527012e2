// Package hunt is the talk at the trailer: it goes through one snag line by
// line, keeps every answer on disk before it asks the next question, and ends
// with a kept snag or a page for the licensed engineer.
//
// It works in a pipe, on a poor terminal and with a screen reader: lines in,
// lines out, no key beyond the letters, nothing that moves.
package hunt

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"math"
	"strings"
	"time"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/hunt"
)

// A Session is one sitting at one hunt.
type Session struct {
	In   *bufio.Reader // the one reader of what is typed
	Out  io.Writer
	Page *screen.Screen
	Echo bool             // repeat what was read, where no terminal shows it
	Now  func() time.Time // the keeper's clock
	Dir  string           // where hunts are kept

	journal *Journal
	hunt    *hunt.Hunt
	finder  *hunt.Finder
	turn    *hunt.Turn
	told    *hunt.Turn      // the last that told causes: what is asked in words is answered from it
	asked   time.Time       // when the question was put
	actions map[string]bool // first actions shown in full, and oddities shown
	left    bool            // the keeper has had enough

	answered bool // the line typed asked something that was answered

	// What the page showed last in this sitting, so that it is not said twice.
	shown   bool     // causes were told
	leaders []string // their ids
	runOn   string
	// recalled are the signs last listed in a question from memory.
	recalled []string
}

// Begin sits down at a hunt that a journal holds.
func (s *Session) Begin(h *hunt.Hunt, j *Journal) {
	s.hunt, s.journal = h, j
	for _, r := range j.Read {
		s.hunt = s.hunt.After(r)
	}
	s.finder = hunt.NewFinder(h.Engine().Fitted())
	s.actions = map[string]bool{}
}

// End returns how the hunt ended, "" while it goes on.
func (s *Session) End() string { return s.hunt.End() }

// Answer keeps an answer and goes on from it. What does not go together with
// what was told is not kept; the words say why.
func (s *Session) Answer(said string, steps []hunt.Step) ([]string, error) {
	if len(steps) == 0 {
		return nil, nil
	}
	r := hunt.Record{When: s.Now().Format(time.RFC3339), Said: said, Steps: steps}
	next := s.hunt.After(r)
	if _, l := next.Account(); len(l) > 0 {
		return append([]string{"That does not go together with what was told, so it was not taken:"}, problemWords(l)...), nil
	}
	if err := s.journal.Append(r); err != nil {
		return nil, err
	}
	s.hunt = next
	return nil, nil
}

// Run talks until there is nothing more to read, the hunt has ended or the
// keeper leaves.
func (s *Session) Run() error {
	for !s.left && s.hunt.End() == "" {
		turn, l := s.hunt.Turn(s.finder, s.clock())
		if len(l) > 0 {
			return l
		}
		s.turn = turn
		if turn.Result != nil {
			s.told = turn
		}
		s.show()
		s.asked = s.Now()
		if err := s.hear(); err != nil {
			return err
		}
	}
	return s.Page.Err()
}

// hear reads lines until one of them moves the hunt on.
func (s *Session) hear() error {
	for {
		line, err := s.line()
		if errors.Is(err, io.EOF) {
			s.farewell()
			return nil
		}
		if err != nil {
			return fmt.Errorf("reading the answer: %w", err)
		}
		before := len(s.hunt.Records())
		said, err := s.reply(line)
		if err != nil {
			return err
		}
		for _, w := range said {
			s.Page.Text(0, w)
		}
		if s.left || len(s.hunt.Records()) > before {
			return nil
		}
	}
}

// line prompts and reads one line, without what a terminal would obey.
func (s *Session) line() (string, error) {
	if err := s.Page.Err(); err != nil {
		return "", err
	}
	prompt := "> "
	if at := momentWords(s.hunt.Moment()); at != "" {
		prompt = "[" + at + "] > "
	}
	if _, err := io.WriteString(s.Out, prompt); err != nil {
		return "", fmt.Errorf("writing the question: %w", err)
	}
	text, err := s.In.ReadString('\n')
	if err != nil && text == "" {
		_, werr := io.WriteString(s.Out, "\n")
		return "", errors.Join(err, werr)
	}
	text = strings.TrimSpace(strings.ToValidUTF8(text, "?"))
	if s.Echo {
		for _, l := range screen.Wrap(screen.Clip(screen.Clean(text), 400), max(s.Page.Width()-screen.Columns(prompt), 20)) {
			s.Page.Verbatim(l)
		}
	}
	return strings.Join(strings.Fields(screen.Clean(text)), " "), nil
}

// farewell says how to go on.
func (s *Session) farewell() {
	s.left = true
	s.Page.Gap()
	s.Page.Text(0, "Kept as "+s.journal.path()+". Go on with:")
	s.Page.Verbatim("  snagwise hunt --resume " + s.journal.Name)
}

// clock says how long there is.
func (s *Session) clock() hunt.Clock {
	at, ok := s.slot()
	if !ok {
		return hunt.Clock{}
	}
	return hunt.Clock{Set: true, Left: math.Round(at.Sub(s.Now()).Minutes()*10) / 10}
}

// slot returns when the slot is.
func (s *Session) slot() (time.Time, bool) {
	at, err := time.Parse(time.RFC3339, s.hunt.Slot())
	return at, err == nil
}

// ParseSlot reads a slot told as minutes or hours from now (20m, 1h10m, 20) or
// a time of day (15:05).
func ParseSlot(text string, now time.Time) (time.Time, error) {
	text = strings.ToLower(strings.ReplaceAll(strings.TrimSpace(text), " ", ""))
	for _, form := range []string{"15:04", "15.04", "1504"} {
		at, err := time.Parse(form, text)
		if err != nil {
			continue
		}
		slot := time.Date(now.Year(), now.Month(), now.Day(), at.Hour(), at.Minute(), 0, 0, now.Location())
		if slot.Before(now.Add(-12 * time.Hour)) {
			slot = slot.AddDate(0, 0, 1)
		}
		return slot, nil
	}
	for _, w := range []string{"minutes", "minute", "mins", "min"} {
		text = strings.TrimSuffix(text, w)
	}
	d, err := time.ParseDuration(text)
	if err != nil {
		d, err = time.ParseDuration(text + "m")
	}
	if err == nil {
		if d < 0 || d > 24*time.Hour {
			return time.Time{}, fmt.Errorf("a slot is at most a day ahead, such as 20m or 15:05")
		}
		return now.Add(d).Truncate(time.Minute), nil
	}
	return time.Time{}, fmt.Errorf("a slot is told as minutes from now or a time of day, such as 20m or 15:05")
}

// momentWords says a moment as it stands before the prompt.
func momentWords(m hunt.Moment) string {
	words := hunt.Phase(m.Phase)
	if m.Levers != "" {
		words = strings.TrimSpace(words + " " + strings.ReplaceAll(strings.ReplaceAll(m.Levers, "=", " "), ",", ", "))
	}
	return strings.ReplaceAll(words, "_", " ")
}

// Open sets the slot and tells what was said before the first question.
func (s *Session) Open(slot, said string) error {
	if slot != "" {
		at, err := ParseSlot(slot, s.Now())
		if err != nil {
			return err
		}
		if _, err := s.Answer("slot "+slot, []hunt.Step{{Slot: at.Format(time.RFC3339)}}); err != nil {
			return err
		}
	}
	if said == "" {
		return nil
	}
	steps, words := s.tell(screen.Clean(said))
	more, err := s.Answer(said, steps)
	for _, w := range append(words, more...) {
		s.Page.Text(0, w)
	}
	return err
}
