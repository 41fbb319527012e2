package rank

import (
	"cmp"
	"slices"
)

// plan chooses the states to cut, the one whose missing leads would matter
// most first, until every state has at most one lead left uncut; it returns
// how many that takes.
func (t *tree) plan(s *solver) int {
	k := len(s.live)
	t.order = t.order[:0]
	t.cut = resized(t.cut, k)
	t.weigh(s)
	for {
		t.score = resized(t.score, k)
		for j := range s.live {
			best := t.strongest(s, j, len(t.order))
			for _, e := range t.edges[s.live[j].edges:s.live[j].end] {
				if p := e.node; t.cut[p] == 0 && p != best.node {
					c := s.live[p].chance
					t.score[p] += c * (1 - c) * e.s * e.s * t.pull[j]
				}
			}
		}
		worst := int32(-1)
		for p, x := range t.score {
			if x > 0 && (worst < 0 || x > t.score[worst]) {
				worst = int32(p)
			}
		}
		if worst < 0 {
			return len(t.order)
		}
		t.order = append(t.order, worst)
		t.cut[worst] = int32(len(t.order))
	}
}

// weigh works out how much hangs on each state: how far the chances of what it shows,
// itself and through others, move with it.
func (t *tree) weigh(s *solver) {
	k := len(s.live)
	t.pull = resized(t.pull, k)
	for j := k - 1; j >= 0; j-- {
		x := &s.live[j]
		d := x.on - x.off
		pull := over(d*d, max(x.on*x.on, x.off*x.off))
		for _, l := range t.links[x.links:x.stop] {
			pull += (1 - l.left) * (1 - l.left)
		}
		t.pull[j] += pull
		for _, e := range t.edges[x.edges:x.end] {
			t.pull[e.node] += e.s * e.s * t.pull[j]
		}
	}
}

// strongest returns the uncut state that most makes the j-th, when the first
// cuts of the plan are made; node -1 if none does.
func (t *tree) strongest(s *solver, j, cuts int) edge {
	best, most := edge{node: -1}, 0.0
	for _, e := range t.edges[s.live[j].edges:s.live[j].end] {
		if c := t.cut[e.node]; c > 0 && int(c) <= cuts {
			continue
		}
		p := s.live[e.node].chance
		if m := p * (1 - p) * e.s * e.s; best.node < 0 || m > most {
			best, most = e, m
		}
	}
	return best
}

// choose settles which coordinates are kept: those where a second state
// matters most.
func (t *tree) choose(s *solver, keep int) {
	m := len(s.coord)
	t.signs, t.spread = t.signs[:0], resized(t.spread, 2*m)
	for i := range m {
		t.signs = append(t.signs, int32(i))
	}
	if keep == m {
		return
	}
	first, second := t.spread[:m], t.spread[m:]
	for _, x := range s.live {
		for _, l := range t.links[x.links:x.stop] {
			w := x.chance * (1 - x.chance) * (1 - l.left) * (1 - l.left)
			second[l.obs] = max(second[l.obs], min(w, first[l.obs]))
			first[l.obs] = max(first[l.obs], w)
		}
	}
	slices.SortStableFunc(t.signs, func(a, b int32) int { return cmp.Compare(second[b], second[a]) })
}

// give hands one coordinate to the state that bears on it most.
func (t *tree) give(s *solver, obs int32) {
	best, most, left, mean := -1, -1.0, 1.0, 1.0
	for j := range s.live {
		x := &s.live[j]
		for _, l := range t.links[x.links:x.stop] {
			if l.obs != obs {
				continue
			}
			if w := x.chance * (1 - l.left); w > most {
				if best >= 0 {
					mean *= 1 - s.live[best].chance*(1-left)
				}
				best, most, left = j, w, l.left
			} else {
				mean *= 1 - x.chance*(1-l.left)
			}
		}
	}
	f := s.coord[obs]
	s.live[best].off *= f.flat + f.steep*mean
	s.live[best].on *= f.flat + f.steep*mean*left
}
