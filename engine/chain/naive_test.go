// A second opinion: every rule in every round until nothing changes.
package chain

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

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

// The shape of random bases: facts t0.. told, readings r_0.., and slots in
// layers that read their own layer and those below, through "not" only below.
const (
	facts, readings, layers, perLayer = 4, 3, 3, 4
)

func slotName(layer, i int) string { return fmt.Sprintf("s%d_%d", layer, i) }

// drawCondition draws a condition for a slot of a layer.
func drawCondition(t *rapid.T, layer, depth int, asks bool) string {
	number := func(what string, from, to int) int { return rapid.IntRange(from, to).Draw(t, what) }
	fact := func() string { return fmt.Sprintf("t%d", number("fact", 0, facts-1)) }
	limit := func() string {
		return fmt.Sprintf("r_%d > %d", number("reading", 0, readings-1), number("limit", 1, 3))
	}
	own := func() string { return slotName(layer, number("own layer", 0, perLayer-1)) }
	below := func() string {
		if layer == 0 {
			return fact()
		}
		return slotName(number("layer below", 0, layer-1), number("slot", 0, perLayer-1))
	}
	sub := func() string { return drawCondition(t, layer, depth-1, asks) }
	top := 13
	if depth == 0 {
		top = 9
	}
	switch number("kind", 0, top) {
	case 0:
		return fact()
	case 1:
		return limit()
	case 2:
		return below()
	case 3:
		return "not " + below()
	case 4:
		return own()
	case 5:
		return fmt.Sprintf("(%s and %s)", own(), fact())
	case 6:
		return fmt.Sprintf("at(%s, %s)", limit(), own())
	case 7:
		word := []string{"together", "before", "after"}[number("word", 0, 2)]
		return fmt.Sprintf("%s(%s, %s)", word, own(), below())
	case 8:
		return fmt.Sprintf("n_of(2, %s, %s, %s)", own(), below(), fact())
	case 9:
		if !asks {
			return fact()
		}
		return []string{"", "not "}[number("not", 0, 1)] + "seen(" + below() + ")"
	case 10, 11:
		return fmt.Sprintf("(%s and %s)", sub(), sub())
	default:
		return fmt.Sprintf("(%s or %s)", sub(), sub())
	}
}

// drawBase draws a base of up to two rules a slot; with asks its rules may ask
// "seen".
func drawBase(t *rapid.T, tb testing.TB, asks bool) base {
	var lines []string
	for layer := range layers {
		for i := range perLayer {
			for range rapid.IntRange(0, 2).Draw(t, "rules") {
				line := slotName(layer, i) + " <- " + drawCondition(t, layer, 2, asks)
				if rapid.IntRange(0, 3).Draw(t, "say") == 0 {
					line += fmt.Sprintf(" | r_%d > 2", rapid.IntRange(0, readings-1).Draw(t, "say by"))
				}
				lines = append(lines, line)
			}
		}
	}
	lines = append(lines, "zz <- t0 and r_0 > 1")
	var more []string
	for i := range facts {
		more = append(more, fmt.Sprintf("t%d", i))
	}
	for i := range readings {
		more = append(more, fmt.Sprintf("r_%d", i))
	}
	for layer := range layers {
		for i := range perLayer {
			more = append(more, slotName(layer, i))
		}
	}
	return parse(tb, strings.Join(lines, "\n"), more...)
}

var drawTruth = rapid.SampledFrom([]condition.Truth{condition.False, condition.Unknown, condition.True})

// drawWorld draws readings, facts and, seldom, statements about what rules
// conclude.
func drawWorld(t *rapid.T, b base, moments int) *condition.World {
	w := b.scope.NewWorld(moments)
	for m := range w.Moments {
		for i := range w.Moments[m].Num {
			if v := rapid.IntRange(0, 4).Draw(t, "reading"); v > 0 {
				w.Moments[m].Num[i] = float64(v)
			}
		}
		for _, n := range b.scope.Names(condition.TruthKind) {
			if n.ID[0] == 't' || rapid.IntRange(0, 9).Draw(t, "told") == 0 {
				w.Moments[m].Truth[n.Slot] = drawTruth.Draw(t, "truth")
			}
		}
	}
	for slot := range w.Whole {
		if rapid.IntRange(0, 15).Draw(t, "told of the whole") == 0 {
			w.Whole[slot] = drawTruth.Draw(t, "whole")
		}
	}
	return w
}

// twin copies a world.
func twin(b base, w *condition.World) *condition.World {
	c := b.scope.NewWorld(len(w.Moments))
	copy(c.Whole, w.Whole)
	for m := range w.Moments {
		copy(c.Moments[m].Num, w.Moments[m].Num)
		copy(c.Moments[m].Truth, w.Moments[m].Truth)
		copy(c.Moments[m].Text, w.Moments[m].Text)
	}
	return c
}

// truths are a world's truths by moment, the whole last.
func truths(w *condition.World) [][]condition.Truth {
	var all [][]condition.Truth
	for _, m := range w.Moments {
		all = append(all, m.Truth)
	}
	return append(all, w.Whole)
}

// On random bases with circles and with "not" in layers, the plan finds what
// the naive fixpoint finds, whatever order the rules come in.
func TestAgreesWithNaiveFixpoint(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := drawBase(rt, t, true)
		w := drawWorld(rt, b, rapid.IntRange(1, 3).Draw(rt, "moments"))
		second := newOpinion(b, twin(b, w))
		second.run()
		shuffled := base{rules: rapid.Permutation(b.rules).Draw(rt, "order"), scope: b.scope}
		s := shuffled.plan(t).Start(w)
		s.Run()
		if diff := cmp.Diff(truths(second.world), truths(s.World)); diff != "" {
			rt.Fatalf("%v\nnaive -, plan +:\n%s", describe(b), diff)
		}
	})
}

// describe gives a base's text and its names by slot, to read a difference by.
func describe(b base) string {
	ids := []string{b.text}
	for _, n := range b.scope.Names(condition.TruthKind) {
		ids = append(ids, fmt.Sprintf("%d=%s", n.Slot, n.ID))
	}
	return strings.Join(ids, "\n")
}

// After any changes to readings and statements, Update leaves what Run leaves.
func TestUpdateEqualsRun(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := drawBase(rt, t, true)
		moments := rapid.IntRange(1, 3).Draw(rt, "moments")
		s := b.plan(t).Start(drawWorld(rt, b, moments))
		s.Run()
		truthNames, numbers := b.scope.Names(condition.TruthKind), b.scope.Names(condition.NumberKind)
		for range rapid.IntRange(1, 6).Draw(rt, "changes") {
			m := rapid.IntRange(0, moments-1).Draw(rt, "moment")
			n := rapid.SampledFrom(slices.Concat(truthNames, numbers)).Draw(rt, "name")
			if n.Kind == condition.NumberKind {
				s.World.Moments[m].Num[n.Slot] = float64(rapid.IntRange(0, 4).Draw(rt, "value"))
			} else {
				if rapid.IntRange(0, 4).Draw(rt, "of the whole") == 0 {
					m = Whole
				}
				s.Tell(m, n.Slot, drawTruth.Draw(rt, "truth"))
			}
			s.Update(n)
			w := twin(b, s.World)
			for m := range w.Moments {
				copy(w.Moments[m].Truth, s.told[m])
			}
			copy(w.Whole, s.toldWhole)
			full := s.plan.Start(w)
			full.Run()
			if diff := cmp.Diff(truths(full.World), truths(s.World)); diff != "" {
				rt.Fatalf("after %s: Run -, Update +:\n%s", n.ID, diff)
			}
		}
	})
}
