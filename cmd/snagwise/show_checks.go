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
		a.s.Text(0, "No check that can be done now is worth its minutes. Settle the likeliest cause itself, or ask the licensed engineer.")
		return
	}
	shown := a.r.NextChecks
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
}

// state says what the rig must be for the checks that follow.
func (a *answerPage) state(c diagnose.Check) {
	text := "With the rig as it is"
	if c.RigState != "any" && c.RigState != "" {
		text = "With the rig " + c.RigState
		if means := stateMeans(a.e.Fitted().Base, c.RigState); means != "" {
			text += " (" + strings.TrimPrefix(means, "engine running, ") + ")"
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
	if c.Inspects != "" {
		a.s.Text(4, "Looks straight at "+c.Inspects+".")
	}
	for _, text := range c.Cautions {
		a.s.Item(4, "Caution: ", sentence(text))
	}
	for _, text := range a.tells(c) {
		a.s.Item(4, "- ", text)
	}
}

// tells says what the answers of a check would change: which cause each would
// put first. Answers that leave the first cause first are not told.
func (a *answerPage) tells(c diagnose.Check) []string {
	var out []string
	for _, ans := range c.Answers {
		if len(ans.Leads) == 0 || len(a.r.Causes) == 0 || ans.Leads[0] == a.r.Causes[0].ID {
			continue
		}
		out = append(out, "if "+strings.TrimSuffix(ans.Means, ".")+": then first "+ans.Leads[0])
	}
	if len(out) > answersShown && !a.all {
		out = out[:answersShown]
	}
	return out
}

// lacking lists checks for which a tool is missing.
func (a *answerPage) lacking() {
	if len(a.r.NeedsTools) == 0 {
		return
	}
	a.s.Heading("Worth doing, but a tool is missing")
	t := screen.Table{Columns: []screen.Column{{Title: "check"}, {Title: "missing"}, {Title: "takes", Right: true}, {Title: "saves", Right: true}}}
	for i, c := range a.r.NeedsTools {
		if i == toolsShown && !a.all {
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
	for _, q := range a.r.AskFirst {
		a.s.Item(0, "? ", sentence(q))
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
