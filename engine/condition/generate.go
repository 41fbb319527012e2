package condition

import "math"

// An instr is one test of the flat program: it asks one thing and says where
// to go on false, unknown and true. Going on unknown is to code that knows so,
// which is why a part may stand in the program up to a few times, and why
// nothing needs to be remembered while it runs.
type instr struct {
	k    float64 // limit; for texts the bits of a set
	to   uint64  // where to go, 16 bits each: on false, unknown and true
	a, b uint16  // slots or nodes; for bands the word
	code code    //
}

// A code says what an instr asks.
type code uint8

const (
	askWhole code = iota
	askTruth
	askText
	askBand
	askLT    // number slot a < k
	askLE    // number slot a <= k
	askEQ    // number slot a == k
	askLess  // number slot a < number slot b
	askUnder // number slot a - number slot b < k
	askUpTo  // number slot a - number slot b <= k
	askApart // the same without sign < k
	askNear  // the same without sign <= k
	askShare // number slot a / number slot b < k
	askPart  // number slot a / number slot b <= k
	askNode  // whatever node a says
)

// Where a program ends, as places to go to.
const (
	toFalse   = math.MaxUint16 - 2
	toUnknown = math.MaxUint16 - 1
	toTrue    = math.MaxUint16
	maxCode   = 20000 // instructions
)

// A generator writes the code of a program, last test first.
type generator struct {
	p     *Program
	first []int32 // by node: its newest entry in done, from 1
	done  []entry
	over  bool // too much code
}

// An entry says where the code of a node stands for given ways out.
type entry struct {
	next    int32
	f, u, t uint16
	at      uint16
}

// generate writes p's code and notes whether p reads the moment in hand. It
// returns false where the code would be too long.
func (p *Program) generate() bool {
	g := generator{p: p, first: make([]int32, len(p.nodes)), done: make([]entry, 0, 2*len(p.nodes))}
	p.code = make([]instr, 0, len(p.nodes)+2)
	p.steady = true
	for i := range p.nodes {
		n := &p.nodes[i]
		switch n.op { // those that evaluate conditions by themselves
		case opAt, opBefore, opAfter, opTogether:
			n.ea = g.node(n.a, toFalse, toUnknown, toTrue)
			n.eb = g.node(n.b, toFalse, toUnknown, toTrue)
		case opAtBand, opAtNum:
			n.ea = g.node(n.a, toFalse, toUnknown, toTrue)
		}
	}
	p.start = g.node(p.root, toFalse, toUnknown, toTrue)
	p.steady = !p.readsMoment(p.root)
	return !g.over
}

// node returns where to go to have node i asked and then go to f, u or t.
func (g *generator) node(i int32, f, u, t uint16) uint16 {
	if f == u && u == t {
		return u
	}
	for e := g.first[i]; e > 0; e = g.done[e-1].next {
		if d := &g.done[e-1]; d.f == f && d.u == u && d.t == t {
			return d.at
		}
	}
	at := g.write(i, f, u, t)
	g.done = append(g.done, entry{next: g.first[i], f: f, u: u, t: t, at: at})
	g.first[i] = int32(len(g.done))
	return at
}

func (g *generator) write(i int32, f, u, t uint16) uint16 {
	n := &g.p.nodes[i]
	switch n.op {
	case opConst:
		if n.k > 0 {
			return t
		}
		return f
	case opNot:
		return g.node(n.a, t, u, f)
	case opAnd: // once a is unknown, b can only make it false
		return g.node(n.a, f, g.node(n.b, f, u, u), g.node(n.b, f, u, t))
	case opOr:
		return g.node(n.a, g.node(n.b, f, u, t), g.node(n.b, u, u, t), t)
	}
	if n.op == opCount && g.short(n) {
		t := tally{g: g, n: n, ways: [3]uint16{f, u, t}}
		return t.kid(0, 0, 0)
	}
	if len(g.p.code) >= maxCode {
		g.over = true
		return u
	}
	ins := g.ask(n, i)
	if n.op == opGT || n.op == opGE || n.op == opNE {
		f, t = t, f // asked as the contrary
	}
	if swapped(n, g.p.nodes) && ins.code != askNode && ins.code != askEQ {
		f, t = t, f
	}
	ins.to = uint64(f) | uint64(u)<<16 | uint64(t)<<32
	g.p.code = append(g.p.code, ins)
	return uint16(len(g.p.code) - 1)
}

// maxTally is how many conditions are counted by code of their own; beyond, or
// where they are more than single tests, copying them would cost too much.
const maxTally = 6

func (g *generator) short(n *node) bool {
	for _, kid := range g.p.kids(n) {
		if o := g.p.nodes[kid].op; o == opNot || o == opAnd || o == opOr || o == opCount {
			return false
		}
	}
	return n.b <= maxTally
}

// A tally writes the code of n_of(k, ...): a state for each number of true and
// unknown ones met so far.
type tally struct {
	g    *generator
	n    *node
	ways [3]uint16
	at   [maxTally][maxTally][maxTally]uint16 // by kid, true and unknown ones before it; plus 1
}

// kid returns where to go to have the kids from j on asked.
func (t *tally) kid(j, yes, open int) uint16 {
	need, rest := int(t.n.k), int(t.n.b)-j
	switch {
	case yes >= need:
		return t.ways[2]
	case yes+open+rest < need:
		return t.ways[0]
	case rest == 0 || yes+rest < need && yes+open >= need:
		return t.ways[1]
	}
	if at := t.at[j][yes][open]; at > 0 {
		return at - 1
	}
	at := t.g.node(t.g.p.kids(t.n)[j], t.kid(j+1, yes, open), t.kid(j+1, yes, open+1), t.kid(j+1, yes+1, open))
	if at < math.MaxUint16 {
		t.at[j][yes][open] = at + 1
	}
	return at
}

// swapped reports whether a comparison has its constant on the left, so that
// psi(8) < x is asked as the contrary of x <= psi(8).
func swapped(n *node, nodes []node) bool {
	return n.op >= opLT && n.op <= opNE && nodes[n.a].op == opK
}

// ask makes the test of a leaf. A comparison comes out as <, <= or ==; where
// it was the contrary the ways out are swapped.
func (g *generator) ask(n *node, i int32) instr {
	switch n.op {
	case opWhole:
		return instr{code: askWhole, a: uint16(n.a)}
	case opTruth:
		return instr{code: askTruth, a: uint16(n.a)}
	case opText:
		return instr{code: askText, a: uint16(n.a), k: math.Float64frombits(n.set)}
	case opBand:
		return instr{code: askBand, a: uint16(n.a), b: uint16(n.band)}
	case opLT, opLE, opGT, opGE, opEQ, opNE:
		return g.askNumbers(n, i)
	}
	return instr{code: askNode, a: uint16(i)}
}

func (g *generator) askNumbers(n *node, i int32) instr {
	nodes := g.p.nodes
	a, b, o := &nodes[n.a], &nodes[n.b], n.op
	strict := o == opLT || o == opGE // asked as <, else as <=
	if swapped(n, nodes) {
		a, b, strict = b, a, !strict
	}
	pick := func(lt, le code) code {
		if strict {
			return lt
		}
		return le
	}
	switch {
	case a.op == opNum && b.op == opK && (o == opEQ || o == opNE):
		return instr{code: askEQ, a: uint16(a.a), k: b.k}
	case o == opEQ || o == opNE:
	case a.op == opNum && b.op == opK:
		return instr{code: pick(askLT, askLE), a: uint16(a.a), k: b.k}
	case a.op == opNum && b.op == opNum && strict:
		return instr{code: askLess, a: uint16(a.a), b: uint16(b.a)}
	case b.op != opK:
	case g.twoReadings(a, opSub):
		return instr{code: pick(askUnder, askUpTo), a: uint16(nodes[a.a].a), b: uint16(nodes[a.b].a), k: b.k}
	case g.twoReadings(a, opDiv):
		return instr{code: pick(askShare, askPart), a: uint16(nodes[a.a].a), b: uint16(nodes[a.b].a), k: b.k}
	case a.op == opAbs && g.twoReadings(&nodes[a.a], opSub):
		a = &nodes[a.a]
		return instr{code: pick(askApart, askNear), a: uint16(nodes[a.a].a), b: uint16(nodes[a.b].a), k: b.k}
	}
	return instr{code: askNode, a: uint16(i)}
}

// twoReadings reports whether n is made of two bare readings in this way.
func (g *generator) twoReadings(n *node, o op) bool {
	return n.op == o && g.p.nodes[n.a].op == opNum && g.p.nodes[n.b].op == opNum
}

// readsMoment reports whether node i reads the moment in hand.
func (p *Program) readsMoment(i int32) bool {
	n := &p.nodes[i]
	switch n.op {
	case opTruth, opText, opBand, opNum:
		return true
	case opSeen:
		return n.set == 0
	case opCount:
		for _, kid := range p.kids(n) {
			if p.readsMoment(kid) {
				return true
			}
		}
		return false
	}
	if n.op.loops() {
		return false
	}
	a, b := n.op.kids()
	return a && p.readsMoment(n.a) || b && p.readsMoment(n.b)
}

// kids returns the conditions that an opCount node counts.
func (p *Program) kids(n *node) []int32 { return p.list[n.a : n.a+n.b] }
