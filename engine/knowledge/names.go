package knowledge

// This file gives everything that a condition may speak of its name and slot.

import (
	"fmt"

	"snagwise/engine/condition"
	"snagwise/engine/problem"
	"snagwise/engine/quantity"
)

// nameReadings gives each reading its number or text slot.
func (c *compiler) nameReadings() {
	numbers, texts := 0, 1 // text slot 0 is the phase
	c.names = append(c.names, condition.Name{ID: "phase", Kind: condition.TextKind, Values: c.base.Phases, Slot: 0})
	for i, r := range c.src.Readings {
		rd := Reading{ID: r.ID.Value, Means: r.Means, System: r.System, Words: values(r.Words), Fails: r.Fails, Computed: r.Computed || len(r.Elapsed) > 0,
			Elapsed: c.phases(r.Elapsed), Cross: values(r.Cross), Answers: values(r.Answers), Unit: r.Unit.Value, At: r.ID.Pos()}
		c.sources(r.Source)
		if r.Gives.Value == "answer" || len(r.Answers) > 0 {
			rd.Taps = c.base.Kinds.UsualTaps(rd.ID)
			if len(r.Answers) == 0 {
				c.l.Add(r.ID.Pos(), "no-answers", fmt.Sprintf("reading %q gives an answer and lists none", rd.ID), "add answers: [...]")
			}
			rd.Slot = texts
			c.names = append(c.names, condition.Name{ID: rd.ID, Kind: condition.TextKind, Values: rd.Answers, Slot: texts, Banded: true})
			texts++
		} else {
			dim, ok := quantity.DimensionNamed(r.Quantity.Value)
			switch _, fits := quantity.UnitFor(r.Unit.Value, dim); {
			case r.Quantity.Value == "":
				c.l.Add(r.ID.Pos(), "no-quantity", fmt.Sprintf("reading %q gives a number and names no quantity", rd.ID), "add quantity: and unit:, such as gauge pressure and psi")
			case !ok:
				c.l.Add(r.Quantity.Pos(), "unknown-quantity", fmt.Sprintf("unknown quantity %q", r.Quantity.Value),
					problem.DidYouMean(r.Quantity.Value, quantity.DimensionNames()))
			case r.Unit.Value == "" && !fits:
				c.l.Add(r.ID.Pos(), "no-unit", fmt.Sprintf("reading %q gives a number and names no unit", rd.ID), problem.DidYouMean("", quantity.Units(dim)))
			case !fits:
				c.l.Add(r.Unit.Pos(), "unknown-unit", fmt.Sprintf("unit %q does not measure a %s", r.Unit.Value, r.Quantity.Value),
					problem.DidYouMean(r.Unit.Value, quantity.Units(dim)))
			}
			rd.Dim, rd.Slot = dim, numbers
			c.names = append(c.names, condition.Name{ID: rd.ID, Kind: condition.NumberKind, Dim: dim, Slot: numbers, Banded: true})
			numbers++
		}
		c.base.readingAt[rd.ID] = i
		c.base.Readings = append(c.base.Readings, rd)
	}
}

// own gives a name a truth slot. A rule may share the slot of the sign that it
// concludes; anything else that shares a name is a fault.
func (c *compiler) own(id Text, kind OwnerKind, index int, span condition.Span) int {
	if slot, ok := c.truth[id.Value]; ok {
		was := c.base.slotOwner[slot]
		if !(was.Kind == kind && (kind == OwnSign || kind == OwnFact)) {
			c.l.Add(id.Pos(), "id-twice", fmt.Sprintf("%q names two things", id.Value), "give one of them another id")
		}
		return slot
	}
	slot := len(c.base.slotOwner)
	c.truth[id.Value] = slot
	c.truthAt = append(c.truthAt, id.Pos())
	c.base.slotOwner = append(c.base.slotOwner, Owner{Kind: kind, Index: index, ID: id.Value})
	c.names = append(c.names, condition.Name{ID: id.Value, Kind: condition.TruthKind, Slot: slot, Span: span})
	return slot
}

// nameTruths gives every sign, fact, pattern, circumstance, course, normal and
// trial its truth slot. A reading and a truth may not share a name.
func (c *compiler) nameTruths() {
	b := c.base
	sign := func(id Text) (int, bool) {
		if i, ok := b.signAt[id.Value]; ok {
			return i, false
		}
		i := len(b.Signs)
		b.signAt[id.Value] = i
		b.Signs = append(b.Signs, Sign{ID: id.Value, StandsFor: -1, At: id.Pos(), Slot: c.own(id, OwnSign, i, condition.Sometimes)})
		return i, true
	}
	for _, s := range c.src.Signs {
		if _, fresh := sign(s.ID); !fresh {
			c.l.Addf(s.ID.Pos(), "id-twice", "sign %q stands twice", s.ID.Value)
		}
	}
	for i, r := range c.src.Rules {
		if r.Fact {
			c.own(r.ID, OwnFact, i, spanOf(r))
			continue
		}
		if r.Concludes.Value == "" {
			sign(r.ID)
		}
	}
	for i, p := range c.src.Patterns {
		c.own(p.ID, OwnPattern, i, condition.Sometimes)
	}
	for i, p := range c.src.Circumstances {
		c.own(p.ID, OwnCircumstance, i, condition.Throughout)
	}
	for i, p := range c.src.Courses {
		c.own(p.ID, OwnCourse, i, condition.Throughout)
	}
	for i, p := range c.src.Normals {
		c.own(p.ID, OwnNormal, i, condition.Sometimes)
	}
	for i, p := range c.src.Trials {
		c.own(p.ID, OwnTrial, i, condition.Throughout)
	}
	for id := range b.readingAt {
		if slot, ok := c.truth[id]; ok {
			o := b.slotOwner[slot]
			c.l.Addf(b.Readings[b.readingAt[id]].At, "id-twice", "%q names a reading and a %v", id, o.Kind)
		}
	}
}

func spanOf(r RuleSource) condition.Span {
	if r.Moment {
		return condition.Momentary
	}
	return condition.Sometimes
}

func (c *compiler) nameControls(controls []Control) {
	slot := 1
	for _, n := range c.names {
		if n.Kind == condition.TextKind {
			slot = max(slot, n.Slot+1)
		}
	}
	for _, ctl := range controls {
		if _, ok := c.base.readingAt[ctl.ID]; ok {
			continue // a lever whose position is also read: the reading serves
		}
		ctl.Slot = slot
		slot++
		c.base.Controls = append(c.base.Controls, ctl)
		c.names = append(c.names, condition.Name{ID: ctl.ID, Kind: condition.TextKind, Values: ctl.Positions, Slot: ctl.Slot})
	}
}

// badNames reports every name that cannot stand in a condition, at its place.
func (c *compiler) badNames(all error) {
	said := len(c.l)
	at := map[string]problem.Pos{}
	for _, r := range c.base.Readings {
		at[r.ID] = r.At
	}
	for _, n := range c.names {
		if _, err := condition.NewScope([]condition.Name{n}); err == nil {
			continue
		} else if slot, ok := c.truth[n.ID]; ok {
			c.l.Addf(c.truthAt[slot], "bad-name", "%v", err)
		} else {
			c.l.Addf(at[n.ID], "bad-name", "%v", err)
		}
	}
	if len(c.l) == said {
		c.l.Addf(problem.Pos{}, "bad-name", "%v", all)
	}
}
