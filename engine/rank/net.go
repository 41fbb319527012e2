package rank

import (
	"errors"
	"fmt"
	"slices"
)

// A Net is a checked, immutable base of causes, states and signs. States are
// kept in an order in which no state leads backward; every index of a state below
// is a place in that order.
type Net struct {
	opts     Options
	odds     []float64 // prior odds by cause, scaled
	empty    float64   // weight of the empty set
	place    []int32   // place of the caller's state
	state    []int32   // the caller's state at a place
	parents  [][]tie
	leads    [][]tie
	leaky    []int32 // places of states with a leak
	sleak    []float64
	selfMade bits // places of states a leak can bring about
	gives    [][]tie
	shows    [][]tie
	shownBy  [][]tie // by sign
	words    [][]word
	hasWord  []bits
	held     [][]tie // by cause: signs spoken against, and how surely
	coins    [][]coin
	leak     []float64
	plain    []bool
	covers   [][]int32 // by sign: plain signs in the end
	under    [][]int32 // by sign: every sign covered, vague ones too
	reached  []bits    // by cause: states it can bring about, by place
	reach    [][]tie   // by cause: states, by place, with the strongest path
	patterns []Pattern
	named    []naming // by pattern
}

// Causes returns the number of causes.
func (n *Net) Causes() int { return len(n.odds) }

// Signs returns the number of signs.
func (n *Net) Signs() int { return len(n.leak) }

// Build checks everything and returns the net. The error joins all that is
// wrong; among it may be a [CycleError] for states and one for vague signs.
func (b *Builder) Build(opts Options) (*Net, error) {
	faults := slices.Clone(b.faults)
	order, err := sorted("states", targets(b.leads))
	if err != nil {
		faults = append(faults, err)
	}
	signOrder, err := sorted("signs", b.covers)
	if err != nil {
		faults = append(faults, err)
	}
	for f := range b.plain {
		if b.plain[f] && b.shownTimes(f) > 1 {
			faults = append(faults, fmt.Errorf("sign %d is a plain report and is shown by more than one state", f))
		}
		if b.plain[f] && len(b.covers[f]) > 0 {
			faults = append(faults, fmt.Errorf("sign %d is a plain report and covers other signs", f))
		}
	}
	if len(faults) > 0 {
		return nil, errors.Join(faults...)
	}
	n := &Net{opts: opts.withDefaults(), plain: slices.Clone(b.plain), leak: slices.Clone(b.leak)}
	n.setOdds(b.prior)
	n.setStates(b, order)
	n.setCauses(b)
	n.setCovers(b, signOrder)
	n.setHeld(b)
	n.setPatterns(b)
	return n, nil
}

func (b *Builder) shownTimes(sign int) int {
	k := 0
	for _, list := range b.shows {
		for _, t := range list {
			if int(t.to) == sign {
				k++
			}
		}
	}
	return k
}

func (n *Net) setOdds(prior []float64) {
	n.odds = make([]float64, len(prior))
	sum := 0.0
	for c, p := range prior {
		n.odds[c] = p / (1 - p)
		sum += n.odds[c]
	}
	n.empty = 1
	if n.opts.Unscaled || sum == 0 {
		return
	}
	n.empty = n.opts.EmptyWeight
	for c := range n.odds {
		n.odds[c] *= n.opts.PriorSum / sum
	}
}

func (n *Net) setStates(b *Builder, order []int32) {
	k := len(order)
	n.state = order
	n.place = make([]int32, k)
	for at, x := range order {
		n.place[x] = int32(at)
	}
	n.parents, n.leads, n.shows = make([][]tie, k), make([][]tie, k), make([][]tie, k)
	n.sleak, n.selfMade = make([]float64, k), newBits(k)
	n.shownBy = make([][]tie, len(b.leak))
	for at, x := range order {
		n.leads[at] = merged(b.leads[x], n.place)
		for _, t := range n.leads[at] {
			n.parents[t.to] = append(n.parents[t.to], tie{int32(at), t.s})
		}
		n.shows[at] = merged(b.shows[x], nil)
		for _, t := range n.shows[at] {
			n.shownBy[t.to] = append(n.shownBy[t.to], tie{int32(at), t.s})
		}
		if n.sleak[at] = b.stateLeak[x]; n.sleak[at] > 0 {
			n.leaky = append(n.leaky, int32(at))
			n.selfMade.set(int32(at))
		}
		if n.selfMade.has(int32(at)) {
			for _, t := range n.leads[at] {
				n.selfMade.set(t.to)
			}
		}
	}
}

func (n *Net) setCauses(b *Builder) {
	k := len(b.prior)
	n.gives, n.reach, n.words = make([][]tie, k), make([][]tie, k), make([][]word, k)
	n.hasWord, n.reached, n.coins = make([]bits, k), make([]bits, k), make([][]coin, k)
	best := make([]float64, len(n.state))
	for c := range k {
		n.gives[c] = merged(b.gives[c], n.place)
		clear(best)
		for _, t := range n.gives[c] {
			best[t.to] = t.s
		}
		for at, s := range best {
			if s == 0 {
				continue
			}
			for _, t := range n.leads[at] {
				if p := s * t.s; p >= n.opts.Faintest {
					best[t.to] = max(best[t.to], p)
				}
			}
		}
		n.reached[c] = newBits(len(n.state))
		for at, s := range best {
			if s > 0 {
				n.reached[c].set(int32(at))
				n.reach[c] = append(n.reach[c], tie{int32(at), s})
			}
		}
		n.words[c] = mergedWords(b.words[c])
		n.hasWord[c] = newBits(len(b.leak))
		for _, w := range n.words[c] {
			n.hasWord[c].set(w.sign)
		}
		n.coins[c] = slices.Clone(b.coins[c])
		slices.SortStableFunc(n.coins[c], func(a, b coin) int { return int(a.sign) - int(b.sign) })
	}
}

func (n *Net) setCovers(b *Builder, order []int32) {
	n.covers, n.under = make([][]int32, len(order)), make([][]int32, len(order))
	for _, v := range slices.Backward(order) { // what is covered comes first
		for _, f := range b.covers[v] {
			n.under[v] = append(append(n.under[v], f), n.under[f]...)
		}
		slices.Sort(n.under[v])
		n.under[v] = slices.Compact(n.under[v])
		for _, f := range n.under[v] {
			if len(b.covers[f]) == 0 {
				n.covers[v] = append(n.covers[v], f)
			}
		}
	}
}

// setHeld works out, for each cause, which signs speak against it and how
// surely: a never altogether, a state's against as surely as it is reached.
func (n *Net) setHeld(b *Builder) {
	n.held = make([][]tie, len(n.odds))
	for c := range n.odds {
		var held []tie
		for _, w := range n.words[c] {
			if w.never {
				held = append(held, tie{w.sign, 1})
			}
		}
		for _, r := range n.reach[c] {
			own := hasTie(n.gives[c], r.to)
			if !own && r.s < n.opts.Sure {
				continue
			}
			for _, f := range b.against[n.state[r.to]] {
				if !n.hasWord[c].has(f) && !n.ownShows(c, r.to, f) {
					held = append(held, tie{f, r.s})
				}
			}
		}
		n.held[c] = merged(held, nil)
	}
}

// ownShows says whether a state that the cause gives, other than the one at
// place but, shows the sign.
func (n *Net) ownShows(c int, but, sign int32) bool {
	for _, g := range n.gives[c] {
		if g.to != but && hasTie(n.shows[g.to], sign) {
			return true
		}
	}
	return false
}
