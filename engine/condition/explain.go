package condition

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"snagwise/engine/quantity"
)

// A Clause is one part of a condition that helped to decide it, with what was
// found. Numbers are in SI.
type Clause struct {
	Text   string             // as it could have been typed
	Name   string             // what it is about; the first where there are several
	Op     string             // "<" and its like, "in", "is", a band word, or the function asked
	Dim    quantity.Dimension // of Value and Limit
	Value  float64            // figure found; NaN where none was asked for or taken
	Limit  float64            // figure it was held against; NaN where there is none
	Word   string             // value found of a text
	Moment int                // index of the moment it was found at; -1 is the sheet as a whole
	Truth  Truth              // what the clause is: false counts for a "not"
}

// String writes the clause in one line, for a log or a test.
func (c Clause) String() string {
	s := c.Text + " is " + c.Truth.String()
	if c.Moment >= 0 {
		s += fmt.Sprintf(" at moment %d", c.Moment+1)
	}
	switch {
	case c.Word != "":
		s += fmt.Sprintf(" (%q)", c.Word)
	case !math.IsNaN(c.Value):
		s += fmt.Sprintf(" (%.6g SI)", c.Value)
	}
	return s
}

// Explain returns the clauses that decided the condition at a moment: for an
// "and" that is true all its parts, for one that is false the first part that
// is; with "or" the other way round. It is empty while the condition is
// unknown; Needs says what is missing.
func (p *Program) Explain(w *World, now int) []Clause {
	e := &explainer{p: p, w: w}
	if len(w.Moments) == 0 {
		now = -1
	}
	if p.tree(w, now, p.root) != Unknown {
		e.node(p.root, now)
	}
	return e.clauses
}

type explainer struct {
	p       *Program
	w       *World
	clauses []Clause
}

func (e *explainer) truth(i int32, now int) Truth { return e.p.tree(e.w, now, i) }

// node adds the clauses that decided node i, which is decided.
func (e *explainer) node(i int32, now int) {
	n := &e.p.nodes[i]
	v := e.truth(i, now)
	switch n.op {
	case opConst:
	case opNot:
		e.node(n.a, now)
	case opAnd, opOr:
		whole := True // the value for which all parts count
		if n.op == opOr {
			whole = False
		}
		switch {
		case v == whole:
			e.node(n.a, now)
			e.node(n.b, now)
		case e.truth(n.a, now) == v:
			e.node(n.a, now)
		default:
			e.node(n.b, now)
		}
	case opCount:
		need := int(n.k)
		if v == False {
			need = int(n.b) - need + 1
		}
		for _, kid := range e.p.kids(n) {
			if need > 0 && e.truth(kid, now) == v {
				e.node(kid, now)
				need--
			}
		}
	case opAt, opTogether, opBefore, opAfter:
		e.moments(n, i, v)
	default:
		e.leaf(i, now, v)
	}
}

// moments explains what was decided at one moment or two; what had to be false
// at all of them is one clause.
func (e *explainer) moments(n *node, i int32, v Truth) {
	from, to := e.w.span()
	if n.op == opAt || v == True {
		for b := from; b < to; b++ {
			if e.truth(n.b, b) != v {
				continue
			}
			for a := from; a <= b; a++ {
				apart := n.op == opBefore && a < b || n.op == opAfter || a == b && n.op != opBefore
				if apart && e.truth(n.a, a) == True {
					e.node(n.a, a)
					e.node(n.b, b)
					return
				}
			}
		}
	}
	u := &uses{p: e.p, at: map[[2]int32]int{}}
	u.node(i, up)
	e.clauses = append(e.clauses, Clause{Text: e.p.text(i, bindOr), Name: u.list[0].ID, Op: callWords[n.op],
		Value: math.NaN(), Limit: math.NaN(), Moment: -1, Truth: v})
}

// leaf adds the clause of one test.
func (e *explainer) leaf(i int32, now int, v Truth) {
	n := &e.p.nodes[i]
	c := Clause{Text: e.p.text(i, bindOr), Value: math.NaN(), Limit: math.NaN(), Moment: now, Truth: v}
	switch n.op {
	case opTruth:
		c.Name, c.Op = e.p.id(TruthKind, n.a), "is"
	case opWhole:
		c.Name, c.Op, c.Moment = e.p.id(TruthKind, n.a), "is", -1
	case opText:
		name := e.p.scope.named(TextKind, n.a)
		c.Name, c.Op = name.ID, "in"
		var may []string
		for i, v := range name.Values {
			if e.w.moment(now).text(n.a)>>uint(i)&1 != 0 {
				may = append(may, v)
			}
		}
		c.Word = strings.Join(may, " or ")
	case opBand, opAtBand:
		slot := n.a
		if n.op == opAtBand {
			slot, c.Moment = n.b, e.lastWord(n)
		}
		name := e.p.scope.named(NumberKind, slot)
		c.Name, c.Op, c.Dim = name.ID, n.band.first(), name.Dim
		c.Value = e.w.moment(c.Moment).num(slot)
	case opSeen:
		c.Name, c.Op = e.p.id(Kind(n.b), n.a), "seen"
		if n.set != 0 {
			c.Moment = -1
		}
	default:
		e.compared(&c, n, i, now)
	}
	e.clauses = append(e.clauses, c)
}

// lastWord returns the moment from which low(at(...)) was read.
func (e *explainer) lastWord(n *node) int {
	from, to := e.w.span()
	for m := to - 1; m >= from; m-- {
		if e.truth(n.a, m) == True && e.w.moment(m).word(n.b).is(n.band) != Unknown {
			return m
		}
	}
	return -1
}

// compared fills the clause of a comparison of numbers.
func (e *explainer) compared(c *Clause, n *node, i int32, now int) {
	u := &uses{p: e.p, at: map[[2]int32]int{}}
	u.node(i, up)
	c.Name = u.list[0].ID
	if i := slices.IndexFunc(u.list, func(use Use) bool { return use.Kind == NumberKind }); i >= 0 {
		c.Name = u.list[i].ID
	}
	c.Op = strings.TrimSpace(operators[n.op].word)
	m := e.w.moment(now)
	c.Value, c.Limit = e.p.number(e.w, m, n.a), e.p.number(e.w, m, n.b)
	c.Dim = e.p.dim(n.a)
	if d := e.p.dim(n.b); c.Dim == quantity.Pure {
		c.Dim = d
	}
	if !e.p.readsMoment(i) {
		c.Moment = -1
	}
}

// dim returns the dimension of a number node.
func (p *Program) dim(i int32) quantity.Dimension {
	n := &p.nodes[i]
	rule := quantity.Add
	switch n.op {
	case opK:
		return n.dim
	case opNum:
		return p.scope.named(NumberKind, n.a).Dim
	case opAtNum:
		return p.dim(n.b)
	case opSub:
		rule = quantity.Sub
	case opMul:
		rule = quantity.Mul
	case opDiv:
		rule = quantity.Div
	case opAdd:
	default:
		return p.dim(n.a)
	}
	d, _ := rule(p.dim(n.a), p.dim(n.b))
	return d
}
