// The sweep over groups in their order: single slots here, circles by rounds.
package chain

import (
	"math/bits"

	"snagwise/engine/condition"
)

// sweep works out the groups marked dirty, each after all it reads; a group
// marks only groups that come after it.
func (s *State) sweep() {
	for i := range s.dirty {
		for s.dirty[i] != 0 {
			g := i*64 + bits.TrailingZeros64(s.dirty[i])
			s.dirty[i] &^= 1 << (g % 64)
			s.work(int32(g))
		}
	}
}

func (s *State) work(i int32) {
	g := &s.plan.groups[i]
	s.Work.Groups++
	if g.circle {
		s.turn(i, g)
		return
	}
	if s.settle(g.slots[0]) {
		s.mark(s.plan.readers[condition.TruthKind][g.slots[0]])
	}
}

// settle works out a slot that no circle holds, and says whether it changed.
// Rules that are steady say the same at every moment and are asked once.
func (s *State) settle(slot int32) (changed bool) {
	rules, common, have := s.plan.of(slot), condition.Unknown, false
	for m := range s.World.Moments {
		t := s.told[m][slot]
		if t == condition.Unknown {
			if !have {
				common = s.stand(slot, s.conclude(rules, m))
				have = s.plan.steady[slot]
			}
			t = common
		}
		if at := &s.World.Moments[m].Truth[slot]; *at != t {
			*at, changed = t, true
		}
	}
	if t := s.whole(slot); s.World.Whole[slot] != t {
		s.World.Whole[slot], changed = t, true
	}
	return changed
}

// stand returns what is to be taken up of a conclusion at moments of which
// nothing was told. Rules that say the same at every moment cannot say at which
// a thing was so: where it was told otherwise at one moment, that stands for the
// sheet, and the others are left unknown.
func (s *State) stand(slot int32, t condition.Truth) condition.Truth {
	if !s.plan.steady[slot] || t == condition.Unknown {
		return t
	}
	told := condition.Unknown
	for m := range s.told {
		if v := s.told[m][slot]; v == condition.True || told == condition.Unknown {
			told = v
		}
	}
	if told == condition.Not(t) {
		return condition.Unknown
	}
	return t
}

// conclude returns what the rules of one slot say at a moment: true if one is
// true, false if all that have a say are false, else unknown.
func (s *State) conclude(rules []rule, m int) condition.Truth {
	all := silent
	for i := range rules {
		s.Work.Conditions++
		all = max(all, rules[i].eval(s.World, m))
		if all == condition.True {
			break
		}
	}
	return heard(all)
}

// heard turns the silence of all rules into not knowing.
func heard(t condition.Truth) condition.Truth {
	if t == silent {
		return condition.Unknown
	}
	return t
}
