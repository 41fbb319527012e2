package rank

// part takes the live state that matters least out of the sum and lets it stand
// by itself, at the chance it has before any sign: what it leads to has a leak
// for it, what it shows a mean. It returns what the state counts alone.
// An axis it shows is taken to know nothing of it.
func (s *solver) part(axes int) float64 {
	gone := s.least()
	x := s.live[gone]
	for _, l := range s.shown[x.links:x.stop] {
		if axes == 0 {
			s.coord[l.obs].steep *= 1 - x.chance*(1-l.left)
		}
	}
	s.live = append(s.live[:gone], s.live[gone+1:]...)
	for j := range s.live {
		y := &s.live[j]
		end := y.edges
		for _, e := range s.edges[y.edges:y.end] {
			switch {
			case e.node == gone:
				y.given = 1 - (1-y.given)*(1-e.s*x.chance)
				continue
			case e.node > gone:
				e.node--
			}
			s.edges[end] = e
			end++
		}
		y.end = end
	}
	s.folded = append(s.folded, fold{node: x.node, ways: 3})
	return (1-x.chance)*x.off + x.chance*x.on
}

// least returns the live state whose being there, or not, moves what hangs on
// it least.
func (s *solver) least() int32 {
	s.weigh()
	least := int32(0)
	for j := range s.live {
		if s.moves(int32(j)) < s.moves(least) {
			least = int32(j)
		}
	}
	return least
}

func (s *solver) moves(j int32) float64 {
	c := s.live[j].chance
	return c * (1 - c) * s.pull[j]
}

// weigh works out how much hangs on each state: how far the chances of what it shows,
// itself and through others, move with it.
func (s *solver) weigh() {
	s.pull = resized(s.pull, len(s.live))
	for j := len(s.live) - 1; j >= 0; j-- {
		x := &s.live[j]
		d := x.on - x.off
		pull := over(d*d, max(x.on*x.on, x.off*x.off))
		for _, l := range s.shown[x.links:x.stop] {
			pull += (1 - l.left) * (1 - l.left)
		}
		s.pull[j] += pull
		for _, e := range s.edges[x.edges:x.end] {
			s.pull[e.node] += e.s * e.s * s.pull[j]
		}
	}
}
