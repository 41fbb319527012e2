package advise

// The expected minutes of repair, and the order of inspections that gives
// them.

import (
	"cmp"
	"slices"
)

// Repair returns the order in which to inspect causes, and the minutes to
// expect until the trouble is cured. Chances are by cause and, together with
// none (the chance that it is no cause listed), may have any sum: minutes are
// per unit of it, so with a sum of 1 they are plain minutes. Minutes to
// inspect and cure are by cause, above 0. One fault is assumed, inspections
// are conclusive, and help, which costs its own minutes and cures anything, is
// fetched when it is cheaper than going on; help of 0 means that none is to
// be had, and what is not listed then costs nothing further.
//
// The order is that of falling chance per minute, equals by index, cut where
// help is fetched: no other order of any of the causes is cheaper.
//
// Source: J. Kadane, H. Simon, Ann. Statist. 5, 1977; help as the last resort
// as in D. Heckerman, J. Breese, K. Rommelse, CACM 38, 1995.
func Repair(chances, minutes []float64, none, help float64) (order []int, expected float64) {
	var it items
	it.fill(chances, minutes, none, help)
	expected, cut := it.cost(minutes, help)
	order = make([]int, cut)
	for i := range order {
		order[i] = it.list[i].cause
	}
	return order, expected
}

// An item is a cause that may be worth inspecting.
type item struct {
	ratio, chance float64
	cause         int
}

// items holds the causes worth inspecting, best first, and the chance of all
// the rest. It is used again and again without new memory.
type items struct {
	list []item
	rest float64

	// order holds all causes nearly in the order in which they will stand, so
	// that putting them in order is little work; empty for none known.
	order []int
}

// fill takes the causes in, leaves out those that help makes useless, and
// puts the others in order.
//
// The last cause inspected before help is fetched has a chance per minute
// above (what is left after all inspections) / help, and those before it have
// a higher one still. So a cause at or below none/help is never inspected, and
// its chance joins what is left; which raises the bar for the others.
func (it *items) fill(chances, minutes []float64, none, help float64) {
	it.list = slices.Grow(it.list[:0], len(chances))
	rest := none
	for k := range chances {
		c := k
		if len(it.order) > 0 {
			c = it.order[k]
		}
		p := chances[c]
		if p <= 0 {
			continue
		}
		if help > 0 && p*help <= none*minutes[c] {
			rest += p
			continue
		}
		it.list = append(it.list, item{p / minutes[c], p, c})
	}
	for help > 0 && rest > none {
		none = rest
		bound := rest / help
		kept := it.list[:0]
		for _, i := range it.list {
			if i.ratio > bound {
				kept = append(kept, i)
			} else {
				rest += i.chance
			}
		}
		it.list = kept
	}
	it.rest = rest
	it.sort()
}

func (it *items) sort() {
	s := it.list
	if len(it.order) == 0 && len(s) > 40 {
		slices.SortFunc(s, func(a, b item) int {
			return cmp.Or(cmp.Compare(b.ratio, a.ratio), cmp.Compare(a.cause, b.cause))
		})
		return
	}
	for i := 1; i < len(s); i++ {
		x, j := s[i], i
		for ; j > 0 && (s[j-1].ratio < x.ratio || s[j-1].ratio == x.ratio && s[j-1].cause > x.cause); j-- {
			s[j] = s[j-1]
		}
		s[j] = x
	}
}

// keep takes the order that the causes stand in for the next times: those worth
// inspecting first, then the others. n is how many there are.
func (it *items) keep(n int) {
	it.order = slices.Grow(it.order[:0], n)
	in := make([]bool, n)
	for _, i := range it.list {
		it.order = append(it.order, i.cause)
		in[i.cause] = true
	}
	for c := range n {
		if !in[c] {
			it.order = append(it.order, c)
		}
	}
}

// cost returns the least expected minutes over all places to stop and fetch
// help, and how many causes are inspected before that.
func (it *items) cost(minutes []float64, help float64) (least float64, cut int) {
	left := it.rest
	for i := len(it.list) - 1; i >= 0; i-- {
		left += it.list[i].chance // small ones first: what is left loses no digits
	}
	if help == 0 {
		var spent float64
		for _, i := range it.list {
			spent += left * minutes[i.cause]
			left -= i.chance
		}
		return spent, len(it.list)
	}
	least = left * help
	var spent float64
	for n, i := range it.list {
		spent += left * minutes[i.cause]
		left = max(left-i.chance, it.rest)
		if total := spent + left*help; total < least {
			least, cut = total, n+1
		}
	}
	return least, cut
}
