package rank

// This file goes the other way: from causes that are there to what would be
// seen.

// A Strand is one thing of a net that chance decides when signs are drawn.
type Strand uint8

// What chance decides. From and to are numbers of causes, states as the caller
// numbers them, and signs; a leak has no from.
const (
	Given     Strand = iota // a cause brings a state about
	LedTo                   // a state leads to another
	Shown                   // a state shows a sign
	Own                     // a cause's own word on a sign
	StateLeak               // a state is there by itself
	SignLeak                // a sign is there by itself
	Tossed                  // a broken instrument tells a sign by a coin
	Heads                   // the coin says yes
)

// A Toss says whether one strand of a net, which holds with chance p, holds
// this time. Asked again about the same strand it must say the same, so that
// a cause taken away leaves the rest of a world as it was.
type Toss func(of Strand, from, to int, p float64) bool

// Prior returns the odds of a cause before anything is known, scaled.
func (n *Net) Prior(cause int) float64 { return n.odds[cause] }

// Draw returns, by sign, what would be so with exactly these causes there, as
// toss decides: the states that come about, then what they, the causes' own
// words, leaks and broken instruments show. Patterns have no part in it.
func (n *Net) Draw(causes []int, toss Toss) []bool {
	d := drawing{net: n, toss: toss, causes: causes, there: make([]bool, len(n.state)), signs: make([]bool, len(n.leak))}
	d.drawStates()
	for f := range d.signs {
		if len(n.covers[f]) == 0 {
			d.signs[f] = d.sign(int32(f))
		}
	}
	for f, covered := range n.covers {
		if len(covered) == 0 {
			continue
		}
		seen := toss(SignLeak, 0, f, n.leak[f])
		for _, k := range covered {
			seen = seen || d.signs[k]
		}
		d.signs[f] = d.throughInstrument(int32(f), seen)
	}
	return d.signs
}

type drawing struct {
	net    *Net
	toss   Toss
	causes []int
	there  []bool // by place of the state
	signs  []bool
}

// reaches says whether a state is in any cause's reach or comes of a leak.
func (d *drawing) reaches(at int32) bool {
	for _, c := range d.causes {
		if d.net.reached[c].has(at) {
			return true
		}
	}
	return d.net.selfMade.has(at)
}

// drawStates draws the states, each after all that lead to it.
func (d *drawing) drawStates() {
	n := d.net
	for at := range n.state {
		if !d.reaches(int32(at)) {
			continue
		}
		x := int(n.state[at])
		on := d.toss(StateLeak, 0, x, n.sleak[at])
		for _, c := range d.causes {
			for _, g := range n.gives[c] {
				if int(g.to) == at && d.toss(Given, c, x, g.s) {
					on = true
				}
			}
		}
		for _, p := range n.parents[at] {
			if d.there[p.to] && d.lead(p.to, int32(at)) && d.toss(LedTo, int(n.state[p.to]), x, p.s) {
				on = true
			}
		}
		d.there[at] = on
	}
}

// lead says whether one state may lead to another here: both in the reach of one cause, or
// the first of a leak.
func (d *drawing) lead(from, to int32) bool {
	n := d.net
	for _, c := range d.causes {
		if n.reached[c].has(from) && n.reached[c].has(to) {
			return true
		}
	}
	return n.selfMade.has(from)
}

// sign draws a sign that covers no others.
func (d *drawing) sign(f int32) bool {
	n := d.net
	leak := n.leak[f]
	set := make([]int32, len(d.causes))
	for i, c := range d.causes {
		set[i] = int32(c)
		for _, h := range n.held[c] {
			if h.to == f {
				leak = min(leak, n.leak[f]*(1-(1-n.opts.LeakFraction)*h.s))
			}
		}
	}
	on := d.toss(SignLeak, 0, int(f), leak)
	for _, c := range set {
		if n.hasWord[c].has(f) && d.toss(Own, int(c), int(f), n.wordOf(c, f)) {
			on = true
		}
	}
	for _, t := range n.shownBy[f] {
		if d.there[t.to] && d.toss(Shown, int(n.state[t.to]), int(f), t.s*n.others(set, t.to, f)) {
			on = true
		}
	}
	return d.throughInstrument(f, on)
}

// throughInstrument returns what is told of a sign that is so or not, which is
// a coin's word where one of the causes has broken the instrument.
func (d *drawing) throughInstrument(f int32, so bool) bool {
	by, k := -1, coin{}
	for _, c := range d.causes {
		for _, x := range d.net.coins[c] {
			if x.sign == f && (x.share > k.share || x.share == k.share && x.p > k.p) {
				by, k = c, x
			}
		}
	}
	if by >= 0 && d.toss(Tossed, by, int(f), k.share) {
		return d.toss(Heads, by, int(f), k.p)
	}
	return so
}
