package rank

import (
	"cmp"

	"slices"
)

// Sets of two. Where two causes meet in no state and no true sign the
// likelihood is the product of theirs, exactly. Else the product of their vectors is
// a first look, by which is settled which sets are summed in full.

// faint is the share of the weight below which sets do not matter, all together.
const faint = 1e-6

// patternLeeway is how far off the first look may be where patterns hold.
const patternLeeway = 1.5

// rounding is what a set may be short of its place by rounding alone: where one cause
// adds just what it is asked for, the way the sum was done must not decide.
const rounding = 1e-9

// block is how many sets are summed before a look at how much is left.
const block = 128

// A guess is the first look at the sets of one cause of a kind with one of another.
type guess struct {
	a, b int32   // kinds, by place
	like float64 // likelihood at the first look
	most float64 // what they may well weigh, all together
	meet bool
}

// weighPairs adds all sets of two that count.
func (s *sums) weighPairs() {
	n := s.v.net
	if n.opts.MaxSize == 1 || len(s.single) < 2 {
		return
	}
	s.size = 2
	k := len(s.kin.first)
	rows := make([][]guess, k)
	s.v.each((k+3)/4, func(_ *worker, i int) {
		dots := s.fourRows(4 * i)
		for a := 4 * i; a < min(4*i+4, k); a++ {
			rows[a] = s.row(int32(a), dots[a-4*i])
		}
	})
	var again []guess
	for _, row := range rows {
		for _, g := range row {
			if g.meet {
				again = append(again, g)
			} else {
				s.addKin(g, g.like, false)
			}
		}
	}
	s.inFull(again)
}

// inFull sums the sets that the first look left open, in falling order of what
// they may weigh, until the rest do not matter, and adds those that count.
func (s *sums) inFull(list []guess) {
	all := s.v.net.opts.Unbudgeted || s.v.net.opts.Unscreened || s.few()
	if least := faint / 10 * s.total / float64(max(1, len(list))); !all { // what need not even be sorted
		list = slices.DeleteFunc(list, func(g guess) bool { return g.most < least })
	}
	slices.SortFunc(list, func(a, b guess) int {
		return cmp.Or(cmp.Compare(b.most, a.most), cmp.Compare(a.a, b.a), cmp.Compare(a.b, b.b))
	})
	likes, rough := make([]float64, block), make([]bool, block)
	rest := 0.0
	for _, g := range list {
		rest += g.most
	}
	for from := 0; from < len(list); from += block {
		if !all && rest < faint*s.total {
			return
		}
		if !all && from >= s.v.net.opts.FullSets {
			s.asGuessed(list[from:])
			return
		}
		some := list[from:min(from+block, len(list))]
		s.v.each(len(some), func(w *worker, i int) {
			set := s.two(some[i])
			w.rough = false
			_, likes[i] = s.v.whole(w, set[:])
			rough[i] = w.rough
		})
		for i, g := range some {
			rest -= g.most
			s.addKin(g, likes[i], rough[i])
		}
	}
}

// two returns a set of two of those that a guess is about.
func (s *sums) two(g guess) [2]int32 {
	if g.a == g.b {
		return [2]int32{s.kin.of[g.a][0], s.kin.of[g.a][1]}
	}
	x, y := s.kin.first[g.a], s.kin.first[g.b]
	return [2]int32{min(x, y), max(x, y)}
}

// asGuessed adds what is beyond the budget at the first look's likelihood.
func (s *sums) asGuessed(list []guess) {
	for _, g := range list {
		was := s.total
		s.addKin(g, g.like, false)
		s.rest += s.total - was
	}
}

// addKin adds the sets of one cause of a kind with one of another, if they
// count.
func (s *sums) addKin(g guess, like float64, rough bool) {
	if !s.counts(g.a, g.b, like) {
		return
	}
	for i, a := range s.kin.of[g.a] {
		others := s.kin.of[g.b]
		if g.a == g.b {
			others = others[i+1:]
		}
		for _, b := range others {
			w := like * s.v.odds[a] * s.v.odds[b]
			s.chance[a] += w
			s.chance[b] += w
			s.gather(w, rough)
			if s.few() || w > keep*s.total {
				s.sets = append(s.sets, weighed{[]int32{min(a, b), max(a, b)}, w, rough})
			}
		}
	}
}

// counts says whether a set of two counts: by [Options.Earn] each of the
// two must make what is known so many times likelier than the other alone
// does. One that only keeps it company would be counted for how common it is.
func (s *sums) counts(a, b int32, like float64) bool {
	return like > 0 && like >= s.v.net.opts.Earn*s.better(a, b)*(1-rounding)
}

// better is the likelihood of the better of the two alone.
func (s *sums) better(a, b int32) float64 {
	return max(s.single[s.kin.first[a]].like, s.single[s.kin.first[b]].like)
}

// row has a first look at the sets of a kind with itself and each later one,
// and returns those that count or that want a second.
func (s *sums) row(a int32, dots []float64) []guess {
	var row []guess
	x := &s.single[s.kin.first[a]]
	for b := a; int(b) < len(s.kin.first); b++ {
		if a == b && len(s.kin.of[a]) < 2 {
			continue
		}
		y := &s.single[s.kin.first[b]]
		g := guess{a: a, b: b}
		g.like, g.meet = s.estimate(x, y, dots[b])
		if !g.meet {
			if s.counts(a, b, g.like) {
				row = append(row, g)
			}
			continue
		}
		earned, most := s.v.net.opts.Earn*s.better(a, b)*(1-rounding), s.most(x, y, g.like)
		if x.liar || y.liar { // the first look knows little of what it hides
			most = max(most, earned)
		}
		if most >= earned || s.v.net.opts.Unscreened {
			g.most = most * s.kin.odds[a] * s.kin.odds[b]
			row = append(row, g)
		}
	}
	return row
}

// fourRows returns the products of four kinds' vectors, from the a-th on, with
// those of themselves and every later one, by kind.
func (s *sums) fourRows(a int) [4][]float64 {
	k := len(s.kin.first)
	of := func(i int) int { return int(s.kin.first[min(i, k-1)]) }
	var out [4][]float64
	var four [4][]float64
	for i := range out {
		out[i] = make([]float64, k)
		four[i], _ = s.axes.row(of(a + i))
	}
	for b := a; b < k; b += 2 {
		next := min(b+1, k-1)
		_, p := s.axes.row(of(b))
		_, q := s.axes.row(of(next))
		x, y := dots(four, p, q)
		for i := range out {
			out[i][next], out[i][b] = y[i], x[i]
		}
	}
	return out
}

// most is what the likelihood of two causes may well be where patterns hold: each of the
// two may have those that point to it, and what the patterns stand for may count
// another way for two than for one.
func (s *sums) most(x, y *single, like float64) float64 {
	if s.v.patterned(x, y, s.empty) {
		none := s.empty.pattern
		like *= patternLeeway * max(x.pattern, y.pattern, over(x.pattern*y.pattern, none)) / pairPattern(x.pattern, y.pattern, none)
	}
	return like
}

// estimate returns the likelihood of a set of two from the product of their
// vectors, and whether the two meet, so that it is no more than an estimate.
func (s *sums) estimate(x, y *single, dot float64) (like float64, meet bool) {
	v := s.v
	if v.patterned(x, y, s.empty) {
		return s.product(x, y, dot) * pairPattern(x.pattern, y.pattern, s.empty.pattern), true
	}
	if len(v.leaky) == 0 && s.empty.with > 0 && !x.odd.meets(y.touched) && !y.odd.meets(x.touched) {
		return x.with * y.with / s.empty.with, x.states.meets(y.states)
	}
	return s.product(x, y, dot), true
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
func (s *sums) product(x, y *single, dot float64) float64 {
	if dot <= s.axes.noise {
		return min(max(x.with, y.with), s.axes.noise)
	}
	for _, j := range s.axes.otherJ {
		dot *= s.both(j, x, y)
	}
	r, q := x.right, y.right
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
	a, b := x.coins.has(i), y.coins.has(i)
	switch {
	case o.truth && a, a && b:
		return p
	case o.truth && b:
		return q
	case a: // what the other makes of it is in its vector and goes
		return over(p*none, q)
	case b:
		return over(q*none, p)
	case !o.truth:
		return 1
	}
	base := o.base
	if base == 0 {
		base, none = 1, 0
	}
	return max(0, 1-over((1-p*base)*(1-q*base), 1-none*base)) / base
}

// whole sums a set in full.
func (s *sums) whole(w *worker, set []int32) weighed {
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
