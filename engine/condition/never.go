package condition

import (
	"fmt"
	"math"
)

// A claim is what the top of a condition asks of one name: all of it must be
// so at once, so two claims that cannot both be so are a slip of the pen.
type claim struct {
	band   Band    // words said of a reading
	yes    bool    // a truth is asked to be so
	no     bool    // and not so
	set    uint64  // values left to a text
	lo, hi float64 // figures left to a number
	loOut  bool    // lo itself is left out
	hiOut  bool    // hi itself is left out
}

// opposites are band words that cannot both be true of one reading.
var opposites = []Band{Low | Normal, Low | High, Normal | High, Rising | Falling, OverStop | BelowStop, None | High, None | OverStop, Dead | Rising, Dead | Falling, Dead | Unsteady}

// neverHolds says why the condition cannot be true, where that shows at its
// top: "" when it may hold.
func (p *Program) neverHolds() string {
	if n := &p.nodes[p.root]; n.op == opConst && n.k < 0 {
		return "it comes out false whatever is known"
	}
	claims := map[[2]int32]*claim{}
	why := ""
	p.conjuncts(p.root, func(i int32, yes bool) {
		if why == "" {
			why = p.clash(claims, i, yes)
		}
	})
	return why
}

// conjuncts calls f for every leaf that must be true, or false, for node i.
func (p *Program) conjuncts(i int32, f func(i int32, yes bool)) {
	var walk func(i int32, yes bool)
	walk = func(i int32, yes bool) {
		n := &p.nodes[i]
		switch {
		case n.op == opNot:
			walk(n.a, !yes)
		case n.op == opAnd && yes, n.op == opOr && !yes:
			walk(n.a, yes)
			walk(n.b, yes)
		default:
			f(i, yes)
		}
	}
	walk(i, true)
}

// clash adds a leaf's claim to what the others claim of the same name.
func (p *Program) clash(claims map[[2]int32]*claim, i int32, yes bool) string {
	n := &p.nodes[i]
	kind, slot := TruthKind, n.a
	switch {
	case n.op == opTruth || n.op == opWhole:
	case n.op == opText:
		kind = TextKind
	case n.op == opBand && yes:
		kind = NumberKind
	case n.op >= opLT && n.op <= opEQ && p.nodes[n.a].op == opNum && p.nodes[n.b].op == opK:
		kind, slot = NumberKind, p.nodes[n.a].a
	default:
		return ""
	}
	key := [2]int32{int32(kind), slot}
	c := claims[key]
	if c == nil {
		c = &claim{set: math.MaxUint64, lo: math.Inf(-1), hi: math.Inf(1)}
		claims[key] = c
	}
	id := p.scope.named(kind, slot).ID
	switch n.op {
	case opTruth, opWhole:
		c.yes, c.no = c.yes || yes, c.no || !yes
		if c.yes && c.no {
			return fmt.Sprintf("%q both so and not so", id)
		}
	case opText:
		set := n.set
		if !yes {
			set = ^set
		}
		if c.set &= set; c.set&(1<<len(p.scope.named(kind, slot).Values)-1) == 0 {
			return fmt.Sprintf("no value is left for %q", id)
		}
	case opBand:
		c.band |= n.band
		for _, both := range opposites {
			if c.band&both == both {
				return fmt.Sprintf("%q both %s and %s", id, both.first(), (both &^ both.lowest()).first())
			}
		}
	default:
		if c.narrow(n.op, p.nodes[n.b].k, yes); c.lo > c.hi || c.lo == c.hi && (c.loOut || c.hiOut) {
			return fmt.Sprintf("no figure is left for %q", id)
		}
	}
	return ""
}

// narrow leaves only the figures that stand to k as asked.
func (c *claim) narrow(o op, k float64, yes bool) {
	if !yes {
		contrary := map[op]op{opLT: opGE, opLE: opGT, opGT: opLE, opGE: opLT}
		if o = contrary[o]; o == opTruth {
			return
		}
	}
	out := o == opLT || o == opGT
	if o == opGT || o == opGE || o == opEQ {
		if k > c.lo {
			c.lo, c.loOut = k, out
		}
		c.loOut = c.loOut || k == c.lo && out
	}
	if o == opLT || o == opLE || o == opEQ {
		if k < c.hi {
			c.hi, c.hiOut = k, out
		}
		c.hiOut = c.hiOut || k == c.hi && out
	}
}

func (b Band) lowest() Band { return b & -b }

// first returns the word of the lowest bit.
func (b Band) first() string {
	for i, w := range bandWords {
		if b&(1<<i) != 0 {
			return w
		}
	}
	return "nothing"
}
