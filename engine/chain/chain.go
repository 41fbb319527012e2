// Package chain is the forward chaining room: facts feed rules that conclude
// facts, until nothing new follows.
//
// A [Rule] concludes one truth slot, the sign or fact of that name, wherever
// its condition is true. Several rules may conclude one slot: it is true where
// one of them is, false where all that have a say are decided false, and
// unknown otherwise. [Build] orders the rules once; a [Plan] is then run over any
// number of worlds, and every answer is the same whatever order the rules were
// written in:
//
//	plan, problems := chain.Build(rules, scope)
//	state := plan.Start(world) // what the world holds now is what was told
//	state.Run()                // fills every moment and World.Whole
//	state.Tell(0, slot, condition.True)
//	state.Update(name)         // works out anew only what rests on name
//
// What a person states stands over what rules conclude; where both are decided
// and differ, [State.Disagreements] says so. [State.Proof] says why a fact
// holds, [State.Needs] what an undecided one waits for.
//
// Rules may feed one another in a circle as long as no rule of the circle
// reads another through "not" (or through anything else that a rise in the
// other could turn back); a circle that does is refused at load.
//
// Source: Russell and Norvig, Artificial Intelligence: A Modern Approach, for
// chaining by counting; Abiteboul, Hull and Vianu, Foundations of Databases,
// 1995, chapters 13 and 15, for working from changes only and for negation in
// layers (both from memory).
package chain

import (
	"cmp"
	"fmt"
	"slices"

	"snagwise/engine/condition"
	"snagwise/engine/problem"
)

// A Rule concludes a truth slot at every moment at which its condition holds.
type Rule struct {
	ID   string             // name of the rule, one of a kind
	Slot int                // truth slot that it concludes
	When *condition.Program // what it asks
	// Only, where there is one, says at which moments the rule has a say. It
	// may read the phase and the levers but no truth. At a moment where it is
	// false the rule does not say no; it says nothing.
	Only *condition.Program
	// Quiet says that the rule has no say where it is undecided. It adds to
	// other rules of its slot without holding them back.
	Quiet bool
	Pos   problem.Pos // where it was written
}

// A Plan is a set of rules in an order of evaluation that works for every
// world of its scope. It does not change once built: many goroutines may start
// states from it.
type Plan struct {
	scope   *condition.Scope
	names   []condition.Name // by truth slot
	rules   []rule           // by slot, then by name
	span    [][2]int32       // by truth slot: its rules, from and to
	groups  []group          // in order of evaluation
	groupOf []int32          // by truth slot: its group, or -1 when no rule concludes it
	place   []int32          // by truth slot: its place in its group
	steady  []bool           // by truth slot: its rules say the same at every moment
	readers [3][][]int32     // by kind and slot: the groups whose rules read it
	sizes   sizes
}

type rule struct {
	Rule
	steady bool            // does not read the moment at hand, and has its say at all
	uses   []condition.Use // what When reads
}

// A group is one truth slot, or several that feed one another in a circle.
type group struct {
	slots  []int32
	circle bool
	mutual bool      // a slot of the circle has no way in but being told
	rules  []int32   // of a circle: all its rules
	inner  [][]int32 // of a circle, by place in slots: the rules in it that read the slot
	first  int32     // of a circle: its first place in State.stage
}

// sizes are the largest things a state must make room for.
type sizes struct{ circleSlots, slots, rules int }

// Build orders rules over the truth slots of a scope. It refuses, all at once,
// rules that conclude no slot of the scope, two rules of one name, and circles
// through "not", naming their rules.
func Build(rules []Rule, scope *condition.Scope) (*Plan, problem.List) {
	p := &Plan{scope: scope, names: scope.Names(condition.TruthKind)}
	if l := p.take(rules); len(l) > 0 {
		return nil, l.Sorted()
	}
	if l := append(p.arrange(), p.onlyTold()...); len(l) > 0 {
		return nil, l.Sorted()
	}
	p.readers = [3][][]int32{}
	for _, kind := range []condition.Kind{condition.NumberKind, condition.TruthKind, condition.TextKind} {
		p.readers[kind] = make([][]int32, len(scope.Names(kind)))
	}
	p.index()
	p.dryRun(scope)
	return p, nil
}

// take sorts the rules by slot and name and finds each slot's.
func (p *Plan) take(rules []Rule) (l problem.List) {
	at := map[string]problem.Pos{}
	for _, r := range rules {
		if r.Slot < 0 || r.Slot >= len(p.names) {
			l.Addf(r.Pos, "no-conclusion", "rule %q concludes no known sign or fact", r.ID)
			continue
		}
		if old, twice := at[r.ID]; twice {
			l.Addf(r.Pos, "double-name", "rule %q stands at %s already", r.ID, old)
			continue
		}
		at[r.ID] = r.Pos
		p.rules = append(p.rules, rule{Rule: r, uses: r.When.Uses(), steady: r.When.Steady() && r.Only == nil})
	}
	slices.SortFunc(p.rules, func(a, b rule) int {
		return cmp.Or(cmp.Compare(a.Slot, b.Slot), cmp.Compare(a.ID, b.ID))
	})
	p.span, p.steady = make([][2]int32, len(p.names)), make([]bool, len(p.names))
	for i, r := range p.rules {
		if p.span[r.Slot][1] == 0 {
			p.span[r.Slot][0], p.steady[r.Slot] = int32(i), true
		}
		p.steady[r.Slot] = p.steady[r.Slot] && r.steady
		p.span[r.Slot][1] = int32(i + 1)
	}
	return l
}

// onlyTold refuses rules whose say depends on what rules conclude.
func (p *Plan) onlyTold() (l problem.List) {
	for _, r := range p.rules {
		if r.Only == nil {
			continue
		}
		for _, n := range r.Only.Reads() {
			if n.Kind == condition.TruthKind && p.Concludes(n.Slot) {
				l.Add(r.Pos, "say-depends", fmt.Sprintf("rule %q has a say only by %q, which rules conclude", r.ID, n.ID),
					"ask for it in the condition itself")
			}
		}
	}
	return l
}

// silent is less than any truth: a rule that has no say.
const silent = condition.False - 1

// eval returns what the rule says at a moment, or silent.
func (r *rule) eval(w *condition.World, m int) condition.Truth {
	if r.Only != nil {
		switch r.Only.Eval(w, m) {
		case condition.False:
			return silent
		case condition.Unknown:
			return condition.Unknown
		}
	}
	t := r.When.Eval(w, m)
	if r.Quiet && t == condition.Unknown {
		return silent
	}
	return t
}

// eachRead calls do for the kind and slot of every name that the rule reads.
func (r *rule) eachRead(do func(condition.Kind, int)) {
	for i := range r.uses {
		do(r.uses[i].Kind, r.uses[i].Slot)
	}
	if r.Only != nil {
		for _, n := range r.Only.Reads() {
			do(n.Kind, n.Slot)
		}
	}
}

// of returns the rules that conclude a truth slot.
func (p *Plan) of(slot int32) []rule {
	return p.rules[p.span[slot][0]:p.span[slot][1]]
}

// Concludes reports whether a rule concludes the truth slot.
func (p *Plan) Concludes(slot int) bool { return p.groupOf[slot] >= 0 }

// index notes which groups read which slot, and sizes what a state needs.
func (p *Plan) index() {
	for i := range p.groups {
		g := &p.groups[i]
		for _, slot := range g.slots {
			for _, r := range p.of(slot) {
				r.eachRead(func(kind condition.Kind, slot int) {
					list := &p.readers[kind][slot]
					if k := len(*list); k == 0 || (*list)[k-1] != int32(i) {
						*list = append(*list, int32(i))
					}
				})
			}
		}
		if g.circle {
			g.first = int32(p.sizes.circleSlots)
			p.sizes.circleSlots += len(g.slots)
			p.sizes.slots = max(p.sizes.slots, len(g.slots))
			p.sizes.rules = max(p.sizes.rules, len(g.rules))
		}
	}
}

// dryRun finds the circles with no way in but being told: those in which, with
// nothing known at all and every rule having a say, a slot comes out false for
// want of a start. Such a
// slot is left unknown rather than false, as being told is a way in and not
// being told is no evidence.
func (p *Plan) dryRun(scope *condition.Scope) {
	if p.sizes.circleSlots == 0 {
		return
	}
	dry := *p
	dry.rules = slices.Clone(p.rules)
	for i := range dry.rules {
		dry.rules[i].Only = nil
	}
	s := dry.Start(scope.NewWorld(1))
	for i := range p.groups {
		g := &p.groups[i]
		s.work(int32(i))
		for _, slot := range g.slots {
			if g.circle && s.World.Moments[0].Truth[slot] == condition.False {
				g.mutual = true
			}
		}
		if g.mutual {
			s.bound(g)
		}
	}
}
