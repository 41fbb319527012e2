package rank

import (
	"math"
	"slices"
)

// A single is what is known of a set of one cause.
type single struct {
	weight  float64 // with everything
	like    float64 // likelihood relative to the empty set's
	with    float64 // the same, patterns not counted
	pattern float64 // what the patterns multiply it by
	right   float64 // what the sum makes of the vector
	points  float64
	rough   bool
	apart   bool // its states bear on true signs that are no axis
	touched bits // observations it bears on
	odd     bits // those of them whose factors do not simply multiply
	liar    bool // it makes a coin of one that is no axis
	coins   bits // those of them that it makes a coin
	states  bits // states of its that bear on something
	seen    []float64
	heldBy  [maxAxes]float64 // by axis: see axes.own
}

func (v *view) bears(c int) bool {
	if len(v.over[c])+len(v.held[c])+len(v.coins[c]) > 0 {
		return true
	}
	return slices.ContainsFunc(v.net.reach[c], func(r tie) bool { return v.bearing[r.to] })
}

// weighSingles sums the empty set and every set of one, by the vectors that the
// sets of two need anyway.
func (s *sums) weighSingles() {
	v := s.v
	s.newAxes()
	w := newWorker(v)
	s.empty = s.one(w, nil, s.axes.none)
	copy(s.axes.alone, s.axes.none)
	s.axes.split(s.axes.alone, make([]float64, len(s.axes.none)), &s.empty.heldBy)
	s.empty.weight = v.net.empty * s.empty.with * s.empty.pattern
	bears := make([]bool, len(s.single))
	for c := range bears {
		if bears[c] = v.bears(c); bears[c] {
			s.touched = append(s.touched, int32(c))
		}
	}
	s.kin = v.kin()
	v.each(len(s.kin.first), func(w *worker, i int) {
		c := int(s.kin.first[i])
		lights, leaves := s.axes.row(c)
		if bears[c] || len(v.holding) > 0 {
			set := [1]int32{int32(c)}
			s.single[c] = s.one(w, set[:], lights)
		} else {
			s.single[c] = s.empty
			s.single[c].rough = false
			copy(lights, s.axes.none)
		}
		s.axes.split(lights, leaves, &s.single[c].heldBy)
		s.firstLook(w, c, leaves)
		for _, k := range s.kin.of[i] {
			s.single[k] = s.single[c]
			s.single[k].weight = v.odds[k] * s.single[c].like
		}
	})
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
func (s *sums) firstLook(w *worker, c int, leaves []float64) {
	x := &s.single[c]
	v := s.v
	sum := s.axes.value(leaves)
	for _, j := range s.axes.otherJ {
		if i := s.odd[j]; v.obs[i].truth || x.coins.has(i) {
			sum *= x.seen[j]
		}
	}
	set := [1]int32{int32(c)}
	x.with, x.right = sum, 1
	apart := sum == 0 || x.apart
	if apart || v.net.opts.Unbudgeted || s.few() {
		w.rough = false
		x.with = v.likelihood(w, set[:], nil)
		x.rough = w.rough
	}
	if apart && sum > 0 && x.with > 0 {
		x.right = x.with / sum
	}
	s.finish(w, c)
}

// few says that there are so few causes that there is no need for a first look.
func (s *sums) few() bool { return len(s.single) <= 60 }

// finish counts the patterns in.
func (s *sums) finish(w *worker, c int) {
	x := &s.single[c]
	w.rough = false
	set := [1]int32{int32(c)}
	combined, _, _ := s.v.combined(w, set[:], x.with)
	x.rough = x.rough || w.rough
	if x.pattern = 1; combined != x.with {
		x.pattern = over(combined, x.with)
	}
	x.like = x.with * x.pattern
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
			x.apart = x.apart || sv.onAxis(t.obs) && s.axes.of[t.obs] < 0 && t.times > 0
		}
		if t.coin.share > 0 {
			x.liar = x.liar || s.axes.of[t.obs] < 0
			x.coins.set(t.obs)
		}
	}
	for i := range sv.node {
		x.states.set(sv.node[i].state)
	}
	x.rough = s.axes.vector(v, sv, vector, &x.heldBy)
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
