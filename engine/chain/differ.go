// Where a person and the rules both decided, and differ.
package chain

import "snagwise/engine/condition"

// A Disagreement is a sign or fact that a person stated one way and the rules
// conclude the other. What was told stands; both are for showing.
type Disagreement struct {
	ID        string          // of the sign or fact
	Slot      int             // its truth slot
	Moment    int             // index of the moment, or Whole
	Told      condition.Truth // what was stated, and stands
	Concluded condition.Truth // what the rules say: the opposite
	Rules     []string        // the rules that say so, by name
}

// Disagreements returns all of them after Run or Update, by slot, and within a
// slot the whole sheet before its moments.
func (s *State) Disagreements() []Disagreement {
	var all []Disagreement
	for slot, n := range s.plan.names {
		if !s.plan.Concludes(slot) {
			continue
		}
		for m := Whole; m < len(s.World.Moments); m++ {
			told := s.Told(m, slot)
			if told == condition.Unknown {
				continue
			}
			says, rules := s.verdict(m, slot)
			if says == condition.Not(told) {
				all = append(all, Disagreement{
					ID: n.ID, Slot: slot, Moment: m, Told: told, Concluded: says, Rules: names(rules),
				})
			}
		}
	}
	return all
}

// verdict returns what the rules alone say of a slot at a moment, and which
// rules decide it. Of the whole sheet they say what they say at the moments of
// which nothing was told.
func (s *State) verdict(m, slot int) (condition.Truth, []*rule) {
	if m == Whole {
		m = s.shown(slot, func(m int) bool { return s.told[m][slot] == condition.Unknown })
	}
	if m == Whole {
		return condition.Unknown, nil
	}
	return s.deciders(s.World, m, slot)
}

// shown returns the first moment, of those wanted, at which the slot is true,
// else the first at which it is false, else Whole.
func (s *State) shown(slot int, want func(int) bool) int {
	first := Whole
	for m := range s.World.Moments {
		if !want(m) {
			continue
		}
		switch s.World.Moments[m].Truth[slot] {
		case condition.True:
			return m
		case condition.False:
			if first == Whole {
				first = m
			}
		}
	}
	return first
}

// deciders evaluates the rules of a slot in a world: what they say together,
// and those that decide it: the true ones, or, all being false, all.
func (s *State) deciders(w *condition.World, m, slot int) (condition.Truth, []*rule) {
	says := silent
	var by []*rule
	rules := s.plan.of(int32(slot))
	for i := range rules {
		t := rules[i].eval(w, m)
		if t > says {
			says, by = t, nil
		}
		if t == says && t != silent {
			by = append(by, &rules[i])
		}
	}
	return heard(says), by
}

func names(rules []*rule) []string {
	list := make([]string, len(rules))
	for i, r := range rules {
		list[i] = r.ID
	}
	return list
}
