package sheet

// This file looks up readings with their values, and levers with their
// positions.

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"snagwise/engine/problem"
	"snagwise/engine/quantity"
)

// values looks up readings with what is told of each. Those that are said to
// have been unreadable go to unread, or nowhere where that is nil.
func (r *resolver) values(entries Entries, unread *[]int) []Value {
	var out []Value
	first := map[int]problem.Pos{}
	for _, e := range entries {
		i, ok := r.name(e.Name, aReading)
		if !ok {
			continue
		}
		if at, twice := first[i]; twice {
			r.l.Add(e.Name.Pos(), "reading-twice", fmt.Sprintf("reading %q is given twice in one moment", r.v.Readings[i].ID),
				fmt.Sprintf("it stands first at %v; part the two into moments of their own", at))
			continue
		}
		first[i] = e.Name.Pos()
		v, could := r.value(i, e)
		switch {
		case could:
			out = append(out, v)
		case unread != nil && v.At.Line > 0:
			*unread = append(*unread, i)
		}
	}
	slices.SortFunc(out, func(a, b Value) int { return a.Reading - b.Reading })
	return out
}

// value reads all that is said of one reading. It returns false when it was not
// understood, and false with a place when the gauge could not be read.
func (r *resolver) value(i int, e Entry) (Value, bool) {
	rd := &r.v.Readings[i]
	v := Value{Reading: i, Answer: -1}
	understood := 0
	for _, t := range e.Values {
		switch {
		case pick(unreadWords, t.Value) >= 0:
			if len(e.Values) > 1 {
				r.l.Add(t.Pos(), "contradiction", fmt.Sprintf("%q has a value and could not be read in one moment", rd.ID), "keep the one that holds")
			}
			v.At = e.Name.Pos()
			return v, false
		case len(rd.Answers) > 0:
			understood += r.answer(&v, rd, t)
		default:
			understood += r.figure(&v, rd, t)
		}
	}
	if a, b, ok := v.Judged.clash(); ok {
		hint := "keep the one that holds"
		if a|b == JudgedRising|JudgedFalling {
			hint = "say unsteady, or part them into two moments"
		}
		r.l.Add(e.Values[0].Pos(), "contradiction", fmt.Sprintf("%q cannot be %v and %v at once", rd.ID, a, b), hint)
		return Value{}, false
	}
	if understood == 0 {
		return Value{}, false
	}
	v.At = e.Name.Pos()
	return v, true
}

// answer reads one of the answers of a reading, or a word that judges it. It
// returns how many things it understood.
func (r *resolver) answer(v *Value, rd *Reading, t Text) int {
	at := slices.IndexFunc(rd.Answers, func(a string) bool { return fold(a) == fold(t.Value) })
	if at < 0 && r.v.Fold != nil {
		at = slices.IndexFunc(rd.Answers, func(a string) bool { return r.v.Fold(a) == r.v.Fold(t.Value) })
	}
	switch {
	case at >= 0 && v.Answer >= 0 && v.Answer != at:
		r.l.Add(t.Pos(), "reading-twice", fmt.Sprintf("reading %q is given two answers in one moment", rd.ID), "keep the one that holds")
		return 0
	case at >= 0:
		v.Answer = at
		return 1
	}
	if j := pick(judgedWords, t.Value); j >= 0 {
		v.Judged |= 1 << j
		return 1
	}
	near := problem.Near(t.Value, slices.Concat(rd.Answers, heads(judgedWords)))
	hint := "one of: " + strings.Join(rd.Answers, ", ")
	if near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	r.l.Add(t.Pos(), "unknown-answer", fmt.Sprintf("%q is no answer of %q", clip(t.Value), rd.ID), hint)
	return 0
}

// figure reads a number with a unit, or a word that judges the reading.
func (r *resolver) figure(v *Value, rd *Reading, t Text) int {
	if j := pick(judgedWords, t.Value); j >= 0 {
		v.Judged |= 1 << j
		return 1
	}
	if way, by, ok := moved(t.Value); ok {
		// By how much it moved says which way, and nothing of where it stands.
		if _, err := quantity.ParseTold(by, rd.Dim.Difference(), rd.Unit); err != nil {
			r.quantityProblemAt(t, max(0, strings.Index(t.Value, by)), err)
			return 0
		}
		v.Judged |= way
		return 1
	}
	told, err := quantity.ParseTold(t.Value, rd.Dim, rd.Unit)
	switch {
	case err != nil && !strings.ContainsAny(t.Value, "0123456789½¼¾"):
		r.l.Add(t.Pos(), "unknown-word", fmt.Sprintf("%q is no value of %q", clip(t.Value), rd.ID), r.valueHint(rd, t.Value))
		return 0
	case err != nil:
		r.quantityProblem(t, err)
		return 0
	case v.IsFigure:
		r.l.Add(t.Pos(), "reading-twice", fmt.Sprintf("reading %q is given two figures in one moment", rd.ID), "write a change as 2400 -> 1950 rpm, or part the two into moments")
		return 0
	}
	v.IsFigure, v.Figure = true, told
	return 1
}

// moved parts a change told by its size alone, such as "down 150 rpm" or "up by
// 20 degC", into its way and its size.
func moved(text string) (way Judged, by string, ok bool) {
	words := strings.Fields(text)
	if len(words) < 2 {
		return 0, "", false
	}
	switch strings.ToLower(words[0]) {
	case "down", "fell", "lost", "dropped", "falls", "drops":
		way = JudgedFalling
	case "up", "rose", "gained", "climbed", "rises", "climbs":
		way = JudgedRising
	default:
		return 0, "", false
	}
	words = words[1:]
	if strings.EqualFold(words[0], "by") {
		words = words[1:]
	}
	if len(words) == 0 || !strings.ContainsAny(words[0], "0123456789½¼¾") {
		return 0, "", false
	}
	return way, strings.Join(words, " "), true
}

// valueHint says what may be told of a reading.
func (r *resolver) valueHint(rd *Reading, word string) string {
	if near := problem.Near(word, spoken(judgedWords)); near != "" {
		return fmt.Sprintf("did you mean %q?", near)
	}
	unit := rd.Unit
	if unit == "" {
		unit = "a number"
	} else {
		unit = "a number in " + unit
	}
	return unit + ", or one of: " + strings.Join(heads(judgedWords), ", ")
}

// quantityProblem reports why a text is no quantity, at the place in it.
func (r *resolver) quantityProblem(t Text, err error) { r.quantityProblemAt(t, 0, err) }

// quantityProblemAt does so for the part of a text that begins at a byte of it.
func (r *resolver) quantityProblemAt(t Text, from int, err error) {
	var e *quantity.Error
	if !errors.As(err, &e) {
		r.l.Add(t.Pos(), "bad-quantity", err.Error(), "")
		return
	}
	r.l.Add(t.Place(from+e.At), "bad-quantity", fmt.Sprintf("%q: %s", clip(e.Text), e.Reason), e.Hint())
}

// controls looks up levers and switches with their positions.
func (r *resolver) controls(entries Entries) []Set {
	var out []Set
	for _, e := range entries {
		i, ok := r.name(e.Name, aControl)
		if !ok {
			continue
		}
		if slices.ContainsFunc(out, func(s Set) bool { return s.Control == i }) {
			r.l.Add(e.Name.Pos(), "control-twice", fmt.Sprintf("%q is given twice in one moment", r.v.Controls[i].ID), "part the two into moments of their own")
			continue
		}
		if len(e.Values) != 1 {
			r.l.Add(e.Name.Pos(), "wrong-type", fmt.Sprintf("%q has %d positions", r.v.Controls[i].ID, len(e.Values)), "a lever or switch has one at a time")
			continue
		}
		found, _ := r.spots[i].find(e.Values[0].Value)
		switch len(found) {
		case 1:
			out = append(out, Set{Control: i, Position: found[0], At: e.Name.Pos()})
		case 0:
			r.missing(e.Values[0], "position of "+r.v.Controls[i].ID, r.spots[i].known)
		default:
			r.several(e.Values[0], "position of "+r.v.Controls[i].ID, pickStrings(r.spots[i].ids, found))
		}
	}
	slices.SortFunc(out, func(a, b Set) int { return a.Control - b.Control })
	return out
}
