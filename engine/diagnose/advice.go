package diagnose

import (
	"math"
	"slices"
	"strings"

	"snagwise/engine/advise"
	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
)

// Figures of the advice that no rule gives; the project's own choice.
const (
	helpMinutes  = 240 // to fetch a licensed engineer who will find and cure it
	cureMinutes  = 60  // to inspect and cure a cause that gives no figure
	leastMinutes = 5   // to inspect and cure any cause
	couldNotTell = .1  // share of tries of a check that tell nothing
	checksShown  = 6
	leastSet     = .02 // of the heaviest set: a lighter one is no reason for a check
)

// usualState is the state of the rig where nothing is said of it.
const usualState = "earthed"

// adviser turns the ranking into the terms of package advise.
type adviser struct {
	*session
	snag    advise.Snag
	now     advise.Situation
	checks  []int   // by check of the snag: index in the base
	signs   [][]int // by check of the snag: the signs of its outcomes
	states  []string
	hazards []int // by fact: index in the base
	tools   map[string]int
	causes  []int // by cause of the snag: instance
	kept    int   // how many of the ranking's sets are weighed
}

// advise fills in what to look at next, what lacks a tool and what is held
// back.
func (s *session) advise(r *Result, now Situation) {
	a := &adviser{session: s, tools: map[string]int{}}
	a.setStates(now)
	a.setHazards()
	a.setCauses()
	a.setChecks(now.Skip)
	a.setTools(now)
	if len(a.snag.Sets) == 0 {
		return
	}
	advice, err := advise.Next(&a.snag, &a.now, advise.Options{})
	if err != nil {
		panic("diagnose: advice: " + err.Error()) // the input is ours throughout
	}
	if advice.InspectFirst {
		a.inspections(r, advice, 3)
	}
	for _, c := range advice.Checks {
		if len(r.NextChecks) == checksShown || !c.Pays {
			break
		}
		r.NextChecks = append(r.NextChecks, a.check(c))
	}
	a.inspections(r, advice, 1)
	a.apart(r, advice)
	a.heldBack(r, advice)
	r.AskFirst = a.asks(advice)
}

func (a *adviser) setStates(now Situation) {
	for _, st := range a.fitted.RigStates {
		if st.ID.Value == "any" {
			continue
		}
		a.states = append(a.states, st.ID.Value)
		as := advise.State{}
		switch {
		case st.Running:
			as.Being, as.Reach = advise.Running, advise.Turning
		case st.Turning:
			as.Being = advise.Turning
		}
		a.snag.States = append(a.snag.States, as)
	}
	for i, from := range a.states {
		row := make([]float64, len(a.states))
		for j := range row {
			if i == j {
				continue
			}
			row[j] = math.Inf(1)
			for _, st := range a.fitted.RigStates {
				if st.ID.Value == a.states[j] {
					if m, ok := st.MinutesFrom[from]; ok {
						row[j] = m
					}
				}
			}
		}
		a.snag.Moves = append(a.snag.Moves, row)
	}
	state := now.State
	if state == "" {
		state = usualState
	}
	a.now.State = max(0, slices.Index(a.states, state))
	a.now.EngineerHere = now.EngineerHere
	a.now.Limit = now.Minutes
	a.snag.Help = helpMinutes
}

// setHazards says of each danger whether it is so, is not, or has not been
// looked for.
func (a *adviser) setHazards() {
	for i := range a.fitted.Hazards {
		h := &a.fitted.Hazards[i]
		f := advise.Fact{}
		if h.Running {
			f.Blocks |= advise.Running
		}
		if h.Turning {
			f.Blocks |= advise.Turning
		}
		switch d := a.danger(i, a.state); {
		case d.So:
			f.Known = advise.True
		case d.LookedAt:
			f.Known = advise.False
		}
		a.now.Facts = append(a.now.Facts, f)
		a.hazards = append(a.hazards, i)
	}
}

func (a *adviser) setCauses() {
	at := map[int]int{}
	for _, set := range a.rank.Sets {
		if set.Weight < leastSet*a.rank.Sets[0].Weight {
			break // heaviest first
		}
		a.kept++
		as := advise.Set{Weight: set.Weight}
		for _, c := range set.Causes {
			k, ok := at[c]
			if !ok {
				k = len(a.causes)
				at[c] = k
				a.causes = append(a.causes, c)
				base := &a.fitted.Base.Causes[a.fitted.Causes[c].Cause]
				m := base.RemedyMinutes
				if m == 0 {
					m = cureMinutes
				}
				a.snag.Causes = append(a.snag.Causes, advise.Cause{Minutes: math.Max(m, leastMinutes), Engineer: base.Who == "licensed engineer"})
			}
			as.Causes = append(as.Causes, k)
		}
		a.snag.Sets = append(a.snag.Sets, as)
	}
}

// setChecks gives each check that can still tell something its outcomes.
func (a *adviser) setChecks(skip []string) {
	for i := range a.fitted.Checks {
		c := &a.fitted.Checks[i]
		if !a.fitted.CheckOn[i] || word(skip, c.ID.Value) {
			continue
		}
		var signs []int
		var rows [][]float64
		for _, sg := range c.Settles {
			if !a.fitted.SignOn[sg] || a.state.Truth(chain.Whole, a.fitted.Signs[sg].Slot) != condition.Unknown {
				continue
			}
			row := a.rank.Predict(sg)[:a.kept]
			if slices.Max(row) < .03 && slices.Max(row)-slices.Min(row) < .02 {
				continue // it tells nothing here
			}
			signs = append(signs, sg)
			rows = append(rows, row)
		}
		if len(signs) == 0 || len(a.snag.Sets) == 0 {
			continue
		}
		state := slices.Index(a.states, c.RigState.Value)
		if state < 0 {
			state = advise.AnyState
		}
		ac := advise.Check{Minutes: c.Minutes, State: state, Engineer: c.Who.Value == "licensed engineer", Outcomes: advise.FirstFound(rows), CouldNotTell: couldNotTell}
		for _, h := range c.Dangers {
			switch h.Value {
			case "running":
				ac.Hazard |= advise.Running
			case "turning":
				ac.Hazard |= advise.Turning
			}
		}
		for _, t := range c.Tools {
			ac.Tools = append(ac.Tools, a.tool(t.Value))
		}
		a.snag.Checks = append(a.snag.Checks, ac)
		a.checks = append(a.checks, i)
		a.signs = append(a.signs, signs)
	}
}

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
		var why []string
		for _, f := range g.True {
			why = append(why, "it is so: "+lowerFirst(a.fitted.Hazards[a.hazards[f]].Means))
		}
		for _, f := range g.Unknown {
			why = append(why, "not looked at: "+lowerFirst(a.fitted.Hazards[a.hazards[f]].Means))
		}
		c := &a.fitted.Checks[a.checks[g.Check]]
		r.HeldBack = append(r.HeldBack, HeldBack{ID: c.ID.Value, Do: c.Do, Why: strings.Join(why, "; ")})
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
