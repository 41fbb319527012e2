package sheet

// This file sorts out the words of a command line: which is a reading and which
// a lever, which a symptom and which a circumstance.

import (
	"fmt"
	"slices"
	"strings"

	"snagwise/engine/problem"
)

// Settle returns the sheet with every word of a command line moved to where it
// belongs. A word that could be of two sorts, or of none, is a problem and is
// left out. A sheet read from a file comes back as it is.
func (lx *Lexicon) Settle(s *Sheet) (*Sheet, problem.List) {
	r := &resolver{Lexicon: lx}
	s = r.settle(s)
	return s, few(r.l)
}

func (r *resolver) settle(s *Sheet) *Sheet {
	if !slices.ContainsFunc(s.Moments, func(m Moment) bool { return len(m.Given)+len(m.Bare) > 0 }) {
		return s
	}
	c := *s
	c.Circumstances, c.Trials, c.Course = slices.Clone(s.Circumstances), slices.Clone(s.Trials), slices.Clone(s.Course)
	c.Moments = nil
	for _, m := range s.Moments {
		m.Readings, m.Controls = slices.Clone(m.Readings), slices.Clone(m.Controls)
		m.Symptoms, m.Course, m.Normal = slices.Clone(m.Symptoms), slices.Clone(m.Course), slices.Clone(m.Normal)
		for _, e := range m.Given {
			r.settleGiven(&m, e)
		}
		for _, w := range m.Bare {
			r.settleBare(&c, &m, w)
		}
		m.Given, m.Bare = nil, nil
		if !m.empty() {
			c.Moments = append(c.Moments, m)
		}
	}
	return &c
}

// empty reports whether a moment tells nothing, not even a phase.
func (m *Moment) empty() bool {
	return len(m.Phase)+len(m.Controls)+len(m.Readings)+len(m.Symptoms)+len(m.Course)+len(m.NotSeen)+len(m.CouldNotRead)+
		len(m.Normal)+len(m.Notes)+len(m.Given)+len(m.Bare) == 0 && m.After.Value == ""
}

func (r *resolver) settleGiven(m *Moment, e Entry) {
	_, asReading := r.by[aReading].find(e.Name.Value)
	_, asControl := r.by[aControl].find(e.Name.Value)
	switch {
	case asReading == notFound && asControl == notFound:
		r.unknown(e.Name, "reading or lever", kinds, knownOf(r.by[aReading], r.by[aControl]))
	case asReading == asControl:
		r.l.Add(e.Name.Pos(), "ambiguous", fmt.Sprintf("%q could be a reading or a lever", clip(e.Name.Value)), "use the id of the one that is meant")
	case asReading < asControl:
		m.Readings = append(m.Readings, e)
	default:
		m.Controls = append(m.Controls, e)
	}
}

// bareKinds are the sorts of thing that a word alone may be.
var bareKinds = []kind{aSign, aCircumstance, aCourse, aTrial, aNormal}

func (r *resolver) settleBare(s *Sheet, m *Moment, w Text) {
	best, is := notFound, []kind(nil)
	var lists []*index
	for _, k := range bareKinds {
		_, level := r.by[k].find(w.Value)
		lists = append(lists, r.by[k])
		switch {
		case level < best:
			best, is = level, []kind{k}
		case level == best && level != notFound:
			is = append(is, k)
		}
	}
	if best == notFound {
		if rest, ok := denied(w); ok {
			m.NotSeen = append(m.NotSeen, rest)
			return
		}
		r.unknown(w, "symptom", kinds, knownOf(lists...))
		return
	}
	if len(is) > 1 {
		var sorts []string
		for _, k := range is {
			found, _ := r.by[k].find(w.Value)
			sorts = append(sorts, fmt.Sprintf("%s (%s)", strings.Join(pickStrings(r.by[k].ids, found), ", "), kindWords[k].a))
		}
		r.l.Add(w.Pos(), "ambiguous", fmt.Sprintf("%q could be of two sorts", clip(w.Value)), "use the id of the one that is meant: "+strings.Join(sorts, ", "))
		return
	}
	switch is[0] {
	case aSign:
		m.Symptoms = append(m.Symptoms, w)
	case aCircumstance:
		s.Circumstances = append(s.Circumstances, w)
	case aCourse:
		m.Course = append(m.Course, w)
	case aTrial:
		s.Trials = append(s.Trials, w)
	case aNormal:
		m.Normal = append(m.Normal, w)
	}
}
