package diagnose

import (
	"math"
	"slices"

	"snagwise/engine/knowledge"
)

// marginals works out how often each cause shows each sign, all its states
// summed over: what a list of signs cause by cause would say.
type marginals struct {
	f     *knowledge.Fitted
	only  []bool // by sign: those asked for; nil for all
	order []int  // states, each before those it leads to
	cause int    // the cause that now holds, or -1
	now   marginal

	chance []float64 // by state, of the cause in hand
	own    sparse
	never  sparse
}

// marginal is how often one cause shows each sign, by sign.
type marginal struct {
	all       *marginals
	viaStates sparse
	direct    sparse
	second    []float64 // 0 where the second opinion says nothing
	seconds   []int     // signs that the second opinion speaks of
}

// A sparse holds numbers of some signs and is emptied fast. Maps here, new for
// each cause, took 5 of the 45 ms of an engine (2 cores, 2026-11-25).
type sparse struct {
	value []float64
	has   []bool
	list  []int
}

func newSparse(n int) sparse { return sparse{value: make([]float64, n), has: make([]bool, n)} }

func (s *sparse) put(i int, v float64) {
	if !s.has[i] {
		s.has[i] = true
		s.list = append(s.list, i)
	}
	s.value[i] = v
}

func (s *sparse) empty() {
	for _, i := range s.list {
		s.has[i], s.value[i] = false, 0
	}
	s.list = s.list[:0]
}

func newMarginals(f *knowledge.Fitted, only []bool) *marginals {
	n := len(f.Signs)
	m := &marginals{f: f, only: only, cause: -1, chance: make([]float64, len(f.States)), own: newSparse(n), never: newSparse(n)}
	m.now = marginal{all: m, viaStates: newSparse(n), direct: newSparse(n), second: make([]float64, n)}
	seen := make([]bool, len(f.States))
	var visit func(i int)
	visit = func(i int) {
		if seen[i] {
			return
		}
		seen[i] = true
		for _, k := range f.States[i].LeadsTo {
			visit(k.To)
		}
		m.order = append(m.order, i)
	}
	for i := range f.States {
		visit(i)
	}
	slices.Reverse(m.order)
	return m
}

// of returns the marginal of a cause of the base; it holds until another is
// asked for.
func (m *marginals) of(cause int) *marginal {
	k := &m.now
	if m.cause == cause {
		return k
	}
	m.cause = cause
	c := &m.f.Base.Causes[cause]
	k.viaStates.empty()
	k.direct.empty()
	for _, s := range k.seconds {
		k.second[s] = 0
	}
	k.seconds = k.seconds[:0]
	clear(m.chance)
	for _, g := range c.Gives {
		m.chance[g.To] = g.By
	}
	for _, s := range m.order {
		p := m.chance[s]
		if p == 0 {
			continue
		}
		for _, to := range m.f.States[s].LeadsTo {
			m.chance[to.To] = 1 - (1-m.chance[to.To])*(1-p*to.By)
		}
		for _, sg := range m.f.States[s].Shows {
			if m.asked(sg.To) {
				k.viaStates.put(sg.To, math.Max(k.viaStates.value[sg.To], p*sg.By))
			}
		}
	}
	for _, d := range c.Direct {
		k.direct.put(d.To, d.By)
	}
	for _, n := range c.Never {
		k.direct.put(n, 0)
	}
	for _, d := range c.Second {
		if !m.asked(d.To) {
			continue
		}
		k.second[d.To] = d.By
		k.seconds = append(k.seconds, d.To)
	}
	return k
}

func (m *marginals) asked(sign int) bool { return m.only == nil || m.only[sign] }

// shown returns how often the cause shows a sign, by its own word or through
// its states.
func (k *marginal) shown(sign int) float64 {
	if k.direct.has[sign] {
		return k.direct.value[sign]
	}
	return k.viaStates.value[sign]
}

// words returns what a cause is given as its own word, in the order of signs.
func (k *marginal) words(c *knowledge.Cause, set Settings) []knowledge.Link {
	own, never := &k.all.own, &k.all.never
	own.empty()
	never.empty()
	for _, d := range c.Direct {
		if k.all.asked(d.To) {
			own.put(d.To, d.By)
		}
	}
	if set.CauseByCause {
		for _, s := range k.viaStates.list {
			if !own.has[s] {
				own.put(s, k.viaStates.value[s])
			}
		}
	}
	for _, n := range c.Never {
		never.put(n, 1)
	}
	for _, s := range k.seconds {
		p1, p2 := k.shown(s), k.second[s]
		switch {
		case never.has[s]:
		case set.SecondOpinion == Fill && p1 < .02,
			set.SecondOpinion == Average,
			set.SecondOpinion == Differ && (p1 < .02 || p2/math.Max(p1, .001) > 2.6 || p1/p2 > 2.6):
			own.put(s, (1-set.SecondWeight)*p1+set.SecondWeight*p2)
		}
	}
	slices.Sort(own.list)
	out := make([]knowledge.Link, len(own.list))
	for i, s := range own.list {
		out[i] = knowledge.Link{To: s, By: own.value[s]}
	}
	return out
}
