// Package examine looks for what is weak in rules that load: rules that nothing
// ever makes true, rules that add nothing to another, causes that nothing tells
// apart, limits finer than the gauge that is held against them, and the like.
//
// Loading refuses what is wrong; what is found here may be right all the same
// and can be accepted in a rule file, with a reason:
//
//	accepted:
//	  - {check: never-true, about: [oil_temp_over_stop], reason: no kept case of it yet}
//
// Each finding is accepted by its own name: the id that it is about, or more
// where one id can have several (the hint of such a finding says what to write).
// Nothing accepts findings that nobody has looked at.
//
// The main door is [Examine].
package examine

import (
	"fmt"
	"slices"
	"strings"

	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/sheet"
)

// A Want is what is examined.
type Want struct {
	Source  *knowledge.Source
	Base    *knowledge.Base
	Engines []*diagnose.Engine // one for each rig
	// Told are sheets that the rules have been tried on, each with the engine
	// of its rig.
	Told []Told
}

// Told is a sheet with the engine of its rig.
type Told struct {
	Engine  *diagnose.Engine
	Account *sheet.Account
}

// A Check is one thing that is looked for.
type Check struct {
	Name  string // short and stable
	Finds string
	find  func(*examiner)
}

// Checks returns all that is looked for, by name.
func Checks() []Check {
	return []Check{
		{"accepted-for-nothing", "a finding that is accepted and is not made", nil},
		{"accepted-twice", "a finding that is accepted a second time", nil},
		{"accepted-without-reason", "a finding that is accepted and no reason given", nil},
		{"covers-nothing-here", "a vague sign of which no rig can show anything that it covers", (*examiner).covers},
		{"finer-than-the-gauge", "a limit that lies within a gauge's error of the edge of its band", (*examiner).gauges},
		{"never-true", "a rule or pattern that no kept case makes true", (*examiner).neverTrue},
		{"no-caution", "a check on a running, turned, hot or fuelled engine without a caution", (*examiner).cautions},
		{"no-source", "an item that names no source", (*examiner).sources},
		{"nothing-parts", "two causes that no sign shows differently", (*examiner).parts},
		{"one-witness", "a state that a single sign tells of", (*examiner).witnesses},
		{"said-twice", "two items that mean or say the same", (*examiner).twice},
		{"shadowed", "a rule or pattern that adds nothing to another", (*examiner).shadows},
	}
}

// Examine returns all findings that nobody has accepted, sorted by place.
func Examine(w Want) problem.List {
	x := &examiner{Want: w}
	for _, c := range Checks() {
		if x.check = c.Name; c.find != nil {
			c.find(x)
		}
	}
	return x.left()
}

// An examiner gathers findings.
type examiner struct {
	Want
	check string // name of the check under way
	found []finding
}

// A finding is a problem with the name by which it is accepted.
type finding struct {
	problem.Problem
	name string
}

// add notes a finding. Its name is the id it is about; where one id can have
// several findings of the check, as with pairs, it says which.
func (x *examiner) add(at problem.Pos, name, text, hint string) {
	for slices.ContainsFunc(x.found, func(f finding) bool { return f.Check == x.check && f.name == name }) {
		name += " again" // one name, one finding
	}
	if strings.Contains(name, " ") {
		hint += fmt.Sprintf("; to accept it, write about: [%q]", name)
	}
	x.found = append(x.found, finding{problem.Problem{Pos: at, Check: x.check, Text: text, Hint: hint}, name})
}

// pair is the name of a finding about two items, in the order of their ids.
func pair(a, b string) string {
	return min(a, b) + " and " + max(a, b)
}

// left returns what nobody has accepted, and what was accepted for nothing.
func (x *examiner) left() problem.List {
	var l problem.List
	checks := make([]string, 0, len(Checks()))
	for _, c := range Checks() {
		checks = append(checks, c.Name)
	}
	made := map[string][]string{} // names of the findings of a check
	for _, f := range x.found {
		made[f.Check] = append(made[f.Check], f.name)
	}
	accepted := map[[2]string]problem.Pos{}
	for _, a := range x.Source.Accepted {
		check := a.Check.Value
		if !slices.Contains(checks, check) {
			l.Add(a.Check.Pos(), "unknown-name", fmt.Sprintf("unknown check %q", check), problem.DidYouMean(check, checks))
			continue
		}
		if strings.TrimSpace(a.Reason.Value) == "" {
			l.Add(a.Reason.Pos(), "accepted-without-reason", "nothing says why this is accepted", "give the reason that holds for each name in about")
			continue
		}
		for _, about := range a.About {
			key := [2]string{check, about.Value}
			first, again := accepted[key]
			switch {
			case again:
				l.Add(about.Pos(), "accepted-twice", fmt.Sprintf("what %s finds about %q is accepted already at %s", check, about.Value, first), "take one of them out")
			case slices.Contains(made[check], about.Value):
				accepted[key] = about.Pos()
			default:
				hint := "take it out"
				if near := problem.Near(about.Value, made[check]); near != "" {
					hint += fmt.Sprintf(", or did you mean %q?", near)
				}
				l.Add(about.Pos(), "accepted-for-nothing", fmt.Sprintf("%s finds nothing about %q", check, about.Value), hint)
			}
		}
	}
	for _, f := range x.found {
		if _, ok := accepted[[2]string{f.Check, f.name}]; !ok {
			l = append(l, f.Problem)
		}
	}
	return l.Sorted()
}
