// A second opinion: every rule in every round until nothing changes.
package chain

import (
	"slices"

	"snagwise/engine/condition"
)

// An opinion works a base out without any of the plan: circles are found by
// squaring the relation "reads", and each set of slots that read one another is
// worked out by evaluating all its rules at all moments over and over.
type opinion struct {
	base
	world     *condition.World
	told      [][]condition.Truth
	toldWhole []condition.Truth
	reads     [][]bool
	mutual    map[int]bool

	conditions, derivations int
}

func newOpinion(b base, w *condition.World) *opinion {
	n := len(w.Whole)
	o := &opinion{base: b, world: w, toldWhole: slices.Clone(w.Whole), mutual: map[int]bool{}}
	for i := range w.Moments {
		o.told = append(o.told, slices.Clone(w.Moments[i].Truth))
	}
	for range n {
		o.reads = append(o.reads, make([]bool, n))
	}
	concluded := map[int]bool{}
	for _, r := range b.rules {
		concluded[r.Slot] = true
	}
	for _, r := range b.rules {
		for _, name := range r.When.Reads() {
			if name.Kind == condition.TruthKind && concluded[name.Slot] {
				o.reads[r.Slot][name.Slot] = true
			}
		}
	}
	for k := range n {
		for i := range n {
			for j := range n {
				o.reads[i][j] = o.reads[i][j] || o.reads[i][k] && o.reads[k][j]
			}
		}
	}
	return o
}

// run fills the world. A set that cannot start in a world of unknowns is true
// from below, false from above and else unknown.
func (o *opinion) run() {
	always := base{rules: slices.Clone(o.rules), scope: o.scope}
	for i := range always.rules {
		always.rules[i].Only = nil
	}
	unknown := newOpinion(always, o.scope.NewWorld(1))
	for slot := range o.reads {
		o.wholes([]int{slot}) // of what nobody concludes, from the moments
	}
	for _, set := range o.sets() {
		if o.reads[set[0]][set[0]] {
			unknown.from(set, condition.False)
			for _, slot := range set {
				o.mutual[set[0]] = o.mutual[set[0]] || unknown.world.Moments[0].Truth[slot] == condition.False
			}
			if o.mutual[set[0]] {
				unknown.between(set)
			}
		} else {
			unknown.from(set, condition.False)
		}
		if o.mutual[set[0]] {
			o.between(set)
		} else {
			o.from(set, condition.False)
		}
	}
}

// sets returns the slots that read one another, what is read first: with
// itself, it reads strictly fewer.
func (o *opinion) sets() [][]int {
	count := func(slot int) (n int) {
		for other, r := range o.reads[slot] {
			if r || other == slot {
				n++
			}
		}
		return n
	}
	var sets [][]int
	for i := range o.reads {
		at := slices.IndexFunc(sets, func(set []int) bool { return o.reads[i][set[0]] && o.reads[set[0]][i] })
		if at < 0 {
			sets = append(sets, []int{i})
			continue
		}
		sets[at] = append(sets[at], i)
	}
	slices.SortStableFunc(sets, func(a, b []int) int { return count(a[0]) - count(b[0]) })
	return sets
}

// from sets what was not told of the slots to t, then applies the rules until
// nothing changes.
func (o *opinion) from(set []int, t condition.Truth) {
	rules := []Rule{}
	for _, r := range o.rules {
		if slices.Contains(set, r.Slot) {
			rules = append(rules, r)
		}
	}
	put := func(m, slot int, t condition.Truth) {
		var told []condition.Truth
		for m := range o.told {
			told = append(told, o.told[m][slot])
		}
		contrary := t == condition.True && slices.Contains(told, condition.False) && !slices.Contains(told, condition.True) ||
			t == condition.False && slices.Contains(told, condition.True)
		steady := !slices.ContainsFunc(rules, func(r Rule) bool {
			return r.Slot == slot && (!r.When.Steady() || r.Only != nil)
		})
		if steady && contrary {
			t = condition.Unknown
		}
		if o.told[m][slot] != condition.Unknown {
			t = o.told[m][slot]
		}
		o.world.Moments[m].Truth[slot] = t
	}
	for m := range o.world.Moments {
		for _, slot := range set {
			put(m, slot, condition.Unknown)
		}
		for _, r := range rules {
			if r.Only == nil || r.Only.Eval(o.world, m) != condition.False {
				put(m, r.Slot, t)
			}
		}
	}
	o.wholes(set)
	for changed := true; changed; {
		changed = false
		for m := range o.world.Moments {
			says := map[int]condition.Truth{}
			for _, r := range rules {
				if r.Only != nil && r.Only.Eval(o.world, m) == condition.False {
					continue
				}
				o.conditions++
				v := r.When.Eval(o.world, m)
				if r.Only != nil && r.Only.Eval(o.world, m) == condition.Unknown {
					v = condition.Unknown
				}
				if v == condition.True {
					o.derivations++
				}
				if old, ok := says[r.Slot]; !ok || v > old {
					says[r.Slot] = v
				}
			}
			for slot, v := range says {
				old := o.world.Moments[m].Truth[slot]
				put(m, slot, v)
				changed = changed || old != o.world.Moments[m].Truth[slot]
			}
			o.wholes(set)
		}
	}
}

func (o *opinion) wholes(set []int) {
	for _, slot := range set {
		var values []condition.Truth
		for m := range o.world.Moments {
			values = append(values, o.world.Moments[m].Truth[slot])
		}
		switch {
		case o.toldWhole[slot] != condition.Unknown:
			o.world.Whole[slot] = o.toldWhole[slot]
		case slices.Contains(values, condition.True):
			o.world.Whole[slot] = condition.True
		case slices.Contains(values, condition.False):
			o.world.Whole[slot] = condition.False
		default:
			o.world.Whole[slot] = condition.Unknown
		}
	}
}

func (o *opinion) between(set []int) {
	take := func() (all []condition.Truth) {
		for _, slot := range set {
			for m := range o.world.Moments {
				all = append(all, o.world.Moments[m].Truth[slot])
			}
		}
		return all
	}
	o.from(set, condition.False)
	low := take()
	o.from(set, condition.True)
	high := take()
	k := 0
	for _, slot := range set {
		for m := range o.world.Moments {
			t := condition.Unknown
			if low[k] == high[k] {
				t = low[k]
			}
			o.world.Moments[m].Truth[slot] = t
			k++
		}
	}
	o.wholes(set)
}
