package rank

// An enumeration sums over every configuration of the live states, most of
// the way by never visiting those that cannot be.
type enumeration struct {
	s     *solver
	there []bool
	left  []float64 // a row of N for each depth
}

func (r *enumeration) sum(s *solver) float64 {
	k, m := len(s.live), len(s.coord)
	r.s = s
	r.there = resized(r.there, k)
	r.left = resized(r.left, (k+1)*m)
	for i := range m {
		r.left[i] = 1
	}
	return r.from(0, 1)
}

// from sums over all that the states from the j-th on may do; w is the weight of
// what those before it do.
func (r *enumeration) from(j int, w float64) float64 {
	s := r.s
	m := len(s.coord)
	row := r.left[j*m : j*m+m]
	if j == len(s.live) {
		for i, f := range s.coord {
			w *= f.flat + f.steep*row[i]
		}
		return w
	}
	x := &s.live[j]
	stays := 1 - x.given
	for _, e := range s.edges[x.edges:x.end] {
		if r.there[e.node] {
			stays *= 1 - e.s
		}
	}
	next := r.left[(j+1)*m : (j+2)*m]
	off, on := 0.0, 0.0
	if u := w * stays * x.off; u != 0 {
		copy(next, row)
		r.there[j] = false
		off = r.from(j+1, u)
	}
	if u := w * (1 - stays) * x.on; u != 0 {
		copy(next, row)
		for _, l := range s.shown[x.links:x.stop] {
			next[l.obs] *= l.left
		}
		r.there[j] = true
		on = r.from(j+1, u)
		r.there[j] = false
	}
	if s.back {
		s.mass[j] += on
		s.absent[j] += off
	}
	return off + on
}
