package diagnose

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
	"snagwise/engine/rank"
	"snagwise/engine/relate"
	"snagwise/engine/sheet"
)

// A label says in words what an adjustment or telling rests on. Where how is
// empty the proof of the truth of that id says it.
type label struct{ id, means, how string }

// gathered is the evidence of one sheet with the words for it.
type gathered struct {
	rank.Evidence
	labels []label
}

func (g *gathered) label(id, means, how string) int {
	g.labels = append(g.labels, label{id, means, how})
	return len(g.labels) - 1
}

// gather turns what follows from a sheet into evidence for the ranking.
func (e *Engine) gather(t *telling, st *chain.State) gathered {
	var g gathered
	e.gatherSigns(&g, t, st)
	e.gatherNormals(&g, t, st)
	var closed *condition.World
	for i, p := range e.fitted.Patterns {
		if e.patterns != nil && e.patterns[i] >= 0 && (st.Truth(chain.Whole, p.Slot) == condition.True || e.set.Silence > 0 && e.likelyPattern(i, st, &closed)) {
			g.Patterns = append(g.Patterns, e.patterns[i])
		}
	}
	e.gatherCircumstances(&g, st)
	e.gatherParts(&g, t, st)
	e.gatherTrials(&g, t, st)
	e.gatherCourses(&g, st)
	return g
}

// likelyPattern says whether a pattern would hold if what nobody spoke of were
// not there, and enough of its parts are known to be.
func (e *Engine) likelyPattern(i int, st *chain.State, closed **condition.World) bool {
	p := &e.fitted.Patterns[i]
	if st.Truth(chain.Whole, p.Slot) == condition.False {
		return false
	}
	n := 0
	for _, s := range p.Of {
		if e.fitted.Signs[s].Covers == nil && st.Truth(chain.Whole, e.fitted.Signs[s].Slot) == condition.True {
			n++
		}
	}
	for _, s := range p.Of {
		if e.fitted.Signs[s].Covers != nil && st.Truth(chain.Whole, e.fitted.Signs[s].Slot) == condition.True {
			n++
			break
		}
	}
	if n < e.set.Silence {
		return false
	}
	if *closed == nil {
		w := &condition.World{Whole: slices.Clone(st.World.Whole)}
		for _, m := range st.World.Moments {
			m.Truth = slices.Clone(m.Truth)
			w.Moments = append(w.Moments, m)
		}
		for slot := range w.Whole {
			if o := e.fitted.Owner(slot); o.Kind != knowledge.OwnSign {
				continue
			}
			if w.Whole[slot] == condition.Unknown {
				w.Whole[slot] = condition.False
			}
			for k := range w.Moments {
				if w.Moments[k].Truth[slot] == condition.Unknown {
					w.Moments[k].Truth[slot] = condition.False
				}
			}
		}
		*closed = w
	}
	return p.Program.EvalWhole(*closed) == condition.True
}

// gatherSigns takes every sign that is known over the whole sheet.
//
// A vague sign is opened only to what can be met in the phase in which it was
// told: an engine that stopped at power did not fire and die at the start.
func (e *Engine) gatherSigns(g *gathered, t *telling, st *chain.State) {
	for i, s := range e.fitted.Signs {
		if !e.fitted.SignOn[i] {
			continue
		}
		switch st.Truth(chain.Whole, s.Slot) {
		case condition.True:
			w := e.set.SeenWeight
			if len(s.Covers) > 0 {
				w = e.set.VagueWeight
			}
			if e.cameLater(t, st, s.Slot) {
				w *= e.set.LaterWeight
			}
			g.Signs = append(g.Signs, rank.Known{Sign: i, True: true, Weight: w})
		case condition.False:
			g.Signs = append(g.Signs, rank.Known{Sign: i, Weight: e.set.NotSeenWeight})
		}
	}
	for _, s := range e.outOfPhase(t, st) {
		g.Signs = append(g.Signs, rank.Known{Sign: s, Weight: noWeight})
	}
}

// cameLater says whether a sign was first seen after the moment at which the
// trouble began.
func (e *Engine) cameLater(t *telling, st *chain.State, slot int) bool {
	began := -1
	for i := range t.account.Moments {
		m := &t.account.Moments[i]
		if began < 0 && (len(m.Signs) > 0 || slices.ContainsFunc(m.Readings, func(v sheet.Value) bool { return v.Judged&^sheet.JudgedNormal != 0 })) {
			began = i
		}
		if st.Truth(i, slot) == condition.True {
			return began >= 0 && i > began
		}
	}
	return false
}

// noWeight takes a sign out of what a vague one covers without denying it.
const noWeight = 1e-9

// outOfPhase lists the signs, not known themselves, that vague signs told
// cover and that none of the moments at which they were told can show.
func (e *Engine) outOfPhase(t *telling, st *chain.State) []int {
	out, in := map[int]bool{}, map[int]bool{}
	for _, s := range e.fitted.Signs {
		if len(s.Covers) == 0 || st.Truth(chain.Whole, s.Slot) != condition.True {
			continue
		}
		phases := e.phasesOf(t, st, s.Slot)
		for _, k := range s.Covers {
			c := &e.fitted.Signs[k]
			if phases == 0 || len(c.Phases) == 0 || slices.ContainsFunc(c.Phases, func(p string) bool {
				return phases.Has(slices.Index(e.fitted.Phases, p))
			}) {
				in[k] = true
			} else {
				out[k] = true
			}
		}
	}
	var list []int
	for _, k := range slices.Sorted(maps.Keys(out)) {
		if !in[k] && st.Truth(chain.Whole, e.fitted.Signs[k].Slot) == condition.Unknown {
			list = append(list, k)
		}
	}
	return list
}

// phasesOf returns the phases of the moments at which a truth was told, or none
// when one of them has none or it was told of the whole.
func (e *Engine) phasesOf(t *telling, st *chain.State, slot int) sheet.PhaseSet {
	var set sheet.PhaseSet
	for i := range t.account.Moments {
		if st.Truth(i, slot) != condition.True {
			continue
		}
		if t.account.Moments[i].Phases == 0 {
			return 0
		}
		set |= t.account.Moments[i].Phases
	}
	return set
}

// gatherNormals takes what things said to be in order deny. It counts for less
// than a sign looked for and not seen, since what was looked at is not said,
// and all of it together is capped so that a long list of good news does not
// add up as if each had been looked at.
func (e *Engine) gatherNormals(g *gathered, t *telling, st *chain.State) {
	known := map[int]bool{}
	for _, k := range g.Signs {
		known[k.Sign] = true
	}
	weights := map[int]float64{}
	sum := 0.0
	for _, n := range e.fitted.Normals {
		w := e.set.NormalWeight
		if st.Truth(chain.Whole, n.Slot) != condition.True {
			continue
		}
		w *= e.timely(t, st, n.Slot)
		for _, s := range n.Denies {
			if !known[s] && e.fitted.SignOn[s] && w > weights[s] {
				sum += w - weights[s]
				weights[s] = w
			}
		}
	}
	scale := math.Min(1, normalCap*e.set.NormalWeight/math.Max(sum, 1e-9))
	for _, s := range slices.Sorted(maps.Keys(weights)) {
		g.Signs = append(g.Signs, rank.Known{Sign: s, Weight: weights[s] * scale})
	}
}

// timely says how much a thing said to be in order bears on the trouble: in
// full where it is said of a moment at which something was wrong, less where
// all that was said of the moment is good news, for the trouble came before or
// after.
func (e *Engine) timely(t *telling, st *chain.State, slot int) float64 {
	best := 0.0
	for i := range t.account.Moments {
		if st.Truth(i, slot) != condition.True {
			continue
		}
		w := e.set.EarlierWeight
		if m := &t.account.Moments[i]; len(m.Signs) > 0 || slices.ContainsFunc(m.Readings, func(v sheet.Value) bool { return v.Judged&^sheet.JudgedNormal != 0 }) {
			w = 1
		}
		best = math.Max(best, w)
	}
	if best == 0 {
		return 1 // said of the whole
	}
	return best
}

// normalCap is how many signs' worth of denial all that is said to be normal
// may add up to; the project's own choice.
const normalCap = 6

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
// is told of by an exact sign of its own does not gain again by the statement
// that the same part leaks or feels wrong.
func (e *Engine) gatherParts(g *gathered, t *telling, st *chain.State) {
	if len(t.statements) == 0 {
		return
	}
	labels := map[string]int{}
	for _, s := range relate.Shifts(e.fitted.Rig, e.fitted.Relations, e.fitted.Causes, t.statements) {
		told := t.statements[s.Statement]
		if s.Factor > 1 && (told.Told == "leaks" || told.Told == "felt" || told.Told == "looked_at") && e.toldByOwnSign(s.Cause, st) {
			continue
		}
		at, ok := labels[s.Why]
		if !ok {
			at = g.label("part", s.Why, "told of the part")
			labels[s.Why] = at
		}
		g.Adjust = append(g.Adjust, rank.Adjustment{Label: at, Cause: s.Cause, Log: e.set.PartPower * math.Log(s.Factor)})
	}
}

// toldByOwnSign reports whether a sign that the cause itself shows is known to
// be there.
func (e *Engine) toldByOwnSign(i int, st *chain.State) bool {
	c := &e.fitted.Base.Causes[e.fitted.Causes[i].Cause]
	for _, d := range c.Direct {
		if d.By >= .4 && st.Truth(chain.Whole, e.fitted.Signs[d.To].Slot) == condition.True {
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
