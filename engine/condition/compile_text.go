package condition

import (
	"fmt"
	"slices"

	"github.com/expr-lang/expr/ast"

	"snagwise/engine/problem"
)

// compare walks ==, !=, <, <=, > and >=.
func (c *compiler) compare(n *ast.BinaryNode) int32 {
	if c.looseNot(n) {
		return -1
	}
	l, r := c.kind(n.Left), c.kind(n.Right)
	switch {
	case l == bad || r == bad:
		if !c.bareWord(n.Left, n.Right) && !c.bareWord(n.Right, n.Left) {
			c.any(n.Left)
			c.any(n.Right)
		}
		return -1
	case l == NumberKind && r == NumberKind:
		return c.numbers(n, c.number(n.Left), c.number(n.Right))
	case l == TextKind && r == TextKind:
		return c.texts(n)
	case l == TruthKind && r == TruthKind:
		c.truth(n.Left)
		c.truth(n.Right)
		c.fail(n.Location().From, "wrong-kind", fmt.Sprintf("%q between two things that are true or false", n.Operator), "write a, not a, or a and b or not a and not b")
		return -1
	}
	before := len(c.problems)
	c.any(n.Left)
	c.any(n.Right)
	if len(c.problems) == before {
		c.fail(n.Location().From, "wrong-kind", fmt.Sprintf("%s is compared with %s", sort(l), sort(r)), "")
	}
	return -1
}

// looseNot reports "not x == y", which expr reads as "(not x) == y".
func (c *compiler) looseNot(n *ast.BinaryNode) bool {
	not, ok := n.Left.(*ast.UnaryNode)
	if !ok || not.Operator != "not" && not.Operator != "!" || c.kind(not.Node) == TruthKind {
		return false
	}
	hint := fmt.Sprintf("write not (%s %s %s)", not.Node, n.Operator, n.Right)
	if n.Operator == "in" {
		hint = fmt.Sprintf("write %s not in %s", not.Node, n.Right)
	}
	c.failAt(not, "wrong-kind", fmt.Sprintf("not takes only %s here, as it binds tighter than %q", c.show(not.Node), n.Operator), hint)
	c.any(not.Node)
	if _, list := n.Right.(*ast.ArrayNode); !list {
		c.any(n.Right)
	}
	return true
}

func sort(k Kind) string {
	if k == TruthKind {
		return "something true or false"
	}
	return "a " + k.String()
}

// texts compares a text name with a word in quotes.
func (c *compiler) texts(n *ast.BinaryNode) int32 {
	name, word := n.Left, n.Right
	if _, ok := name.(*ast.StringNode); ok {
		name, word = word, name
	}
	id, okName := name.(*ast.IdentifierNode)
	value, okWord := word.(*ast.StringNode)
	switch {
	case !okName || !okWord:
		c.fail(n.Location().From, "wrong-kind", "a text is compared with a word in quotes only", `write booster == "on"`)
		return -1
	case n.Operator != "==" && n.Operator != "!=":
		c.fail(n.Location().From, "wrong-kind", fmt.Sprintf("%q does not compare texts", n.Operator), "write == or in")
		return -1
	}
	set, ok := c.values(id, []ast.Node{value})
	if !ok {
		return -1
	}
	name0, _ := c.scope.Lookup(id.Value)
	i := c.add(node{op: opText, a: int32(name0.Slot), set: set})
	if n.Operator == "!=" {
		return c.not(i)
	}
	return i
}

// bareWord reports a word that a text is compared with and that lacks its
// quotes.
func (c *compiler) bareWord(text, word ast.Node) bool {
	id, isName := text.(*ast.IdentifierNode)
	bare, isBare := word.(*ast.IdentifierNode)
	if !isName || !isBare || c.kind(bare) != bad {
		return false
	}
	name, _ := c.scope.Lookup(id.Value)
	near := problem.Near(bare.Value, name.Values)
	if name.Kind != TextKind || near == "" {
		return false
	}
	c.failAt(word, "unknown-word", fmt.Sprintf("%s stands without quotes", bare.Value), fmt.Sprintf("write %q", near))
	return true
}

// values turns words in quotes into the set of a text's values.
func (c *compiler) values(id *ast.IdentifierNode, words []ast.Node) (set uint64, ok bool) {
	name, _ := c.scope.Lookup(id.Value)
	ok = true
	for _, w := range words {
		word, isWord := w.(*ast.StringNode)
		if !isWord {
			if ok = false; !c.bareWord(id, w) {
				c.failAt(w, "wrong-kind", fmt.Sprintf("%q is compared with words in quotes", name.ID), "")
				c.any(w)
			}
			continue
		}
		i := slices.Index(name.Values, word.Value)
		if i < 0 {
			c.failAt(w, "unknown-word", fmt.Sprintf("%q is never %q", name.ID, word.Value), problem.DidYouMean(word.Value, name.Values))
			ok = false
			continue
		}
		set |= 1 << i
	}
	return set, ok
}

// in walks x in [...], x a text name or a number.
func (c *compiler) in(n *ast.BinaryNode) int32 {
	if c.looseNot(n) {
		return -1
	}
	list, ok := n.Right.(*ast.ArrayNode)
	if !ok {
		c.any(n.Left)
		if b, isRange := n.Right.(*ast.BinaryNode); isRange && b.Operator == ".." {
			x := n.Left.String()
			c.fail(b.Location().From, "refused", `".." is no part of the condition language`, fmt.Sprintf("write %s >= %s and %s <= %s", x, b.Left, x, b.Right))
			return -1
		}
		c.failAt(n.Right, "refused", "after in stands a list", `write phase in ["idle", "run_up"]`)
		return -1
	}
	if len(list.Nodes) == 0 {
		c.any(n.Left)
		c.failAt(n.Right, "never-holds", "nothing is in an empty list", "")
		return -1
	}
	switch c.kind(n.Left) {
	case TextKind:
		id, isName := n.Left.(*ast.IdentifierNode)
		if !isName {
			c.failAt(n.Left, "wrong-kind", "a word in quotes stands before in", `write phase in ["idle", "run_up"]`)
			return -1
		}
		set, ok := c.values(id, list.Nodes)
		if !ok {
			return -1
		}
		name, _ := c.scope.Lookup(id.Value)
		return c.add(node{op: opText, a: int32(name.Slot), set: set})
	case NumberKind:
		return c.inNumbers(n, list)
	}
	before := len(c.problems)
	c.any(n.Left)
	if len(c.problems) == before {
		c.failAt(n.Left, "wrong-kind", fmt.Sprintf("%s is true or false and in no list", c.show(n.Left)), "")
	}
	return -1
}

// inNumbers walks x in [1, 2] as x == 1 or x == 2.
func (c *compiler) inNumbers(n *ast.BinaryNode, list *ast.ArrayNode) int32 {
	x, all, ok := c.number(n.Left), int32(-1), true
	for k, kid := range list.Nodes {
		each := ast.BinaryNode{Operator: "==", Left: n.Left, Right: kid}
		each.SetLocation(n.Location())
		b := c.number(kid)
		if b.i >= 0 && !c.isConst(b) {
			c.failAt(kid, "wrong-kind", "a list holds plain figures", "")
			ok = false
			continue
		}
		i := c.numbers(&each, x, b)
		switch {
		case i < 0:
			ok = false
		case k == 0:
			all = i
		case ok:
			all = c.join(opOr, all, i)
		}
	}
	if !ok {
		return -1
	}
	return all
}
