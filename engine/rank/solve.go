package rank

// A solver sums a scene over all that its states may do. What can be summed
// state by state is folded away first; the rest is summed out one after another
// (see eliminate.go). Where that would take more than the budget, states that
// matter least stand by themselves (see part.go).
type solver struct {
	scene
	budget int  // numbers worth writing for one set
	back   bool // work out the chance of every state as well

	rough  bool   // the last sum left some dependence between states out
	live   []live // states not folded away, each before those it leads to
	edges  []edge // of all live states, by live.edges
	shown  []link // of all live states, by live.links
	place  []int32
	coord  []factor // observations that several states share
	slot   []int32  // by touched: coordinate + 1
	folded []fold
	mass   []float64 // by live state: its part of the sum, with back
	absent []float64
	pull   []float64 // by live state
	run    elimination
}

// A live state has links to coordinates and edges to live states.
type live struct {
	node        int32
	given       float64
	off, on     float64
	chance      float64
	edges, end  int32
	links, stop int32
}

// A fold remembers how a state was folded away, to find its chance afterwards.
type fold struct {
	node    int32
	ways    int // 0 alone, 1 into its parent, 2 it bears on nothing
	parent  int32
	s       float64
	off, on float64
}

func newSolver(v *view) *solver { return &solver{scene: *newScene(v)} }

// sum returns the likelihood of the scene relative to that of the empty set.
func (s *solver) sum() float64 {
	s.rough = false
	s.live, s.folded, s.coord = s.live[:0], s.folded[:0], s.coord[:0]
	if s.scale == 0 {
		return 0
	}
	scale := s.scale * s.fold()
	s.coordinates()
	if scale == 0 || len(s.live) == 0 {
		return scale
	}
	scale *= s.within(0)
	if s.back {
		s.mass, s.absent = resized(s.mass, len(s.live)), resized(s.absent, len(s.live))
	}
	return scale * s.run.sum(s)
}

// vector returns the sum with every way of asking for so many axes, after the
// scene is set.
func (s *solver) vector(axes int, out []float64) {
	s.rough = false
	s.live, s.folded, s.coord = s.live[:0], s.folded[:0], s.coord[:0]
	scale := s.scale * s.fold()
	s.coordinates()
	scale *= s.within(axes)
	s.run.vector(s, axes, scale, out)
}

// within plans the sum within the budget, and returns what the states left out
// of it count.
func (s *solver) within(axes int) float64 {
	scale := 1.0
	for s.run.plan(s, axes) > s.budget && len(s.live) > 1 {
		s.rough = true
		scale *= s.part(axes)
	}
	return scale
}

// fold sums out every state that leads nowhere and shares no observation,
// as long as at most one other leads to it, and returns their common factor.
func (s *solver) fold() float64 {
	scale := 1.0
	for i := range s.node {
		x := &s.node[i]
		for _, e := range s.parents[x.parents:x.end] {
			s.node[e.node].kids++
		}
	}
	for i := len(s.node) - 1; i >= 0; i-- {
		x := &s.node[i]
		if x.kids > 0 || s.shares(x) {
			continue
		}
		from := s.parents[x.parents:x.end]
		f := fold{node: int32(i), off: x.off, on: x.on}
		switch {
		case x.off == x.on:
			f.ways = 2
			scale *= x.off
		case len(from) == 0:
			scale *= (1-x.given)*x.off + x.given*x.on
		case len(from) == 1:
			f.ways, f.parent, f.s = 1, from[0].node, from[0].s
			p := &s.node[f.parent]
			there := 1 - (1-x.given)*(1-f.s)
			p.off *= (1-x.given)*x.off + x.given*x.on
			p.on *= (1-there)*x.off + there*x.on
		default:
			continue
		}
		for _, e := range from {
			s.node[e.node].kids--
		}
		x.kids = -1
		s.folded = append(s.folded, f)
	}
	return scale
}

// shares says whether a state bears on an observation that others bear on too.
func (s *solver) shares(x *node) bool {
	for _, l := range s.links[x.links:x.stop] {
		if s.onAxis(l.obs) {
			if s.axis[l.obs] > 0 {
				return true
			}
			continue
		}
		if t := &s.touched[s.seen[l.obs]-1]; t.flat != 0 && t.times > 1 {
			return true
		}
	}
	return false
}

// coordinates numbers the live states and the observations they share.
func (s *solver) coordinates() {
	s.slot = resized(s.slot, len(s.touched))
	s.place = resized(s.place, len(s.node))
	s.edges, s.shown = s.edges[:0], s.shown[:0]
	for i := range s.node {
		x := &s.node[i]
		if x.kids < 0 {
			continue
		}
		s.place[i] = int32(len(s.live))
		l := live{node: int32(i), given: x.given, off: x.off, on: x.on, chance: x.chance}
		l.edges = int32(len(s.edges))
		for _, e := range s.parents[x.parents:x.end] {
			s.edges = append(s.edges, edge{s.place[e.node], e.s})
		}
		l.end = int32(len(s.edges))
		l.links = int32(len(s.shown))
		for _, k := range s.scene.links[x.links:x.stop] {
			at := s.seen[k.obs] - 1
			t := &s.touched[at]
			if s.onAxis(k.obs) {
				if a := s.axis[k.obs]; a > 0 {
					s.shown = append(s.shown, link{a - 1, k.left})
				}
				continue
			}
			if t.flat == 0 || t.times < 2 {
				continue
			}
			if s.slot[at] == 0 {
				s.coord = append(s.coord, t.factor)
				s.slot[at] = int32(len(s.coord))
			}
			s.shown = append(s.shown, link{s.slot[at] - 1, k.left})
		}
		l.stop = int32(len(s.shown))
		s.live = append(s.live, l)
	}
}

// resized returns a slice of n zeros, in the old one's room if there is enough.
func resized[T any](old []T, n int) []T {
	if cap(old) < n {
		return make([]T, n, n+n/2)
	}
	old = old[:n]
	clear(old)
	return old
}

// present writes the chance that each state of the scene is there, given all that
// is known, into out, by the scene's node. It follows a sum with back.
func (s *solver) present(out []float64) []float64 {
	out = resized(out, len(s.node))
	for j, l := range s.live {
		if all := s.mass[j] + s.absent[j]; all > 0 {
			out[l.node] = s.mass[j] / all
		}
	}
	for i := len(s.folded) - 1; i >= 0; i-- {
		f := s.folded[i]
		x := &s.node[f.node]
		there := func(p float64) float64 {
			if all := (1-p)*f.off + p*f.on; all > 0 {
				return p * f.on / all
			}
			return p
		}
		switch f.ways {
		case 0:
			out[f.node] = there(x.given)
		case 1:
			up := out[f.parent]
			out[f.node] = up*there(1-(1-x.given)*(1-f.s)) + (1-up)*there(x.given)
		case 3:
			out[f.node] = x.chance
		default:
			stays := 1 - x.given
			for _, e := range s.parents[x.parents:x.end] {
				stays *= 1 - e.s*out[e.node]
			}
			out[f.node] = 1 - stays
		}
	}
	return out
}
