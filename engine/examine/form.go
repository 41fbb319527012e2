package examine

// This file looks at what items leave out, and at limits.

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"snagwise/engine/knowledge"
	"snagwise/engine/quantity"
	"snagwise/engine/rig"
)

// sources finds items that rest on nothing that they name. Signs and states
// are words for things, not claims, and need none.
func (x *examiner) sources() {
	s := x.Source
	none := func(kind string, id knowledge.Text, source []knowledge.Text) {
		if len(source) == 0 {
			x.add(id.Pos(), kind+" "+id.Value, fmt.Sprintf("the %s %q names no source", kind, id.Value), "name one of those listed, such as common practice, no source")
		}
	}
	for _, k := range s.Readings {
		none("reading", k.ID, k.Source)
	}
	for _, k := range s.Rules {
		none("rule", k.ID, k.Source)
	}
	for _, k := range s.Patterns {
		none("pattern", k.ID, k.Source)
	}
	for _, k := range s.Checks {
		none("check", k.ID, k.Source)
	}
	for _, k := range s.Trials {
		none("trial", k.ID, k.Source)
	}
	for _, k := range s.Circumstances {
		none("circumstance", k.ID, k.Source)
	}
}

// dangers are words of a check that call for a caution.
var dangers = regexp.MustCompile(`(?i)\b(fuel|petrol|hot|battery|acid|propeller|start|crank|run|running|coolant)\b`)

// cautions finds checks that touch something dangerous and say no caution.
func (x *examiner) cautions() {
	risky := map[string]bool{}
	for _, st := range x.Source.RigStates {
		risky[st.ID.Value] = st.Running || st.Turning
	}
	for _, c := range x.Source.Checks {
		if len(c.Caution) > 0 {
			continue
		}
		why := ""
		if risky[c.RigState.Value] {
			why = "it is done with the rig " + c.RigState.Value
		} else if w := dangers.FindString(c.Do); w != "" {
			why = fmt.Sprintf("it speaks of %q", strings.ToLower(w))
		}
		if why != "" {
			x.add(c.ID.Pos(), c.ID.Value, fmt.Sprintf("the check %q has no caution though %s", c.ID.Value, why), "say what can hurt and what to do about it")
		}
	}
}

// limit is a reading held against a figure with its unit.
var limit = regexp.MustCompile(`\b(?:(?:lowest|highest)\()?([a-z_]+)\)? *(?:<=|>=|<|>) *([A-Za-z_]+)\((-?[0-9.]+)\)`)

// gauges finds figures in conditions that lie so near the edge of a band that
// the gauge cannot tell the two apart.
func (x *examiner) gauges() {
	for _, r := range x.Source.Rules {
		x.limits(r.ID.Value, r.When, knowledge.Values(r.Phases))
	}
	for _, p := range x.Source.Patterns {
		x.limits(p.ID.Value, p.When, nil)
	}
	for _, c := range x.Source.Circumstances {
		x.limits(c.ID.Value, c.When, nil)
	}
	for _, a := range x.Source.FirstActions {
		x.limits(a.ID.Value, a.When, nil)
	}
	for _, n := range x.Source.NormalThings {
		x.limits(n.ID.Value, n.When, nil)
	}
}

// limits looks at one condition, in some phases or, with none, in all.
func (x *examiner) limits(id string, when knowledge.Text, phases []string) {
	told := map[string]bool{}
	for _, m := range limit.FindAllStringSubmatchIndex(when.Value, -1) {
		reading, unit, figure := when.Value[m[2]:m[3]], when.Value[m[4]:m[5]], when.Value[m[6]:m[7]]
		if difference(when.Value[:m[0]], when.Value[m[0]:m[5]]) {
			continue
		}
		name := fmt.Sprintf("%s %s %s(%s)", id, reading, unit, figure)
		for _, e := range x.Engines {
			g, ok := e.Fitted().Rig.Gauge(reading)
			if !ok || g.Dial == nil || g.Class == 0 {
				continue
			}
			q, err := quantity.ParseAs(figure+" "+strings.ReplaceAll(unit, "_", " "), g.Dim, "")
			if err != nil {
				continue
			}
			if phase, near := nearEdge(g, q.SI, phases); near && !told[name] {
				told[name] = true
				x.add(when.Place(m[0]), name,
					fmt.Sprintf("%s(%s) lies within the error of the gauge of an edge of the band of %q at %s on the rig %q", unit, figure, reading, phase, e.Fitted().Rig.ID),
					"ask for low() or high(), which go by the rig's own bands, or choose a figure that the gauge can tell from the band")
			}
		}
	}
}

// difference says whether a reading stands in at(...) that is taken from
// something: what is left is no figure of the gauge's band.
func difference(before, reading string) bool {
	if strings.Count(reading, ")") <= strings.Count(reading, "(") {
		return false
	}
	open := len(before)
	for depth := 1; depth > 0 && open > 0; {
		switch open--; before[open] {
		case ')':
			depth++
		case '(':
			depth--
		}
	}
	before = strings.TrimSpace(strings.TrimSuffix(before[:open], "at"))
	return strings.HasSuffix(before, "-") || strings.HasSuffix(before, "+")
}

// nearEdge returns the first phase in which a figure lies so near an edge of
// the band of a gauge that its error, class in percent of the dial, covers both;
// only some phases are looked at where they are named.
func nearEdge(g *rig.Gauge, figure float64, phases []string) (phase string, near bool) {
	wide := g.Class / 100 * math.Abs(g.Dial[1]-g.Dial[0])
	for _, b := range g.Bands {
		if len(phases) > 0 && !slices.Contains(phases, b.Phase) {
			continue
		}
		if len(b.Answers) == 0 && (math.Abs(figure-b.Lo) < wide || math.Abs(figure-b.Hi) < wide) {
			return b.Phase, true
		}
	}
	return "", false
}
