package rank

// A scene is one set of causes before what is known: the states it can bring
// about that bear on an observation, and what each observation makes of them.
// Every observation's factor is flat + steep·N with N the product, over
// the states that are there, of one minus their strength; all factors are taken
// relative to those of the empty set, so that what nothing bears on costs nothing.
type scene struct {
	scale   float64 // factors that no state moves
	node    []node
	parents []edge // of all nodes, by node.parents
	links   []link // of all nodes, by node.links
	gone    []bool // by observation: left out
	touched []touch
	at      []int32 // by state: node + 1
	seen    []int32 // by observation: touched + 1
	axis    []int32 // by observation: axis + 1, or -1 to leave it to others, when vectors are asked for (see vector.go); else nil
}

type node struct {
	state        int32
	from         uint32 // members of the set that reach it, a bit each; the top bit for a leak
	given        float64
	off, on      float64 // factors of observations it alone decides
	chance       float64 // of being there, before any sign, near enough
	parents, end int32
	links, stop  int32
	kids         int32
}

type edge struct {
	node int32
	s    float64
}

// A link says what is left of an observation's N when the state is there.
type link struct {
	obs  int32
	left float64
}

type factor struct{ flat, steep float64 }

type touch struct {
	obs   int32
	over  uint32  // members with a word of their own
	false float64 // (1-leak) times what the words leave
	held  float64
	coin  coin
	times int32
	only  int32
	mean  float64 // N, near enough
	factor
}

const leakBit = 1 << 31

func newScene(v *view) *scene {
	return &scene{gone: make([]bool, len(v.obs)), at: make([]int32, len(v.net.state)), seen: make([]int32, len(v.obs))}
}

// set builds the scene of a set of causes with some observations left out.
func (s *scene) set(v *view, set []int32, without []int32) {
	s.scale = 1
	s.node, s.parents, s.links, s.touched = s.node[:0], s.parents[:0], s.links[:0], s.touched[:0]
	for _, i := range without {
		s.gone[i] = true
	}
	for bit, c := range set {
		s.own(v, int(c), bit)
	}
	s.states(v, set)
	s.bear(v, set)
	s.settle(v)
	for _, i := range without {
		s.gone[i] = false
	}
}

// clear makes the marks ready for the next set.
func (s *scene) clear() {
	for i := range s.node {
		s.at[s.node[i].state] = 0
	}
	for i := range s.touched {
		s.seen[s.touched[i].obs] = 0
	}
}

func (s *scene) touch(v *view, i int32) *touch {
	if k := s.seen[i]; k > 0 {
		return &s.touched[k-1]
	}
	s.touched = append(s.touched, touch{obs: i, false: 1, mean: 1})
	s.seen[i] = int32(len(s.touched))
	return &s.touched[len(s.touched)-1]
}

func (s *scene) own(v *view, c, bit int) {
	for _, o := range v.over[c] {
		if !s.gone[o.obs] {
			t := s.touch(v, o.obs)
			t.false *= o.false
			t.over |= 1 << bit
		}
	}
	for _, h := range v.held[c] {
		if !s.gone[h.to] {
			t := s.touch(v, h.to)
			t.held = max(t.held, h.s)
		}
	}
	for _, k := range v.coins[c] {
		if !s.gone[k.sign] {
			if t := s.touch(v, k.sign); k.share > t.coin.share || k.share == t.coin.share && k.p > t.coin.p {
				t.coin = k
			}
		}
	}
}

// states lists the states that the set, or their own leak, can bring about and that bear on
// something known, each before those it leads to.
func (s *scene) states(v *view, set []int32) {
	n := v.net
	switch {
	case len(set) == 1 && len(v.leaky) == 0:
		for _, r := range n.reach[set[0]] {
			if v.bearing[r.to] {
				s.node = append(s.node, node{state: r.to, from: 1})
			}
		}
	case len(set) == 2 && len(v.leaky) == 0:
		s.mergeTwo(v, n.reach[set[0]], n.reach[set[1]])
	default:
		s.mergeMany(v, set)
	}
	for i := range s.node {
		x := &s.node[i]
		s.at[x.state] = int32(i) + 1
		x.given, x.off, x.on = 1-n.sleak[x.state], 1, 1
	}
	for _, c := range set {
		for _, g := range n.gives[c] {
			if i := s.at[g.to]; i > 0 {
				s.node[i-1].given *= 1 - g.s
			}
		}
	}
	for i := range s.node {
		x := &s.node[i]
		x.parents = int32(len(s.parents))
		stays := x.given
		for _, p := range n.parents[x.state] { // a path too faint for one member is none beside another
			if k := s.at[p.to]; k > 0 && s.node[k-1].from&x.from != 0 {
				s.parents = append(s.parents, edge{k - 1, p.s})
				stays *= 1 - p.s*s.node[k-1].chance
			}
		}
		x.end = int32(len(s.parents))
		x.given, x.chance = 1-x.given, 1-stays
	}
}

func (s *scene) mergeTwo(v *view, a, b []tie) {
	i, j := 0, 0
	for i < len(a) || j < len(b) {
		var x node
		switch {
		case j == len(b) || i < len(a) && a[i].to < b[j].to:
			x = node{state: a[i].to, from: 1}
			i++
		case i == len(a) || b[j].to < a[i].to:
			x = node{state: b[j].to, from: 2}
			j++
		default:
			x = node{state: a[i].to, from: 3}
			i, j = i+1, j+1
		}
		if v.bearing[x.state] {
			s.node = append(s.node, x)
		}
	}
}

func (s *scene) mergeMany(v *view, set []int32) {
	n := v.net
	from := make([]uint32, len(n.state))
	for bit, c := range set {
		for _, r := range n.reach[c] {
			from[r.to] |= 1 << bit
		}
	}
	for _, at := range v.leaky {
		from[at] |= leakBit
	}
	for at, f := range from {
		if f&leakBit != 0 {
			for _, t := range n.leads[at] {
				from[t.to] |= leakBit
			}
		}
		if f != 0 && v.bearing[at] {
			s.node = append(s.node, node{state: int32(at), from: f})
		}
	}
}

// bear ties the states to the observations. A member's own word on a sign
// takes the place of what comes through its states (see [Net.others]).
func (s *scene) bear(v *view, set []int32) {
	for i := range s.node {
		x := &s.node[i]
		x.links = int32(len(s.links))
		for _, l := range v.byState[x.state] {
			if s.gone[l.to] {
				continue
			}
			left := 1 - l.s
			if k := s.seen[l.to]; k > 0 {
				if over := s.touched[k-1].over; x.from&over != 0 && x.from&leakBit == 0 {
					left = v.leftAfterWords(&v.obs[l.to], x, set)
				}
			}
			if left == 1 {
				continue
			}
			t := s.touch(v, l.to)
			t.times++
			t.only = int32(i)
			t.mean *= 1 - x.chance*(1-left)
			s.links = append(s.links, link{l.to, left})
		}
		x.stop = int32(len(s.links))
	}
}

// factor returns the factor of an observation that is false with chance f, raised
// to its weight if it was told to be false, with no state there; relative to its base.
func (o *obs) factor(f float64, k coin) factor {
	x := factor{0, f}
	if o.truth {
		x = factor{1, temper(true, f, o.weight) - 1}
	}
	if k.share > 0 {
		p := k.p
		if !o.truth {
			p = 1 - p
		}
		x.flat = k.share*p + (1-k.share)*x.flat
		x.steep *= 1 - k.share
	}
	if o.base > 0 {
		x.flat /= o.base
		x.steep /= o.base
	}
	return x
}
