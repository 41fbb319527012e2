// Package problem holds the one kind of finding that every room reports about
// a file or a line that a person wrote: where it is, what is wrong and what
// would be right.
//
// Rooms gather problems in a [List] and give them all at once, sorted by
// place, doubles dropped:
//
//	var l problem.List
//	l.Add(pos, "unknown-name", "unknown reading \"boots\"", "did you mean \"boost\"?")
//	return l.Sorted()
package problem

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A Pos is a place in a file: line and column count from 1, columns in
// characters. Line 0 means the whole file.
type Pos struct {
	File string `json:"file"`
	Line int    `json:"line"`
	Col  int    `json:"column"`
}

// String gives file:line:column, leaving out what is not known.
func (p Pos) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.Col == 0:
		return fmt.Sprintf("%s:%d", p.File, p.Line)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Col)
}

// Compare orders places by file, line and column.
func (p Pos) Compare(q Pos) int {
	return cmp.Or(cmp.Compare(p.File, q.File), cmp.Compare(p.Line, q.Line), cmp.Compare(p.Col, q.Col))
}

// A Problem is one fault in something a person wrote.
type Problem struct {
	Pos   Pos    `json:"place"`
	Check string `json:"check"` // short stable name of the check, such as unknown-name
	Text  string `json:"text"`  // what is wrong: lower case, no full stop, names in %q
	Hint  string `json:"hint"`  // what would be right; may be empty
}

// String gives the problem in one line, with its hint.
func (p Problem) String() string {
	s := p.Text
	if at := p.Pos.String(); at != "" {
		s = at + ": " + s
	}
	if p.Check != "" {
		s += " [" + p.Check + "]"
	}
	if p.Hint != "" {
		s += "; " + p.Hint
	}
	return s
}

// A List is any number of problems. As an error it prints one a line.
type List []Problem

// Add appends a problem.
func (l *List) Add(pos Pos, check, text, hint string) {
	*l = append(*l, Problem{Pos: pos, Check: check, Text: text, Hint: hint})
}

// Addf appends a problem whose text is formatted; it has no hint.
func (l *List) Addf(pos Pos, check, format string, args ...any) {
	l.Add(pos, check, fmt.Sprintf(format, args...), "")
}

// Sorted returns the problems sorted by place, then check, then text, each
// once.
func (l List) Sorted() List {
	s := slices.Clone(l)
	slices.SortStableFunc(s, func(a, b Problem) int {
		return cmp.Or(a.Pos.Compare(b.Pos), cmp.Compare(a.Check, b.Check), cmp.Compare(a.Text, b.Text))
	})
	return slices.Compact(s)
}

// Error gives all problems, sorted, one a line.
func (l List) Error() string {
	var b strings.Builder
	for i, p := range l.Sorted() {
		if i > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(p.String())
	}
	return b.String()
}

// Err returns the list as an error, or nil when it is empty.
func (l List) Err() error {
	if len(l) == 0 {
		return nil
	}
	return l
}
