package condition

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestNumbersAreThoseOfReads holds the quick list of numbers to the full list
// of names, over random conditions.
func TestNumbersAreThoseOfReads(t *testing.T) {
	s := testScope(t)
	rapid.Check(t, func(t *rapid.T) {
		p := writer{t: t}.program(s, 4)
		var got, want []int
		p.Numbers(func(slot int) { got = append(got, slot) })
		for _, n := range p.Reads() {
			if n.Kind == NumberKind {
				want = append(want, n.Slot)
			}
		}
		slices.Sort(got)
		slices.Sort(want)
		if got = slices.Compact(got); !slices.Equal(got, want) {
			t.Fatalf("%s: numbers %v, want %v", p, got, want)
		}
	})
}

// TestUsesOfManyNames holds the list of names to itself where a map is used for
// it: a condition over all numbers, said twice.
func TestUsesOfManyNames(t *testing.T) {
	s := testScope(t)
	text, want := "", 0
	for range 2 {
		want = 0
		for _, k := range []Kind{NumberKind, TruthKind} {
			for _, n := range s.Names(k) {
				if text != "" {
					text += " and "
				}
				text += "seen(" + n.ID + ")"
				want++
			}
		}
	}
	if want <= many {
		t.Fatalf("%d names, want more than %d", want, many)
	}
	if got := len(compiled(t, s, text).Uses()); got != want {
		t.Errorf("%d names, want %d", got, want)
	}
}
