// Circles: slots that feed one another, worked out in rounds from below.
package chain

import "snagwise/engine/condition"

// scratch is the room that circles are worked out in, made once a state.
type scratch struct {
	rises  []rise
	now    []int32 // rules to evaluate in this round
	next   []int32
	queued []bool // by rule: in next already
	before []condition.Truth
	least  []condition.Truth
}

// A rise is a conclusion of one round, taken up when the round is over.
type rise struct {
	slot, moment int32
	to           condition.Truth
}

func (c *scratch) make(z sizes, rules, moments int) {
	c.rises = make([]rise, 0, z.rules*moments)
	c.now = make([]int32, 0, z.rules)
	c.next = make([]int32, 0, z.rules)
	c.queued = make([]bool, rules)
	c.before = make([]condition.Truth, 0, z.slots*(moments+1))
	c.least = make([]condition.Truth, 0, z.slots*(moments+1))
}

// turn works a circle out anew and marks the readers of what changed.
func (s *State) turn(i int32, g *group) {
	s.circle.before = s.values(g, s.circle.before[:0])
	s.start(g, condition.False)
	s.climb(g)
	if g.mutual {
		s.bound(g)
	}
	k := 0
	for _, slot := range g.slots {
		changed := false
		for m := Whole; m < len(s.World.Moments); m++ {
			changed = changed || s.circle.before[k] != s.Truth(m, int(slot))
			k++
		}
		if changed {
			s.mark(s.plan.readers[condition.TruthKind][slot])
		}
	}
	s.dirty[i/64] &^= 1 << (i % 64) // it reads itself, and is done
}

// values appends each slot's truth over the whole and at each moment.
func (s *State) values(g *group, to []condition.Truth) []condition.Truth {
	for _, slot := range g.slots {
		for m := Whole; m < len(s.World.Moments); m++ {
			to = append(to, s.Truth(m, int(slot)))
		}
	}
	return to
}

// start sets every slot of the circle to what was told, else to t; but where
// no rule has a say it stays unknown.
func (s *State) start(g *group, t condition.Truth) {
	for _, slot := range g.slots {
		for m := range s.World.Moments {
			at := s.told[m][slot]
			if at == condition.Unknown && s.spoken(slot, m) {
				at = s.stand(slot, t)
			}
			s.World.Moments[m].Truth[slot] = at
		}
		s.World.Whole[slot] = s.whole(slot)
	}
}

// spoken reports whether a rule of the slot has, or may have, a say at a moment.
func (s *State) spoken(slot int32, m int) bool {
	rules := s.plan.of(slot)
	for i := range rules {
		if r := &rules[i]; r.Only == nil || r.Only.Eval(s.World, m) != condition.False {
			return true
		}
	}
	return false
}

// climb raises the circle's slots from false to the least values that their
// rules allow. Each round evaluates only the rules that read a slot raised in
// the round before, all against the values of that round, so that the rounds
// do not depend on the order of the rules. Values only rise, twice at most:
// the climb ends.
func (s *State) climb(g *group) {
	c := &s.circle
	for m := range s.stage {
		clear(s.stage[m][g.first : int(g.first)+len(g.slots)])
	}
	c.now = append(c.now[:0], g.rules...)
	for round := int32(1); len(c.now) > 0; round++ {
		c.rises = c.rises[:0]
		for _, i := range c.now {
			s.try(i)
		}
		for _, r := range c.rises {
			s.raise(g, r, round)
		}
		c.turnPage()
	}
}

// queue has the rules of the circle that read a slot evaluated in the next
// round.
func (c *scratch) queue(g *group, place int32) {
	for _, i := range g.inner[place] {
		if !c.queued[i] {
			c.queued[i] = true
			c.next = append(c.next, i)
		}
	}
}

// turnPage begins the next round.
func (c *scratch) turnPage() {
	for _, i := range c.next {
		c.queued[i] = false
	}
	c.now, c.next = c.next, c.now[:0]
}

// try evaluates one rule at every moment where it could still raise its slot.
func (s *State) try(i int32) {
	r := &s.plan.rules[i]
	for m := range s.World.Moments {
		was := s.World.Moments[m].Truth[r.Slot]
		if was == condition.True || s.told[m][r.Slot] != condition.Unknown {
			continue
		}
		s.Work.Conditions++
		t := s.stand(int32(r.Slot), r.eval(s.World, m))
		if t == condition.True {
			s.Work.Derivations++
		}
		if t > was {
			s.circle.rises = append(s.circle.rises, rise{int32(r.Slot), int32(m), t})
		}
	}
}

// raise takes up one conclusion and queues the rules of the circle that read
// its slot.
func (s *State) raise(g *group, r rise, round int32) {
	at := &s.World.Moments[r.moment].Truth[r.slot]
	if r.to <= *at {
		return // another rule said as much in this round
	}
	*at = r.to
	place := s.plan.place[r.slot]
	s.stage[r.moment][g.first+place] = round
	s.World.Whole[r.slot] = s.whole(r.slot)
	s.circle.queue(g, place)
}

// bound settles a circle that nothing but being told can start: true is what
// follows from below, false is what stays impossible with every slot of the
// circle granted, and what lies between is unknown.
func (s *State) bound(g *group) {
	c := &s.circle
	c.least = s.values(g, c.least[:0])
	s.start(g, condition.True)
	for c.now = append(c.now[:0], g.rules...); len(c.now) > 0; c.turnPage() {
		for _, i := range c.now {
			s.lower(g, int32(s.plan.rules[i].Slot))
		}
	}
	k := 0
	for _, slot := range g.slots {
		k++ // over the whole
		for m := range s.World.Moments {
			at := &s.World.Moments[m].Truth[slot]
			switch {
			case s.told[m][slot] != condition.Unknown:
			case c.least[k] == condition.True:
				*at = condition.True
			case *at != condition.False:
				*at = condition.Unknown
			}
			k++
		}
		s.World.Whole[slot] = s.whole(slot)
	}
}

// lower lowers a slot of the circle to what its rules say.
func (s *State) lower(g *group, slot int32) {
	fell := false
	for m := range s.World.Moments {
		at := &s.World.Moments[m].Truth[slot]
		if s.told[m][slot] != condition.Unknown || *at == condition.False {
			continue
		}
		if t := s.stand(slot, s.conclude(s.plan.of(slot), m)); t < *at {
			*at, fell = t, true
		}
	}
	if fell {
		s.World.Whole[slot] = s.whole(slot)
		s.circle.queue(g, s.plan.place[slot])
	}
}
