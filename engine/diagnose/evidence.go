package diagnose

import (
	"maps"
	"math"
	"slices"

	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/rank"
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
	for i, p := range e.fitted.Patterns {
		if e.patterns != nil && e.patterns[i] >= 0 && st.Truth(chain.Whole, p.Slot) == condition.True {
			g.Patterns = append(g.Patterns, e.patterns[i])
		}
	}
	e.gatherCircumstances(&g, st)
	e.gatherParts(&g, t, st)
	e.gatherTrials(&g, t, st)
	e.gatherCourses(&g, st)
	return g
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
			var without []int
			if len(s.Covers) > 0 {
				w, without = e.set.VagueWeight, e.outOfPhase(t, st, i)
			}
			g.Signs = append(g.Signs, rank.Known{Sign: i, True: true, Weight: w, Without: without})
		case condition.False:
			g.Signs = append(g.Signs, rank.Known{Sign: i, Weight: e.set.NotSeenWeight})
		}
	}
}

// outOfPhase lists what a vague sign covers and none of the moments at which it
// was told can show. Where that is all it covers the sign was told of another
// moment than it was met in, and nothing is left out.
func (e *Engine) outOfPhase(t *telling, st *chain.State, vague int) []int {
	phases := e.phasesOf(t, st, e.fitted.Signs[vague].Slot)
	if phases == 0 {
		return nil
	}
	var list []int
	some := false
	for _, k := range e.fitted.Signs[vague].Covers {
		c := &e.fitted.Signs[k]
		if len(c.Phases) > 0 && !slices.ContainsFunc(c.Phases, func(p string) bool { return phases.Has(slices.Index(e.fitted.Phases, p)) }) {
			list = append(list, k)
		} else {
			some = some || e.fitted.SignOn[k]
		}
	}
	if !some {
		return nil
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
