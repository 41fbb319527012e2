package condition

import "math"

// This file evaluates what has no test of its own in the flat program: words
// over moments, and arithmetic.

// compared compares the two numbers of a node.
func (p *Program) compared(w *World, m *Moment, n *node) Truth {
	return compare(n.op, p.operand(w, m, n.a), p.operand(w, m, n.b))
}

// slow evaluates a node that has no test of its own.
func (p *Program) slow(w *World, m *Moment, now int, i int32) Truth {
	n := &p.nodes[i]
	switch n.op {
	case opGT, opGE, opNE: // the code that asked goes on from the contrary
		return -p.compared(w, m, n)
	case opLT, opLE, opEQ:
		return p.compared(w, m, n)
	case opSeen:
		return p.seen(w, now, n)
	case opCount:
		return p.count(w, now, n)
	}
	return p.over(w, n)
}

// over evaluates a node that goes through all moments.
func (p *Program) over(w *World, n *node) Truth {
	from, to := w.span()
	switch n.op {
	case opAt:
		all := Unknown
		for m := from; m < to; m++ {
			if p.run(w, m, n.ea) != True {
				continue
			}
			switch p.run(w, m, n.eb) {
			case True:
				return True
			case False:
				all = False
			}
		}
		return all
	case opAtBand:
		for m := to - 1; m >= from; m-- {
			if v := w.moment(m).word(n.b).is(n.band); v != Unknown && p.run(w, m, n.ea) == True {
				return v
			}
		}
		return Unknown
	case opTogether:
		all := False
		for m := from; m < to && all < True; m++ {
			all = max(all, min(p.run(w, m, n.ea), p.run(w, m, n.eb)))
		}
		return all
	}
	// before and after: a so far against b now.
	all, a := False, False
	if n.op == opBefore && to-from < 2 {
		return Unknown // a sheet of one moment tells of no order
	}
	for m := from; m < to && all < True; m++ {
		if n.op == opAfter {
			a = max(a, p.run(w, m, n.ea))
		}
		all = max(all, min(a, p.run(w, m, n.eb)))
		if n.op == opBefore {
			a = max(a, p.run(w, m, n.ea))
		}
	}
	return all
}

// count says whether at least k of n's conditions are true.
func (p *Program) count(w *World, now int, n *node) Truth {
	var is [3]int
	for _, kid := range p.kids(n) {
		is[p.tree(w, now, kid)+1]++
	}
	switch k := int(n.k); {
	case is[2] >= k:
		return True
	case is[2]+is[1] < k:
		return False
	}
	return Unknown
}

// seen says whether anything is known of a name: at the moment in hand, or at
// all. It is never unknown.
func (p *Program) seen(w *World, now int, n *node) Truth {
	known := func(m *Moment) bool {
		switch Kind(n.b) {
		case NumberKind:
			word := m.word(n.a)
			return !math.IsNaN(m.num(n.a)) || word.True|word.False != 0
		case TruthKind:
			return m.truth(n.a) != Unknown
		}
		return m.text(n.a) != 0
	}
	if n.set == 0 {
		return of(known(w.moment(now)))
	}
	if Kind(n.b) == TruthKind {
		return of(w.whole(n.a) != Unknown)
	}
	for i := range w.Moments {
		if known(&w.Moments[i]) {
			return True
		}
	}
	return False
}

// compare compares two numbers; NaN makes it unknown.
func compare(o op, a, b float64) Truth {
	if math.IsNaN(a) || math.IsNaN(b) {
		return Unknown
	}
	switch o {
	case opLT:
		return of(a < b)
	case opLE:
		return of(a <= b)
	case opGT:
		return of(a > b)
	case opGE:
		return of(a >= b)
	case opEQ:
		return of(a == b)
	}
	return of(a != b)
}

// number works out a number node at a moment; NaN is unknown.
func (p *Program) number(w *World, m *Moment, i int32) float64 {
	n := &p.nodes[i]
	switch n.op {
	case opK:
		return n.k
	case opNum:
		return m.num(n.a)
	case opAbs:
		return math.Abs(p.number(w, m, n.a))
	case opNeg:
		return -p.number(w, m, n.a)
	case opAtNum:
		return p.last(w, n)
	case opHighest, opLowest:
		return p.extreme(w, n)
	}
	a, b := p.operand(w, m, n.a), p.operand(w, m, n.b)
	switch n.op {
	case opAdd:
		return a + b
	case opSub:
		return a - b
	case opMul:
		return a * b
	case opDiv:
		return share(a, b)
	case opMin:
		return min(a, b)
	}
	return max(a, b)
}

// operand is number, with the short way for a bare reading.
func (p *Program) operand(w *World, m *Moment, i int32) float64 {
	if n := &p.nodes[i]; n.op == opNum && int(n.a) < len(m.Num) {
		return m.Num[n.a]
	}
	return p.number(w, m, i)
}

// last returns the figure at the last moment where n's condition is true and
// there is a figure.
func (p *Program) last(w *World, n *node) float64 {
	from, to := w.span()
	for m := to - 1; m >= from; m-- {
		if x := p.number(w, w.moment(m), n.b); !math.IsNaN(x) && p.run(w, m, n.ea) == True {
			return x
		}
	}
	return math.NaN()
}

// extreme returns the highest or lowest figure that was taken.
func (p *Program) extreme(w *World, n *node) float64 {
	best := math.NaN()
	from, to := w.span()
	for m := from; m < to; m++ {
		x := p.number(w, w.moment(m), n.a)
		better := n.op == opHighest && x > best || n.op == opLowest && x < best
		if better || math.IsNaN(best) {
			best = x
		}
	}
	return best
}
