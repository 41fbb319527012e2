// Random rule bases, and the laws that hold on all of them.
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

// Filling in a reading or a fact that was unknown never undoes what was
// decided already, at one moment and without "seen".
func TestFillingInUndoesNothing(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := drawBase(rt, t, false)
		s := b.plan(t).Start(drawWorld(rt, b, 1))
		s.Run()
		before := slices.Clone(s.World.Moments[0].Truth)
		for i, v := range s.World.Moments[0].Num {
			if v != v {
				s.World.Moments[0].Num[i] = float64(rapid.IntRange(0, 4).Draw(rt, "reading"))
			}
		}
		for _, n := range b.scope.Names(condition.TruthKind) {
			if n.ID[0] == 't' && s.Told(0, n.Slot) == open {
				s.Tell(0, n.Slot, drawTruth.Draw(rt, "fact"))
			}
		}
		s.Run()
		for slot, was := range before {
			if got := s.World.Moments[0].Truth[slot]; was != open && got != was {
				rt.Fatalf("slot %d was %v and became %v", slot, was, got)
			}
		}
	})
}
