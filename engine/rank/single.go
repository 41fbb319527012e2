package rank

import (
	"math"
	"slices"
)

// A single is what is known of a set of one cause.
type single struct {
	weight  float64 // with everything
	with    float64 // likelihood relative to the empty set's, patterns not counted
	pattern float64 // what the patterns multiply it by
	points  float64
	rough   bool
	apart   bool // its states bear on true signs that are no axis
	touched bits // observations it bears on
	odd     bits // those of them whose factors do not simply multiply
	coins   bits // those of them that it makes a coin
	states  bits // states of its that bear on something
	seen    []float64
}

func (v *view) bears(c int) bool {
	if len(v.over[c])+len(v.held[c])+len(v.coins[c]) > 0 {
		return true
	}
	return slices.ContainsFunc(v.net.reach[c], func(r tie) bool { return v.bearing[r.to] })
}

// weighSingles sums the empty set and every set of one: first by vectors,
// which the sets of two need anyway, then again with the whole budget where it matters.
func (s *sums) weighSingles() {
	v := s.v
	s.newAxes()
	w := newWorker(v)
	w.spend(v, full)
	s.empty = s.one(w, nil, s.axes.none)
	s.empty.weight = v.net.empty * s.empty.with * s.empty.pattern
	bears := make([]bool, len(s.single))
	for c := range bears {
		if bears[c] = v.bears(c); bears[c] {
			s.touched = append(s.touched, int32(c))
		}
	}
	v.each(len(s.single), quick, func(w *worker, c int) {
		plain, row := s.axes.row(c)
		if bears[c] || len(v.holding) > 0 {
			set := [1]int32{int32(c)}
			s.single[c] = s.one(w, set[:], plain)
		} else {
			s.single[c] = s.empty
			s.single[c].rough = false
			copy(plain, s.axes.none)
		}
		s.firstLook(w, c, plain, row)
	})
	s.lookAgain()
	s.add(weighed{nil, s.empty.weight, s.empty.rough})
	for c := range s.single {
		x := &s.single[c]
		if x.weight != s.empty.weight { // both may be impossible
			x.points = 10 * math.Log10(x.weight/s.empty.weight)
		}
		s.add(weighed{[]int32{int32(c)}, x.weight, x.rough})
	}
}

// firstLook weighs a set of one by its vector if that will do.
func (s *sums) firstLook(w *worker, c int, plain, row []float64) {
	x := &s.single[c]
	v := s.v
	sum := s.axes.value(plain, row)
	for _, j := range s.axes.otherJ {
		sum *= x.seen[j]
	}
	set := [1]int32{int32(c)}
	x.with = sum
	if sum == 0 || x.apart || v.net.opts.Unbudgeted || s.few() {
		w.rough = false
		x.with = v.likelihood(w, set[:], nil)
		x.rough = w.rough
	}
	s.axes.right[c] = 1
	if sum > 0 && x.with > 0 {
		s.axes.right[c] = x.with / sum
	}
	s.finish(w, c)
}

// few says that there are so few causes that there is no need for a first look.
func (s *sums) few() bool { return len(s.single) <= 60 }

// finish counts the patterns in and the odds.
func (s *sums) finish(w *worker, c int) {
	x := &s.single[c]
	w.rough = false
	set := [1]int32{int32(c)}
	combined, _, _ := s.v.combined(w, set[:], x.with)
	x.rough = x.rough || w.rough
	if x.pattern = 1; combined != x.with {
		x.pattern = over(combined, x.with)
	}
	x.weight = s.v.odds[c] * x.with * x.pattern
}

// lookAgain sums the rough ones among the likely causes with the whole budget.
func (s *sums) lookAgain() {
	floor := s.sumSingles() * min(1e-3, .3/float64(s.v.net.opts.FullSets))
	if s.few() {
		floor = 0
	}
	var again []int
	for c := range s.single {
		if s.single[c].rough && s.single[c].weight > floor {
			again = append(again, c)
		}
	}
	s.v.each(len(again), full, func(w *worker, i int) {
		c := again[i]
		x := &s.single[c]
		set := [1]int32{int32(c)}
		w.rough = false
		was := x.with
		x.with = s.v.likelihood(w, set[:], nil)
		x.rough = w.rough
		if was > 0 {
			s.axes.right[c] *= x.with / was
		}
		s.finish(w, c)
	})
}

func (s *sums) sumSingles() float64 {
	t := s.empty.weight
	for c := range s.single {
		t += s.single[c].weight
	}
	return t
}

// one notes how a set of one or none stands to each observation, and writes its vector.
func (s *sums) one(w *worker, set []int32, vector []float64) single {
	v := s.v
	k := len(v.obs)
	x := single{touched: newBits(k), odd: newBits(k), coins: newBits(k), states: newBits(len(v.net.state)), seen: make([]float64, len(s.odd))}
	sv := w.solver
	sv.axis = s.axes.of
	sv.set(v, set, nil)
	for j, i := range s.odd {
		x.seen[j] = 1
		if k := sv.seen[i]; k > 0 {
			t := &sv.touched[k-1]
			x.seen[j] = t.flat + t.steep*t.mean
		}
	}
	for i := range sv.touched {
		t := &sv.touched[i]
		x.touched.set(t.obs)
		if t.flat != 0 || t.held > 0 || t.over != 0 {
			x.odd.set(t.obs)
			x.apart = x.apart || s.axes.of[t.obs] < 0 && t.times > 0
		}
		if t.coin.share > .5 {
			x.coins.set(t.obs)
		}
	}
	for i := range sv.node {
		x.states.set(sv.node[i].state)
	}
	x.rough = s.axes.vector(v, sv, vector)
	sv.clear()
	sv.axis = nil
	if len(set) == 0 {
		w.rough = false
		x.with = v.likelihood(w, nil, nil)
		combined, _, _ := v.combined(w, nil, x.with)
		x.rough = w.rough
		if x.pattern = 1; combined != x.with {
			x.pattern = over(combined, x.with)
		}
	}
	return x
}
