package diagnose

// This file says what settles a cause.

import (
	"cmp"
	"slices"

	"snagwise/engine/knowledge"
)

// A Finding is what settles a cause: the sign that shows it plainly and the
// checks that tell the sign, the best first. Without a sign nothing but the
// remedy settles it.
type Finding struct {
	Sign   int // its number in the base, -1 for none
	Checks []int
}

// leastWord is how often a cause must show a sign by its own word for that to
// settle it: almost always or often.
const leastWord = .7

// Findings returns what settles each cause of the base on the engine's rig: of
// the signs that its own word shows and that a check tells which the cause names
// itself, the one that fewest causes share, of equals that of the quickest.
func (e *Engine) Findings() []Finding { return e.findings }

// findings works out what settles each cause. A sign that a cause shows and
// names no check for does not settle it: what fails behind a stage of a chain
// fails behind all stages before it.
func findings(f *knowledge.Fitted) []Finding {
	shared := make([]int, len(f.Signs))
	on := make([]bool, len(f.Base.Causes))
	for _, in := range f.Causes {
		if on[in.Cause] {
			continue
		}
		on[in.Cause] = true
		for _, d := range f.Base.Causes[in.Cause].Direct {
			if d.By >= leastWord {
				shared[d.To]++
			}
		}
	}
	by := make([][]int, len(f.Signs)) // checks that tell a sign
	for i := range f.Checks {
		if f.CheckOn[i] {
			for _, s := range f.Checks[i].Settles {
				if f.SignOn[s] {
					by[s] = append(by[s], i)
				}
			}
		}
	}
	out := make([]Finding, len(f.Base.Causes))
	for c := range out {
		out[c].Sign = -1
		if on[c] {
			out[c] = finding(f, &f.Base.Causes[c], shared, by)
		}
	}
	return out
}

func finding(f *knowledge.Fitted, c *knowledge.Cause, shared []int, by [][]int) Finding {
	type offer struct {
		sign, check int
		minutes     float64
	}
	var offers []offer
	for _, d := range c.Direct {
		for _, k := range by[d.To] {
			if d.By >= leastWord && slices.Contains(c.Checks, k) {
				offers = append(offers, offer{d.To, k, f.Checks[k].Minutes})
			}
		}
	}
	slices.SortStableFunc(offers, func(a, b offer) int {
		return cmp.Or(cmp.Compare(shared[a.sign], shared[b.sign]), cmp.Compare(a.minutes, b.minutes))
	})
	out := Finding{Sign: -1}
	for _, o := range offers {
		if out.Sign < 0 || o.sign == out.Sign {
			out.Sign = o.sign
			out.Checks = append(out.Checks, o.check)
		}
	}
	return out
}
