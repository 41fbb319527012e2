package diagnose

// This file weighs what was told beside signs: what went before, what is said
// of parts, what was tried, and how the trouble came on.

import (
	"fmt"
	"math"

	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
	"snagwise/engine/rank"
	"snagwise/engine/relate"
)

// gatherCircumstances lifts or lowers the odds of causes by what went before.
// Of circumstances that tell one story each cause takes the strongest; all
// together they change its odds by no more than storyCap.
func (e *Engine) gatherCircumstances(g *gathered, st *chain.State) {
	type pull struct {
		log   float64
		label int
	}
	byCause := map[int]map[string]pull{} // by instance, by story
	for _, c := range e.fitted.Circumstances {
		if st.Truth(chain.Whole, c.Slot) != condition.True {
			continue
		}
		how := "told"
		if c.Program != nil && st.Told(chain.Whole, c.Slot) == condition.Unknown {
			how = "" // by its condition
		}
		at := g.label(c.ID, c.Means, how)
		stories := c.Stories
		if len(stories) == 0 {
			stories = []string{c.ID}
		}
		for _, inst := range e.instancesOf(c) {
			m := byCause[inst.i]
			if m == nil {
				m = map[string]pull{}
				byCause[inst.i] = m
			}
			l := math.Log(inst.factor)
			if old, ok := m[stories[0]]; !ok || math.Abs(l) > math.Abs(old.log) {
				m[stories[0]] = pull{l, at}
			}
		}
	}
	for i := range e.fitted.Causes {
		m := byCause[i]
		sum := 0.0
		for _, story := range sortedWords(m) {
			sum += m[story].log
		}
		scale := 1.0
		if limit := math.Log(storyCap); math.Abs(sum) > limit {
			scale = limit / math.Abs(sum)
		}
		for _, story := range sortedWords(m) {
			g.Adjust = append(g.Adjust, rank.Adjustment{Label: m[story].label, Cause: i, Log: m[story].log * scale})
		}
	}
}

// storyCap is the most by which all circumstances together may multiply or
// divide the odds of one cause.
const storyCap = 20

type pulled struct {
	i      int // instance
	factor float64
}

// instancesOf lists the instances that a circumstance bears on: those of the
// causes it names, and those that give a state it names.
func (e *Engine) instancesOf(c knowledge.Circumstance) []pulled {
	var out []pulled
	for i, inst := range e.fitted.Causes {
		factor := 1.0
		for _, k := range c.Likely {
			if k.To == inst.Cause {
				factor = k.By
			}
		}
		if factor == 1 {
			for _, k := range c.LikelyState {
				for _, give := range e.fitted.Base.Causes[inst.Cause].Gives {
					if give.To == k.To {
						factor = k.By
					}
				}
			}
		}
		if factor != 1 {
			out = append(out, pulled{i, factor})
		}
	}
	return out
}

// gatherParts takes what statements about parts do to the odds. A cause that
// is told of by a sign of its own, which names the place as the statement does,
// does not gain again by the statement that the same part leaks or feels wrong.
// A leak that is a sign as well says by the sign that something leaks and by
// the part where; a part that felt wrong says no more than its sign.
func (e *Engine) gatherParts(g *gathered, t *telling, st *chain.State) {
	if len(t.statements) == 0 {
		return
	}
	labels := map[string]int{}
	var few []bool
	for _, s := range relate.Shifts(e.fitted.Rig, e.fitted.Relations, e.fitted.Causes, t.statements) {
		told := t.statements[s.Statement]
		if s.Factor > 1 && (told.Told == "leaks" || told.Told == "felt" || told.Told == "looked_at") {
			if few == nil {
				few = e.shownByFew()
			}
			implied := e.implied(told)
			if told.Told == "felt" && len(implied) > 0 || e.toldByOwnSign(s.Cause, st, few, implied) {
				continue
			}
		}
		at, ok := labels[s.Why]
		if !ok {
			at = g.label("part", s.Why, "told of the part")
			labels[s.Why] = at
		}
		g.Adjust = append(g.Adjust, rank.Adjustment{Label: at, Cause: s.Cause, Log: e.set.PartPower * math.Log(s.Factor)})
	}
}

// ownSignCauses is the most causes that may show a sign themselves for it to
// be one's own.
const ownSignCauses = 6

// shownByFew reports, by sign, whether few causes show it themselves.
func (e *Engine) shownByFew() []bool {
	count := make([]int, len(e.fitted.Signs))
	for _, inst := range e.fitted.Causes {
		for _, d := range e.fitted.Base.Causes[inst.Cause].Direct {
			if d.By >= .4 {
				count[d.To]++
			}
		}
	}
	few := make([]bool, len(count))
	for i, n := range count {
		few[i] = n <= ownSignCauses
	}
	return few
}

// toldByOwnSign reports whether a sign that the cause itself and few others
// show is known to be there, other than those that a statement amounts to.
func (e *Engine) toldByOwnSign(i int, st *chain.State, few []bool, implied []int) bool {
	c := &e.fitted.Base.Causes[e.fitted.Causes[i].Cause]
	for _, d := range c.Direct {
		if d.By >= .7 && few[d.To] && !contains(implied, d.To) && st.Truth(chain.Whole, e.fitted.Signs[d.To].Slot) == condition.True {
			return true
		}
	}
	return false
}

// gatherTrials weighs what was tried and what came of it: for each cause, the
// chance of that outcome against what it is for causes that nothing is said
// of.
func (e *Engine) gatherTrials(g *gathered, t *telling, st *chain.State) {
	for i := range e.fitted.Trials {
		tr := &e.fitted.Trials[i]
		if st.Truth(chain.Whole, tr.Slot) != condition.True || tr.Same >= 0 {
			continue
		}
		usual := tr.Usual
		if usual <= 0 {
			usual = .15
		}
		tell := rank.Telling{Label: g.label(tr.ID.Value, tr.Means, "tried")}
		own := map[int]float64{}
		for _, kind := range tr.Clears {
			for k, inst := range e.fitted.Causes {
				if e.fitted.Base.Causes[inst.Cause].Kind == kind.Value && !contains(tr.Spares, inst.Cause) {
					own[k] = tr.AgainstP
				}
			}
		}
		for k, inst := range e.fitted.Causes {
			for _, a := range tr.AgainstCause {
				if a == inst.Cause {
					own[k] = tr.AgainstP
				}
			}
			for _, f := range tr.ForCause {
				if f.To == inst.Cause {
					own[k] = f.By
				}
			}
		}
		for k := range e.fitted.Causes {
			if p, ok := own[k]; ok {
				tell.Causes = append(tell.Causes, rank.Ratio{ID: k, Log: e.set.TrialPower * math.Log(p/usual)})
			}
		}
		for _, f := range tr.ForState {
			tell.States = append(tell.States, rank.Ratio{ID: f.To, Log: e.set.TrialPower * math.Log(f.By/usual)})
		}
		for _, a := range tr.AgainstState {
			tell.States = append(tell.States, rank.Ratio{ID: a, Log: e.set.TrialPower * math.Log(tr.AgainstP/usual)})
		}
		g.Tellings = append(g.Tellings, tell)
	}
}

func (e *Engine) gatherCourses(g *gathered, st *chain.State) {
	for _, c := range e.fitted.Courses {
		if st.Truth(chain.Whole, c.Slot) != condition.True {
			continue
		}
		tell := rank.Telling{Label: g.label(c.ID, c.Means, "how it came on")}
		for k, inst := range e.fitted.Causes {
			for _, a := range c.AgainstCause {
				if a == inst.Cause {
					tell.Causes = append(tell.Causes, rank.Ratio{ID: k, Log: math.Log(e.set.CourseAgainst / e.set.CourseUsual)})
				}
			}
			for _, f := range c.ForCause {
				if f.To == inst.Cause {
					tell.Causes = append(tell.Causes, rank.Ratio{ID: k, Log: math.Log(f.By / e.set.CourseUsual)})
				}
			}
		}
		for _, f := range c.ForState {
			tell.States = append(tell.States, rank.Ratio{ID: f.To, Log: math.Log(f.By / e.set.CourseUsual)})
		}
		for _, a := range c.AgainstState {
			tell.States = append(tell.States, rank.Ratio{ID: a, Log: math.Log(e.set.CourseAgainst / e.set.CourseUsual)})
		}
		g.Tellings = append(g.Tellings, tell)
	}
}

// say gives the words of a label.
func (g *gathered) say(i int) label {
	if i < 0 || i >= len(g.labels) {
		return label{how: fmt.Sprintf("label %d", i)}
	}
	return g.labels[i]
}
