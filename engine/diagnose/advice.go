package diagnose

import (
	"math"
	"slices"

	"snagwise/engine/advise"
	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/rank"
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
	a.advise(r, now)
}

func (a *adviser) advise(r *Result, now Situation) {
	a.ready(now)
	if !slices.ContainsFunc(a.snag.Sets, func(s advise.Set) bool { return s.Weight > 0 }) {
		return
	}
	advice, err := advise.Next(&a.snag, &a.now, advise.Options{})
	if err != nil {
		panic("diagnose: advice: " + err.Error()) // the input is ours throughout
	}
	if advice.InspectFirst {
		r.Try = a.toTry(advice)
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
	if now.Wider > 0 {
		r.Opens = a.opening(advice)
		if now.Sure == 0 || len(r.Causes) == 0 || r.Causes[0].Chance < now.Sure {
			r.Noticed = a.noticed(now.Wider, now.Put)
		}
	}
}

// ready puts everything into the terms of package advise.
func (a *adviser) ready(now Situation) {
	a.setStates(now)
	a.setHazards()
	a.setCauses(now.NotThese)
	a.setChecks(now.Skip)
	a.setTools(now)
	a.setFinds()
}

// setFinds says what the checks settle, and what it takes to settle each cause:
// its own check with the way there, where that can still be done, else its
// remedy.
func (a *adviser) setFinds() {
	for k, c := range a.causes {
		f := a.findings[a.fitted.Causes[c].Cause]
		for _, check := range f.Checks {
			if i := slices.Index(a.checks, check); i >= 0 && contains(a.signs[i], f.Sign) {
				a.snag.Causes[k].By = i + 1
				break
			}
		}
		for i := range a.snag.Checks {
			ac := &a.snag.Checks[i]
			at := slices.Index(a.signs[i], f.Sign)
			if at < 0 {
				continue
			}
			if ac.Finds == nil {
				ac.Finds = make([][]int, len(a.signs[i]))
			}
			ac.Finds[at] = append(ac.Finds[at], k)
		}
	}
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
		// silence keeps nobody from looking for a leak; a leak that is there does
		var soOnly advise.Hazard
		if h.LetOut {
			soOnly |= advise.Open
		}
		if h.Prime {
			soOnly |= advise.Priming
		}
		if soOnly != 0 {
			known := advise.False
			if f.Known == advise.True {
				known = advise.True
			}
			a.now.Facts = append(a.now.Facts, advise.Fact{Known: known, Blocks: soOnly})
			a.hazards = append(a.hazards, i)
		}
	}
}

// setCauses takes the sets of causes that have weight enough, but for those
// that hold a cause known not to be there.
func (a *adviser) setCauses(not []string) {
	at := map[int]int{}
	out := func(set rank.Set) bool {
		return slices.ContainsFunc(set.Causes, func(c int) bool { return word(not, a.fitted.Base.Causes[a.fitted.Causes[c].Cause].ID) })
	}
	heaviest := 0.0
	for _, set := range a.rank.Sets {
		if heaviest == 0 && !out(set) {
			heaviest = set.Weight
		}
		if set.Weight < leastSet*heaviest {
			break // heaviest first
		}
		a.kept++
		as := advise.Set{Weight: set.Weight}
		if out(set) {
			as.Weight = 0
		}
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
			case "let_out":
				ac.Hazard |= advise.Open
			case "prime":
				ac.Hazard |= advise.Priming
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
