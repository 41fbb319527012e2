package simulate

// This file plays what the hunt at the trailer asks: its own questions, in its
// own order.

import (
	"fmt"

	"snagwise/engine/hunt"
)

// Room does what package hunt asks next, questions from memory among it. Where
// that has nothing left to ask, it tries the remedy that the advice names, and
// without one goes on as [Memory.PerMinute].
func (m *Memory) Room(h *Hunt) (Act, bool) {
	key := "room " + h.key(true) + fmt.Sprint(h.recalled, h.since, h.moved, h.order)
	m.mu.Lock()
	list, ok := m.acts[key]
	m.mu.Unlock()
	if !ok {
		list = h.asked()
		m.mu.Lock()
		m.acts[key] = list
		m.mu.Unlock()
	}
	for _, a := range list {
		if a.Check < 0 || h.open(a.Check) {
			return a, true
		}
	}
	return m.PerMinute(h)
}

// asked returns what the hunt asks next; nothing where it closes.
func (h *Hunt) asked() []Act {
	room := hunt.New(h.rig.engine, nil).After(h.record())
	now := room.Situation(hunt.Clock{})
	for _, c := range h.absent {
		now.NotThese = append(now.NotThese, h.rig.fitted.Base.Causes[c].ID)
	}
	r := h.rig.engine.Brief(&h.account, now)
	f := h.rig.fitted
	switch q := room.Ask(r, hunt.Clock{}); q.About {
	case hunt.Recall:
		a := Act{Check: -1, Cause: -1}
		for _, o := range q.Options {
			a.Recall = append(a.Recall, f.Sign(o.ID))
		}
		return []Act{a}
	case hunt.Moving:
		for i, s := range h.rig.states {
			if s == q.Move.To && i != h.state {
				return []Act{{Check: -1, Cause: -1, State: i}}
			}
		}
		return []Act{{Check: f.Check(q.Check.ID), Cause: -1}}
	case hunt.Looking:
		return []Act{{Check: f.Check(q.Check.ID), Cause: -1}}
	}
	if r.Try != "" {
		return []Act{{Check: -1, Cause: f.Base.Cause(r.Try)}}
	}
	return nil
}

// record tells a hunt of package hunt how things stand. Dangers are told
// already, as far as anybody can tell without a check.
func (h *Hunt) record() hunt.Record {
	f := h.rig.fitted
	var r hunt.Record
	tell := func(x hunt.Fact) { r.Steps = append(r.Steps, hunt.Step{Tell: &x}) }
	rig := func() { r.Steps = append(r.Steps, hunt.Step{Rig: h.rig.states[h.state]}) }
	rig()
	for _, s := range h.so {
		tell(hunt.Fact{Kind: hunt.Seen, Name: f.Signs[s].ID})
	}
	for _, s := range h.not {
		tell(hunt.Fact{Kind: hunt.NotSeen, Name: f.Signs[s].ID})
	}
	for i := range f.Hazards {
		tell(hunt.Fact{Kind: hunt.Left, Name: f.Hazards[i].ID, Values: []string{hunt.CouldNotTell}})
	}
	checked := func(c int) {
		if has(h.done, c) {
			tell(hunt.Fact{Kind: hunt.Checked, Name: f.Checks[c].ID.Value})
		} else {
			tell(hunt.Fact{Kind: hunt.Left, Name: f.Checks[c].ID.Value, Values: []string{hunt.CouldNotTell}})
		}
	}
	before := max(0, len(h.order)-h.since)
	for _, c := range h.order[:before] {
		checked(c)
	}
	for n, signs := range h.recalled {
		x := hunt.Fact{Kind: hunt.Left, Name: hunt.RecallName(n + 1)}
		for _, s := range signs {
			x.Shown = append(x.Shown, f.Signs[s].ID)
		}
		tell(x)
	}
	for _, c := range h.order[before:] {
		checked(c)
	}
	for range h.moved {
		rig()
	}
	return r
}
