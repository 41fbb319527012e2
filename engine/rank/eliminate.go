package rank

import mathbits "math/bits"

// An elimination sums the live states of a scene out one after another, each
// time one that meets the fewest others, which costs two to the power of how
// many it meets: the sum is exact, and states that lead to each other in many
// ways cost little as long as only a few of them hang together at once.
//
// Its variables are the live states and, beside them, one for each observation
// that several states bear on: its factor is flat + steep·N, so that with the
// variable off it counts flat, and on steep times what each state leaves of N.
// What is summed is then a product of tables, each over few variables.
//
// Source of the method: N. L. Zhang, D. Poole, "Exploiting causal independence
// in Bayesian network inference", J. Artificial Intelligence Research 5, 1996;
// of the variable for a noisy-OR that is true: F. J. Díez, S. F. Galán, "Efficient
// computation for the noisy MAX", Int. J. Intelligent Systems 18, 2003.
type elimination struct {
	near    []uint64 // by variable: those it meets
	own     []int32  // by state: the variable beside it, -1 none
	order   []int32  // variables in the order in which they go
	pos     []int32  // by variable: its place in the order
	steps   []stage  // by place
	tables  []table
	next    []int32 // by table: the next of its step
	links   []pairing
	cells   []float64
	adjoint []float64
	at      []int32
	scale   float64
}

// A stage puts the tables that hold one variable together and sums it out.
type stage struct {
	first int32  // of its tables, -1 none
	scope uint64 // places in the order
	cells int32  // where its product stands
	out   int32  // the table that is left, -1 if it is a number
}

// A table has a number for each way its variables may be, the earliest of them
// changing fastest.
type table struct {
	scope uint64 // places in the order
	cells int32
	left  bool // by a step, of its sum
}

// A pairing says what a state that is there leaves of an observation's N.
type pairing struct {
	state, obs int32 // variables
	left       float64
}

// mostVariables is the most states and observations one sum can hold.
const mostVariables = 64

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

// sum sums the scene in the order planned.
func (e *elimination) sum(s *solver) float64 {
	e.sumOut(s, len(e.order))
	if s.back {
		e.back(s)
	}
	return e.scale
}

// vector sums the scene in the order planned and writes what is left, by the
// axes kept, times the scale.
func (e *elimination) vector(s *solver, axes int, scale float64, out []float64) {
	goes := len(e.order) - axes
	e.sumOut(s, goes)
	for i := range out {
		out[i] = scale * e.scale
	}
	all := (uint64(1)<<axes - 1) << goes
	for _, x := range e.steps[goes:] {
		for f := x.first; f >= 0; f = e.next[f] {
			t := e.tables[f]
			cells := e.cells[t.cells:]
			for j, a := range e.index(all, t.scope) {
				out[j] *= cells[a]
			}
		}
	}
}

// sumOut sums out so many variables.
func (e *elimination) sumOut(s *solver, goes int) {
	n := len(e.order)
	e.pos = resized(e.pos, n)
	for i, x := range e.order {
		e.pos[x] = int32(i)
	}
	e.steps, e.tables, e.next, e.cells = e.steps[:0], e.tables[:0], e.next[:0], e.cells[:0]
	for range n {
		e.steps = append(e.steps, stage{first: -1, out: -1})
	}
	for j := range s.live {
		e.family(s, j)
	}
	for _, l := range e.links {
		e.pairing(l)
	}
	e.scale = 1
	for i := range goes {
		off, on := s.alone(e.order[i])
		e.step(i, off, on)
	}
}

// alone returns what a variable counts by itself, off and on: the factor of an
// observation, put together once what bears on it is known.
func (s *solver) alone(variable int32) (off, on float64) {
	if at := int(variable) - len(s.live); at >= 0 && at < len(s.coord) {
		return s.coord[at].flat, s.coord[at].steep
	}
	return 1, 1
}

// room makes room for so many numbers and returns where it starts.
func (e *elimination) room(n int) int {
	at := len(e.cells)
	if cap(e.cells) < at+n {
		grown := make([]float64, at, 2*cap(e.cells)+n)
		copy(grown, e.cells)
		e.cells = grown
	}
	e.cells = e.cells[:at+n]
	return at
}

// put gives a table to the step that needs it first.
func (e *elimination) put(t table) {
	first := &e.steps[mathbits.TrailingZeros64(t.scope)].first
	e.tables = append(e.tables, t)
	e.next = append(e.next, *first)
	*first = int32(len(e.tables) - 1)
}

// family makes the table of a state and those that lead to it.
func (e *elimination) family(s *solver, j int) {
	x := &s.live[j]
	edges := s.edges[x.edges:x.end]
	own := uint64(1) << e.pos[j]
	if o := e.own[j]; o >= 0 {
		e.doubt(own, 1<<e.pos[o], x)
		return
	}
	scope := own
	for _, p := range edges {
		scope |= 1 << e.pos[p.node]
	}
	size := 1 << mathbits.OnesCount64(scope)
	at := e.room(size)
	t := e.cells[at : at+size]
	for i := range t {
		t[i] = 1 - x.given
	}
	for _, p := range edges {
		bit := 1 << mathbits.OnesCount64(scope&(1<<e.pos[p.node]-1))
		for i := range t {
			if i&bit != 0 {
				t[i] *= 1 - p.s
			}
		}
	}
	bit := 1 << mathbits.OnesCount64(scope&(own-1))
	for i := range t {
		if i&bit != 0 {
			t[i] = (1 - t[i]) * x.on
		} else {
			t[i] *= x.off
		}
	}
	e.put(table{scope, int32(at), false})
}

// doubt makes the table of a state that many lead to and of a variable of its
// own: with that off it counts as if it were there for certain, and on it takes
// back what those that lead to it leave of that.
func (e *elimination) doubt(own, with uint64, x *live) {
	at := e.room(4)
	stays := 1 - x.given
	t := [4]float64{0, x.on, stays * x.off, -stays * x.on} // the state changes fastest
	if with < own {
		t[1], t[2] = t[2], t[1]
	}
	copy(e.cells[at:], t[:])
	e.put(table{own | with, int32(at), false})
}

// pairing makes the table of a state and an observation.
func (e *elimination) pairing(l pairing) {
	at := e.room(4)
	copy(e.cells[at:], []float64{1, 1, 1, l.left})
	e.put(table{1<<e.pos[l.state] | 1<<e.pos[l.obs], int32(at), false})
}

// step sums out the variable at a place of the order; off and on are what it
// counts by itself.
func (e *elimination) step(i int, off, on float64) {
	x := &e.steps[i]
	x.scope = 1 << i
	for f := x.first; f >= 0; f = e.next[f] {
		x.scope |= e.tables[f].scope
	}
	size := 1 << mathbits.OnesCount64(x.scope)
	at := e.room(size + size/2)
	x.cells = int32(at)
	product, out := e.cells[at:at+size], e.cells[at+size:at+size+size/2]
	for j := 0; j < size; j += 2 {
		product[j], product[j+1] = off, on
	}
	for f := x.first; f >= 0; f = e.next[f] {
		e.multiply(product, x.scope, e.tables[f])
	}
	for j := range out {
		out[j] = product[2*j] + product[2*j+1]
	}
	if x.scope == 1<<i {
		e.scale *= out[0]
		return
	}
	x.out = int32(len(e.tables))
	e.put(table{x.scope &^ (1 << i), int32(at + size), true})
}

// multiply puts a table into a product over a scope that holds its own. Both
// hold the earliest variable.
func (e *elimination) multiply(product []float64, scope uint64, t table) {
	cells := e.cells[t.cells:]
	switch other := t.scope & (t.scope - 1); {
	case t.scope == scope:
		for j, c := range cells[:len(product)] {
			product[j] *= c
		}
	case other == 0:
		times(product, cells[0], cells[1])
	case other&(other-1) == 0:
		half := 1 << mathbits.OnesCount64(scope&(other-1))
		for from := 0; from < len(product); from += 2 * half {
			times(product[from:from+half], cells[0], cells[1])
			times(product[from+half:from+2*half], cells[2], cells[3])
		}
	default:
		for j, a := range e.index(scope, t.scope) {
			product[j] *= cells[a]
		}
	}
}

// times multiplies every other number by one and those between by the other.
func times(product []float64, even, odd float64) {
	if even != 1 {
		for j := 0; j < len(product); j += 2 {
			product[j] *= even
		}
	}
	if odd != 1 {
		for j := 1; j < len(product); j += 2 {
			product[j] *= odd
		}
	}
}

// index returns, for each place of a table over scope, the place in one over
// part of it.
func (e *elimination) index(scope, part uint64) []int32 {
	size := 1 << mathbits.OnesCount64(scope)
	if cap(e.at) < size {
		e.at = make([]int32, size)
	}
	at := e.at[:size]
	at[0] = 0
	done, stride := 1, int32(1)
	for q := scope; q != 0; q &= q - 1 {
		add := int32(0)
		if part&(q&-q) != 0 {
			add, stride = stride, 2*stride
		}
		low, high := at[:done], at[done:2*done]
		for j, a := range low {
			high[j] = a + add
		}
		done *= 2
	}
	return at
}

// back goes through the steps from the last to the first with the derivative
// of the sum, and adds up each state's part of it.
func (e *elimination) back(s *solver) {
	e.adjoint = resized(e.adjoint, len(e.cells))
	for i := len(e.steps) - 1; i >= 0; i-- {
		x := &e.steps[i]
		size := 1 << mathbits.OnesCount64(x.scope)
		product, joint := e.cells[x.cells:int(x.cells)+size], e.adjoint[x.cells:int(x.cells)+size]
		e.outer(x, product, joint)
		if v := e.order[i]; int(v) < len(s.live) {
			for j := 0; j < size; j += 2 {
				s.absent[v] += joint[j]
				s.mass[v] += joint[j+1]
			}
		}
		for f := x.first; f >= 0; f = e.next[f] {
			if t := e.tables[f]; t.left {
				e.backInto(s, i, f, joint)
			}
		}
	}
}

// outer writes the product of a step's table with the derivative of what it
// left.
func (e *elimination) outer(x *stage, product, joint []float64) {
	if x.out < 0 {
		by := over(e.scale, e.cells[int(x.cells)+len(product)])
		for j, c := range product {
			joint[j] = c * by
		}
		return
	}
	by := e.adjoint[e.tables[x.out].cells:]
	for j, c := range product {
		joint[j] = c * by[j/2]
	}
}

// backInto adds to the derivative of one table of a step. Where the table is
// zero, as by what cancels out, the others are put together anew.
func (e *elimination) backInto(s *solver, i int, f int32, joint []float64) {
	x, t := &e.steps[i], e.tables[f]
	by, cells := e.adjoint[t.cells:], e.cells[t.cells:]
	zero := false
	for j, a := range e.index(x.scope, t.scope) {
		if cells[a] != 0 {
			by[a] += joint[j] / cells[a]
		} else {
			zero = true
		}
	}
	if !zero {
		return
	}
	rest := make([]float64, len(joint))
	off, on := s.alone(e.order[i])
	for j := range rest {
		rest[j] = off
		if j&1 == 1 {
			rest[j] = on
		}
	}
	for g := x.first; g >= 0; g = e.next[g] {
		if g != f {
			e.multiply(rest, x.scope, e.tables[g])
		}
	}
	e.outer(x, rest, rest)
	for j, a := range e.index(x.scope, t.scope) {
		if cells[a] == 0 {
			by[a] += rest[j]
		}
	}
}
