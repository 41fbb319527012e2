package rank

import (
	"cmp"
	"slices"
)

// weighLarger adds sets of three and more where few causes are in question.
func (s *sums) weighLarger() {
	n := s.v.net
	most := n.opts.MaxSize
	among := s.touched
	if s.few() { // few enough to take those along that bear on nothing known
		among = make([]int32, len(s.single))
		for c := range among {
			among[c] = int32(c)
		}
	}
	if most == 0 {
		if most = 3; len(among) > 60 {
			most = 2
		}
	}
	for size := 3; size <= most && size <= len(among) && count(len(among), size) <= mostSets; size++ {
		s.size = size
		s.weighSets(among, size)
	}
}

// mostSets is the most sets of one size beyond two.
const mostSets = 60000

// count returns how many sets of a size there are among n.
func count(n, size int) float64 {
	c := 1.0
	for i := range size {
		c *= float64(n-i) / float64(i+1)
	}
	return c
}

// choices calls do with every set of a size; the set is do's for the call only.
func choices(among []int32, size int, do func(set []int32)) {
	set := make([]int32, 0, size)
	var from func(i int)
	from = func(i int) {
		if len(set) == size {
			do(set)
			return
		}
		for ; i <= len(among)-(size-len(set)); i++ {
			set = append(set, among[i])
			from(i + 1)
			set = set[:len(set)-1]
		}
	}
	from(0)
}

// weighSets estimates sets of three or more and sums the heaviest in full, a
// third as many as of two: they weigh less.
func (s *sums) weighSets(among []int32, size int) {
	n := s.v.net
	floor := s.total * min(1e-5, .003/float64(n.opts.FullSets))
	every := n.opts.Unbudgeted || count(len(among), size) <= float64(n.opts.FullSets)
	if every {
		floor = 0
	}
	var heavy []weighed
	total, left := 0.0, 0.0
	choices(among, size, func(set []int32) {
		w := s.guess(set)
		if w >= floor {
			heavy = append(heavy, weighed{slices.Clone(set), w, false})
			left += w
			return
		}
		total += w
		for _, c := range set {
			s.chance[c] += w
		}
	})
	s.total += total
	s.rest += total
	slices.SortStableFunc(heavy, func(a, b weighed) int { return cmp.Compare(b.weight, a.weight) })
	inFull := 0
	for inFull < len(heavy) && (every || inFull < n.opts.FullSets/3 && left > settled*s.total) {
		left -= heavy[inFull].weight
		inFull++
	}
	s.v.each(inFull, full, func(w *worker, i int) { heavy[i] = s.inFull(w, heavy[i].set) })
	for i, x := range heavy {
		if i >= inFull {
			s.rest += x.weight
		}
		s.add(x)
	}
}

// together is the factor of one observation with a whole set, by noisy-OR,
// relative to the product of its causes' factors if there is one.
func (s *sums) together(j int, set []int32) float64 {
	o := &s.v.obs[s.odd[j]]
	base, none := o.base, s.empty.seen[j]
	if base == 0 {
		base, none = 1, 0
	}
	if none*base >= 1 {
		return 1
	}
	stays, product := 1-none*base, 1.0
	for _, c := range set {
		p := s.single[c].seen[j]
		if s.empty.with > 0 && p > 0 && none > 0 {
			product *= p / none
		}
		stays *= (1 - p*base) / (1 - none*base)
	}
	if !o.truth {
		return 1
	}
	if s.empty.with > 0 {
		product *= none * base
	}
	return over(max(1-stays, 0), product)
}
