package condition

import "math"

// Eval evaluates the condition at the moment with index now. A world without
// moments, or an index outside it, counts as a moment at which nothing is
// known. It allocates nothing.
func (p *Program) Eval(w *World, now int) Truth { return p.run(w, now, p.start) }

// EvalWhole evaluates the condition over all moments: true if it is true at
// one, else false if it is false at one, else unknown.
func (p *Program) EvalWhole(w *World) Truth {
	from, to := w.span()
	if p.steady {
		return p.Eval(w, from)
	}
	all := Unknown
	for now := from; now < to; now++ {
		switch p.Eval(w, now) {
		case True:
			return True
		case False:
			all = False
		}
	}
	return all
}

// Steady reports whether the condition says the same at every moment, because
// it reads nothing of the moment in hand.
func (p *Program) Steady() bool { return p.steady }

// run follows the code from pc until a way out.
func (p *Program) run(w *World, now int, pc uint16) Truth {
	m := w.moment(now)
	code := p.code
	for int(pc) < len(code) {
		ins := &code[pc]
		v := Unknown
		switch ins.code {
		case askWhole:
			if int(ins.a) < len(w.Whole) {
				v = w.Whole[ins.a]
			}
		case askTruth:
			if int(ins.a) < len(m.Truth) {
				v = m.Truth[ins.a]
			}
		case askText:
			if int(ins.a) < len(m.Text) {
				v = within(m.Text[ins.a], math.Float64bits(ins.k))
			}
		case askBand:
			if int(ins.a) < len(m.Word) {
				v = m.Word[ins.a].is(Band(ins.b))
			}
		case askLT:
			if int(ins.a) < len(m.Num) {
				if x := m.Num[ins.a]; x < ins.k {
					v = True
				} else if x >= ins.k {
					v = False
				}
			}
		case askLE:
			if int(ins.a) < len(m.Num) {
				if x := m.Num[ins.a]; x <= ins.k {
					v = True
				} else if x > ins.k {
					v = False
				}
			}
		case askEQ:
			v = compare(opEQ, m.num(int32(ins.a)), ins.k)
		case askLess:
			if x, y := m.num(int32(ins.a)), m.num(int32(ins.b)); x < y {
				v = True
			} else if x >= y {
				v = False
			}
		case askUnder:
			if x := m.num(int32(ins.a)) - m.num(int32(ins.b)); x < ins.k {
				v = True
			} else if x >= ins.k {
				v = False
			}
		case askUpTo:
			if x := m.num(int32(ins.a)) - m.num(int32(ins.b)); x <= ins.k {
				v = True
			} else if x > ins.k {
				v = False
			}
		default:
			// A comparison that was written the other way round has its ways
			// out swapped, so the contrary is asked.
			v = p.slow(w, m, now, int32(ins.a))
		}
		pc = ins.to[(v+1)&3]
	}
	return Truth(int(pc) - toUnknown)
}

// within says whether a text that has one of the values in may is one of those
// in set.
func within(may, set uint64) Truth {
	switch {
	case may == 0:
		return Unknown
	case may&^set == 0:
		return True
	case may&set == 0:
		return False
	}
	return Unknown
}

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
		if b == 0 {
			return math.NaN() // nothing can be said of a share of nothing
		}
		return a / b
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

// tree evaluates a truth node by its tree rather than by its code.
func (p *Program) tree(w *World, now int, i int32) Truth {
	n := &p.nodes[i]
	switch n.op {
	case opConst:
		return Truth(n.k)
	case opNot:
		return -p.tree(w, now, n.a)
	case opAnd:
		if a := p.tree(w, now, n.a); a == False {
			return False
		} else {
			return min(a, p.tree(w, now, n.b))
		}
	case opOr:
		if a := p.tree(w, now, n.a); a == True {
			return True
		} else {
			return max(a, p.tree(w, now, n.b))
		}
	case opTruth:
		return w.moment(now).truth(n.a)
	case opWhole:
		return w.whole(n.a)
	case opText:
		return within(w.moment(now).text(n.a), n.set)
	case opBand:
		return w.moment(now).word(n.a).is(n.band)
	case opLT, opLE, opGT, opGE, opEQ, opNE:
		return p.compared(w, w.moment(now), n)
	}
	return p.slow(w, w.moment(now), now, i)
}
