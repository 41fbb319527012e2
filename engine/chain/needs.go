// What an undecided fact waits for.
package chain

import (
	"slices"

	"snagwise/engine/condition"
)

// Needs returns the names of the readings, controls and signs that would have
// to be known for an undecided slot to be decided by its rules, sorted. Facts
// that rules conclude are followed down to what they read. A decided slot, or
// one that no rule concludes, needs nothing.
func (s *State) Needs(slot int) []string {
	n := needs{State: s, seen: map[int]bool{}, found: map[string]bool{}}
	n.slot(slot)
	list := make([]string, 0, len(n.found))
	for id := range n.found {
		list = append(list, id)
	}
	slices.Sort(list)
	return list
}

type needs struct {
	*State
	seen  map[int]bool
	found map[string]bool
}

func (n *needs) slot(slot int) {
	if n.seen[slot] || n.World.Whole[slot] != condition.Unknown || !n.plan.Concludes(slot) {
		return
	}
	n.seen[slot] = true
	g := &n.plan.groups[n.plan.groupOf[slot]]
	n.rules(n.plan.of(int32(slot)), n.World, g)
	if !g.circle {
		return
	}
	// What would let the circle begin: its rules with no help from itself.
	alone := n.granting(g, func(int, int) (condition.Truth, bool) { return condition.False, true })
	for _, member := range g.slots {
		n.rules(n.plan.of(member), alone, g)
	}
}

// rules adds what rules need in a world, but for the slots of their own group.
func (n *needs) rules(rules []rule, w *condition.World, g *group) {
	for m := range w.Moments {
		for i := range rules {
			if m > 0 && rules[i].steady || rules[i].eval(w, m) != condition.Unknown {
				continue
			}
			ids := rules[i].When.Needs(w, m)
			if only := rules[i].Only; only != nil {
				ids = append(ids, only.Needs(w, m)...)
			}
			for _, id := range ids {
				name, ok := n.plan.scope.Lookup(id)
				switch {
				case !ok || name.Kind != condition.TruthKind || !n.plan.Concludes(name.Slot):
					n.found[id] = true
				case !slices.Contains(g.slots, int32(name.Slot)):
					n.slot(name.Slot)
				}
			}
		}
	}
}
