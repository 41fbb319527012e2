package condition

import (
	"strconv"
	"strings"

	"snagwise/engine/quantity"
)

// How tightly a part of a condition binds, loosest first.
const (
	bindOr = iota
	bindAnd
	bindCompare
	bindSum
	bindProduct
	bindTight
)

var operators = map[op]struct {
	word string
	bind int
}{
	opOr: {" or ", bindOr}, opAnd: {" and ", bindAnd},
	opLT: {" < ", bindCompare}, opLE: {" <= ", bindCompare}, opGT: {" > ", bindCompare},
	opGE: {" >= ", bindCompare}, opEQ: {" == ", bindCompare}, opNE: {" != ", bindCompare},
	opAdd: {" + ", bindSum}, opSub: {" - ", bindSum}, opMul: {" * ", bindProduct}, opDiv: {" / ", bindProduct},
}

var callWords = map[op]string{
	opAt: "at", opAtNum: "at", opBefore: "before", opAfter: "after", opTogether: "together",
	opMin: "min", opMax: "max", opAbs: "abs", opHighest: "highest", opLowest: "lowest",
}

// String writes the condition as it could have been typed: constants worked
// out, brackets only where needed.
func (p *Program) String() string { return p.text(p.root, bindOr) }

// text writes node i so that it can stand in a place that binds so tightly.
func (p *Program) text(i int32, bind int) string {
	n := &p.nodes[i]
	if o, ok := operators[n.op]; ok {
		s := p.text(n.a, o.bind) + o.word + p.text(n.b, o.bind+1)
		if o.bind < bind {
			return "(" + s + ")"
		}
		return s
	}
	if w := callWords[n.op]; w != "" {
		s := w + "(" + p.text(n.a, bindOr)
		if _, two := n.op.kids(); two {
			s += ", " + p.text(n.b, bindOr)
		}
		return s + ")"
	}
	switch n.op {
	case opTruth, opWhole:
		return p.id(TruthKind, n.a)
	case opNum:
		return p.id(NumberKind, n.a)
	case opK:
		return amount(n)
	case opConst:
		return strconv.FormatBool(n.k > 0)
	case opBand:
		return n.band.first() + "(" + p.id(NumberKind, n.a) + ")"
	case opAtBand:
		return n.band.first() + "(at(" + p.text(n.a, bindOr) + ", " + p.id(NumberKind, n.b) + "))"
	case opSeen:
		return "seen(" + p.id(Kind(n.b), n.a) + ")"
	case opText:
		if bind > bindCompare {
			return "(" + p.choice(n) + ")"
		}
		return p.choice(n)
	case opNot: // it binds tighter than a comparison
		return "not " + p.text(n.a, bindTight)
	case opNeg:
		return "-" + p.text(n.a, bindTight)
	}
	return p.counted(n)
}

// counted writes n_of(...).
func (p *Program) counted(n *node) string {
	parts := []string{strconv.Itoa(int(n.k))}
	for _, kid := range p.kids(n) {
		parts = append(parts, p.text(kid, bindOr))
	}
	return "n_of(" + strings.Join(parts, ", ") + ")"
}
func (p *Program) id(k Kind, slot int32) string { return p.scope.named(k, slot).ID }

// choice writes the values that a text may have.
func (p *Program) choice(n *node) string {
	name := p.scope.named(TextKind, n.a)
	var words []string
	for i, v := range name.Values {
		if n.set>>i&1 != 0 {
			words = append(words, strconv.Quote(v))
		}
	}
	if len(words) == 1 {
		return name.ID + " == " + words[0]
	}
	return name.ID + " in [" + strings.Join(words, ", ") + "]"
}

// amount writes a constant with its unit; 12 digits hide what the way to SI
// and back has cost.
func amount(n *node) string {
	if n.unit == 0 || n.dim == quantity.Pure {
		return strconv.FormatFloat(n.k, 'g', -1, 64)
	}
	x := n.k
	if u := unitOf(n.unit, n.dim); u != nil {
		x = u.FromSI(n.k)
	}
	return makers[n.unit-1].word + "(" + strconv.FormatFloat(x, 'g', 12, 64) + ")"
}
