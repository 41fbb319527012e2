package knowledge

import (
	"fmt"
	"slices"
	"strings"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

func (c *compiler) states() {
	b := c.base
	for _, s := range c.src.States {
		b.States = append(b.States, State{
			ID: s.ID.Value, Means: s.Means, System: s.System, At: s.ID.Pos(),
			LeadsTo: c.links(s.LeadsTo, "state", b.stateAt, strengths, strengthWords),
			Shows:   c.links(s.Shows, "sign", b.signAt, strengths, strengthWords),
			Against: c.list(s.SpeaksAgainst, "sign", b.signAt),
		})
	}
}

var classes = []string{"fault", "operator error", "fluid", "instrument"}
var whos = []string{"operator", "licensed engineer"}
var runOns = []string{"stop now", "finish the run", "note"}

func (c *compiler) causes() {
	b := c.base
	for _, s := range c.src.Causes {
		c.among(s.Class, classes, "class")
		c.among(s.Who, whos, "person")
		c.among(s.RunOn.Do, runOns, "way to run on")
		c.lookup(s.Part, "kind of part", b.kindAt)
		c.sources(s.Source)
		freq, _ := c.word(s.HowCommon, frequencies, frequencyWords)
		k := Cause{
			ID: s.ID.Value, FailsBy: s.FailsBy, System: s.System, Kind: s.Part.Value, Class: s.Class.Value, Frequency: freq,
			Gives:     c.links(s.Gives, "state", b.stateAt, strengths, strengthWords),
			Direct:    c.links(s.Direct, "sign", b.signAt, strengths, strengthWords),
			Never:     c.list(s.Never, "sign", b.signAt),
			Falsifies: c.list(s.Falsifies, "reading", b.readingAt),
			HoldsIf:   s.HoldsIf, Rigs: values(s.Rigs), RunOn: s.RunOn.Do.Value, RunOnWhy: s.RunOn.Why,
			Checks: c.list(s.Checks, "check", b.checkAt), SettledBy: s.SettledBy, Remedy: s.Remedy, RemedyMinutes: s.RemedyMinutes,
			Who: s.Who.Value, Words: values(s.Words), Source: values(s.Source), Basis: s.Basis.Value, At: s.ID.Pos(),
		}
		for _, n := range s.Needs {
			c.lookup(n, "kind of part", b.kindAt)
			k.Needs = append(k.Needs, n.Value)
		}
		k.Before, k.After = c.places(s.Before), c.places(s.After)
		// The word never is a chance of nothing: the same as never listed.
		k.Direct = slices.DeleteFunc(k.Direct, func(l Link) bool {
			if l.By == 0 {
				k.Never = append(k.Never, l.To)
			}
			return l.By == 0
		})
		b.Causes = append(b.Causes, k)
	}
}

// secondOpinion hangs each sign's second opinion on the causes it names.
func (c *compiler) secondOpinion() {
	b := c.base
	for _, o := range c.src.SecondOpinion {
		sign, ok := c.lookup(o.Sign, "sign", b.signAt)
		if !ok {
			continue
		}
		for _, g := range []struct {
			word  string
			names []Text
		}{{"almost always", o.AlmostAlways}, {"often", o.Often}, {"sometimes", o.Sometimes}, {"seldom", o.Seldom}} {
			for _, i := range c.list(g.names, "cause", b.causeAt) {
				b.Causes[i].Second = append(b.Causes[i].Second, Link{sign, strengths[g.word]})
			}
		}
		for _, i := range c.list(o.Against, "cause", b.causeAt) {
			b.Causes[i].SecondAgainst = append(b.Causes[i].SecondAgainst, sign)
		}
	}
}

func (c *compiler) among(t Text, list []string, what string) {
	if t.Value != "" && !slices.Contains(list, t.Value) {
		c.l.Add(t.Pos(), "unknown-word", fmt.Sprintf("unknown %s %q", what, t.Value), problem.DidYouMean(t.Value, list))
	}
}

func (c *compiler) checks() {
	b := c.base
	for i, s := range c.src.Checks {
		c.sources(s.Source)
		c.among(s.Who, whos, "person")
		if s.Minutes <= 0 {
			c.l.Addf(s.ID.Pos(), "no-minutes", "check %q takes no time", s.ID.Value)
		}
		states := make([]string, 0, len(c.src.RigStates))
		for _, st := range c.src.RigStates {
			states = append(states, st.ID.Value)
		}
		if len(states) > 0 {
			c.among(s.RigState, states, "state of the rig")
		}
		for _, d := range s.Dangers {
			c.among(d, []string{"running", "turning", "let_out", "prime"}, "danger")
		}
		b.Checks = append(b.Checks, Check{CheckSource: s, Settles: c.list(s.Tells, "sign", b.signAt)})
		for _, sg := range b.Checks[i].Settles {
			b.Signs[sg].Checks = append(b.Signs[sg].Checks, i)
		}
	}
}

// sourceID returns the id that a citation begins with: the longest known one
// that the rest, a page or figure, follows after a blank.
func (c *compiler) sourceID(cite string) string {
	for end := len(cite); end > 0; end = strings.LastIndexByte(cite[:end], ' ') {
		if c.given[cite[:end]] {
			return cite[:end]
		}
	}
	id, _, _ := strings.Cut(cite, " ")
	return id
}

// orphans reports a cause without a sign and a sign without a cause.
func (c *compiler) orphans() {
	if len(c.l) > 0 {
		return // what a misspelt name leaves hanging is not a second fault
	}
	b := c.base
	told := make([]bool, len(b.Signs))
	mark := func(links []Link) bool {
		for _, k := range links {
			told[k.To] = true
		}
		return len(links) > 0
	}
	shows := make([]bool, len(b.States))
	for i, s := range b.States {
		shows[i] = mark(s.Shows)
	}
	for changed := true; changed; {
		changed = false
		for i, s := range b.States {
			for _, to := range s.LeadsTo {
				if shows[to.To] && !shows[i] {
					shows[i], changed = true, true
				}
			}
		}
	}
	for _, k := range b.Causes {
		any := mark(k.Direct)
		mark(k.Second)
		for _, g := range k.Gives {
			any = any || shows[g.To]
		}
		if !any {
			c.l.Addf(k.At, "no-sign", "cause %q shows no sign", k.ID)
		}
	}
	for _, p := range b.Patterns {
		for _, s := range p.Of {
			told[s] = true
		}
	}
	for _, n := range b.Normals {
		for _, s := range n.Denies {
			told[s] = true
		}
	}
	for i, s := range b.Signs {
		if s.StandsFor >= 0 {
			told[i] = true
		}
	}
	for i := range b.Signs {
		s := &b.Signs[i]
		any := told[i]
		for _, k := range s.Covers {
			any = any || told[k]
		}
		if !any {
			c.l.Addf(s.At, "no-cause", "sign %q tells of no cause", s.ID)
		}
	}
}

// circles refuses states that lead to one another in a circle.
func (c *compiler) circles() {
	b := c.base
	colour := make([]int8, len(b.States))
	var path []int
	var visit func(i int)
	visit = func(i int) {
		colour[i] = 1
		path = append(path, i)
		for _, to := range b.States[i].LeadsTo {
			switch colour[to.To] {
			case 0:
				visit(to.To)
			case 1:
				at := slices.Index(path, to.To)
				var names []string
				for _, p := range path[at:] {
					names = append(names, b.States[p].ID)
				}
				c.l.Addf(b.States[to.To].At, "circle", "states lead to one another in a circle: %s", strings.Join(names, ", "))
			}
		}
		path = path[:len(path)-1]
		colour[i] = 2
	}
	for i := range b.States {
		if colour[i] == 0 {
			visit(i)
		}
	}
}

// places reads where along flows a part must lie.
func (c *compiler) places(pairs []document.Pair) []Place {
	var out []Place
	for _, p := range pairs {
		if !slices.Contains(c.flows, p.Key.Value) {
			c.l.Add(p.Key.At, "unknown-name", fmt.Sprintf("unknown flow %q", p.Key.Value), problem.DidYouMean(p.Key.Value, c.flows))
		}
		c.lookup(p.Value, "kind of part", c.base.kindAt)
		out = append(out, Place{p.Key.Value, p.Value.Value})
	}
	return out
}
