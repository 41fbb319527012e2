package document

import (
	"sort"
	"unicode"
	"unicode/utf8"

	"go.yaml.in/yaml/v4"

	"snagwise/engine/problem"
)

func newSource(name string, text []byte) *source {
	s := &source{name: name, text: text, lines: []int{0}}
	for i, c := range text {
		if c == '\n' {
			s.lines = append(s.lines, i+1)
		}
	}
	return s
}

// pos returns the place of a byte of the file.
func (s *source) pos(i int) problem.Pos {
	line := sort.Search(len(s.lines), func(k int) bool { return s.lines[k] > i })
	start := s.lines[line-1]
	end := min(i, len(s.text))
	return problem.Pos{File: s.name, Line: line, Col: 1 + utf8.RuneCount(s.text[start:end])}
}

// offset returns the byte at which a line and column stand.
func (s *source) offset(line, col int) int {
	if line < 1 || line > len(s.lines) {
		return len(s.text)
	}
	i := s.lines[line-1]
	for c := 1; c < col && i < len(s.text); c++ {
		_, size := utf8.DecodeRune(s.text[i:])
		i += size
	}
	return i
}

// Offset returns the place in the file of byte i of a scalar's value, whether
// it is written plain, quoted, folded or as a literal block. What lies beyond
// the value is given the place after its last character.
func (n *Node) Offset(i int) problem.Pos {
	if n.Kind != Scalar {
		return n.Pos()
	}
	src := n.file.text
	p := n.file.offset(n.line, n.col)
	switch {
	case n.style&(yaml.LiteralStyle|yaml.FoldedStyle) != 0:
		for p < len(src) && src[p] != '\n' { // the header line: | or > and its marks
			p++
		}
	case n.style&(yaml.DoubleQuotedStyle|yaml.SingleQuotedStyle) != 0:
		p++
	}
	for k, r := range n.Value {
		p = n.toward(r, p)
		if k >= i {
			return n.file.pos(p)
		}
		p += n.width(p)
	}
	return n.file.pos(p)
}

// toward moves from p over the white space that folding has changed to where
// the character r of the value is written.
func (n *Node) toward(r rune, p int) int {
	src := n.file.text
	if unicode.IsSpace(r) {
		return p
	}
	for p < len(src) && (src[p] == ' ' || src[p] == '\n' || src[p] == '\t' || src[p] == '\r') {
		p++
	}
	for n.style&yaml.DoubleQuotedStyle != 0 && p+1 < len(src) && src[p] == '\\' && src[p+1] == '\n' {
		for p++; p < len(src) && (src[p] == ' ' || src[p] == '\n'); p++ {
		}
	}
	return p
}

// width returns how many bytes of the file the character written at p takes.
func (n *Node) width(p int) int {
	src := n.file.text
	if p >= len(src) {
		return 0
	}
	switch {
	case n.style&yaml.SingleQuotedStyle != 0 && src[p] == '\'':
		return 2
	case n.style&yaml.DoubleQuotedStyle != 0 && src[p] == '\\' && p+1 < len(src):
		switch src[p+1] {
		case 'x':
			return 4
		case 'u':
			return 6
		case 'U':
			return 10
		}
		return 2
	case src[p] == '\n' || src[p] == ' ' || src[p] == '\r':
		// One blank of the value may stand for a whole fold; toward skips
		// the rest of it.
		return 1
	}
	_, size := utf8.DecodeRune(src[p:])
	return size
}
