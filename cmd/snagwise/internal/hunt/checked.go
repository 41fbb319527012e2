package hunt

// This file takes answers to what was looked at: dangers, what was noticed,
// steps of the rig, checks.

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"snagwise/engine/hunt"
)

// danger takes numbers alone: to some of these questions yes is the good
// answer, to others no.
func (s *Session) danger(q *hunt.Question, line string) ([]hunt.Step, []string, bool) {
	left := func(why string) []hunt.Step {
		var steps []hunt.Step
		for _, d := range q.Dangers {
			steps = append(steps, hunt.Step{Tell: &hunt.Fact{Kind: hunt.Left, Name: d.ID, Values: []string{why}}})
		}
		return steps
	}
	switch key := strings.ToLower(line); key {
	case "?", "x":
		if len(q.Dangers) > 1 {
			return []hunt.Step{{Ask: "each"}}, []string{"Then one by one."}, true
		}
		return left(map[string]string{"?": hunt.CouldNotTell, "x": hunt.NotHere}[key]), nil, true
	case "s", "later":
		return append([]hunt.Step{{Ask: "off"}, {Want: "-"}}, left(hunt.NotNow)...), nil, true
	case "y", "n", "yes", "no":
		return nil, []string{"Yes and no are easily taken the wrong way round here. Answer with the numbers of what is so, or 0 if it was looked at and none of it is."}, true
	}
	picked, _, ok := numbered(line, len(q.Options))
	switch {
	case !ok && figures(line):
		return nil, wrongNumber(len(q.Options)), true
	case !ok:
		return nil, nil, false
	}
	var steps []hunt.Step
	first := 0 // of the options of this danger
	for _, d := range q.Dangers {
		f := hunt.Fact{Kind: hunt.Checked, Name: d.ID}
		if slices.Contains(picked, 0) {
			f.Denied = s.hunt.Denies(d)
		}
		for _, n := range picked {
			if n > first && n <= first+len(d.Open) && len(f.Denied) == 0 {
				f.Shown = append(f.Shown, q.Options[n-1].ID)
			}
		}
		if first += len(d.Open); len(f.Shown) > 0 || slices.Contains(picked, 0) { // those not numbered are asked again
			steps = append(steps, hunt.Step{Tell: &f})
		}
	}
	return steps, nil, true
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
