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
// The main door is [Examine].
package examine

import (
	"fmt"
	"slices"

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

// A finding is a problem with what it is about.
type finding struct {
	problem.Problem
	about  []string // any of which may be named to accept it
	system string
}

func (x *examiner) add(at problem.Pos, system string, about []string, text, hint string) {
	x.found = append(x.found, finding{problem.Problem{Pos: at, Check: x.check, Text: text, Hint: hint}, about, system})
}

// left returns what nobody has accepted, and what was accepted for nothing.
func (x *examiner) left() problem.List {
	var l problem.List
	accepted := make([]bool, len(x.found))
	names := make([]string, 0, len(Checks()))
	for _, c := range Checks() {
		names = append(names, c.Name)
	}
	for _, a := range x.Source.Accepted {
		if !slices.Contains(names, a.Check.Value) {
			l.Add(a.Check.Pos(), "unknown-name", fmt.Sprintf("unknown check %q", a.Check.Value), problem.DidYouMean(a.Check.Value, names))
			continue
		}
		about := knowledge.Values(a.About)
		used := make([]bool, max(1, len(about)))
		for i, f := range x.found {
			switch {
			case f.Check != a.Check.Value:
			case len(about) == 0:
				if f.system == a.System {
					accepted[i], used[0] = true, true
				}
			default:
				for k, id := range about {
					if slices.Contains(f.about, id) {
						accepted[i], used[k] = true, true
					}
				}
			}
		}
		for k, yes := range used {
			switch {
			case yes:
			case len(about) == 0:
				l.Add(a.Check.Pos(), "accepted-for-nothing", fmt.Sprintf("%s finds nothing in this system", a.Check.Value), "take it out")
			default:
				l.Add(a.About[k].Pos(), "accepted-for-nothing", fmt.Sprintf("%s finds nothing about %q", a.Check.Value, about[k]), "take it out")
			}
		}
	}
	for i, f := range x.found {
		if !accepted[i] {
			l = append(l, f.Problem)
		}
	}
	return l.Sorted()
}
