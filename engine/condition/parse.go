package condition

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strings"
	"sync"
	"unicode/utf8"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/checker"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
	"github.com/expr-lang/expr/parser/lexer"

	"snagwise/engine/problem"
)

// The budgets of a condition. People write some ten words; these stop a file
// made to waste time.
const (
	maxText  = 4096 // bytes
	maxNodes = 500
	maxDepth = 40 // brackets within brackets
	maxLoops = 3  // at(...) within at(...)
)

// A source is the text of a condition and where its bytes stand in a file.
type source struct {
	text     string
	place    func(byteOffset int) problem.Pos
	problems problem.List
}

// at returns the place of a character, counted from 0.
func (s *source) at(char int) problem.Pos {
	i, n := 0, 0
	for i = range s.text {
		if n == char {
			return s.pos(i)
		}
		n++
	}
	return s.pos(len(s.text))
}

func (s *source) pos(i int) problem.Pos {
	if s.place != nil {
		return s.place(i)
	}
	before := s.text[:i]
	line := strings.LastIndexByte(before, '\n') + 1
	return problem.Pos{Line: 1 + strings.Count(before, "\n"), Col: 1 + utf8.RuneCountInString(before[line:])}
}

func (s *source) fail(char int, check, text, hint string) {
	s.problems.Add(s.at(char), check, text, hint)
}

// parse turns the text into expr's tree, or adds problems and returns nil.
// expr's parser cannot be used twice, so each text has a fresh one.
func (s *source) parse(config *conf.Config) *parser.Tree {
	switch {
	case strings.TrimSpace(s.text) == "":
		s.fail(0, "syntax", "empty condition", "")
		return nil
	case len(s.text) > maxText:
		s.fail(0, "too-big", fmt.Sprintf("condition of %d bytes, more than %d", len(s.text), maxText), "let it rest on facts that other rules conclude")
		return nil
	}
	tree, err := parser.ParseWithConfig(s.text, config)
	if err != nil {
		s.syntax(err)
		return nil
	}
	if nodes, deep := measure(tree.Node); nodes > maxNodes || deep > maxDepth {
		what := fmt.Sprintf("condition of more than %d parts", maxNodes)
		if nodes <= maxNodes {
			what = fmt.Sprintf("condition nested more than %d deep", maxDepth)
		}
		s.fail(0, "too-big", what, "let it rest on facts that other rules conclude")
		return nil
	}
	return tree
}

var (
	badToken = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^unexpected token (\w+)(?:\((.*)\))?$`)
	})
	badNumber = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`([0-9][0-9.]*)([A-Za-z_][A-Za-z_0-9]*)`)
	})
)

// syntax words what expr's parser could not read. Calls of expr's own
// functions are told first, since they may be why.
func (s *source) syntax(err error) {
	var e *file.Error
	if !errors.As(err, &e) {
		s.fail(0, "syntax", err.Error(), "")
		return
	}
	if s.refusedCalls() {
		return
	}
	text, hint, char := e.Message, "", e.From
	if m := badToken().FindStringSubmatch(text); m != nil {
		switch {
		case m[1] == "EOF":
			char = utf8.RuneCountInString(strings.TrimRight(s.text, " \t\r\n"))
			text, hint = "the condition stops short", "a bracket may be left open, or a word missing after and, or, not"
		case m[2] == `"="`:
			text, hint = `"=" does not compare`, "write =="
		default:
			text = m[2] + " cannot stand here"
		}
	} else if strings.HasPrefix(text, "bad number syntax") {
		for _, m := range badNumber().FindAllStringSubmatchIndex(s.text, -1) {
			from := utf8.RuneCountInString(s.text[:m[0]])
			if from > e.From || e.From > from+m[1]-m[0] {
				continue
			}
			figure, unit := s.text[m[2]:m[3]], s.text[m[4]:m[5]]
			char, text = from, fmt.Sprintf("%q is no number", figure+unit)
			if _, ok := makerIndex[unit]; ok {
				hint = fmt.Sprintf("write %s(%s)", unit, figure)
			}
			break
		}
	}
	s.fail(char, "syntax", lowerFirst(text), hint)
}

func lowerFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return strings.ToLower(string(r)) + s[n:]
}

// refusedCalls adds a problem for each call of a function that only expr has,
// found by its tokens, since expr reads some of them in a way of their own.
func (s *source) refusedCalls() bool {
	tokens, _ := lexer.Lex(file.NewSource(s.text))
	found := false
	for i, t := range tokens {
		hint, refused := refusedBuiltins[t.Value]
		if refused && t.Kind == lexer.Identifier && i+1 < len(tokens) && tokens[i+1].Is(lexer.Bracket, "(") {
			s.fail(t.From, "refused", fmt.Sprintf("%s(...) is no part of the condition language", t.Value), hint)
			found = true
		}
	}
	return found
}

// measure counts the nodes of a tree and how deep it goes, stopping soon after
// the budget: expr lets chained comparisons share nodes, so a walk could take
// twice as long for each level. A row of the same operator is one level.
func measure(n ast.Node) (nodes, depth int) {
	var walk func(n ast.Node, level int)
	walk = func(n ast.Node, level int) {
		if n == nil {
			return
		}
		nodes++
		depth = max(depth, level)
		if nodes > maxNodes || depth > maxDepth {
			return
		}
		for _, kid := range children(n) {
			same := false
			if b, ok := n.(*ast.BinaryNode); ok {
				k, ok := kid.(*ast.BinaryNode)
				same = ok && k.Operator == b.Operator
			}
			if same {
				walk(kid, level)
			} else {
				walk(kid, level+1)
			}
		}
	}
	walk(n, 1)
	return nodes, depth
}

// children returns the nodes right below n.
func children(n ast.Node) []ast.Node {
	switch n := n.(type) {
	case *ast.UnaryNode:
		return []ast.Node{n.Node}
	case *ast.BinaryNode:
		return []ast.Node{n.Left, n.Right}
	case *ast.ChainNode:
		return []ast.Node{n.Node}
	case *ast.MemberNode:
		return []ast.Node{n.Node, n.Property}
	case *ast.SliceNode:
		return []ast.Node{n.Node, n.From, n.To}
	case *ast.CallNode:
		return append([]ast.Node{n.Callee}, n.Arguments...)
	case *ast.BuiltinNode:
		return n.Arguments
	case *ast.PredicateNode:
		return []ast.Node{n.Node}
	case *ast.ConditionalNode:
		return []ast.Node{n.Cond, n.Exp1, n.Exp2}
	case *ast.VariableDeclaratorNode:
		return []ast.Node{n.Value, n.Expr}
	case *ast.SequenceNode:
		return n.Nodes
	case *ast.ArrayNode:
		return n.Nodes
	case *ast.MapNode:
		return n.Pairs
	case *ast.PairNode:
		return []ast.Node{n.Key, n.Value}
	}
	return nil
}

// exprConfig describes the scope to expr, once: names with their Go types and
// the functions of the language.
func (s *Scope) exprConfig() *conf.Config {
	s.once.Do(func() {
		env := make(map[string]any, len(s.names)+len(makers))
		for _, n := range s.names {
			env[n.ID] = [...]any{math.NaN(), false, ""}[n.Kind]
		}
		for _, m := range makers {
			env[m.word] = func(float64) float64 { return 0 }
		}
		for _, w := range bandWords {
			env[w] = func(float64) bool { return false }
		}
		pair := func(bool, bool) bool { return false }
		env["before"], env["after"], env["together"] = pair, pair, pair
		env["n_of"] = func(int, ...bool) bool { return false }
		env["seen"] = func(any) bool { return false }
		env["highest"] = func(float64) float64 { return 0 }
		env["lowest"] = env["highest"]
		s.config = conf.New(env)
		never := func(...any) (any, error) { return nil, errors.New("not run by expr") }
		expr.Function("at", never, new(func(bool, float64) float64), new(func(bool, bool) bool))(s.config)
		s.config.Check()
	})
	return s.config
}

// check runs expr's own type check over a tree that ours has passed.
func (s *source) check(tree *parser.Tree, config *conf.Config) {
	_, err := checker.Check(tree, config)
	if err == nil {
		return
	}
	var e *file.Error
	if errors.As(err, &e) {
		s.fail(e.From, "wrong-kind", lowerFirst(e.Message), "")
		return
	}
	s.fail(0, "wrong-kind", err.Error(), "")
}
