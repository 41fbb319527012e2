package condition

import (
	"fmt"
	"strings"

	"github.com/expr-lang/expr/ast"

	"snagwise/engine/problem"
)

// This file words what is no part of the language.

// unknown reports a name that is not in the scope.
func (c *compiler) unknown(n ast.Node, id string) {
	hint := ""
	switch near := c.scope.Near(id); {
	case near != "":
		hint = fmt.Sprintf("did you mean %q?", near)
	case functions[id].form != "":
		hint = "write " + functions[id].form
	case makerIndex[id] > 0:
		hint = fmt.Sprintf("write %s(8)", id)
	case strings.ContainsAny(id, "ABCDEFGHIJKLMNOPQRSTUVWXYZ"):
		hint = c.scope.Near(strings.ToLower(id))
	}
	c.failAt(n, "unknown-name", fmt.Sprintf("unknown name %q", id), hint)
}

// refuse reports what is no part of the language, and what else is wrong
// within it.
func (c *compiler) refuse(n ast.Node) {
	switch n := n.(type) {
	case *ast.IdentifierNode:
		c.unknown(n, n.Value)
		return
	case *ast.BuiltinNode:
		c.failAt(n, "refused", fmt.Sprintf("%s(...) is no part of the condition language", n.Name), refusedBuiltins[n.Name])
		return
	case *ast.BinaryNode:
		c.fail(n.Location().From, "refused", fmt.Sprintf("%q is no part of the condition language", n.Operator), refusedOperators[n.Operator])
	case *ast.CallNode:
		c.refuseCall(n)
		return
	case *ast.ConditionalNode:
		c.failAt(n, "refused", "a choice with ? or if is no part of the condition language", "write a and b or not a and c, or two rules")
	case *ast.NilNode:
		c.failAt(n, "refused", "nil is no part of the condition language", "seen(x) asks whether x is known")
		return
	case *ast.ArrayNode:
		c.failAt(n, "refused", "a list can only stand after in", `write phase in ["idle", "run_up"]`)
		return
	case *ast.VariableDeclaratorNode:
		c.failAt(n, "refused", "let is no part of the condition language", "conclude a fact with a rule of its own")
		return
	default:
		c.failAt(n, "refused", fmt.Sprintf("%s is no part of the condition language", c.show(n)), "")
		return
	}
	for _, kid := range children(n) {
		c.any(kid)
	}
}

func (c *compiler) refuseCall(n *ast.CallNode) {
	callee, ok := n.Callee.(*ast.IdentifierNode)
	switch {
	case !ok:
		c.failAt(n, "refused", fmt.Sprintf("%s is no part of the condition language", c.show(n)), "")
	case callee.Value == "at" && len(n.Arguments) == 2 && c.kind(n.Arguments[1]) == TextKind:
		c.failAt(n.Arguments[1], "wrong-kind", "at(...) takes a number or a truth", `put the text into the condition: at(phase == "idle", x)`)
		over(c, n.Arguments[0], c.truth)
	case callee.Value == "at" && len(n.Arguments) == 2:
		over(c, n.Arguments[0], c.truth)
		c.any(n.Arguments[1])
	case functions[callee.Value].form != "":
		c.arguments(n, callee.Value, n.Arguments, 2, 2)
	default:
		hint := problem.DidYouMean(callee.Value, functionNames)
		if _, known := c.scope.Lookup(callee.Value); known {
			hint = fmt.Sprintf("%q takes no brackets", callee.Value)
		}
		c.failAt(n, "unknown-name", fmt.Sprintf("unknown function %q", callee.Value), hint)
		for _, a := range n.Arguments {
			c.any(a)
		}
	}
}
