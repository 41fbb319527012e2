package rank

import (
	"cmp"
	"slices"
)

// Sets of two. Where two causes meet in no state and no true sign the
// likelihood is the product of theirs, exactly. Else the product of their vectors is
// an estimate, and sets are summed in full in falling order of it until what
// is left no longer matters.

// settled is the share of the weight below which estimates may stand.
const settled = 1e-6

// A guess is an estimate that might be summed in full.
type guess struct {
	a, b   int32
	weight float64
}

// weighPairs adds all sets of two.
func (s *sums) weighPairs() {
	n := s.v.net
	if n.opts.MaxSize == 1 || len(s.single) < 2 {
		return
	}
	s.size = 2
	k := len(s.single)
	rows := make([][]guess, k)
	plain := make([]pairRow, k)
	floor := s.total * min(1e-5, .003/float64(n.opts.FullSets))
	if n.opts.Unbudgeted || k*(k-1)/2 <= n.opts.FullSets {
		floor = 0
	}
	s.v.each((k+3)/4, quick, func(_ *worker, i int) {
		dots := s.fourRows(4 * i)
		for a := 4 * i; a < min(4*i+4, k); a++ {
			rows[a], plain[a] = s.row(int32(a), dots[a-4*i], floor)
		}
	})
	var list []guess
	for a := range rows {
		list = append(list, rows[a]...)
		for b, w := range plain[a].with {
			s.chance[a+1+b] += w
		}
		s.chance[a] += plain[a].own
		s.total += plain[a].sum
		s.rest += plain[a].rest
	}
	for a := range plain {
		s.sets = append(s.sets, plain[a].heavy...)
	}
	slices.SortFunc(list, func(a, b guess) int {
		return cmp.Or(cmp.Compare(b.weight, a.weight), cmp.Compare(a.a, b.a), cmp.Compare(a.b, b.b))
	})
	left := 0.0
	for _, g := range list {
		left += g.weight
	}
	inFull := 0
	for inFull < len(list) && (n.opts.Unbudgeted || k*(k-1)/2 <= n.opts.FullSets || inFull < n.opts.FullSets && left > settled*s.total) {
		left -= list[inFull].weight
		inFull++
	}
	out := make([]weighed, len(list))
	s.v.each(inFull, full, func(w *worker, i int) {
		g := list[i]
		out[i] = s.inFull(w, []int32{g.a, g.b})
	})
	for i, g := range list {
		if i >= inFull {
			out[i] = weighed{[]int32{g.a, g.b}, g.weight, false}
			s.rest += g.weight
		}
		s.add(out[i])
	}
}

// A pairRow gathers the sets of a with each later cause that need no
// second look.
type pairRow struct {
	with  []float64 // by later cause
	own   float64   // weight of the sets in which the cause itself earns its place
	sum   float64
	rest  float64 // of sum: sets whose causes meet
	heavy []weighed
}

// earns says whether cause c earns its place beside cause other in a set of
// that weight: by [Options.Earn], the set must explain what is known so many
// times better than the other alone. One that only keeps it company would be
// counted for how common it is.
func (s *sums) earns(c, other int32, weight float64) bool {
	return s.v.net.opts.Earn == 0 || weight >= s.v.net.opts.Earn*s.single[other].weight*s.v.odds[c]
}

// row estimates the sets of a with each later cause. Those of at least the floor's weight whose
// causes meet are returned to be looked at again.
func (s *sums) row(a int32, dots []float64, floor float64) ([]guess, pairRow) {
	x := &s.single[a]
	var list []guess
	row := pairRow{with: make([]float64, len(s.single)-int(a)-1)}
	for b := a + 1; int(b) < len(s.single); b++ {
		y := &s.single[b]
		w, meet := s.estimate(a, b, x, y, dots[b])
		if meet && w >= floor {
			list = append(list, guess{a, b, w})
			continue
		}
		if s.earns(b, a, w) {
			row.with[b-a-1] = w
		}
		if s.earns(a, b, w) {
			row.own += w
		}
		row.sum += w
		if meet {
			row.rest += w
		}
		if w > 1e-4*s.total {
			row.heavy = append(row.heavy, weighed{[]int32{a, b}, w, x.rough || y.rough})
		}
	}
	return list, row
}

// fourRows returns the products of four causes' vectors, from the a-th on, with those of
// every later cause, by cause.
func (s *sums) fourRows(a int) [4][]float64 {
	k := len(s.single)
	var out [4][]float64
	var four [4][]float64
	for i := range out {
		out[i] = make([]float64, k)
		_, four[i] = s.axes.row(min(a+i, k-1))
	}
	for b := a + 1; b < k; b += 2 {
		next := min(b+1, k-1)
		p, _ := s.axes.row(b)
		q, _ := s.axes.row(next)
		x, y := dots(four, p, q)
		for i := range out {
			out[i][next], out[i][b] = y[i], x[i]
		}
	}
	return out
}

// estimate returns the weight of a set of two from the product of their
// vectors, and whether the two meet, so that it is no more than an estimate.
func (s *sums) estimate(a, b int32, x, y *single, dot float64) (float64, bool) {
	v := s.v
	w := v.odds[a] * v.odds[b]
	if v.patterned(x, y, s.empty) {
		return w * s.product(a, b, x, y, dot) * pairPattern(x.pattern, y.pattern, s.empty.pattern), true
	}
	if len(v.leaky) == 0 && s.empty.with > 0 && !x.odd.meets(y.touched) && !y.odd.meets(x.touched) {
		return w * x.with * y.with / s.empty.with, x.states.meets(y.states)
	}
	return w * s.product(a, b, x, y, dot), true
}

func (v *view) patterned(x, y *single, empty single) bool {
	return len(v.holding) > 0 && (x.pattern != 1 || y.pattern != 1 || empty.pattern != 1)
}

// pairPattern is what patterns do to two: what they do for the one they point to, else
// what they do to the worse.
func pairPattern(p, q, none float64) float64 {
	if m := max(p, q); m > none {
		return m
	}
	return min(p, q)
}

// product is the likelihood of two causes from the product of their vectors,
// put right by how far off each alone is. Where the product is lost in
// rounding both are poor, and the better of the two stands for both.
func (s *sums) product(a, b int32, x, y *single, dot float64) float64 {
	if dot <= s.axes.noise {
		return min(max(x.with, y.with), s.axes.noise)
	}
	for _, j := range s.axes.otherJ {
		dot *= s.both(j, x, y)
	}
	r, q := s.axes.right[a], s.axes.right[b]
	switch {
	case r > 1 && q > 1:
		r = max(r, q)
	case r < 1 && q < 1:
		r = min(r, q)
	default:
		r *= q
	}
	return dot * r
}

// both is the factor of one observation with two causes, relative to its base: that of the coin
// if there is one, else by noisy-OR.
func (s *sums) both(j int, x, y *single) float64 {
	i := s.odd[j]
	o := &s.v.obs[i]
	p, q, none := x.seen[j], y.seen[j], s.empty.seen[j]
	switch {
	case x.coins.has(i):
		return p
	case y.coins.has(i):
		return q
	case !o.truth:
		return over(p*q, none)
	}
	base := o.base
	if base == 0 {
		base, none = 1, 0
	}
	return max(0, 1-over((1-p*base)*(1-q*base), 1-none*base)) / base
}

// inFull sums a set with the whole budget.
func (s *sums) inFull(w *worker, set []int32) weighed {
	w.rough = false
	_, l := s.v.whole(w, set)
	for _, c := range set {
		l *= s.v.odds[c]
	}
	return weighed{set, l, w.rough}
}

// guess estimates the weight of a set of any size, as for two; where the empty
// set is impossible it looks at the true signs alone.
func (s *sums) guess(set []int32) float64 {
	w, pattern := 1.0, 0.0
	for _, c := range set {
		x := &s.single[c]
		w *= s.v.odds[c]
		if s.empty.with > 0 {
			w *= x.with / s.empty.with
		}
		pattern = max(pattern, x.pattern)
	}
	if s.empty.with > 0 {
		w *= s.empty.with
	}
	for j := range s.odd {
		w *= s.together(j, set)
	}
	return w * pattern
}
