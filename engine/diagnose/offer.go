package diagnose

// This file tells the advice: the checks to offer, those apart and those held
// back, in the words of the rules.

import (
	"math"
	"slices"
	"strings"

	"snagwise/engine/advise"
	"snagwise/engine/knowledge"
)

func (a *adviser) tool(name string) int {
	k, ok := a.tools[name]
	if !ok {
		k = len(a.tools)
		a.tools[name] = k
	}
	return k
}

func (a *adviser) toolName(n int) string {
	for name, k := range a.tools {
		if k == n {
			return name
		}
	}
	return ""
}

func (a *adviser) setTools(now Situation) {
	if now.Tools == nil {
		return
	}
	a.now.Tools = []int{}
	for _, t := range now.Tools {
		if k, ok := a.tools[strings.TrimSpace(t)]; ok {
			a.now.Tools = append(a.now.Tools, k)
		}
	}
}

// plain tells a check without what it would save.
func (a *adviser) plain(n int) Check {
	c := &a.fitted.Checks[a.checks[n]]
	k := Check{ID: c.ID.Value, Do: c.Do, Minutes: c.Minutes, RigState: c.RigState.Value, Cautions: c.Caution, Tools: knowledge.Values(c.Tools),
		Who: c.Who.Value, Answers: []Answer{}, Source: knowledge.Values(c.Source)}
	if k.Cautions == nil {
		k.Cautions = []string{}
	}
	if k.Tools == nil {
		k.Tools = []string{}
	}
	return k
}

func (a *adviser) check(sg advise.Suggestion) Check {
	k := a.plain(sg.Check)
	k.MinutesSaved, k.SetUp = round(sg.SavesAhead, 1), round(sg.SetUp, 1)
	for _, o := range sg.Outcomes {
		ans := Answer{Chance: round(o.Chance, 3), Leads: []string{}}
		switch {
		case o.Outcome == advise.CouldNotTell:
			continue
		case o.Outcome < len(a.signs[sg.Check]):
			s := &a.fitted.Signs[a.signs[sg.Check][o.Outcome]]
			ans.ID, ans.Means = s.ID, s.Means
		default:
			ans.ID, ans.Means = "nothing_found", "nothing of this is found"
		}
		for _, sh := range o.Causes {
			id := a.fitted.Base.Causes[a.fitted.Causes[a.causes[sh.Cause]].Cause].ID
			if len(ans.Leads) < 3 && !word(ans.Leads, id) {
				ans.Leads = append(ans.Leads, id)
			}
		}
		k.Answers = append(k.Answers, ans)
	}
	slices.SortStableFunc(k.Answers, func(x, y Answer) int {
		switch {
		case x.Chance > y.Chance:
			return -1
		case x.Chance < y.Chance:
			return 1
		}
		return 0
	})
	return k
}

// apart lists what would save minutes if a tool were at hand, and what settles
// a likely cause with such a tool.
func (a *adviser) apart(r *Result, advice *advise.Advice) {
	add := func(ap advise.Apart) {
		if len(r.NeedsTools) == checksShown {
			return
		}
		k := a.plain(ap.Check)
		k.MinutesSaved = round(math.Max(ap.Saves, 0), 1)
		for _, t := range ap.Missing {
			k.Missing = append(k.Missing, a.toolName(t))
		}
		r.NeedsTools = append(r.NeedsTools, k)
	}
	settle := map[int]bool{}
	for i, in := range advice.Inspections {
		if i < 3 {
			settle[a.settles(a.base(in.Cause), true)] = true
		}
	}
	for _, ap := range advice.Apart {
		if len(ap.Missing) > 0 && (ap.Saves > 0 || settle[ap.Check]) {
			add(ap)
		}
	}
}

// base returns the cause that a cause of the snag is an instance of.
func (a *adviser) base(cause int) *knowledge.Cause {
	return &a.fitted.Base.Causes[a.fitted.Causes[a.causes[cause]].Cause]
}

// asks lists what should be answered before anything is run or turned: the
// dangers that nobody has looked for and that hold a check back.
func (a *adviser) asks(advice *advise.Advice) []string {
	var out []string
	for _, g := range advice.Gated {
		for _, f := range g.Unknown {
			out = append(out, a.fitted.Hazards[a.hazards[f]].Ask)
		}
	}
	out = unique(out)
	slices.SortStableFunc(out, func(x, y string) int { return a.askOrder(x) - a.askOrder(y) })
	return out
}

func (a *adviser) askOrder(ask string) int {
	return slices.IndexFunc(a.fitted.Hazards, func(h knowledge.Hazard) bool { return h.Ask == ask })
}

// inspections adds, for so many of the causes best worth looking at directly,
// the check that settles each, where it is not named already.
func (a *adviser) inspections(r *Result, advice *advise.Advice, n int) {
	for _, in := range advice.Inspections {
		if n == 0 || len(r.NextChecks) >= checksShown+1 {
			return
		}
		base := a.base(in.Cause)
		at := a.settles(base, false)
		if at < 0 || !a.fits(at) || a.gated(advice, at) || slices.ContainsFunc(r.NextChecks, func(k Check) bool { return k.ID == a.fitted.Checks[a.checks[at]].ID.Value }) {
			continue
		}
		k := a.plain(at)
		k.Inspects = base.ID
		if to := a.snag.Checks[at].State; to >= 0 && to != a.now.State && !math.IsInf(a.snag.Moves[a.now.State][to], 1) {
			k.SetUp = a.snag.Moves[a.now.State][to]
		}
		r.NextChecks = append(r.NextChecks, k)
		n--
	}
}

// fits says whether a check can be done in the time left, with the way to the
// state of the rig that it needs, and without a licensed engineer who is not
// here.
func (a *adviser) fits(check int) bool {
	c := &a.snag.Checks[check]
	m := c.Minutes
	if c.State >= 0 {
		m += a.snag.Moves[a.now.State][c.State]
	}
	return !math.IsInf(m, 1) && (a.now.Limit == 0 || m <= a.now.Limit)
}

func (a *adviser) gated(advice *advise.Advice, check int) bool {
	return slices.ContainsFunc(advice.Gated, func(g advise.Gated) bool { return g.Check == check })
}

// settles finds the check that says most plainly whether a cause is there: the
// one for whose findings the cause's own word is strongest, those that the
// cause names itself before others, the quicker of equals. Unless anyTools is
// set, its tools must be at hand.
func (a *adviser) settles(c *knowledge.Cause, anyTools bool) int {
	best, strength := -1, .0
	if f := a.findings[a.fitted.Base.Cause(c.ID)]; f.Sign >= 0 {
		for _, check := range f.Checks {
			i := slices.Index(a.checks, check)
			if i >= 0 && contains(a.signs[i], f.Sign) && (anyTools || a.now.Tools == nil || containsAll(a.now.Tools, a.snag.Checks[i].Tools)) {
				return i
			}
		}
	}
	for i := range a.checks {
		if !anyTools && a.now.Tools != nil && !containsAll(a.now.Tools, a.snag.Checks[i].Tools) {
			continue
		}
		for _, sg := range a.signs[i] {
			for _, d := range c.Direct {
				if d.To != sg {
					continue
				}
				p := d.By
				if contains(c.Checks, a.checks[i]) {
					p++
				}
				if p > strength || p == strength && best >= 0 && a.snag.Checks[i].Minutes < a.snag.Checks[best].Minutes {
					best, strength = i, p
				}
			}
		}
	}
	return best
}

func containsAll(list, want []int) bool {
	for _, w := range want {
		if !contains(list, w) {
			return false
		}
	}
	return true
}

// heldBack lists checks that would tell something and are not offered, with
// what is in the way.
func (a *adviser) heldBack(r *Result, advice *advise.Advice) {
	type held struct {
		at   int
		bits float64
	}
	var list []held
	weights := make([]float64, len(a.snag.Sets))
	for i, s := range a.snag.Sets {
		weights[i] = s.Weight
	}
	for i, g := range advice.Gated {
		list = append(list, held{i, advise.Bits(weights, a.snag.Checks[g.Check].Outcomes, couldNotTell) / (a.snag.Checks[g.Check].Minutes + 2)})
	}
	slices.SortStableFunc(list, func(x, y held) int {
		switch {
		case x.bits > y.bits:
			return -1
		case x.bits < y.bits:
			return 1
		}
		return 0
	})
	for _, h := range list {
		if len(r.HeldBack) == checksShown || h.bits <= 0 {
			break
		}
		g := advice.Gated[h.at]
		c := &a.fitted.Checks[a.checks[g.Check]]
		r.HeldBack = append(r.HeldBack, HeldBack{ID: c.ID.Value, Do: c.Do, Why: a.whyHeld(&g)})
	}
}

// whyHeld says what forbids a check: first what is so, then, apart from it,
// what nobody has looked at.
func (a *adviser) whyHeld(g *advise.Gated) string {
	means := func(facts []int) string {
		var out []string
		for _, f := range facts {
			out = append(out, lowerFirst(a.fitted.Hazards[a.hazards[f]].Means))
		}
		return strings.Join(unique(out), "; ")
	}
	switch so, not := means(g.True), means(g.Unknown); {
	case so == "":
		return "not looked at: " + not
	case not == "":
		return "it is so: " + so
	default:
		return "it is so: " + so + ". Not looked at: " + not
	}
}

func lowerFirst(t string) string {
	t = strings.TrimSuffix(t, ".")
	if t == "" {
		return t
	}
	return strings.ToLower(t[:1]) + t[1:]
}

// quickest names the check of a list that takes least time here.
func (s *session) quickest(list []int) string {
	best := -1
	for _, c := range list {
		if s.fitted.CheckOn[c] && (best < 0 || s.fitted.Checks[c].Minutes < s.fitted.Checks[best].Minutes) {
			best = c
		}
	}
	if best < 0 {
		return ""
	}
	return s.fitted.Checks[best].ID.Value
}

// States returns the ids of the states that the rig may be in.
func (e *Engine) States() []string {
	var out []string
	for _, st := range e.fitted.RigStates {
		if st.ID.Value != "any" {
			out = append(out, st.ID.Value)
		}
	}
	return out
}

// Tools returns the names of all tools that checks need here, sorted.
func (e *Engine) Tools() []string {
	seen := map[string]bool{}
	for i, c := range e.fitted.Checks {
		if e.fitted.CheckOn[i] {
			for _, t := range c.Tools {
				seen[t.Value] = true
			}
		}
	}
	return sortedWords(seen)
}
