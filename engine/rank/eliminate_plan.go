package rank

import mathbits "math/bits"

// plan settles the order and returns how many numbers that will take. With axes,
// links go to them and they are kept, last in the order.
func (e *elimination) plan(s *solver, axes int) int {
	k := len(s.live)
	n := k + len(s.coord) + axes
	e.own = e.own[:0]
	for j := range s.live {
		own := int32(-1)
		if s.live[j].end-s.live[j].edges > largeFamily {
			own = int32(n)
			n++
		}
		e.own = append(e.own, own)
	}
	if n > mostVariables {
		return tooMany
	}
	e.near, e.order, e.links = resized(e.near, n), e.order[:0], e.links[:0]
	for j := range s.live {
		x := &s.live[j]
		edges := s.edges[x.edges:x.end]
		if o := e.own[j]; o >= 0 {
			for _, p := range edges {
				e.pair(p.node, o, 1-p.s)
			}
			e.near[j] |= 1 << o
			e.near[o] |= 1 << j
		} else {
			family := uint64(1) << j
			for _, p := range edges {
				family |= 1 << p.node
			}
			for f := family; f != 0; f &= f - 1 {
				e.near[mathbits.TrailingZeros64(f)] |= family
			}
		}
		for _, l := range s.shown[x.links:x.stop] {
			e.pair(int32(j), int32(k)+l.obs, l.left)
		}
	}
	kept := (uint64(1)<<axes - 1) << (k + len(s.coord))
	left, cost := ^uint64(0)>>(mostVariables-n)&^kept, 0
	for left != 0 {
		best, fewest := 0, mostVariables+1
		for q := left; q != 0; q &= q - 1 {
			i := mathbits.TrailingZeros64(q)
			if meets := mathbits.OnesCount64(e.near[i] &^ (1 << i)); meets < fewest || meets == fewest && i >= k {
				best, fewest = i, meets
			}
		}
		if fewest > mostMet {
			return tooMany
		}
		cost += 2 << fewest
		left &^= 1 << best
		e.order = append(e.order, int32(best))
		group := e.near[best] & (left | kept)
		for q := group; q != 0; q &= q - 1 {
			i := mathbits.TrailingZeros64(q)
			e.near[i] = (e.near[i] | group) &^ (1 << best)
		}
	}
	for i := range axes {
		e.order = append(e.order, int32(k+len(s.coord)+i))
	}
	return cost
}

// pair notes that a state meets an observation, or another state's doubt.
func (e *elimination) pair(state, with int32, left float64) {
	e.links = append(e.links, pairing{state, with, left})
	e.near[state] |= 1 << with
	e.near[with] |= 1 << state
}

// largeFamily is the most states that may lead to one whose table is written
// out.
const largeFamily = 2

// mostMet is the most others that one variable may meet: beyond, a table would
// not fit in memory.
const mostMet = 24

// tooMany is a cost beyond any budget.
const tooMany = 1 << 40
