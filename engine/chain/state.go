// What was told and what followed from it, over one world.
package chain

import (
	"slices"

	"snagwise/engine/condition"
)

// Whole stands for the whole sheet where a moment's index is asked for.
const Whole = -1

// A State is one world with what was told apart from what was concluded. It
// belongs to one goroutine at a time.
type State struct {
	World *condition.World
	Work  Work // what has been done since Start

	plan      *Plan
	told      [][]condition.Truth // by moment, by truth slot
	toldWhole []condition.Truth   // by truth slot
	dirty     []uint64            // a bit a group: to be worked out anew
	stage     [][]int32           // by moment, by circle slot: round in which it took its value
	circle    scratch
}

// Work counts what a state has done.
type Work struct {
	Conditions  int // conditions evaluated
	Derivations int // of those, the ones in circles that came out true
	Groups      int // slots or circles worked out
}

// Start takes what the world's truths hold now as what was told, moment by
// moment in Moment.Truth and for the sheet as a whole in World.Whole. The world
// is the state's from then on, and the number of its moments must stay. A
// world without moments is given one at which nothing is known.
func (p *Plan) Start(w *condition.World) *State {
	if len(w.Moments) == 0 {
		w.Moments = p.scope.NewWorld(1).Moments
	}
	w.Whole = p.fill(w.Whole)
	for i := range w.Moments {
		w.Moments[i].Truth = p.fill(w.Moments[i].Truth)
	}
	s := &State{World: w, plan: p, toldWhole: slices.Clone(w.Whole)}
	for i := range w.Moments {
		s.told = append(s.told, slices.Clone(w.Moments[i].Truth))
		s.stage = append(s.stage, make([]int32, p.sizes.circleSlots))
	}
	s.dirty = make([]uint64, (len(p.groups)+63)/64)
	s.circle.make(p.sizes, len(p.rules), len(w.Moments))
	return s
}

// fill makes a list of truths as long as there are slots.
func (p *Plan) fill(list []condition.Truth) []condition.Truth {
	return append(list, make([]condition.Truth, max(0, len(p.names)-len(list)))...)
}

// Tell states a truth at a moment, or for the sheet as a whole when moment is
// [Whole]; Unknown takes a statement back. It stands over what rules conclude
// there; where the rules say the same at every moment it stands, with what was
// told of other moments, for the whole sheet. What follows from it is worked out
// by Update with the slot's name, or by Run.
func (s *State) Tell(moment, slot int, t condition.Truth) {
	if moment == Whole {
		s.toldWhole[slot] = t
		return
	}
	s.told[moment][slot] = t
}

// Told returns what was stated at a moment, or of the sheet as a whole.
func (s *State) Told(moment, slot int) condition.Truth {
	if moment == Whole {
		return s.toldWhole[slot]
	}
	return s.told[moment][slot]
}

// Truth returns what is known at a moment, or of the sheet as a whole, after
// the last Run or Update.
func (s *State) Truth(moment, slot int) condition.Truth {
	if moment == Whole {
		return s.World.Whole[slot]
	}
	return s.World.Moments[moment].Truth[slot]
}

// Run works out everything. It allocates nothing.
func (s *State) Run() {
	for slot := range s.plan.names {
		if s.plan.groupOf[slot] < 0 {
			s.copyTold(int32(slot))
		}
	}
	for i := range s.plan.groups {
		s.dirty[i/64] |= 1 << (i % 64)
	}
	s.sweep()
}

// Update works out anew what rests on the names given, and leaves the state as
// Run would. Name every number, text and told truth that changed since the
// last Run or Update, once however many moments it changed in.
func (s *State) Update(changed ...condition.Name) {
	for _, n := range changed {
		if n.Kind == condition.TruthKind {
			if g := s.plan.groupOf[n.Slot]; g >= 0 {
				s.dirty[g/64] |= 1 << (g % 64)
				continue
			}
			s.copyTold(int32(n.Slot))
		}
		s.mark(s.plan.readers[n.Kind][n.Slot])
	}
	s.sweep()
}

// copyTold sets a slot that no rule concludes to what was told of it.
func (s *State) copyTold(slot int32) {
	for m := range s.World.Moments {
		s.World.Moments[m].Truth[slot] = s.told[m][slot]
	}
	s.World.Whole[slot] = s.whole(slot)
}

// whole returns what is known of a slot over the sheet: what was told of the
// whole, else true if true at one moment, else false if false at one.
func (s *State) whole(slot int32) condition.Truth {
	if t := s.toldWhole[slot]; t != condition.Unknown {
		return t
	}
	all := condition.Unknown
	for m := range s.World.Moments {
		switch s.World.Moments[m].Truth[slot] {
		case condition.True:
			return condition.True
		case condition.False:
			all = condition.False
		}
	}
	return all
}

func (s *State) mark(groups []int32) {
	for _, g := range groups {
		s.dirty[g/64] |= 1 << (g % 64)
	}
}
