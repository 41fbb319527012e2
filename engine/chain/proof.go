// Why a fact holds, down to what was told.
package chain

import (
	"regexp"
	"slices"

	"snagwise/engine/condition"
)

// How says where a truth comes from.
type How string

// The ways in which a truth is known.
const (
	Told     How = "told"      // somebody stated it
	ByRule   How = "by rule"   // rules concluded it
	NotKnown How = "not known" // neither
)

// A Node is one step of a proof: a truth, how it is known, and the truths it
// rests on.
type Node struct {
	ID      string
	Slot    int
	Truth   condition.Truth
	How     How
	Moment  int                // the moment it is shown at; Whole when told of the whole sheet, or not known
	Rules   []string           // the rule that makes it true, or those that are all false
	Clauses []condition.Clause // the clauses that decided those rules
	From    []*Node            // the truths that those clauses name, in their order
	Short   bool               // stands in full earlier in the tree, or lies too deep to show
}

// deepest is how many rules a proof follows one after another before it stops.
const deepest = 50

// Proof returns why a slot is what it is at a moment, or over the whole sheet
// when moment is [Whole]. Each truth is proved once: where it is met again its
// node is marked Short. The order is that of the rules' names and of their
// clauses, whatever order the rules were given in. A true fact of a circle
// rests only on facts that were there before it.
func (s *State) Proof(moment, slot int) *Node {
	return s.prove(moment, slot, map[[2]int]bool{}, 0)
}

func (s *State) prove(moment, slot int, seen map[[2]int]bool, depth int) *Node {
	n := &Node{ID: s.plan.names[slot].ID, Slot: slot, Truth: s.Truth(moment, slot), How: NotKnown, Moment: moment}
	told := s.Told(moment, slot) != condition.Unknown
	if !told && moment == Whole {
		n.Moment = s.earliest(slot)
		told = s.Told(n.Moment, slot) != condition.Unknown
	}
	switch {
	case told:
		n.How = Told
		return n
	case n.Truth == condition.Unknown || n.Moment == Whole:
		return n
	}
	n.How = ByRule
	key := [2]int{n.Moment, slot}
	if n.Short = seen[key] || depth == deepest; n.Short {
		return n
	}
	seen[key] = true
	s.explain(n, seen, depth)
	return n
}

// explain fills in what a node concluded by rules rests on.
func (s *State) explain(n *Node, seen map[[2]int]bool, depth int) {
	w := s.beneath(n.Moment, n.Slot)
	_, rules := s.deciders(w, n.Moment, n.Slot)
	if n.Truth == condition.True {
		rules = rules[:1]
	}
	n.Rules = names(rules)
	here := map[[2]int]bool{}
	for _, r := range rules {
		clauses := r.When.Explain(w, n.Moment)
		if r.Only != nil {
			clauses = append(clauses, r.Only.Explain(w, n.Moment)...)
		}
		n.Clauses = append(n.Clauses, clauses...)
		for _, c := range clauses {
			for _, slot := range s.plan.speaksOf(c.Text) {
				at := [2]int{c.Moment, slot}
				if !here[at] {
					here[at] = true
					n.From = append(n.From, s.prove(c.Moment, slot, seen, depth+1))
				}
			}
		}
	}
}

// name is a name in a clause, or a quoted text, which is none.
var name = regexp.MustCompile(`"(?:[^"\\]|\\.)*"|[A-Za-z_][A-Za-z_0-9]*`)

// speaksOf returns the slots of the truths that a clause's text names.
func (p *Plan) speaksOf(text string) (slots []int) {
	for _, id := range name.FindAllString(text, -1) {
		if n, ok := p.scope.Lookup(id); ok && n.Kind == condition.TruthKind {
			slots = append(slots, n.Slot)
		}
	}
	return slots
}

// earliest returns the moment to show a truth at: the first at which it is so,
// but for a true slot of a circle the one at which it was concluded first, as
// the others may rest on that.
func (s *State) earliest(slot int) int {
	first := s.shown(slot, func(int) bool { return true })
	if first == Whole || s.World.Whole[slot] != condition.True || !s.plan.Concludes(slot) {
		return first
	}
	if g := &s.plan.groups[s.plan.groupOf[slot]]; g.circle {
		at := g.first + s.plan.place[slot]
		for m := range s.World.Moments {
			if s.World.Moments[m].Truth[slot] == condition.True && s.stage[m][at] < s.stage[first][at] {
				first = m
			}
		}
	}
	return first
}

// beneath returns the world in which a slot of a circle became true at a
// moment: what its circle concluded no earlier is not known yet. For any other
// slot it is the state's own world.
func (s *State) beneath(moment, slot int) *condition.World {
	g := &s.plan.groups[s.plan.groupOf[slot]]
	if !g.circle || s.World.Moments[moment].Truth[slot] != condition.True {
		return s.World
	}
	then := s.stage[moment][g.first+s.plan.place[slot]]
	return s.granting(g, func(m, k int) (condition.Truth, bool) {
		return condition.Unknown, s.stage[m][int(g.first)+k] >= then
	})
}

// granting returns the world with what was not told of a circle's slots set at
// the moments and places of which other says so.
func (s *State) granting(g *group, other func(m, k int) (condition.Truth, bool)) *condition.World {
	w := *s.World
	w.Moments, w.Whole = slices.Clone(w.Moments), slices.Clone(w.Whole)
	for m := range w.Moments {
		w.Moments[m].Truth = slices.Clone(w.Moments[m].Truth)
		for k, slot := range g.slots {
			if t, so := other(m, k); so && s.told[m][slot] == condition.Unknown {
				w.Moments[m].Truth[slot] = t
			}
		}
	}
	granted := &State{World: &w, toldWhole: s.toldWhole}
	for _, slot := range g.slots {
		w.Whole[slot] = granted.whole(slot)
	}
	return &w
}
