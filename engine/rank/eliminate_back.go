package rank

import mathbits "math/bits"

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
