package condition

import (
	"fmt"
	"math"

	"github.com/expr-lang/expr/ast"

	"snagwise/engine/problem"
	"snagwise/engine/quantity"
)

// A Program is one condition, ready to be evaluated. It does not change and
// may be used by many goroutines at once.
type Program struct {
	scope  *Scope
	nodes  []node
	list   []int32 // kids of opCount nodes
	root   int32
	code   []instr
	start  uint16
	steady bool
}

// Compile reads a condition. place gives the place in the file of a byte of
// the text; nil counts lines and columns within the text. All problems of the
// condition are returned at once, sorted; the program is nil if there is one.
func Compile(scope *Scope, text string, place func(byteOffset int) problem.Pos) (*Program, problem.List) {
	scope.mu.Lock()
	defer scope.mu.Unlock()
	config := scope.exprConfig()
	c := &compiler{source: source{text: text, place: place}, scope: scope}
	tree := c.parse(config)
	if tree == nil {
		return nil, c.problems.Sorted()
	}
	root := c.truth(tree.Node)
	if len(c.problems) == 0 {
		c.check(tree, config)
	}
	if len(c.problems) > 0 {
		return nil, c.problems.Sorted()
	}
	p := c.finish(root)
	if why := p.neverHolds(); why != "" {
		c.fail(0, "never-holds", "the condition can never hold: "+why, "")
		return nil, c.problems.Sorted()
	}
	if !p.generate() {
		c.fail(0, "too-big", "condition too tangled", "let it rest on facts that other rules conclude")
		return nil, c.problems.Sorted()
	}
	return p, nil
}

// A compiler walks expr's tree once and makes nodes. Its methods return -1, or
// a num with i -1, where a problem was found; the walk goes on all the same.
type compiler struct {
	source
	scope *Scope
	nodes []node
	list  []int32
	loops int  // how many at(...) and the like we are within
	deep  bool // too many, and said so
}

func (c *compiler) add(n node) int32 {
	c.nodes = append(c.nodes, n)
	return int32(len(c.nodes) - 1)
}

func (c *compiler) failAt(n ast.Node, check, text, hint string) {
	c.fail(start(n), check, text, hint)
}

// start returns the character at which a node begins; expr gives operators'.
func start(n ast.Node) int {
	switch n := n.(type) {
	case *ast.BinaryNode:
		return start(n.Left)
	case *ast.ConditionalNode:
		return start(n.Cond)
	case *ast.MemberNode:
		return start(n.Node)
	case *ast.ChainNode:
		return start(n.Node)
	}
	return n.Location().From
}

// kind returns what a node is without looking further than needed; bad is
// what cannot be told.
func (c *compiler) kind(n ast.Node) Kind {
	switch n := n.(type) {
	case *ast.IdentifierNode:
		if name, ok := c.scope.Lookup(n.Value); ok {
			return name.Kind
		}
	case *ast.IntegerNode, *ast.FloatNode:
		return NumberKind
	case *ast.BoolNode:
		return TruthKind
	case *ast.StringNode:
		return TextKind
	case *ast.UnaryNode:
		if n.Operator == "-" || n.Operator == "+" {
			return NumberKind
		}
		return TruthKind
	case *ast.BinaryNode:
		switch n.Operator {
		case "+", "-", "*", "/":
			return NumberKind
		case "and", "&&", "or", "||", "==", "!=", "<", "<=", ">", ">=", "in":
			return TruthKind
		}
	case *ast.BuiltinNode:
		if f, ok := functions[n.Name]; ok {
			return f.result
		}
	case *ast.CallNode:
		return c.callKind(n)
	}
	return bad
}

const bad = TextKind + 1

func (c *compiler) callKind(n *ast.CallNode) Kind {
	callee, ok := n.Callee.(*ast.IdentifierNode)
	if !ok {
		return bad
	}
	if makerIndex[callee.Value] > 0 {
		return NumberKind
	}
	f, ok := functions[callee.Value]
	switch {
	case !ok:
		return bad
	case f.result == TextKind && len(n.Arguments) == 2: // at(condition, x) is what x is
		if k := c.kind(n.Arguments[1]); k != TextKind {
			return k
		}
		return bad
	case f.result == TextKind:
		return bad
	}
	return f.result
}

// any walks a node whatever its kind, for the problems within it.
func (c *compiler) any(n ast.Node) {
	switch c.kind(n) {
	case NumberKind:
		c.number(n)
	case TruthKind:
		c.truth(n)
	case bad:
		c.refuse(n)
	}
}

// truth walks a node that must be true or false.
func (c *compiler) truth(n ast.Node) int32 {
	switch c.kind(n) {
	case NumberKind:
		before := len(c.problems)
		c.number(n)
		if len(c.problems) == before {
			c.failAt(n, "wrong-kind", fmt.Sprintf("%s is a number, where something true or false is wanted", c.show(n)), "compare it, as in x > psi(8), or use a band word, as in low(x)")
		}
		return -1
	case TextKind:
		c.failAt(n, "wrong-kind", fmt.Sprintf("%s is a text, where something true or false is wanted", c.show(n)), `compare it, as in booster == "on"`)
		return -1
	case bad:
		c.refuse(n)
		return -1
	}
	switch n := n.(type) {
	case *ast.BoolNode:
		return c.add(node{op: opConst, k: float64(of(n.Value))})
	case *ast.IdentifierNode:
		return c.named(n.Value)
	case *ast.UnaryNode:
		return c.not(c.truth(n.Node))
	case *ast.CallNode:
		return c.call(n)
	case *ast.BinaryNode:
		switch n.Operator {
		case "and", "&&":
			return c.join(opAnd, c.truth(n.Left), c.truth(n.Right))
		case "or", "||":
			return c.join(opOr, c.truth(n.Left), c.truth(n.Right))
		case "in":
			return c.in(n)
		}
		return c.compare(n)
	}
	c.refuse(n)
	return -1
}

// named makes the node of a truth name, read where its span says.
func (c *compiler) named(id string) int32 {
	name, _ := c.scope.Lookup(id)
	if name.Span == Momentary || name.Span == Sometimes && c.loops > 0 {
		return c.add(node{op: opTruth, a: int32(name.Slot)})
	}
	return c.add(node{op: opWhole, a: int32(name.Slot)})
}

func (c *compiler) not(a int32) int32 {
	if a < 0 {
		return -1
	}
	if c.nodes[a].op == opConst {
		return c.add(node{op: opConst, k: -c.nodes[a].k})
	}
	return c.add(node{op: opNot, a: a})
}

// join makes an and, an or or the like of two truths, folding constants.
func (c *compiler) join(o op, a, b int32) int32 {
	if a < 0 || b < 0 {
		return -1
	}
	if o == opAnd || o == opOr {
		for _, pair := range [2][2]int32{{a, b}, {b, a}} {
			if first := c.nodes[pair[0]]; first.op == opConst {
				if (first.k > 0) == (o == opAnd) {
					return pair[1]
				}
				return pair[0]
			}
		}
	}
	return c.add(node{op: o, a: a, b: b})
}

// show quotes a piece of the condition, shortened.
func (c *compiler) show(n ast.Node) string {
	r := []rune(n.String())
	if len(r) > 40 {
		r = append(r[:37:37], []rune("...")...)
	}
	return fmt.Sprintf("%q", string(r))
}

// finite reports whether a constant is a number that can be compared.
func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// usual returns a unit to suggest for a dimension, as it is written.
func usual(d quantity.Dimension) string {
	if d == quantity.PressureDifference {
		return "psi" // plainer than psi_difference, and as clear here
	}
	if m := makerFor(d, 0); d != quantity.Pure && m > 0 {
		return makers[m-1].word
	}
	return ""
}
