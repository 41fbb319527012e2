package diagnose

// This file gives the ranking and the advice without their grounds, for those
// who go through many snags.

import (
	"snagwise/engine/advise"
	"snagwise/engine/rank"
	"snagwise/engine/sheet"
)

// Net returns what the engine ranks with: causes by instance, states and signs
// of the rig by their numbers in the base.
func (e *Engine) Net() *rank.Net { return e.net }

// Chances returns, by cause of the base, the chance that it is there, through
// states alone: the ranking that the advice goes by.
func (e *Engine) Chances(a *sheet.Account) []float64 { return e.chances(e.glance(a).rank) }

// PointsFor returns how many points speak for a cause, by id, all that is told
// for it taken one by one as [Engine.Why] lists it; 0 for a cause that the rig
// cannot have.
func (e *Engine) PointsFor(a *sheet.Account, id string) float64 {
	s := e.glance(a)
	sum := 0.0
	for _, m := range e.merged(s.rank) {
		if e.fitted.Base.Causes[m.cause].ID != id {
			continue
		}
		for _, l := range s.cause(m).For {
			sum += l.Points
		}
	}
	return sum
}

// Advise returns the chances and the checks to do next, the best first, as
// [Engine.Diagnose] names them. Where trying the remedy of a cause is worth more
// than any of them, remedy is its number in the base, else -1.
func (e *Engine) Advise(a *sheet.Account, now Situation) (chances []float64, checks []Check, remedy int) {
	s := e.glance(a)
	r := &Result{}
	s.advise(r, now)
	return e.chances(s.rank), r.NextChecks, e.fitted.Base.Cause(r.Try)
}

// Brief returns a result without its grounds, through states alone: of each
// cause its id and chance, the advice, and what the situation asks for.
func (e *Engine) Brief(a *sheet.Account, now Situation) *Result {
	s := e.glance(a)
	r := &Result{Chances: map[string]float64{}}
	for _, m := range e.merged(s.rank) {
		id := e.fitted.Base.Causes[m.cause].ID
		r.Chances[id] = m.chance
		r.Causes = append(r.Causes, Cause{ID: id, Chance: m.chance})
	}
	s.advise(r, now)
	return r
}

// toTry returns the cause to put right without looking further, by id, where
// that is the best inspection and no check settles the cause, else "".
func (a *adviser) toTry(advice *advise.Advice) string {
	if len(advice.Inspections) == 0 {
		return ""
	}
	c := advice.Inspections[0].Cause
	if by := a.snag.Causes[c].By; by > 0 && !a.gated(advice, by-1) && a.fits(by-1) {
		return ""
	}
	return a.base(c).ID
}

// Terms are a snag as the advice reckons with it.
type Terms struct {
	Snag   advise.Snag
	Now    advise.Situation
	Causes []int // by cause of the snag: its instance on the rig
	Checks []int // by check of the snag: its number in the base
}

// Terms returns an account in the terms of the advice.
func (e *Engine) Terms(a *sheet.Account, now Situation) Terms {
	s := &adviser{session: e.glance(a), tools: map[string]int{}}
	s.ready(now)
	return Terms{Snag: s.snag, Now: s.now, Causes: s.causes, Checks: s.checks}
}

// glance is a session without the reading cause by cause.
func (e *Engine) glance(a *sheet.Account) *session {
	s := &session{Engine: e, told: e.tell(a)}
	s.state = e.follow(s.told)
	s.evidence = e.gather(s.told, s.state)
	s.rank = e.net.Posterior(s.evidence.Evidence)
	return s
}

func (e *Engine) chances(r *rank.Result) []float64 {
	out := make([]float64, len(e.fitted.Base.Causes))
	for _, m := range e.merged(r) {
		out[m.cause] = m.chance
	}
	return out
}
