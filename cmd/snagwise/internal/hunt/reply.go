package hunt

// This file takes one line that was typed: an order, an answer to the question,
// or something more to tell.

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/hunt"
)

// An order is a word that may stand before everything else.
type order struct {
	names []string
	do    func(s *Session, rest string) ([]hunt.Step, []string, error)
	alone bool // it counts only where nothing follows
}

var orders []order

func init() {
	orders = []order{
		{[]string{"help", "h"}, func(s *Session, about string) ([]hunt.Step, []string, error) { s.help(about); return nil, nil, nil }, false},
		{[]string{"list", "l", "told"}, func(s *Session, _ string) ([]hunt.Step, []string, error) { s.list(); return nil, nil, nil }, true},
		{[]string{"why", "w"}, (*Session).why, false},
		{[]string{"back", "b"}, (*Session).back, false},
		{[]string{"undo", "u"}, (*Session).undo, true},
		{[]string{"fix"}, (*Session).fix, false},
		{[]string{"doubt"}, func(s *Session, _ string) ([]hunt.Step, []string, error) { s.doubt(); return nil, nil, nil }, true},
		{[]string{"rig"}, (*Session).rig, false},
		{[]string{"slot"}, (*Session).setSlot, false},
		{[]string{"did"}, (*Session).did, true},
		{[]string{"may"}, func(s *Session, _ string) ([]hunt.Step, []string, error) { s.may(); return nil, nil, nil }, true},
		{[]string{"ask", "a"}, (*Session).ask, true},
		{[]string{"lack"}, (*Session).lack, false},
		{[]string{"more", "m"}, func(s *Session, _ string) ([]hunt.Step, []string, error) { s.more(); return nil, nil, nil }, true},
		{[]string{"now"}, func(s *Session, _ string) ([]hunt.Step, []string, error) { s.now(); return nil, nil, nil }, true},
		{[]string{"found", "f"}, (*Session).found, false},
		{[]string{"handover", "o"}, (*Session).handover, false},
		{[]string{"note"}, note, false},
		{[]string{"quit", "q", "exit"}, func(s *Session, _ string) ([]hunt.Step, []string, error) { s.farewell(); return nil, nil, nil }, true},
	}
}

// reply carries a line out and returns what is to be said of it.
func (s *Session) reply(line string) ([]string, error) {
	if line == "" {
		if s.turn.Question.About == hunt.Recall && s.recalled != nil {
			s.recalled = []string{} // listed again
			s.question()
		}
		return nil, nil
	}
	word, rest, _ := strings.Cut(line, " ")
	for _, o := range orders {
		if slices.Contains(o.names, strings.ToLower(word)) && (!o.alone || rest == "") {
			steps, said, err := o.do(s, strings.TrimSpace(rest))
			if err != nil {
				return nil, err
			}
			return s.keep(line, steps, said)
		}
	}
	if steps, said, ok := s.answer(line); ok {
		return s.keep(line, steps, said)
	}
	if strings.HasSuffix(line, "?") && s.answers(line) {
		return nil, nil
	}
	steps, said := s.tell(line)
	if len(steps)+len(said) == 0 && s.answered {
		return nil, nil
	}
	if len(steps)+len(said) == 0 {
		said = []string{"That is no answer here; help shows what can be typed."}
	}
	if q := s.turn.Question; len(steps) > 0 && q.About == hunt.Pick { // said otherwise
		steps = append([]hunt.Step{{Done: true}}, steps...)
	}
	return s.keep(line, steps, said)
}

func (s *Session) keep(line string, steps []hunt.Step, said []string) ([]string, error) {
	more, err := s.Answer(line, steps)
	return append(said, more...), err
}

// answer takes a line as an answer to the question that stands.
func (s *Session) answer(line string) ([]hunt.Step, []string, bool) {
	q := &s.turn.Question
	switch q.About {
	case hunt.Pick:
		return s.pick(q, line)
	case hunt.Figure:
		return s.figure(q, line)
	case hunt.Phase_:
		return s.phase(q, line)
	case hunt.Dangers:
		return s.danger(q, line)
	case hunt.Recall:
		return s.recall(q, line)
	case hunt.Moving:
		return s.moving(q, line)
	case hunt.Looking:
		return s.looking(q, line)
	}
	return nil, nil, false
}

// numbered reads "1", "1 3", "1,3" and what may follow as minutes, "4m". The
// figures run from 0 to most.
func numbered(line string, most int) (picked []int, minutes float64, ok bool) {
	for w := range strings.FieldsFuncSeq(line, func(r rune) bool { return r == ' ' || r == ',' }) {
		if m := spentMinutes.FindStringSubmatch(w); m != nil {
			minutes, _ = strconv.ParseFloat(m[1], 64) // the pattern takes figures only
			continue
		}
		n, err := strconv.Atoi(w)
		if err != nil || n < 0 || n > most {
			return nil, 0, false
		}
		picked = append(picked, n)
	}
	return picked, minutes, len(picked) > 0
}

var spentMinutes = regexp.MustCompile(`^(\d{1,3})(?:m|min)$`)

// figures says whether a line holds nothing but figures, so that a wrong one
// can be told as such.
func figures(line string) bool {
	return strings.Trim(line, "0123456789, ") == ""
}

func wrongNumber(most int) []string {
	if most == 0 {
		return []string{"Answer with 0, or say it in words."}
	}
	return []string{fmt.Sprintf("Answer with a number from 0 to %d, or say it in words.", most)}
}

func (s *Session) pick(q *hunt.Question, line string) ([]hunt.Step, []string, bool) {
	done := hunt.Step{Done: true}
	switch {
	case line == "-":
		return []hunt.Step{done}, nil, true
	case line == "y" && len(q.Options) == 1:
		line = "1"
	case line == "?" || line == "x" || line == "s":
		return nil, []string{"Type 0 to keep it as a note, - to leave it, or say it otherwise."}, true
	}
	picked, _, ok := numbered(line, len(q.Options))
	switch {
	case !ok && figures(line):
		return nil, wrongNumber(len(q.Options)), true
	case !ok:
		return nil, nil, false
	case slices.Contains(picked, 0):
		return []hunt.Step{done, {Tell: &hunt.Fact{Kind: hunt.Note, Values: []string{s.waitingWords(&q.Waiting)}}}}, nil, true
	}
	steps := []hunt.Step{done}
	var wait []hunt.Pending
	for _, n := range picked {
		c := q.Options[n-1].Choice
		if c.Kind == hunt.Part {
			f, w, l := s.hunt.Place(q.Waiting.Meant(c.ID))
			switch {
			case f != nil:
				steps = append(steps, hunt.Step{Tell: f})
			case w != nil:
				wait = append(wait, *w)
			default:
				return nil, problemWords(l), true
			}
			continue
		}
		if c.Kind == hunt.Read {
			w, tell := s.chosenGauge(c.ID, q.Waiting)
			if tell != nil {
				steps = append(steps, hunt.Step{Tell: tell})
			} else {
				wait = append(wait, w)
			}
			continue
		}
		f := s.hunt.Telling(c, s.hunt.Moment(), q.Waiting.Denied)
		steps = append(steps, hunt.Step{Tell: &f})
	}
	if len(wait) > 0 {
		steps = append(steps, hunt.Step{Wait: wait})
	}
	return steps, nil, true
}

// waitingWords says a phrase that waits, as a note keeps it.
func (s *Session) waitingWords(w *hunt.Pending) string {
	if w.Part != nil {
		return s.partWords(w.Part)
	}
	return strings.Join(append([]string{w.Text}, w.Values...), " ")
}

// chosenGauge goes on with a gauge that was chosen: it is told where figure and
// phase are known, else it waits for what is missing.
func (s *Session) chosenGauge(id string, w hunt.Pending) (hunt.Pending, *hunt.Fact) {
	next := hunt.Pending{Text: w.Text, Reading: id}
	if len(w.Values) == 0 {
		return next, nil
	}
	value, l := s.hunt.Value(s.finder, id, w.Values[0])
	if len(l) > 0 {
		return next, nil
	}
	next.Values = []string{value}
	if s.hunt.Moment().Phase == "" && s.finder.Banded(id) {
		return next, nil
	}
	return next, &hunt.Fact{Kind: hunt.Read, Name: id, Values: next.Values, At: s.hunt.Moment()}
}

func (s *Session) figure(q *hunt.Question, line string) ([]hunt.Step, []string, bool) {
	done, id := hunt.Step{Done: true}, q.Waiting.Reading
	switch strings.ToLower(line) {
	case "-":
		return []hunt.Step{done}, nil, true
	case "?", "could not be read":
		return []hunt.Step{done, {Tell: &hunt.Fact{Kind: hunt.Unread, Name: id, At: s.hunt.Moment()}}}, nil, true
	}
	value, l := s.hunt.Value(s.finder, id, line)
	if len(l) > 0 {
		return nil, append(problemWords(l), "Type ? if it could not be read, - to leave it."), true
	}
	if s.hunt.Moment().Phase == "" && s.finder.Banded(id) {
		return []hunt.Step{done, {Wait: []hunt.Pending{{Text: q.Waiting.Text, Reading: id, Values: []string{value}}}}}, nil, true
	}
	return []hunt.Step{done, {Tell: &hunt.Fact{Kind: hunt.Read, Name: id, Values: []string{value}, At: s.hunt.Moment()}}}, nil, true
}

func (s *Session) phase(q *hunt.Question, line string) ([]hunt.Step, []string, bool) {
	done := hunt.Step{Done: true}
	if line == "-" {
		return []hunt.Step{done}, nil, true
	}
	var at hunt.Moment
	n, err := strconv.Atoi(line)
	switch {
	case err == nil && n >= 1 && n <= len(q.Options):
		at = s.hunt.At(q.Options[n-1].ID)
	case line == "0" || line == "?":
	default:
		t := &teller{h: s.hunt, x: s.finder}
		p, rest, ok := t.phase("at " + line)
		if !ok || rest != "" {
			return nil, []string{fmt.Sprintf("Answer with a number from 1 to %d, or 0 if nobody can say.", len(q.Options))}, true
		}
		at = s.hunt.At(p)
	}
	at.Levers = s.hunt.Moment().Levers
	return []hunt.Step{done, {Moment: &at}, {Tell: &hunt.Fact{Kind: hunt.Read, Name: q.Waiting.Reading, Values: q.Waiting.Values, At: at}}}, nil, true
}

func note(_ *Session, rest string) ([]hunt.Step, []string, error) {
	if rest == "" {
		return nil, []string{"note TEXT keeps a note; it is shown and not used."}, nil
	}
	return []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Note, Values: []string{screen.Clip(rest, 400)}}}}, nil, nil
}
