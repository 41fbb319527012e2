package diagnose

import (
	"math"

	"snagwise/engine/knowledge"
)

// marginals works out how often each cause shows each sign, all its states
// summed over: what a list of signs cause by cause would say.
type marginals struct {
	f      *knowledge.Fitted
	set    Settings
	order  []int // states, each before those it leads to
	byBase map[int]*marginal
}

// marginal is how often one cause shows each sign.
type marginal struct {
	viaStates map[int]float64
	direct    map[int]float64
	second    map[int]float64
	against   map[int]bool
	covered   map[int]bool // signs that the second opinion speaks of at all
}

func newMarginals(f *knowledge.Fitted, set Settings) *marginals {
	m := &marginals{f: f, set: set, byBase: map[int]*marginal{}}
	state := make([]int8, len(f.States))
	var visit func(i int)
	visit = func(i int) {
		if state[i] != 0 {
			return
		}
		state[i] = 1
		for _, k := range f.States[i].LeadsTo {
			visit(k.To)
		}
		m.order = append(m.order, i)
	}
	for i := range f.States {
		visit(i)
	}
	for i, j := 0, len(m.order)-1; i < j; i, j = i+1, j-1 {
		m.order[i], m.order[j] = m.order[j], m.order[i]
	}
	return m
}

// of returns the marginal of a cause of the base, worked out once.
func (m *marginals) of(cause int) *marginal {
	if k, ok := m.byBase[cause]; ok {
		return k
	}
	c := &m.f.Base.Causes[cause]
	k := &marginal{viaStates: map[int]float64{}, direct: map[int]float64{}, second: map[int]float64{}, against: map[int]bool{}, covered: map[int]bool{}}
	chance := map[int]float64{}
	for _, g := range c.Gives {
		chance[g.To] = g.By
	}
	for _, s := range m.order {
		p := chance[s]
		if p == 0 {
			continue
		}
		for _, to := range m.f.States[s].LeadsTo {
			chance[to.To] = 1 - (1-chance[to.To])*(1-p*to.By)
		}
		for _, sg := range m.f.States[s].Shows {
			k.viaStates[sg.To] = math.Max(k.viaStates[sg.To], p*sg.By)
		}
	}
	for _, d := range c.Direct {
		k.direct[d.To] = d.By
	}
	for _, n := range c.Never {
		k.direct[n] = 0
	}
	for _, d := range c.Second {
		k.second[d.To] = d.By
	}
	for _, s := range c.SecondAgainst {
		k.against[s] = true
	}
	m.byBase[cause] = k
	return k
}

// shown returns how often the cause shows a sign, by its own word or through
// its states.
func (k *marginal) shown(sign int) float64 {
	if p, ok := k.direct[sign]; ok {
		return p
	}
	return k.viaStates[sign]
}

// words returns what a cause is given as its own word, in the order of signs.
func (k *marginal) words(c *knowledge.Cause, set Settings) []knowledge.Link {
	own := map[int]float64{}
	for _, d := range c.Direct {
		own[d.To] = d.By
	}
	if set.DirectOnly {
		for _, d := range c.Older {
			if _, ok := own[d.To]; !ok {
				own[d.To] = d.By
			}
		}
	}
	if set.CauseByCause {
		for s, p := range k.viaStates {
			if _, ok := own[s]; !ok {
				own[s] = p
			}
		}
	}
	never := map[int]bool{}
	for _, n := range c.Never {
		never[n] = true
	}
	for s, p2 := range k.second {
		p1 := k.shown(s)
		switch {
		case never[s]:
		case set.SecondOpinion == Fill && p1 < .02,
			set.SecondOpinion == Average,
			set.SecondOpinion == Differ && (p1 < .02 || p2/math.Max(p1, .001) > 2.6 || p1/p2 > 2.6):
			own[s] = (1-set.SecondWeight)*p1 + set.SecondWeight*p2
		}
	}
	var out []knowledge.Link
	for _, s := range sortedKeys(own) {
		out = append(out, knowledge.Link{To: s, By: own[s]})
	}
	return out
}

func sortedKeys(m map[int]float64) []int {
	out := make([]int, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	sortInts(out)
	return out
}
