package knowledge

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"snagwise/engine/condition"
)

func (c *compiler) program(t Text) *condition.Program {
	p, faults := condition.Compile(c.base.Scope, t.Value, t.Place)
	c.l = append(c.l, faults...)
	return p
}

// rules compiles the rules and ties each to the sign or fact it concludes.
func (c *compiler) rules() {
	b := c.base
	for i, r := range c.src.Rules {
		rule := Rule{ID: r.ID.Value, Means: r.Means, When: r.When.Value, Fact: r.Fact, Slot: c.truth[r.ID.Value], Program: c.program(r.When), At: r.ID.Pos()}
		if r.Concludes.Value != "" {
			c.adds(i, &rule)
			continue
		}
		if !r.Fact && len(r.Phases) > 0 && len(c.phases(r.Phases)) > 0 {
			rule.Only = c.only(r.Phases)
		}
		b.Rules = append(b.Rules, rule)
		c.sources(r.Source)
		if r.Fact {
			continue
		}
		sg := &b.Signs[b.signAt[r.ID.Value]]
		sg.Kind = ReadingSign
		sg.Rules = append([]int{i}, sg.Rules...)
		if sg.Means == "" {
			sg.Means, sg.System, sg.At = r.Means, r.System, r.ID.Pos()
		}
		sg.Words = append(sg.Words, values(r.Words)...)
		if len(r.Phases) > 0 {
			sg.Phases = c.phases(r.Phases)
		}
		if r.StandsFor.Value != "" {
			sg.StandsFor, _ = c.lookup(r.StandsFor, "sign", b.signAt)
			sg.Side = r.Side.Value
		}
		if r.FalseAlarm.Value != "" {
			sg.FalseAlarm, _ = c.word(r.FalseAlarm, strengths, strengthWords)
		}
		sg.Readings = append(sg.Readings, c.readingsOf(rule.Program)...)
	}
}

// adds ties a rule to the sign that it concludes beside the sign's own rule.
// What the sign means, and by which gauges it can be told, stays as it is.
func (c *compiler) adds(i int, rule *Rule) {
	b, r := c.base, &c.src.Rules[i]
	c.sources(r.Source)
	if len(r.Phases) > 0 && len(c.phases(r.Phases)) > 0 {
		rule.Only = c.only(r.Phases)
	}
	rule.Quiet = true
	switch _, named := c.truth[r.ID.Value]; {
	case r.Fact || r.StandsFor.Value != "" || r.FalseAlarm.Value != "" || len(r.Words) > 0:
		c.l.Add(r.ID.Pos(), "not-its-own", fmt.Sprintf("rule %q concludes %q and says more of it than when", r.ID.Value, r.Concludes.Value),
			"leave fact, stands_for, false_alarm and words to the rule or sign of that name")
	case named:
		c.l.Add(r.ID.Pos(), "id-twice", fmt.Sprintf("%q names two things", r.ID.Value), "give the rule an id of its own")
	}
	if sg, ok := c.lookup(r.Concludes, "sign", b.signAt); ok {
		rule.Slot = b.Signs[sg].Slot
		b.Signs[sg].Rules = append(b.Signs[sg].Rules, i)
	}
	b.Rules = append(b.Rules, *rule)
}

// only compiles the condition that the moment is in one of the phases. Out of
// them a rule says nothing: that a gauge is right at idle does not deny that it
// is low at power.
func (c *compiler) only(phases []Text) *condition.Program {
	var quoted []string
	for _, p := range phases {
		if slices.Contains(c.base.Phases, p.Value) {
			quoted = append(quoted, strconv.Quote(p.Value))
		}
	}
	p, _ := condition.Compile(c.base.Scope, "phase in ["+strings.Join(quoted, ", ")+"]", nil)
	return p
}

// readingsOf lists the readings that a program reads, computed ones aside.
func (c *compiler) readingsOf(p *condition.Program) []int {
	if p == nil {
		return nil
	}
	var out []int
	for _, n := range p.Reads() {
		if i, ok := c.base.readingAt[n.ID]; ok && !c.base.Readings[i].Computed {
			out = append(out, i)
		}
	}
	return out
}

func (c *compiler) patterns() {
	b := c.base
	for _, s := range c.src.Patterns {
		p := Pattern{ID: s.ID.Value, Means: s.Means, When: s.When.Value, Slot: c.truth[s.ID.Value], Rigs: values(s.Rigs), At: s.ID.Pos()}
		p.Program = c.program(s.When)
		p.ForState, p.ForCause = c.stateOrCause(s.Concludes, strengths, strengthWords)
		p.AgainstState, p.AgainstCause = c.stateOrCauseList(s.SpeaksAgainst)
		p.FalseAlarm = strengths["hardly ever"]
		if s.FalseAlarm.Value != "" {
			p.FalseAlarm, _ = c.word(s.FalseAlarm, strengths, strengthWords)
		}
		c.sources(s.Source)
		p.Of = b.opened(c.partsOf(s.Of, p.Program))
		b.Patterns = append(b.Patterns, p)
	}
}

// partsOf lists the signs that a pattern is built of: those it names, those
// its condition reads, and those told by the readings that it reads. What is
// no sign (a circumstance, a control) is no evidence of its own.
func (c *compiler) partsOf(of []Text, p *condition.Program) []int {
	b := c.base
	reads := map[int]bool{}
	var out []int
	take := func(id string) bool {
		if i, ok := b.signAt[id]; ok {
			out = append(out, i)
			return true
		}
		if i, ok := b.readingAt[id]; ok {
			reads[i] = true
			return true
		}
		return false
	}
	for _, t := range of {
		if take(t.Value) {
			continue
		}
		if _, ok := c.truth[t.Value]; ok || b.isControl(t.Value) || t.Value == "phase" {
			continue
		}
		c.l.Add(t.Pos(), "unknown-name", fmt.Sprintf("unknown name %q", t.Value), "name signs, readings, circumstances or controls")
	}
	if p != nil {
		for _, n := range p.Reads() {
			take(n.ID)
		}
	}
	for i := range b.Signs {
		for _, r := range b.Signs[i].Readings {
			if reads[r] {
				out = append(out, i)
				break
			}
		}
	}
	return out
}

func (b *Base) isControl(id string) bool {
	for _, ctl := range b.Controls {
		if ctl.ID == id {
			return true
		}
	}
	return false
}
