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

// next returns where to go on v.
func (ins *instr) next(v Truth) uint16 { return uint16(ins.to >> (uint(v+1) * 16 & 63)) }

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
				v = under(m.Num[ins.a], ins.k)
			}
		case askLE:
			if int(ins.a) < len(m.Num) {
				v = -under(ins.k, m.Num[ins.a])
			}
		case askEQ:
			v = compare(opEQ, m.num(int32(ins.a)), ins.k)
		case askLess:
			v = under(m.num(int32(ins.a)), m.num(int32(ins.b)))
		case askUnder:
			v = under(m.num(int32(ins.a))-m.num(int32(ins.b)), ins.k)
		case askUpTo:
			v = -under(ins.k, m.num(int32(ins.a))-m.num(int32(ins.b)))
		case askApart:
			v = under(math.Abs(m.num(int32(ins.a))-m.num(int32(ins.b))), ins.k)
		case askNear:
			v = -under(ins.k, math.Abs(m.num(int32(ins.a))-m.num(int32(ins.b))))
		case askShare:
			v = under(share(m.num(int32(ins.a)), m.num(int32(ins.b))), ins.k)
		case askPart:
			v = -under(ins.k, share(m.num(int32(ins.a)), m.num(int32(ins.b))))
		default:
			v = p.slow(w, m, now, int32(ins.a))
		}
		pc = ins.next(v)
	}
	return Truth(int(pc) - toUnknown)
}

// under says whether x < y; x <= y is the contrary of y < x.
func under(x, y float64) Truth {
	switch {
	case x < y:
		return True
	case x >= y:
		return False
	}
	return Unknown
}

// share returns a / b; of nothing there is none.
func share(a, b float64) float64 {
	if b == 0 {
		return math.NaN()
	}
	return a / b
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
