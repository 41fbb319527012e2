package condition

import (
	"fmt"
	"math"

	"github.com/expr-lang/expr/ast"

	"snagwise/engine/quantity"
)

// A num is a number node with the dimensions it may have. While open, it is a
// constant just made by a unit maker, which may still be several things.
type num struct {
	i    int32
	dims dims
	open bool
	raw  float64 // figure of an open constant, in the unit of its maker
}

var noNum = num{i: -1}

// number walks a node that must be a number.
func (c *compiler) number(n ast.Node) num {
	switch n := n.(type) {
	case *ast.IntegerNode:
		return c.plain(float64(n.Value))
	case *ast.FloatNode:
		return c.plain(n.Value)
	case *ast.IdentifierNode:
		if name, ok := c.scope.Lookup(n.Value); ok && name.Kind == NumberKind {
			return num{i: c.add(node{op: opNum, a: int32(name.Slot)}), dims: only(name.Dim)}
		}
	case *ast.UnaryNode:
		if n.Operator == "-" || n.Operator == "+" {
			return c.sign(n)
		}
	case *ast.BinaryNode:
		if c.kind(n) == NumberKind {
			return c.arithmetic(n)
		}
	case *ast.BuiltinNode:
		if c.kind(n) == NumberKind {
			return c.builtin(n)
		}
	case *ast.CallNode:
		if c.kind(n) == NumberKind {
			return c.numberCall(n)
		}
	}
	switch c.kind(n) {
	case TruthKind:
		before := len(c.problems)
		c.truth(n)
		if len(c.problems) == before {
			c.failAt(n, "wrong-kind", fmt.Sprintf("%s is true or false, where a number is wanted", c.show(n)), "")
		}
	case TextKind:
		c.failAt(n, "wrong-kind", fmt.Sprintf("%s is a text, where a number is wanted", c.show(n)), "")
	default:
		c.refuse(n)
	}
	return noNum
}

func (c *compiler) plain(x float64) num {
	return num{i: c.add(node{op: opK, k: x, dim: quantity.Pure}), dims: only(quantity.Pure), open: true, raw: x}
}

// isConst reports whether a number is a constant.
func (c *compiler) isConst(x num) bool { return c.nodes[x.i].op == opK }

// settle narrows a number to the dimensions given; an open constant takes its
// value in the first it usually has of these.
func (c *compiler) settle(x *num, to dims) {
	x.dims &= to
	n := &c.nodes[x.i]
	if n.op != opK {
		return
	}
	d := x.dims.first()
	for _, usual := range makerUnits()[n.unit].dims {
		if x.dims.has(usual) {
			d = usual
			break
		}
	}
	if x.open && n.unit > 0 {
		n.k = unitOf(n.unit, d).ToSI(x.raw)
	}
	n.dim = d
}

// sign walks -x and +x.
func (c *compiler) sign(n *ast.UnaryNode) num {
	x := c.number(n.Node)
	if x.i < 0 || n.Operator == "+" {
		return x
	}
	if c.isConst(x) && c.nodes[x.i].unit == 0 && x.open {
		c.nodes[x.i].k, x.raw = -x.raw, -x.raw
		return x
	}
	result, part, _ := combine(x.dims, only(quantity.Pure), quantity.Mul)
	if result == 0 {
		c.failAt(n, "wrong-dimension", fmt.Sprintf("a %s cannot be turned negative", x.dims), "write the minus within the unit, as in degC(-5)")
		return noNum
	}
	c.settle(&x, part)
	return c.fold(node{op: opNeg, a: x.i}, result)
}

// arithmetic walks a + b and its like.
func (c *compiler) arithmetic(n *ast.BinaryNode) num {
	a, b := c.number(n.Left), c.number(n.Right)
	if a.i < 0 || b.i < 0 {
		return noNum
	}
	rule, o := quantity.Add, opAdd
	switch n.Operator {
	case "-":
		rule, o = quantity.Sub, opSub
	case "*":
		rule, o = quantity.Mul, opMul
	case "/":
		rule, o = quantity.Div, opDiv
	}
	result, fromA, fromB := combine(a.dims, b.dims, rule)
	if result == 0 {
		c.fail(n.Location().From, "wrong-dimension", fmt.Sprintf("%s %s %s means nothing", a.dims, n.Operator, b.dims), c.sumHint(a, b, n.Operator))
		return noNum
	}
	c.settle(&a, fromA)
	c.settle(&b, fromB)
	if c.isConst(a) && c.isConst(b) { // constants have one meaning once joined
		result, _, _ = combine(only(c.nodes[a.i].dim), only(c.nodes[b.i].dim), rule)
		if result == 0 {
			result, _, _ = combine(a.dims, b.dims, rule)
		}
	}
	if o == opDiv && result == only(quantity.Pure) {
		result |= only(quantity.Ratio)
	}
	if o == opDiv && c.isConst(b) && c.nodes[b.i].k == 0 {
		c.failAt(n.Right, "divides-by-zero", "division by nothing", "")
		return noNum
	}
	return c.fold(node{op: o, a: a.i, b: b.i}, result)
}

func (c *compiler) sumHint(a, b num, operator string) string {
	plainA, plainB := a.dims == only(quantity.Pure), b.dims == only(quantity.Pure)
	if (operator == "+" || operator == "-") && plainA != plainB {
		other := a.dims
		if plainA {
			other = b.dims
		}
		if u := usual(other.first().Difference()); u != "" {
			return fmt.Sprintf("give the number a unit, as in %s(3)", u)
		}
	}
	return ""
}

// fold adds a number node, working it out now if its kids are constants.
func (c *compiler) fold(n node, result dims) num {
	_, two := n.op.kids()
	if c.nodes[n.a].op != opK || two && c.nodes[n.b].op != opK {
		return num{i: c.add(n), dims: result}
	}
	i := c.add(n)
	p := Program{nodes: c.nodes}
	k := p.number(&World{}, &empty, i)
	if !finite(k) {
		k = math.MaxFloat64 // refused when it is compared
	}
	d := result.first()
	c.nodes[i] = node{op: opK, k: k, dim: d, unit: makerFor(d, max(c.nodes[n.a].unit, c.nodes[n.b].unit))}
	if d == quantity.Pure {
		c.nodes[i].unit = 0
	}
	return num{i: i, dims: result}
}

// same narrows two numbers to the dimensions they share, as for comparing.
func (c *compiler) same(a, b *num) bool {
	both := a.dims & b.dims
	if both == 0 {
		return false
	}
	c.settle(a, both)
	c.settle(b, only(c.dimOf(*a)))
	c.settle(a, b.dims)
	return true
}

// dimOf returns the dimension a number has been settled to.
func (c *compiler) dimOf(x num) quantity.Dimension {
	if c.isConst(x) {
		return c.nodes[x.i].dim
	}
	return x.dims.first()
}

// numbers compares two numbers.
func (c *compiler) numbers(n *ast.BinaryNode, a, b num) int32 {
	if a.i < 0 || b.i < 0 {
		return -1
	}
	if !c.same(&a, &b) {
		c.mismatch(n, a, b)
		return -1
	}
	for _, x := range []num{a, b} {
		if c.isConst(x) && (!finite(c.nodes[x.i].k) || math.Abs(c.nodes[x.i].k) > 1e300) {
			c.failAt(n, "too-big", "a number too large to mean anything", "")
			return -1
		}
	}
	o := map[string]op{"<": opLT, "<=": opLE, ">": opGT, ">=": opGE, "==": opEQ, "!=": opNE}[n.Operator]
	if c.isConst(a) && c.isConst(b) {
		return c.add(node{op: opConst, k: float64(compare(o, c.nodes[a.i].k, c.nodes[b.i].k))})
	}
	return c.add(node{op: o, a: a.i, b: b.i})
}

// mismatch says that two numbers of different dimensions were compared.
func (c *compiler) mismatch(n *ast.BinaryNode, a, b num) {
	at, hint := n.Location().From, ""
	text := fmt.Sprintf("a %s is compared with a %s", a.dims, b.dims)
	bare, other := n.Right, a
	if a.dims == only(quantity.Pure) {
		bare, other = n.Left, b
	}
	if d, ok := other.dims.one(); ok && (a.dims == only(quantity.Pure) || b.dims == only(quantity.Pure)) {
		at = start(bare)
		text = fmt.Sprintf("%s has no unit, but is compared with a %s", c.show(bare), d)
		if u := usual(d); u != "" {
			hint = fmt.Sprintf("write %s(%s)", u, bare.String())
		}
	} else if b.open || a.open {
		d := a.dims.first()
		if a.open {
			d = b.dims.first()
		}
		if u := usual(d); u != "" {
			hint = fmt.Sprintf("a %s is told in %s or a unit like it", d, u)
		}
	}
	c.fail(at, "wrong-dimension", text, hint)
}
