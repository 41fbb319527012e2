package simulate

import (
	"math"
	"slices"

	"snagwise/engine/advise"
)

// A place is where a small problem stands: what each check told, which
// remedies were tried, and the state of the rig, packed into one number.
type place uint64

// Of each check three bits: 0 not done, 1 could not tell, from 2 on the
// outcome. Then a bit for each remedy, and the state.
const (
	checkBits  = 3
	remediesAt = 3 * 8
	stateAt    = remediesAt + 8
)

func (p place) check(k int) int      { return int(p>>(checkBits*k)) & 7 }
func (p place) tried(cause int) bool { return p>>(remediesAt+cause)&1 != 0 }
func (p place) state() int           { return int(p >> stateAt) }
func (p place) told(k, v int) place  { return p | place(v)<<(checkBits*k) }
func (p place) without(c int) place  { return p | 1<<(remediesAt+c) }
func (p place) in(state int) place   { return p&(1<<stateAt-1) | place(state)<<stateAt }
func (s *Small) begin() place        { return place(0).in(s.start) }
func (s *Small) to(k, state int) int {
	if to := s.checks[k].state; to >= 0 {
		return to
	}
	return state
}

// weights returns how heavy each cause weighs at a place, whatever their sum.
func (s *Small) weights(at place) []float64 {
	w := slices.Clone(s.prior)
	for c := range w {
		if at.tried(c) {
			w[c] = 0
		}
		for k := range s.checks {
			if v := at.check(k); v >= 2 {
				w[c] *= s.checks[k].rows[v-2][c]
				if s.checks[k].finds[v-2] == c {
					w[c] = 0 // it would have been found
				}
			}
		}
	}
	return w
}

func total(w []float64) float64 {
	sum := 0.0
	for _, x := range w {
		sum += x
	}
	return sum
}

// A smallAct is a check, a remedy, or help where both are -1.
type smallAct struct{ check, remedy int }

// acts lists what may be done at a place.
func (s *Small) acts(at place, w []float64) []smallAct {
	out := []smallAct{{-1, -1}}
	for k := range s.checks {
		if at.check(k) == 0 && !math.IsInf(s.moves[at.state()][s.to(k, at.state())], 1) {
			out = append(out, smallAct{k, -1})
		}
	}
	for c := range s.prior {
		if w[c] > 0 {
			out = append(out, smallAct{-1, c})
		}
	}
	return out
}

// cost returns the minutes to expect of an act and all that follows it, where
// next gives those of a place. Minutes of places are per unit of weight.
func (s *Small) cost(at place, w []float64, a smallAct, next func(place) float64) float64 {
	sum := total(w)
	from := at.state()
	switch {
	case a.check >= 0:
		k := &s.checks[a.check]
		to := s.to(a.check, from)
		m := (k.minutes + s.moves[from][to]) * sum
		m += couldNotTell * sum * next(at.told(a.check, 1).in(to))
		for v, row := range k.rows {
			left := 0.0
			for c, x := range w {
				if k.finds[v] != c {
					left += x * row[c]
				}
			}
			if left > 1e-12*sum {
				m += (1 - couldNotTell) * left * next(at.told(a.check, v+2).in(to))
			}
		}
		return m / sum
	case a.remedy >= 0:
		m := (s.remedy[a.remedy] + s.moves[from][s.start]) * sum
		if left := sum - w[a.remedy]; left > 1e-12*sum {
			m += left * next(at.without(a.remedy).in(s.start))
		}
		return m / sum
	}
	return s.help
}

// Best returns the least minutes to expect that any way through the problem
// has, by dynamic programming over all places.
func (s *Small) Best() float64 {
	return s.through(func(at place, w []float64, from func(place) float64) float64 {
		least := math.Inf(1)
		for _, a := range s.acts(at, w) {
			least = min(least, s.cost(at, w, a, from))
		}
		return least
	})
}

// Expect returns the minutes to expect of a way that says at each place what to
// do, summed over all answers.
func (s *Small) Expect(way func(at place, w []float64) smallAct) float64 {
	return s.through(func(at place, w []float64, from func(place) float64) float64 {
		return s.cost(at, w, way(at, w), from)
	})
}

// through returns the minutes to expect from the beginning, each place being
// worked out once, from those that follow it.
func (s *Small) through(minutes func(at place, w []float64, from func(place) float64) float64) float64 {
	known := map[place]float64{}
	var from func(at place) float64
	from = func(at place) float64 {
		if m, ok := known[at]; ok {
			return m
		}
		w := s.weights(at)
		if total(w) <= 0 {
			return 0
		}
		m := minutes(at, w, from)
		known[at] = m
		return m
	}
	return from(s.begin())
}

// advised does what package advise says.
func (s *Small) advised(opt advise.Options) func(at place, w []float64) smallAct {
	return func(at place, w []float64) smallAct {
		snag := advise.Snag{Help: s.help, Moves: s.moves, States: make([]advise.State, len(s.moves))}
		var checks []int
		by := make([]int, len(w))
		for k := range s.checks {
			if at.check(k) != 0 {
				continue
			}
			c := &s.checks[k]
			ac := advise.Check{Minutes: c.minutes, State: c.state, Outcomes: c.rows, CouldNotTell: couldNotTell, Finds: make([][]int, len(c.rows))}
			for v, f := range c.finds {
				if f >= 0 {
					ac.Finds[v] = []int{f}
					by[f] = len(checks) + 1
				}
			}
			checks = append(checks, k)
			snag.Checks = append(snag.Checks, ac)
		}
		for c := range w {
			snag.Causes = append(snag.Causes, advise.Cause{Minutes: s.remedy[c] + s.moves[at.state()][s.start], By: by[c]})
			snag.Sets = append(snag.Sets, advise.Set{Causes: []int{c}, Weight: w[c]})
		}
		advice, err := advise.Next(&snag, &advise.Situation{State: at.state()}, opt)
		if err != nil {
			panic("simulate: advice: " + err.Error()) // the input is ours throughout
		}
		if !advice.InspectFirst {
			return smallAct{checks[advice.Checks[0].Check], -1}
		}
		if advice.HelpAfter == 0 {
			return smallAct{-1, -1}
		}
		c := advice.Inspections[0].Cause
		if by[c] > 0 {
			return smallAct{checks[by[c]-1], -1}
		}
		return smallAct{-1, c}
	}
}
