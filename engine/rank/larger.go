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

// faintSet is the share of the weight below which a set of three or more does not
// matter.
const faintSet = 1e-9

// weighSets has a first look at sets of three or more and sums those in full
// that may count. As of sets of two, one counts where each of its causes earns its place
// beside the others.
func (s *sums) weighSets(among []int32, size int) {
	parts := s.parts()
	var list []weighed
	choices(among, size, func(set []int32) {
		w := s.guess(set)
		if w < faintSet*s.total && !s.few() && !s.v.net.opts.Unbudgeted {
			return
		}
		if w >= s.v.net.opts.Earn*s.betterPart(parts, set) {
			list = append(list, weighed{slices.Clone(set), w, false})
		}
	})
	slices.SortStableFunc(list, func(a, b weighed) int { return cmp.Compare(b.weight, a.weight) })
	if n := s.v.net.opts.FullSets; len(list) > n && !s.v.net.opts.Unbudgeted {
		for _, x := range list[n:] {
			s.rest += x.weight
			s.add(x)
		}
		list = list[:n]
	}
	s.v.each(len(list), func(w *worker, i int) { list[i] = s.whole(w, list[i].set) })
	for _, x := range list {
		if x.weight > 0 && x.weight >= s.v.net.opts.Earn*s.betterPart(parts, x.set) {
			s.add(x)
		}
	}
}

// parts are the weights of the sets of two or more that count, by their causes.
func (s *sums) parts() map[string]float64 {
	m := make(map[string]float64, len(s.sets))
	for _, x := range s.sets {
		if len(x.set) > 1 {
			m[setKey(x.set)] = x.weight
		}
	}
	return m
}

func setKey(set []int32) string {
	b := make([]byte, 0, 4*8)
	for _, c := range set {
		b = append(b, byte(c), byte(c>>8), byte(c>>16), byte(c>>24))
	}
	return string(b)
}

// betterPart is what the best of the sets with one cause less would make of the
// weight of all: a set that does not count stands for its best single cause.
func (s *sums) betterPart(parts map[string]float64, set []int32) float64 {
	best := 0.0
	rest := make([]int32, 0, 8)
	for out, c := range set {
		rest = append(append(rest[:0], set[:out]...), set[out+1:]...)
		w, counts := parts[setKey(rest)]
		if !counts {
			for _, one := range rest {
				alone := s.single[one].weight
				for _, other := range rest {
					if other != one {
						alone *= s.v.odds[other]
					}
				}
				w = max(w, alone)
			}
		}
		best = max(best, w*s.v.odds[c])
	}
	return best
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
