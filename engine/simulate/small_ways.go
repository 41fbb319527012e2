package simulate

// This file holds the ways through a small problem that the best one and the
// advice are held against.

import (
	"cmp"
	"math"
	"slices"

	"snagwise/engine/advise"
	"snagwise/engine/casebook"
)

// way returns a strategy by its name, as one through the small problem.
func (s *Small) way(name string, tables []casebook.Table) func(at place, w []float64) smallAct {
	switch name {
	case ByTables:
		return s.inOrder(s.byTables(tables))
	case ByLikely:
		return s.inOrder(s.once(func(chance, _ float64) float64 { return chance }))
	case ByRatio:
		return s.inOrder(s.once(func(chance, minutes float64) float64 { return chance / minutes }))
	case ByLikelyAgain:
		return s.likeliest
	case ByRatioAgain:
		return s.perMinute
	}
	return s.advised(advise.Options{})
}

// settling does what settles a cause: its check, or its remedy, or help where
// that takes no longer than the remedy.
func (s *Small) settling(at place, c int) (smallAct, float64) {
	for k := range s.checks {
		if at.check(k) == 0 && slices.Contains(s.checks[k].finds, c) {
			return smallAct{k, -1}, s.checks[k].minutes + s.moves[at.state()][s.to(k, at.state())]
		}
	}
	if m := s.remedy[c] + s.moves[at.state()][s.start]; m < s.help {
		return smallAct{-1, c}, m
	}
	return smallAct{-1, -1}, s.help
}

// likeliest settles the likeliest cause.
func (s *Small) likeliest(at place, w []float64) smallAct {
	best := 0
	for c := range w {
		if w[c] > w[best] {
			best = c
		}
	}
	a, _ := s.settling(at, best)
	return a
}

// perMinute settles the cause with the most chance per minute, or fetches help
// where that is the better way.
func (s *Small) perMinute(at place, w []float64) smallAct {
	best, act := total(w)/s.help, smallAct{-1, -1}
	for c := range w {
		if a, m := s.settling(at, c); w[c]/m > best {
			best, act = w[c]/m, a
		}
	}
	return act
}

// inOrder settles causes in an order that nothing told changes, each by its
// check, then again from the first by their remedies, as [InOrder].
func (s *Small) inOrder(order []int) func(at place, w []float64) smallAct {
	return func(at place, w []float64) smallAct {
		for _, c := range order {
			if a, _ := s.settling(at, c); a.check >= 0 {
				return a
			}
		}
		for _, c := range order {
			if !at.tried(c) {
				a, _ := s.settling(at, c)
				return a
			}
		}
		return smallAct{-1, -1}
	}
}

// once returns the causes in the order of their worth at the beginning.
func (s *Small) once(worth func(chance, minutes float64) float64) []int {
	order := make([]int, len(s.prior))
	worths := make([]float64, len(s.prior))
	for c := range order {
		order[c] = c
		_, m := s.settling(s.begin(), c)
		worths[c] = worth(s.prior[c], math.Max(m, .01))
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(worths[b], worths[a]) })
	return order
}

// byTables returns the causes in the order of somebody who has the published
// tables.
func (s *Small) byTables(tables []casebook.Table) []int {
	var order []int
	for _, k := range s.rig.byTables(tables, beginning(s.first)) {
		for c, base := range s.causes {
			if base == k {
				order = append(order, c)
			}
		}
	}
	return order
}
