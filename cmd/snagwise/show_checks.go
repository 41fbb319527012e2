package main

// This file shows what to look at next.

import (
	"fmt"
	"slices"
	"strings"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/diagnose"
)

// next lists the checks, the best first, those of one state of the rig together.
func (a *answerPage) next() {
	a.s.Heading("What to check next")
	if len(a.r.NextChecks) == 0 {
		a.s.Text(0, "No check known here would tell these apart. Settle the likeliest cause itself, or ask the licensed engineer.")
		return
	}
	shown := a.r.NextChecks
	if !a.all && len(shown) > checksShown {
		shown = shown[:checksShown]
	}
	var states []string
	for _, c := range shown {
		if !slices.Contains(states, c.RigState) {
			states = append(states, c.RigState)
		}
	}
	n := 0
	for _, state := range states {
		first := true
		for _, c := range shown {
			if c.RigState != state {
				continue
			}
			if first {
				a.s.Gap()
				a.state(c)
				first = false
			}
			n++
			a.check(n, c)
		}
	}
	if left := len(a.r.NextChecks) - len(shown); left > 0 {
		a.s.Gap()
		a.s.Styled(screen.Quiet, 0, screen.Count(left, "further check", "further checks")+" not shown; --all shows all.")
	}
}

// state says what the rig must be for the checks that follow.
func (a *answerPage) state(c diagnose.Check) {
	text := "With the rig as it is"
	if c.RigState != "any" && c.RigState != "" {
		text = "With the rig " + c.RigState
		if means := stateMeans(a.f.Base, c.RigState); means != "" {
			text += " (" + strings.TrimPrefix(means, c.RigState+", ") + ")"
		}
	}
	if c.SetUp > 0 {
		text += ", " + screen.Minutes(c.SetUp) + " to get there"
	}
	a.s.Styled(screen.Strong, 0, text+":")
}

// check shows one check with what it costs and what to beware of.
func (a *answerPage) check(n int, c diagnose.Check) {
	a.s.Item(0, fmt.Sprintf("%2d. ", n), sentence(c.Do))
	cost := "takes " + screen.Minutes(c.Minutes)
	if c.MinutesSaved >= .5 {
		cost += ", saves about " + screen.Minutes(c.MinutesSaved)
	}
	if c.Who != "operator" && c.Who != "" {
		cost += "; for the " + c.Who
	}
	if len(c.Tools) > 0 {
		cost += "; " + strings.Join(c.Tools, ", ")
	}
	a.s.Text(4, cost+" ["+c.ID+"]")
	for _, text := range c.Cautions {
		a.s.Item(4, "Caution: ", sentence(text))
	}
	for i, ans := range c.Answers {
		if len(ans.Leads) == 0 || i >= 3 && !a.all {
			continue
		}
		a.s.Item(4, "- ", strings.TrimSuffix(ans.Means, ".")+": then "+strings.Join(ans.Leads, " or "))
	}
}

// lacking lists checks for which a tool is missing.
func (a *answerPage) lacking() {
	if len(a.r.NeedsTools) == 0 {
		return
	}
	a.s.Heading("Worth doing, but a tool is missing")
	t := screen.Table{Columns: []screen.Column{{Title: "check"}, {Title: "missing"}, {Title: "takes", Right: true}, {Title: "saves", Right: true}}}
	for i, c := range a.r.NeedsTools {
		if i == checksShown && !a.all {
			break
		}
		t.Rows = append(t.Rows, []string{sentence(c.Do), strings.Join(c.Missing, ", "), screen.ShortMinutes(c.Minutes), screen.ShortMinutes(c.MinutesSaved)})
	}
	a.s.Table(t)
}

// heldBack lists checks that must not be done now, those with one reason
// together.
func (a *answerPage) heldBack() {
	if len(a.r.HeldBack) == 0 {
		return
	}
	a.s.Heading("Held back")
	var reasons []string
	by := map[string][]diagnose.HeldBack{}
	for _, h := range a.r.HeldBack {
		if by[h.Why] == nil {
			reasons = append(reasons, h.Why)
		}
		by[h.Why] = append(by[h.Why], h)
	}
	for _, why := range reasons {
		a.s.Item(0, "- ", sentence(why))
		for i, h := range by[why] {
			if i == heldShown && !a.all {
				a.s.Text(4, fmt.Sprintf("and %d more", len(by[why])-i))
				break
			}
			a.s.Item(2, "- ", strings.TrimSuffix(h.Do, ".")+" ["+h.ID+"]")
		}
	}
}
