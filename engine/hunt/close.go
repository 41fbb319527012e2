package hunt

// This file holds what a hunt leaves: a kept snag, or what the licensed
// engineer is told.

import (
	"cmp"
	"slices"
	"strings"

	"snagwise/engine/diagnose"
	"snagwise/engine/problem"
	"snagwise/engine/sheet"
)

// Case returns the hunt as a kept snag: what was told, the checks done with
// what they showed and took, the cause found and what cured it. It is refused
// where it could not be read back.
func (h *Hunt) Case(cause, remedy, date string) ([]byte, problem.List) {
	s := h.Sheet(true)
	s.About, s.Date = text("real"), text(date)
	s.Found = []sheet.Text{text(cause)}
	s.Remedy = text(remedy)
	s.What = text(h.what())
	out := sheet.Format(s)
	back, l := sheet.Parse("case", out)
	if len(l) > 0 {
		return nil, l
	}
	_, l = h.engine.Read(back)
	return out, l
}

// what says in a line what was noticed.
func (h *Hunt) what() string {
	var words []string
	for _, f := range h.facts {
		if f.Kind == Seen && len(words) < 3 {
			words = append(words, h.Means(Seen, f.Name))
		}
	}
	if len(words) == 0 {
		return "Told by gauges and checks alone."
	}
	t := strings.Join(words, "; ")
	return strings.ToUpper(t[:1]) + t[1:] + "."
}

// A Page is what the licensed engineer is told.
type Page struct {
	Rig       string
	Seen      []Numbered // seen, read, tried and told to be so, in the order told
	NotThere  []Numbered // looked for and not there, in order, could not be read
	Checks    []Numbered // with what they showed
	Open      []Numbered // checks and questions left without an answer
	Disturbed []Numbered // statements about parts that were worked on
	Likely    []diagnose.Cause
	Against   []Fallen // causes that looked likely and that something speaks against
	First     []diagnose.FirstAction
	Call      []string // why a licensed engineer is needed
}

// A Fallen is a cause that fell, with what speaks against it.
type Fallen struct {
	diagnose.Cause
	Was float64 // chance before the checks
}

// Figures of the page; the project's own choice.
const (
	pageCauses  = 4
	onceLikely  = .1 // chance before the checks from which a fall is told
	fallenShare = .6 // of it, at most, for a cause to have fallen
)

// Page gathers what the licensed engineer is told.
func (h *Hunt) Page() (*Page, problem.List) {
	a, l := h.Account()
	if len(l) > 0 {
		return nil, l
	}
	r := h.engine.Diagnose(a, diagnose.Situation{State: h.rig, Tools: h.tools(), Causes: -1})
	p := &Page{Rig: h.engine.Fitted().Rig.Name, First: r.FirstActions, Call: r.CallEngineer}
	for _, f := range h.facts {
		switch f.Kind {
		case Seen, Read, Trial, Course, Circumstance, Note, Weather:
			p.Seen = append(p.Seen, f)
		case NotSeen, Normal, Unread:
			p.NotThere = append(p.NotThere, f)
		case Checked:
			p.Checks = append(p.Checks, f)
		case Left, Lacking:
			p.Open = append(p.Open, f)
		case Part:
			if len(f.Part["worked_on"])+len(f.Part["changed"]) > 0 {
				p.Disturbed = append(p.Disturbed, f)
			} else {
				p.Seen = append(p.Seen, f)
			}
		}
	}
	for i, c := range r.Causes {
		if i < pageCauses && c.Chance >= worthNaming {
			p.Likely = append(p.Likely, c)
		}
	}
	p.Against = h.fallen(r)
	return p, nil
}

// fallen lists the causes that were likely before the checks and are not now.
func (h *Hunt) fallen(r *diagnose.Result) []Fallen {
	var checks []Step
	for _, f := range h.facts {
		if f.Kind == Checked {
			checks = append(checks, Step{Take: f.N})
		}
	}
	a, l := h.After(Record{Steps: checks}).Account()
	if len(l) > 0 || len(checks) == 0 {
		return nil
	}
	was := map[string]float64{}
	ids, chances, _ := h.engine.Ranked(a)
	for i, id := range ids {
		was[id] = chances[i]
	}
	var out []Fallen
	for _, c := range r.Causes {
		if w := was[c.ID]; w >= onceLikely && c.Chance <= w*fallenShare {
			out = append(out, Fallen{c, w})
		}
	}
	slices.SortStableFunc(out, func(a, b Fallen) int { return cmp.Compare(b.Was, a.Was) })
	return out[:min(pageCauses, len(out))]
}
