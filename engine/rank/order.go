package rank

import (
	"cmp"
	"fmt"
	"slices"
)

// A CycleError says that states lead to each other in a circle, or that vague
// signs cover each other.
type CycleError struct {
	What string // "states" or "signs"
	IDs  []int  // those in or behind the circle, in order
}

func (e *CycleError) Error() string { return fmt.Sprintf("%s go round in a circle: %v", e.What, e.IDs) }

func targets(list [][]tie) [][]int32 {
	out := make([][]int32, len(list))
	for i, ts := range list {
		for _, t := range ts {
			out[i] = append(out[i], t.to)
		}
	}
	return out
}

// sorted returns the ids so that each stands before those it points to; of
// those that may stand next the lowest comes first.
func sorted(what string, to [][]int32) ([]int32, error) {
	waits := make([]int, len(to))
	for _, ts := range to {
		for _, t := range ts {
			waits[t]++
		}
	}
	var ready, order []int32
	for i := range to {
		if waits[i] == 0 {
			ready = append(ready, int32(i))
		}
	}
	for len(ready) > 0 {
		x := ready[0]
		ready = ready[1:]
		order = append(order, x)
		for _, t := range to[x] {
			if waits[t]--; waits[t] == 0 {
				at, _ := slices.BinarySearch(ready, t)
				ready = slices.Insert(ready, at, t)
			}
		}
	}
	if len(order) == len(to) {
		return order, nil
	}
	e := &CycleError{What: what}
	for i := range to {
		if waits[i] > 0 {
			e.IDs = append(e.IDs, i)
		}
	}
	return nil, e
}

// merged sorts ties by where they go, drops those of strength 0 and takes the
// strongest of two to the same place: the same thing told twice counts once.
func merged(list []tie, place []int32) []tie {
	out := make([]tie, 0, len(list))
	for _, t := range list {
		if place != nil {
			t.to = place[t.to]
		}
		if t.s != 0 {
			out = append(out, t)
		}
	}
	slices.SortFunc(out, func(a, b tie) int {
		return cmp.Or(cmp.Compare(a.to, b.to), cmp.Compare(b.s, a.s))
	})
	return slices.CompactFunc(out, func(a, b tie) bool { return a.to == b.to })
}

// mergedWords sorts words by sign; a never outranks any other word, else the
// strongest holds.
func mergedWords(list []word) []word {
	out := slices.Clone(list)
	slices.SortFunc(out, func(a, b word) int {
		if a.sign == b.sign && a.never != b.never {
			if a.never {
				return -1
			}
			return 1
		}
		return cmp.Or(cmp.Compare(a.sign, b.sign), cmp.Compare(b.s, a.s))
	})
	return slices.CompactFunc(out, func(a, b word) bool { return a.sign == b.sign })
}

func hasTie(list []tie, to int32) bool {
	_, ok := slices.BinarySearchFunc(list, to, func(t tie, to int32) int { return int(t.to) - int(to) })
	return ok
}
