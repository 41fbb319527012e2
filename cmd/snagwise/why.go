package main

// This file shows everything that bears on one cause.

import (
	"strings"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/diagnose"
)

// why shows the ledger of a cause and how each thing in it is known. What must
// be done at once still comes first.
func (a *answerPage) why(w *diagnose.Why) {
	c := w.Cause
	a.s.Styled(screen.Strong, 0, a.r.Rig.Name)
	a.firstActions()
	a.s.Heading(c.Name + ": " + chanceOf(c))
	a.all = true
	a.about(c)
	a.ledger(c)
	a.unknown(c)
	if len(w.Proofs) > 0 {
		a.s.Heading("How each is known")
		for _, p := range w.Proofs {
			a.proof(0, p)
		}
	}
	a.closing()
}

// ledger adds the points up. Signs that hang together are one line: counted
// apart they would be counted twice.
func (a *answerPage) ledger(c diagnose.Cause) {
	a.s.Heading("Points")
	t := screen.Table{Columns: []screen.Column{{Title: "points", Right: true}, {Title: "for or against"}, {Title: "how it is known"}}}
	for _, l := range c.Ledger {
		t.Rows = append(t.Rows, []string{screen.Points(l.Points), strings.TrimSuffix(l.Means, "."), l.How})
	}
	t.Rows = append(t.Rows, []string{screen.Points(c.Total), "in all, against none of the causes", ""})
	a.s.Table(t)
	a.s.Text(0, "Three points double the odds, ten are ten times.")
}

// unknown lists what nobody has looked at, with the quickest check.
func (a *answerPage) unknown(c diagnose.Cause) {
	if len(c.NotLookedAt) == 0 {
		return
	}
	a.s.Heading("Not looked at")
	t := screen.Table{Columns: []screen.Column{{Title: "sign"}, {Title: "what it is"}, {Title: "quickest check"}}}
	for _, u := range c.NotLookedAt {
		t.Rows = append(t.Rows, []string{u.ID, u.Means, u.Check})
	}
	a.s.Table(t)
}

// proof shows one step and, further in, what it rests on.
func (a *answerPage) proof(indent int, p diagnose.Proof) {
	text := strings.TrimSuffix(p.Means, ".")
	if p.Truth != "true" {
		text = p.Truth + ": " + text
	}
	if p.How != "" {
		text += ", " + p.How
	}
	if p.Moment > 0 {
		text += " (moment " + short(float64(p.Moment)) + ")"
	}
	a.s.Item(indent, "- ", text)
	for _, clause := range p.Clauses {
		a.s.Text(indent+4, clause)
	}
	for _, o := range p.WorkedOut {
		a.workedOut(indent+4, o)
	}
	for _, from := range p.From {
		a.proof(indent+2, from)
	}
}

// workedOut shows what nobody read: by which formula it was worked out, where
// that is from, and when it holds.
func (a *answerPage) workedOut(indent int, o diagnose.WorkedOut) {
	a.s.Text(indent, o.ID+" was worked out: "+o.Formula)
	a.s.Text(indent+2, "source: "+o.Source)
	if o.Caution != "" {
		a.s.Text(indent+2, o.Caution)
	}
}
