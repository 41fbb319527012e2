package hunt

// This file holds what stands before a check: the dangers that nobody has
// looked for, and the steps by which the rig is brought into another state.

import (
	"slices"

	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
)

func (h *Hunt) hazard(id string) (*knowledge.Hazard, bool) {
	list := h.engine.Fitted().Hazards
	for i := range list {
		if list[i].ID == id {
			return &list[i], true
		}
	}
	return nil, false
}

// A Danger is a question about one of the dangers that hold checks back.
type Danger struct {
	ID   string
	Ask  string   // the question
	Open []string // the signs of it that can be told here, by id; any of them is the danger
}

// dangers returns the questions that the advice asks first and that were not
// left without an answer.
func (h *Hunt) dangers(ask []string) []Danger {
	return slices.DeleteFunc(h.dangersOf(ask), func(d Danger) bool { return h.was(Left, d.ID) })
}

func (h *Hunt) dangersOf(ask []string) []Danger {
	f := h.engine.Fitted()
	var out []Danger
	for i := range f.Hazards {
		if hz := &f.Hazards[i]; slices.Contains(ask, hz.Ask) {
			out = append(out, h.dangerOf(hz))
		}
	}
	return out
}

func (h *Hunt) dangerOf(hz *knowledge.Hazard) Danger {
	f := h.engine.Fitted()
	d := Danger{ID: hz.ID, Ask: hz.Ask}
	for _, n := range hz.When.Reads() {
		if k := f.Sign(n.ID); k >= 0 && f.SignOn[k] {
			d.Open = append(d.Open, n.ID)
		}
	}
	return d
}

// Denies returns the signs that are not there when a danger was looked for and
// not found.
func (h *Hunt) Denies(d Danger) []string {
	f := h.engine.Fitted()
	var out []string
	if hz, ok := h.hazard(d.ID); ok {
		for _, n := range hz.When.Reads() {
			if f.Sign(n.ID) >= 0 {
				out = append(out, n.ID)
			}
		}
	}
	return out
}

// was says whether a fact of that sort and name holds.
func (h *Hunt) was(k Kind, name string) bool {
	return slices.ContainsFunc(h.facts, func(f Numbered) bool { return f.Kind == k && f.Name == name })
}

// A Move is the way of the rig into another state.
type Move struct {
	From, To string // ids; From is "" where nobody said
	Means    string // what the state is
	Minutes  float64
	Steps    []string
}

// move returns the way into a state. Where nobody said how the rig stands, it
// is walked as from running: nothing is taken for done.
func (h *Hunt) move(to string) (Move, bool) {
	f := h.engine.Fitted()
	for _, st := range f.RigStates {
		if st.ID.Value != to {
			continue
		}
		m := Move{From: h.rig, To: to, Means: plain(st.Means)}
		if h.rig != "" {
			m.Minutes = st.MinutesFrom[h.rig]
		}
		if !st.Running && to != usualState && (h.rig == "" || h.running(h.rig)) {
			m.Steps = slices.Clone(h.steps(usualState))
		}
		m.Steps = append(m.Steps, st.Steps...)
		return m, true
	}
	return Move{}, false
}

// stands says whether the rig is as a check needs it: in that state, or in one
// from which no minute leads there, as a cold rig is stopped and earthed too.
func (h *Hunt) stands(state string) bool {
	if state == h.rig || state == "any" || state == "" {
		return true
	}
	return h.rig != "" && !h.running(h.rig) && !h.turning(h.rig) && !h.running(state) && !h.turning(state) && h.between(h.rig, state) == 0
}

// settled puts the checks that the rig stands ready for first once it was moved
// and nothing was told since: it was moved for one of them. Moved twice for
// nothing, it is not moved again.
func (h *Hunt) settled(checks []diagnose.Check) []diagnose.Check {
	if h.moved == 0 {
		return checks
	}
	var ready, other []diagnose.Check
	for _, c := range checks {
		if h.stands(c.RigState) {
			ready = append(ready, c)
		} else if h.moved < 2 {
			other = append(other, c)
		}
	}
	return append(ready, other...)
}

// usualState is the state through which the rig goes into any other in which
// it does not run.
const usualState = "earthed"

func (h *Hunt) steps(state string) []string {
	for _, st := range h.engine.Fitted().RigStates {
		if st.ID.Value == state {
			return st.Steps
		}
	}
	return nil
}

func (h *Hunt) running(state string) bool {
	return slices.ContainsFunc(h.engine.Fitted().RigStates, func(st knowledge.RigStateSource) bool { return st.ID.Value == state && st.Running })
}

func (h *Hunt) turning(state string) bool {
	return slices.ContainsFunc(h.engine.Fitted().RigStates, func(st knowledge.RigStateSource) bool {
		return st.ID.Value == state && (st.Turning || st.Running)
	})
}

// Forbids says why the rig must not be brought into a state: a danger is so, or
// was asked for and could not be told. Those not asked yet are asked first.
func (h *Hunt) Forbids(state string) []string {
	a, l := h.Account()
	if len(l) > 0 {
		return nil
	}
	var out []string
	for _, d := range h.engine.Dangers(a) {
		switch {
		case !(d.Running && h.running(state) || d.Turning && h.turning(state)):
		case d.So:
			out = append(out, "it is so: "+lower(plain(d.Means)))
		case !d.LookedAt && h.was(Left, d.ID):
			out = append(out, "could not be told: "+lower(plain(d.Means)))
		}
	}
	return out
}

// States returns the ids of the states that the rig may be in.
func (h *Hunt) States() []string { return h.engine.States() }

// Missing returns the tools that are not here.
func (h *Hunt) missing() []string {
	var out []string
	for _, f := range h.facts {
		if f.Kind == Lacking {
			out = append(out, f.Name)
		}
	}
	return out
}

// tools returns those at hand, nil for all.
func (h *Hunt) tools() []string {
	missing := h.missing()
	if len(missing) == 0 {
		return nil
	}
	out := []string{}
	for _, t := range h.engine.Tools() {
		if !slices.Contains(missing, t) {
			out = append(out, t)
		}
	}
	return out
}

// skipped returns the checks that were left without an answer, and those done:
// a check done once is not asked for again, whatever else it could tell.
func (h *Hunt) skipped() []string {
	var out []string
	for _, f := range h.facts {
		if f.Kind != Left && f.Kind != Checked {
			continue
		}
		out = append(out, f.Name)
		for _, c := range h.engine.Fitted().Checks {
			if f.Kind == Left && c.RigState.Value == f.Name { // the state itself cannot be reached
				out = append(out, c.ID.Value)
			}
		}
	}
	return out
}

// IsDanger says whether an id is that of a danger.
func (h *Hunt) IsDanger(id string) bool {
	_, ok := h.hazard(id)
	return ok
}
