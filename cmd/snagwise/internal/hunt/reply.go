package hunt

// This file takes one line that was typed: an order, an answer to the question,
// or something more to tell.

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

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
		{[]string{"help", "h"}, func(s *Session, _ string) ([]hunt.Step, []string, error) { s.help(); return nil, nil, nil }, true},
		{[]string{"list", "l", "told"}, func(s *Session, _ string) ([]hunt.Step, []string, error) { s.list(); return nil, nil, nil }, true},
		{[]string{"why", "w"}, (*Session).why, false},
		{[]string{"back", "b"}, (*Session).back, false},
		{[]string{"undo", "u"}, (*Session).undo, true},
		{[]string{"fix"}, (*Session).fix, false},
		{[]string{"doubt", "d?"}, func(s *Session, _ string) ([]hunt.Step, []string, error) { s.doubt(); return nil, nil, nil }, true},
		{[]string{"rig"}, (*Session).rig, false},
		{[]string{"slot"}, (*Session).setSlot, false},
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
	steps, said := s.tell(line)
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
		return []hunt.Step{done, {Tell: &hunt.Fact{Kind: hunt.Note, Values: []string{q.Waiting.Text}}}}, nil, true
	}
	steps := []hunt.Step{done}
	var wait []hunt.Pending
	for _, n := range picked {
		c := q.Options[n-1].Choice
		if c.Kind == hunt.Read {
			wait = append(wait, hunt.Pending{Text: q.Waiting.Text, Reading: c.ID})
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

// danger takes numbers alone: to some of these questions yes is the good
// answer, to others no.
func (s *Session) danger(q *hunt.Question, line string) ([]hunt.Step, []string, bool) {
	f := hunt.Fact{Kind: hunt.Checked, Name: q.Danger.ID}
	switch strings.ToLower(line) {
	case "?":
		f.Kind, f.Values = hunt.Left, []string{hunt.CouldNotTell}
		return []hunt.Step{{Tell: &f}}, nil, true
	case "x":
		f.Kind, f.Values = hunt.Left, []string{hunt.NotHere}
		return []hunt.Step{{Tell: &f}}, nil, true
	case "s", "later":
		return []hunt.Step{{Ask: "off"}, {Want: "-"}, {Tell: &hunt.Fact{Kind: hunt.Left, Name: q.Danger.ID, Values: []string{hunt.NotNow}}}}, nil, true
	case "y", "n", "yes", "no":
		return nil, []string{"Yes and no are easily taken the wrong way round here. Answer with the numbers of what is so, or 0 if it was looked at and none of it is."}, true
	}
	picked, _, ok := numbered(line, len(q.Options))
	switch {
	case !ok && figures(line):
		return nil, wrongNumber(len(q.Options)), true
	case !ok:
		return nil, nil, false
	case slices.Contains(picked, 0):
		f.Denied = s.hunt.Denies(q.Danger)
	default:
		for _, n := range picked {
			f.Shown = append(f.Shown, q.Options[n-1].ID)
		}
	}
	return []hunt.Step{{Tell: &f}}, nil, true
}

// recall takes the numbers of what was so, and after a stroke of what was not.
func (s *Session) recall(q *hunt.Question, line string) ([]hunt.Step, []string, bool) {
	put := hunt.Fact{Kind: hunt.Left, Name: q.Waiting.Text, Values: []string{wasPut}}
	for _, o := range q.Options {
		put.Shown = append(put.Shown, o.ID)
	}
	steps := []hunt.Step{{Tell: &put}}
	tell := func(n int, denied bool) {
		f := s.hunt.Telling(q.Options[n-1].Choice, s.hunt.Moment(), denied)
		steps = append(steps, hunt.Step{Tell: &f})
	}
	if line == "?" || line == "s" || line == "x" {
		return steps, nil, true
	}
	so, not, parted := strings.Cut(line, "/")
	yes, _, ok := numbered(so, len(q.Options))
	no, _, okNo := numbered(not, len(q.Options))
	switch {
	case !ok && figures(strings.ReplaceAll(line, "/", "")) && !(parted && strings.TrimSpace(so) == "" && okNo), parted && !okNo:
		return nil, wrongNumber(len(q.Options)), true
	case !ok && !parted:
		return nil, nil, false
	case slices.Contains(yes, 0):
		for n := range q.Options {
			tell(n+1, true)
		}
		return steps, nil, true
	}
	for _, n := range yes {
		tell(n, false)
	}
	for _, n := range no {
		if n == 0 || slices.Contains(yes, n) {
			return nil, wrongNumber(len(q.Options)), true
		}
		tell(n, true)
	}
	return steps, nil, true
}

func (s *Session) moving(q *hunt.Question, line string) ([]hunt.Step, []string, bool) {
	leave := func(why string) []hunt.Step {
		if q.For {
			return []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Left, Name: q.Check.ID, Values: []string{why}}}}
		}
		return []hunt.Step{{Want: "-"}}
	}
	switch strings.ToLower(line) {
	case "done", "d":
		return []hunt.Step{{Rig: q.Move.To}}, nil, true
	case "s", "skip":
		return leave(hunt.NotNow), nil, true
	case "x":
		return leave(hunt.NotHere), nil, true
	case "y", "yes", "n", "no":
		return nil, []string{"Type d when every step is done, or the number of a step that cannot be done."}, true
	}
	n, err := strconv.Atoi(line)
	switch {
	case err != nil:
		return nil, nil, false
	case n < 1 || n > len(q.Move.Steps):
		return nil, []string{fmt.Sprintf("Answer with d, or the number of a step from 1 to %d that cannot be done.", len(q.Move.Steps))}, true
	}
	step := strings.TrimSuffix(q.Move.Steps[n-1], ".")
	f := hunt.Fact{Kind: hunt.Left, Name: q.Move.To, Values: []string{hunt.NotHere + ": " + step}}
	return []hunt.Step{{Want: "-"}, {Tell: &f}}, []string{fmt.Sprintf("The rig is not %s, so no check that needs it is offered; treat the propeller as live.", q.Move.To)}, true
}

func (s *Session) looking(q *hunt.Question, line string) ([]hunt.Step, []string, bool) {
	f := hunt.Fact{Kind: hunt.Left, Name: q.Check.ID}
	word, rest, _ := strings.Cut(strings.ToLower(line), " ")
	switch word {
	case "?":
		f.Values = []string{hunt.CouldNotTell}
	case "x":
		f.Values = []string{hunt.NotHere}
	case "s", "skip":
		f.Values = []string{hunt.NotNow}
	case "t":
		return s.noTool(q, rest)
	default:
		return s.outcome(q, strings.ToLower(line))
	}
	return []hunt.Step{{Tell: &f}}, nil, rest == ""
}

// noTool takes a tool for missing, so that no check that needs it is offered.
func (s *Session) noTool(q *hunt.Question, rest string) ([]hunt.Step, []string, bool) {
	tools := q.Check.Tools
	n, err := strconv.Atoi(rest)
	switch {
	case len(tools) == 0:
		return nil, []string{"This check needs no tool. Type x if it cannot be done here."}, rest == ""
	case rest == "" && len(tools) == 1:
		n = 1
	case err != nil || n < 1 || n > len(tools):
		said := []string{"Which one is missing?"}
		for i, t := range tools {
			said = append(said, fmt.Sprintf("t %d  %s", i+1, t))
		}
		return nil, said, true
	}
	return []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Lacking, Name: tools[n-1]}}}, nil, true
}

func (s *Session) outcome(q *hunt.Question, line string) ([]hunt.Step, []string, bool) {
	f := hunt.Fact{Kind: hunt.Checked, Name: q.Check.ID}
	var signs []string
	for _, o := range q.Options {
		if o.Kind == hunt.Seen {
			signs = append(signs, o.ID)
		}
	}
	first, rest, _ := strings.Cut(line, " ")
	if len(signs) == 1 {
		switch first {
		case "y", "yes":
			line = strings.TrimSpace("1 " + rest)
		case "n", "no":
			line = strings.TrimSpace("0 " + rest)
		}
	} else if first == "n" || first == "none" {
		line = strings.TrimSpace("0 " + rest)
	}
	picked, minutes, ok := numbered(line, len(signs))
	switch {
	case !ok && (figures(line) || line == "y"):
		return nil, wrongNumber(len(signs)), true
	case !ok:
		return nil, nil, false
	case slices.Contains(picked, 0):
		f.Denied = signs
	default:
		for _, n := range picked {
			f.Shown = append(f.Shown, signs[n-1])
		}
	}
	if f.Minutes = minutes; minutes == 0 {
		f.Minutes = s.spent()
	}
	return []hunt.Step{{Tell: &f}}, nil, true
}

// longestCheck is how long a question may have stood for its answer to tell
// how long the check took.
const longestCheck = 3 * time.Hour

// spent returns the whole minutes since the question was put, 0 for less than
// half of one or more than any check takes.
func (s *Session) spent() float64 {
	d := s.Now().Sub(s.asked)
	if d > longestCheck {
		return 0
	}
	return math.Max(0, math.Round(d.Minutes()))
}

func note(_ *Session, rest string) ([]hunt.Step, []string, error) {
	if rest == "" {
		return nil, []string{"note TEXT keeps a note; it is shown and not used."}, nil
	}
	return []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Note, Values: []string{screen.Clip(rest, 400)}}}}, nil, nil
}
