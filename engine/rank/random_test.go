package rank

import (
	"math/rand/v2"
)

// A size says how large a random base is to be.
type size struct {
	causes, states, signs int
	given                 float64 // states that a cause gives, on average
	leads                 float64 // states that a state leads to, on average
	span                  int     // how far ahead it leads
	shows                 float64 // signs that a state shows, on average
	words                 float64 // signs that a cause has a word on
}

// realistic is a base of the size people have.
var realistic = size{causes: 450, states: 140, signs: 900, given: 2, leads: 2.7, span: 60, shows: 11, words: 7}

// random makes a base of that size; the last tenth of its signs are vague.
func (z size) random(seed uint64) *Builder {
	r := rand.New(rand.NewPCG(seed, 1))
	strength := func() float64 { return []float64{.15, .4, .4, .75, .75, .95}[r.IntN(6)] }
	times := func(mean float64) int { return int(mean*2*r.Float64() + .5) }
	b := NewBuilder(z.causes, z.states, z.signs)
	plain := z.signs - z.signs/10
	for c := range z.causes {
		b.Prior(c, []float64{.1, .03, .03, .01, .01, .01, .003}[r.IntN(7)])
		for range 1 + times(z.given-1) {
			b.Give(c, r.IntN(z.states), strength())
		}
		for range times(z.words) {
			if r.IntN(6) == 0 {
				b.Never(c, r.IntN(plain))
			} else {
				b.Direct(c, r.IntN(plain), strength())
			}
		}
		if r.IntN(15) == 0 {
			b.Coin(c, r.IntN(plain), .5, 1)
		}
	}
	for s := range z.states {
		for range times(z.leads) {
			if to := s + 1 + r.IntN(z.span); to < z.states {
				b.Lead(s, to, strength())
			}
		}
		for range times(z.shows) {
			b.Show(s, r.IntN(plain), strength())
		}
		for range times(2) {
			b.Against(s, r.IntN(plain))
		}
	}
	for f := plain; f < z.signs; f++ {
		for range 2 + times(4) {
			b.Vague(f, r.IntN(plain))
		}
		b.Leak(f, .05)
	}
	return b
}

// sheet draws what would be known of an engine with one or two causes: so
// many signs true, and twice as many looked for and not there in all.
func (n *Net) sheet(seed uint64, signs int) Evidence {
	r := rand.New(rand.NewPCG(seed, 2))
	there := map[int32]bool{}
	for range 1 + r.IntN(2) {
		for _, g := range n.gives[r.IntN(len(n.odds))] {
			if r.Float64() < g.s {
				there[g.to] = true
			}
		}
	}
	var e Evidence
	told := map[int]bool{}
	tell := func(f int32, truth bool) {
		if !told[int(f)] && len(e.Signs) < signs {
			told[int(f)] = true
			e.Signs = append(e.Signs, Known{Sign: int(f), True: truth})
		}
	}
	for s := range int32(len(n.state)) {
		if !there[s] {
			continue
		}
		for _, l := range n.leads[s] {
			if r.Float64() < l.s {
				there[l.to] = true
			}
		}
		for _, f := range n.shows[s] {
			if r.IntN(3) == 0 {
				tell(f.to, r.Float64() < f.s)
			}
		}
	}
	for len(e.Signs) < signs {
		f := int32(r.IntN(len(n.leak)))
		tell(f, r.IntN(8) == 0)
	}
	return e
}
