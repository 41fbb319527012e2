package rank

import (
	"cmp"
	"math"
	"slices"
)

// A Result is what follows from one sheet. It is immutable, and safe for use
// by several goroutines.
type Result struct {
	Causes []Cause // every cause, likeliest first; equal ones by number
	None   float64 // chance that none of those listed is there
	Sets   []Set   // sets of causes with more than 1e-4 of the weight, heaviest first, at most 200
	Kept   float64 // share of the weight that Sets holds
	Size   int     // most causes in one set that was weighed
	// Estimated is the share of the weight that lies in sets of which only an estimate was made
	// though their causes meet in a state or a sign; what the chances
	// say is good to about that much.
	Estimated float64
	// Rough is the share of the weight in sets whose states were too many
	// to sum exactly within the budget.
	Rough float64
	// LogEvidence is the natural logarithm of the chance of everything known
	// (patterns aside), given the priors as scaled and sets of up to Size.
	LogEvidence float64
	// Dropped are signs that add nothing: told twice, both ways, or vaguely beside
	// a more exact one.
	Dropped []Known

	view    *view
	singles []single
}

// A Cause is one cause with its chance of being there: the share of the
// weight in sets that contain it. Chances may add to more than 1, for two may be there.
type Cause struct {
	ID     int
	Chance float64
	Points float64 // of this cause alone against none: the total of its ledger
}

// A Set is a set of causes, in order of number, with its share of the
// weight; none at all is the empty set.
type Set struct {
	Causes []int
	Weight float64
}

// Posterior weighs every set of causes before the evidence.
func (n *Net) Posterior(e Evidence) *Result {
	v := n.viewOf(e)
	s := newSums(v)
	s.weighSingles()
	s.weighPairs()
	s.weighLarger()
	return s.result()
}

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

// sums is the weighing of one sheet.
type sums struct {
	v       *view
	single  []single
	empty   single
	axes    *axes
	odd     []int32 // observations that are true, or a coin to some cause
	touched []int32 // causes that bear on anything known
	sets    []weighed
	chance  []float64 // by cause: weight of the sets that contain it
	total   float64
	rest    float64 // weight that was only estimated
	rough   float64
	size    int
}

// A weighed is a set of causes with its weight.
type weighed struct {
	set    []int32
	weight float64
	rough  bool
}

func newSums(v *view) *sums {
	s := &sums{v: v, single: make([]single, len(v.net.odds)), chance: make([]float64, len(v.net.odds)), size: 1}
	tossed := newBits(len(v.obs))
	for _, list := range v.coins {
		for _, k := range list {
			tossed.set(k.sign)
		}
	}
	for i, o := range v.obs {
		if o.truth || tossed.has(int32(i)) {
			s.odd = append(s.odd, int32(i))
		}
	}
	return s
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
		x.points = 10 * math.Log10(x.weight/s.empty.weight)
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
	combined, _ := s.v.combined(w, set[:], x.with)
	x.rough = x.rough || w.rough
	if x.pattern = 1; combined != x.with {
		x.pattern = over(combined, x.with)
	}
	x.weight = s.v.odds[c] * x.with * x.pattern
}

// lookAgain sums the rough ones among the likely causes with the whole budget.
func (s *sums) lookAgain() {
	floor := 1e-3 * s.sumSingles()
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

// add counts a set in.
func (s *sums) add(x weighed) {
	s.total += x.weight
	for _, c := range x.set {
		s.chance[c] += x.weight
	}
	if x.rough {
		s.rough += x.weight
	}
	s.sets = append(s.sets, x)
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
		combined, _ := v.combined(w, nil, x.with)
		x.rough = w.rough
		if x.pattern = 1; combined != x.with {
			x.pattern = over(combined, x.with)
		}
	}
	return x
}

// result puts everything in order.
func (s *sums) result() *Result {
	v := s.v
	r := &Result{view: v, singles: s.single, Size: s.size, Dropped: v.dropped}
	if s.total > 0 {
		r.None = s.empty.weight / s.total
		r.Estimated, r.Rough = s.rest/s.total, s.rough/s.total
	}
	r.Causes = make([]Cause, len(s.single))
	for c := range r.Causes {
		r.Causes[c] = Cause{ID: c, Points: s.single[c].points}
		if s.total > 0 {
			r.Causes[c].Chance = s.chance[c] / s.total
		}
	}
	slices.SortFunc(r.Causes, func(a, b Cause) int { return cmp.Or(cmp.Compare(b.Chance, a.Chance), cmp.Compare(a.ID, b.ID)) })
	slices.SortStableFunc(s.sets, func(a, b weighed) int {
		return cmp.Or(cmp.Compare(b.weight, a.weight), slices.Compare(a.set, b.set))
	})
	for _, x := range s.sets {
		if len(r.Sets) == maxSets || !(x.weight > 1e-4*s.total) {
			break
		}
		set := Set{Causes: make([]int, len(x.set)), Weight: x.weight / s.total}
		for i, c := range x.set {
			set.Causes[i] = int(c)
		}
		r.Sets = append(r.Sets, set)
		r.Kept += set.Weight
	}
	r.LogEvidence = math.Log(s.total / s.prior())
	for _, o := range v.obs {
		if o.base > 0 {
			r.LogEvidence += math.Log(o.base)
		}
	}
	return r
}

// prior is the weight of all sets weighed, before any sign.
func (s *sums) prior() float64 {
	of := make([]float64, s.size+1) // by size of set
	of[0] = 1
	for c := range s.single {
		for k := s.size; k > 0; k-- {
			of[k] += of[k-1] * s.v.odds[c]
		}
	}
	t := s.v.net.empty
	for _, x := range of[1:] {
		t += x
	}
	return t
}

// maxSets is the most sets that a result keeps.
const maxSets = 200
