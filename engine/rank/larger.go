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
	for size := 3; size <= most && size <= len(among); size++ {
		list := choices(among, size)
		if list == nil {
			return
		}
		s.size = size
		s.weighSets(list)
	}
}

// mostSets is the most sets of one size beyond two.
const mostSets = 60000

// choices lists all sets of a size, or none at all if they are too many.
func choices(among []int32, size int) [][]int32 {
	count := 1.0
	for i := range size {
		count *= float64(len(among)-i) / float64(i+1)
	}
	if count > mostSets {
		return nil
	}
	var out [][]int32
	set := make([]int32, 0, size)
	var from func(i int)
	from = func(i int) {
		if len(set) == size {
			out = append(out, slices.Clone(set))
			return
		}
		for ; i <= len(among)-(size-len(set)); i++ {
			set = append(set, among[i])
			from(i + 1)
			set = set[:len(set)-1]
		}
	}
	from(0)
	return out
}

// weighSets estimates sets of three or more and sums the heaviest in full.
func (s *sums) weighSets(list [][]int32) {
	all := make([]weighed, len(list))
	left := 0.0
	for i, set := range list {
		all[i] = weighed{set, s.guess(set), false}
		left += all[i].weight
	}
	slices.SortStableFunc(all, func(a, b weighed) int { return cmp.Compare(b.weight, a.weight) })
	n := s.v.net
	inFull := 0
	for inFull < len(all) && (n.opts.Unbudgeted || len(all) <= n.opts.FullSets || inFull < n.opts.FullSets && left > settled*s.total) {
		left -= all[inFull].weight
		inFull++
	}
	s.v.each(inFull, full, func(w *worker, i int) { all[i] = s.inFull(w, all[i].set) })
	for i, x := range all {
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
