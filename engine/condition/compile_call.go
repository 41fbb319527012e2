package condition

import (
	"fmt"

	"github.com/expr-lang/expr/ast"

	"snagwise/engine/quantity"
)

// over walks what is evaluated at each moment: inside, truths told at moments
// are read at that moment.
func over[T any](c *compiler, n ast.Node, walk func(ast.Node) T) T {
	c.loops++
	defer func() { c.loops-- }()
	if c.loops > maxLoops && !c.deep {
		c.deep = true
		c.failAt(n, "too-big", fmt.Sprintf("at(...) and its like nested more than %d deep", maxLoops), "")
	}
	return walk(n)
}

// arguments checks how many arguments a call has; if the number is wrong it
// reports so and walks them for further problems.
func (c *compiler) arguments(n ast.Node, word string, args []ast.Node, least, most int) bool {
	if len(args) >= least && (most < 0 || len(args) <= most) {
		return true
	}
	form := word + "(8)"
	if f, ok := functions[word]; ok {
		form = f.form
	}
	c.failAt(n, "wrong-arguments", fmt.Sprintf("%s(...) with %d arguments", word, len(args)), "write "+form)
	for _, a := range args {
		c.any(a)
	}
	return false
}

// call walks a call that is true or false.
func (c *compiler) call(n *ast.CallNode) int32 {
	word := n.Callee.(*ast.IdentifierNode).Value
	if f := functions[word]; f.band != 0 {
		return c.bandWord(n, word, f.band)
	}
	switch word {
	case "seen":
		if !c.arguments(n, word, n.Arguments, 1, 1) {
			return -1
		}
		return c.seen(n.Arguments[0])
	case "n_of":
		return c.count(n)
	}
	if !c.arguments(n, word, n.Arguments, 2, 2) {
		return -1
	}
	o := map[string]op{"at": opAt, "before": opBefore, "after": opAfter, "together": opTogether}[word]
	if o == opAfter {
		if i, done := c.afterAll(n); done {
			return i
		}
	}
	a := over(c, n.Arguments[0], c.truth)
	b := over(c, n.Arguments[1], c.truth)
	return c.join(o, a, b)
}

// afterAll handles after(a, b) where a holds throughout and b is a bare name:
// what holds throughout comes before everything, moments or none.
func (c *compiler) afterAll(n *ast.CallNode) (int32, bool) {
	name := func(n ast.Node) (Name, bool) {
		id, ok := n.(*ast.IdentifierNode)
		if !ok {
			return Name{}, false
		}
		name, known := c.scope.Lookup(id.Value)
		return name, known && name.Kind == TruthKind
	}
	a, okA := name(n.Arguments[0])
	b, okB := name(n.Arguments[1])
	if !okA || !okB || a.Span != Throughout || b.Span == Momentary {
		return 0, false
	}
	return c.join(opAnd, c.add(node{op: opWhole, a: int32(a.Slot)}), c.add(node{op: opWhole, a: int32(b.Slot)})), true
}

// bandWord walks low(x) and its like, x a reading or at(condition, reading).
func (c *compiler) bandWord(n *ast.CallNode, word string, band Band) int32 {
	if !c.arguments(n, word, n.Arguments, 1, 1) {
		return -1
	}
	arg, cond := n.Arguments[0], int32(-1)
	if at, ok := arg.(*ast.CallNode); ok {
		callee, ok := at.Callee.(*ast.IdentifierNode)
		if ok && callee.Value == "at" && len(at.Arguments) == 2 {
			cond = over(c, at.Arguments[0], c.truth)
			if cond < 0 {
				c.any(at.Arguments[1])
				return -1
			}
			arg = at.Arguments[1]
		}
	}
	id, ok := arg.(*ast.IdentifierNode)
	if !ok {
		before := len(c.problems)
		c.any(arg)
		if len(c.problems) == before {
			c.failAt(arg, "wrong-kind", fmt.Sprintf("%s(...) is said of a reading, not of %s", word, c.show(arg)), "write the reading itself or at(condition, reading)")
		}
		return -1
	}
	name, ok := c.scope.Lookup(id.Value)
	switch {
	case !ok:
		c.unknown(id, id.Value)
		return -1
	case name.Kind != NumberKind:
		hint := ""
		if len(name.Values) > 0 {
			hint = fmt.Sprintf("compare it, as in %s == %q", name.ID, name.Values[0])
		}
		c.failAt(arg, "wrong-kind", fmt.Sprintf("%s(...) is said of a reading, but %q is a %s", word, name.ID, name.Kind), hint)
		return -1
	case !name.Banded:
		c.failAt(arg, "wrong-kind", fmt.Sprintf("%q has no bands, so %s(...) cannot be said of it", name.ID, word), "compare its figure")
		return -1
	}
	if cond >= 0 {
		return c.add(node{op: opAtBand, a: cond, b: int32(name.Slot), band: band})
	}
	return c.add(node{op: opBand, a: int32(name.Slot), band: band})
}

// seen walks seen(x), x a name.
func (c *compiler) seen(arg ast.Node) int32 {
	id, ok := arg.(*ast.IdentifierNode)
	if !ok {
		c.failAt(arg, "wrong-kind", fmt.Sprintf("seen(...) is asked of a name, not of %s", c.show(arg)), "")
		c.any(arg)
		return -1
	}
	name, ok := c.scope.Lookup(id.Value)
	if !ok {
		c.unknown(id, id.Value)
		return -1
	}
	whole := uint64(1)
	if name.Span == Momentary || name.Span != Throughout && c.loops > 0 {
		whole = 0
	}
	return c.add(node{op: opSeen, a: int32(name.Slot), b: int32(name.Kind), set: whole})
}

// count walks n_of(k, a, b, ...).
func (c *compiler) count(n *ast.CallNode) int32 {
	if !c.arguments(n, "n_of", n.Arguments, 2, -1) {
		return -1
	}
	var kids []int32
	ok := true
	for _, a := range n.Arguments[1:] {
		kid := c.truth(a)
		kids, ok = append(kids, kid), ok && kid >= 0
	}
	k, isNumber := n.Arguments[0].(*ast.IntegerNode)
	switch {
	case !isNumber:
		c.failAt(n.Arguments[0], "wrong-arguments", "n_of(...) begins with a whole number", "write "+functions["n_of"].form)
		return -1
	case k.Value < 1 || k.Value > len(kids):
		c.failAt(n.Arguments[0], "wrong-arguments", fmt.Sprintf("%d of %d", k.Value, len(kids)), fmt.Sprintf("the number must be from 1 to %d", len(kids)))
		return -1
	case !ok:
		return -1
	case k.Value == 1 || k.Value == len(kids):
		o := opOr
		if k.Value > 1 {
			o = opAnd
		}
		all := kids[0]
		for _, kid := range kids[1:] {
			all = c.join(o, all, kid)
		}
		return all
	}
	c.list = append(c.list, kids...)
	return c.add(node{op: opCount, a: int32(len(c.list) - len(kids)), b: int32(len(kids)), k: float64(k.Value)})
}

// numberCall walks a call that is a number.
func (c *compiler) numberCall(n *ast.CallNode) num {
	word := n.Callee.(*ast.IdentifierNode).Value
	if m := makerIndex[word]; m > 0 {
		return c.maker(n, word, m)
	}
	if word == "at" {
		if !c.arguments(n, word, n.Arguments, 2, 2) {
			return noNum
		}
		a := over(c, n.Arguments[0], c.truth)
		x := over(c, n.Arguments[1], c.number)
		if a < 0 || x.i < 0 {
			return noNum
		}
		c.settle(&x, x.dims)
		return num{i: c.add(node{op: opAtNum, a: a, b: x.i}), dims: x.dims}
	}
	if word == "highest" || word == "lowest" {
		if !c.arguments(n, word, n.Arguments, 1, 1) {
			return noNum
		}
		x := over(c, n.Arguments[0], c.number)
		if x.i < 0 {
			return noNum
		}
		c.settle(&x, x.dims)
		o := opHighest
		if word == "lowest" {
			o = opLowest
		}
		return num{i: c.add(node{op: o, a: x.i}), dims: x.dims}
	}
	return c.extremes(n, word, n.Arguments)
}

// maker walks psi(8) and its like, folded now.
func (c *compiler) maker(n *ast.CallNode, word string, m uint8) num {
	if !c.arguments(n, word, n.Arguments, 1, 1) {
		return noNum
	}
	x := c.number(n.Arguments[0])
	if x.i < 0 {
		return noNum
	}
	if !c.isConst(x) || x.dims&only(quantity.Pure) == 0 {
		c.failAt(n.Arguments[0], "wrong-arguments", fmt.Sprintf("%s(...) makes a quantity of a plain number", word), fmt.Sprintf("write %s(8)", word))
		return noNum
	}
	var may dims
	for _, d := range makerUnits()[m].dims {
		may |= only(d)
	}
	raw := c.nodes[x.i].k
	made := num{i: c.add(node{op: opK, unit: m}), dims: may, open: true, raw: raw}
	c.settle(&made, may)
	return made
}

// builtin walks abs, min and max, which expr reads as functions of its own.
func (c *compiler) builtin(n *ast.BuiltinNode) num { return c.extremes(n, n.Name, n.Arguments) }

func (c *compiler) extremes(n ast.Node, word string, args []ast.Node) num {
	if word == "abs" {
		if !c.arguments(n, word, args, 1, 1) {
			return noNum
		}
		x := c.number(args[0])
		if x.i < 0 {
			return noNum
		}
		c.settle(&x, x.dims)
		return c.fold(node{op: opAbs, a: x.i}, x.dims)
	}
	if !c.arguments(n, word, args, 2, -1) {
		return noNum
	}
	o := opMin
	if word == "max" {
		o = opMax
	}
	all := c.number(args[0])
	for _, a := range args[1:] {
		x := c.number(a)
		switch {
		case all.i < 0 || x.i < 0:
			all = noNum
			continue
		case !c.same(&all, &x):
			c.failAt(a, "wrong-dimension", fmt.Sprintf("a %s beside a %s in %s(...)", x.dims, all.dims, word), "")
			all = noNum
			continue
		}
		all = c.fold(node{op: o, a: all.i, b: x.i}, all.dims)
	}
	return all
}
