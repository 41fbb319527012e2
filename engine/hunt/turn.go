package hunt

// This file decides what a turn says and asks.

import (
	"cmp"
	"math"
	"slices"

	"snagwise/engine/diagnose"
	"snagwise/engine/problem"
)

// A Topic is what a question is about.
type Topic uint8

// What may be asked.
const (
	Start   Topic = iota // nothing was told: what was seen?
	Pick                 // which thing a phrase means
	Figure               // what a gauge showed
	Phase_               // when it was read
	Dangers              // whether a danger is there
	Recall               // what else may have been noticed
	Moving               // the steps into another state of the rig
	Looking              // what a check showed
	Closing              // nothing is left to look at that pays
)

// An Option is one answer that a question names.
type Option struct {
	Choice
	Chance float64  // that a check shows it; 0 where not reckoned
	Leads  []string // names of the causes that would then lead
	Gauge  bool     // Recall: it stands on the panel
}

// A Question is what is asked next. It follows from what was told alone.
type Question struct {
	About   Topic
	Waiting Pending // Pick, Figure, Phase_
	Options []Option
	Check   diagnose.Check // Looking, and Moving where a check wants it
	For     bool           // Moving: Check holds the check that wants it
	Move    Move
	Danger  Danger   // the first of Dangers
	Dangers []Danger // that are asked about at once; the options are their signs, in order
	Opens   string   // Dangers: what the check does that the answers open
}

// A Shift is one of the likeliest causes and how the last answer moved it.
type Shift struct {
	diagnose.Cause
	Was float64 // chance before the last answer; NaN where there was none
}

// A Turn is one round: what is due, what is likely, what is asked.
type Turn struct {
	Result   *diagnose.Result
	Shifts   []Shift    // the three likeliest
	Last     []Numbered // told by the last answer
	Gone     []Numbered // what it took back or put out of force
	Question Question
	Others   []diagnose.Check // further checks that pay, best first
	Hardly   []diagnose.Check // that hardly pay: told where somebody asks for more
	Late     int              // checks not offered since they cannot pay off in time
	Ask      []Danger         // dangers not looked at that hold checks back
	Verdict  Verdict
}

// shownCauses is how many causes a turn tells.
const shownCauses = 3

// Turn works out one round. It fails where what was told does not go together.
func (h *Hunt) Turn(x *Finder, clock Clock) (*Turn, problem.List) {
	a, l := h.Account()
	if len(l) > 0 {
		return nil, l
	}
	if q, ok := h.waiting(x); ok {
		return &Turn{Question: q}, nil
	}
	t := &Turn{Result: h.engine.Diagnose(a, h.Situation(clock))}
	h.now.tell(t.Result.Chances)
	t.shift(h)
	checks, hardly, late := h.here(t.Result.NextChecks, clock, t.Result.Chances)
	t.Hardly, t.Late = hardly, late
	t.Ask = h.dangers(t.Result.AskFirst)
	t.Verdict = h.verdict(t.Result, clock, checks)
	t.Question, t.Others = h.ask(t.Result, checks, t.Ask)
	return t, nil
}

// Situation is how things stand, as the advice is asked for.
func (h *Hunt) Situation(clock Clock) diagnose.Situation {
	now := diagnose.Situation{State: h.rig, Tools: h.tools(), Skip: h.skipped(), Wider: mostRecalled, Sure: sureEnough, Put: h.put()}
	if clock.Set {
		now.Minutes = math.Max(clock.Left, .01)
	}
	return now
}

// Ask returns what a turn asks, of a result for [Hunt.Situation].
func (h *Hunt) Ask(r *diagnose.Result, clock Clock) Question {
	checks, _, _ := h.here(r.NextChecks, clock, r.Chances)
	q, _ := h.ask(r, checks, h.dangers(r.AskFirst))
	return q
}

// shift tells the likeliest causes with their chance before the last answer.
func (t *Turn) shift(h *Hunt) {
	var was map[string]float64
	if b := h.last; b != nil && !sameFacts(b.facts, h.facts) {
		for _, f := range h.facts {
			if !slices.ContainsFunc(b.facts, func(o Numbered) bool { return o.N == f.N }) {
				t.Last = append(t.Last, f)
			}
		}
		for _, f := range b.facts {
			if !slices.ContainsFunc(h.facts, func(o Numbered) bool { return o.N == f.N }) {
				t.Gone = append(t.Gone, f)
			}
		}
		was = b.chances()
	}
	for i, c := range t.Result.Causes {
		if i == shownCauses {
			break
		}
		s := Shift{Cause: c, Was: math.NaN()}
		if w, ok := was[c.ID]; ok {
			s.Was = w
		} else if len(was) > 0 {
			s.Was = 0
		}
		t.Shifts = append(t.Shifts, s)
	}
}

// A Doubt is one thing told and what would lead without it.
type Doubt struct {
	Numbered
	First  string  // id of the cause that would lead
	Chance float64 // of it then
	Same   bool    // it leads already
}

// doubtful is how much surer the leading cause must become without an answer
// for that to be worth a word.
const doubtful = .3

// Doubts says of each thing told whether the rest, without it, puts another
// cause first or is much plainer, what moves the most first.
func (h *Hunt) Doubts() []Doubt {
	a, l := h.Account()
	if len(l) > 0 {
		return nil
	}
	ids, chances, _ := h.engine.Ranked(a)
	if len(ids) == 0 {
		return nil
	}
	var out []Doubt
	for _, f := range h.facts {
		without, l := h.After(Record{Steps: []Step{{Take: f.N}}}).Account()
		if len(l) > 0 {
			continue
		}
		other, now, _ := h.engine.Ranked(without)
		if len(other) == 0 {
			continue
		}
		d := Doubt{Numbered: f, First: other[0], Chance: now[0], Same: other[0] == ids[0]}
		if !d.Same && d.Chance > chances[0]-doubtful/2 || d.Same && d.Chance > chances[0]+doubtful {
			out = append(out, d)
		}
	}
	slices.SortStableFunc(out, func(a, b Doubt) int { return cmp.Compare(b.Chance, a.Chance) })
	return out
}

func sameFacts(a, b []Numbered) bool {
	return slices.EqualFunc(a, b, func(x, y Numbered) bool { return x.N == y.N })
}
