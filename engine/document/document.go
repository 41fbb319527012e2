// Package document reads YAML that a person wrote and keeps the place of every
// word in it, so that each later room can point at the character it means.
//
// It is a plain subset: one document, no aliases or merge keys, UTF-8, at most
// [MaxBytes] and [MaxDepth], no key twice. [Parse] gives a tree of nodes;
// [Decode] fills a struct from it by `yaml` tags and reports every unknown key
// and wrong type at once:
//
//	node, problems := document.Parse("fuel.yaml", text)
//	var file struct{ System document.Text `yaml:"system"` }
//	problems = append(problems, document.Decode(node, &file)...)
package document

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"snagwise/engine/problem"
)

// Budgets for a file that a stranger may have written.
const (
	MaxBytes = 8 << 20
	MaxDepth = 40
)

// A Kind is what a node is.
type Kind uint8

// The kinds of node.
const (
	Null Kind = iota
	Scalar
	ListKind
	MapKind
)

// A Node is one value in a file, with its place.
type Node struct {
	Kind Kind
	// Value is the text of a scalar, unquoted and unfolded.
	Value string
	// Quoted says that a scalar was written in quotes or as a block, so that
	// it is text whatever it looks like.
	Quoted bool
	// Items are the values of a list.
	Items []*Node
	// Keys and Values are those of a map, in the order of the file.
	Keys, Values []*Node

	file      *source
	line, col int
	style     yaml.Style
}

type source struct {
	name  string
	text  []byte
	lines []int // byte offset of each line's start
}

// Pos returns where the node begins.
func (n *Node) Pos() problem.Pos {
	if n == nil {
		return problem.Pos{}
	}
	return problem.Pos{File: n.file.name, Line: n.line, Col: n.col}
}

// Get returns the value of a key in a map, or nil.
func (n *Node) Get(key string) *Node {
	for i, k := range n.Keys {
		if k.Value == key {
			return n.Values[i]
		}
	}
	return nil
}

// Parse reads one YAML document. An empty file is a problem. Syntax errors
// stop at the first; what breaks the budgets or repeats a key is reported in
// full.
func Parse(file string, text []byte) (*Node, problem.List) {
	whole := problem.Pos{File: file}
	one := func(pos problem.Pos, check, text, hint string) (*Node, problem.List) {
		return nil, problem.List{{Pos: pos, Check: check, Text: text, Hint: hint}}
	}
	if len(text) > MaxBytes {
		return one(whole, "too-large", fmt.Sprintf("the file has %d bytes", len(text)), fmt.Sprintf("at most %d are read", MaxBytes))
	}
	if i := bytes.IndexByte(text, 0); i >= 0 {
		return one(whole, "not-text", "the file is binary, not text", "a sheet or rule file is YAML in UTF-8")
	}
	if i := badUTF8(text); i >= 0 {
		src := newSource(file, text)
		return one(src.pos(i), "not-utf8", fmt.Sprintf("byte %#02x is not UTF-8", text[i]), "save the file as UTF-8")
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	if what := emptiness(text); what != "" {
		return one(whole, "empty-file", what, "")
	}
	src := newSource(file, text)
	if p, ok := tooDeep(src); ok {
		return nil, problem.List{p}
	}
	var root yaml.Node
	if err := yaml.Load(text, &root, yaml.WithUniqueKeys(false)); err != nil {
		return nil, problem.List{syntaxProblem(file, err)}
	}
	var l problem.List
	top := &root
	if top.Kind == yaml.DocumentNode && len(top.Content) > 0 {
		top = top.Content[0]
	}
	n := build(src, top, 0, &l)
	if len(l) > 0 {
		return nil, l.Sorted()
	}
	return n, nil
}

// emptiness says in what way a file holds nothing, or "".
func emptiness(text []byte) string {
	if len(bytes.TrimSpace(text)) == 0 {
		return "the file is empty"
	}
	for line := range bytes.Lines(text) {
		if line = bytes.TrimSpace(line); len(line) > 0 && line[0] != '#' {
			return ""
		}
	}
	return "the file holds nothing but comments"
}

func badUTF8(text []byte) int {
	if utf8.Valid(text) {
		return -1
	}
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRune(text[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return -1
}

// tooDeep refuses runaway nesting before the parser walks into it: brackets
// are counted, and indentation bounds what blocks can nest.
func tooDeep(src *source) (problem.Problem, bool) {
	depth := 0
	for i, c := range src.text {
		switch c {
		case '[', '{':
			depth++
		case ']', '}':
			depth = max(0, depth-1)
		case '\n':
			// An unmatched bracket inside text must not add up over lines
			// for ever; a flow that spans lines keeps its depth.
			if depth > 0 && depth <= 4 {
				depth = 0
			}
		}
		if depth > MaxDepth {
			return problem.Problem{Pos: src.pos(i), Check: "too-deep", Text: fmt.Sprintf("nested more than %d levels deep", MaxDepth)}, true
		}
	}
	return problem.Problem{}, false
}

func syntaxProblem(file string, err error) problem.Problem {
	pos := problem.Pos{File: file}
	text := err.Error()
	var one *yaml.LoadError
	var many *yaml.LoadErrors
	switch {
	case errors.As(err, &many) && len(many.Errors) > 0:
		one = many.Errors[0]
	case errors.As(err, &one):
	}
	if one != nil {
		text = one.Message
		mark := one.Mark
		if mark.Line == 0 {
			mark = one.ContextMark
		}
		pos.Line, pos.Col = mark.Line, mark.Column
	}
	text = strings.TrimSuffix(strings.ToLower(strings.TrimPrefix(text, "yaml: ")), ".")
	return problem.Problem{Pos: pos, Check: "yaml-syntax", Text: "this is not readable YAML: " + text,
		Hint: "check the indentation, the quotes and the blank after each colon"}
}

func build(src *source, y *yaml.Node, depth int, l *problem.List) *Node {
	n := &Node{file: src, line: y.Line, col: y.Column, style: y.Style}
	if depth > MaxDepth {
		l.Addf(n.Pos(), "too-deep", "nested more than %d levels deep", MaxDepth)
		return n
	}
	if y.Anchor != "" {
		l.Add(n.Pos(), "no-aliases", fmt.Sprintf("anchor %q", y.Anchor), "write the value out; anchors and aliases are not read")
	}
	switch y.Kind {
	case yaml.AliasNode:
		l.Add(n.Pos(), "no-aliases", fmt.Sprintf("alias %q", y.Value), "write the value out; anchors and aliases are not read")
	case yaml.ScalarNode:
		n.Kind, n.Value = Scalar, y.Value
		n.Quoted = y.Style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle|yaml.LiteralStyle|yaml.FoldedStyle) != 0
		if y.Tag == "!!null" && !n.Quoted {
			n.Kind = Null
		}
	case yaml.SequenceNode:
		n.Kind = ListKind
		n.Items = make([]*Node, len(y.Content))
		for i, c := range y.Content {
			n.Items[i] = build(src, c, depth+1, l)
		}
	case yaml.MappingNode:
		n.Kind = MapKind
		seen := make(map[string]bool, len(y.Content)/2)
		for i := 0; i+1 < len(y.Content); i += 2 {
			k, v := build(src, y.Content[i], depth+1, l), build(src, y.Content[i+1], depth+1, l)
			if k.Kind != Scalar && k.Kind != Null {
				l.Add(k.Pos(), "bad-key", "a key must be a plain word", "")
				continue
			}
			if seen[k.Value] {
				l.Addf(k.Pos(), "key-twice", "%q stands twice in one map", k.Value)
			}
			seen[k.Value] = true
			n.Keys, n.Values = append(n.Keys, k), append(n.Values, v)
		}
	}
	return n
}
