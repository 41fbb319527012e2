package diagnose

import (
	"snagwise/engine/physics"
	"snagwise/engine/sheet"
)

// WorkedOut returns a computed reading as it follows from what was told, at the
// last moment at which it can be worked out, whether a rule asks for it or not. It
// is false where it cannot be worked out or the rig lacks it.
func (e *Engine) WorkedOut(a *sheet.Account, id string) (WorkedOut, bool) {
	c, err := physics.Find(id)
	i := e.fitted.Reading(id)
	if err != nil || i < 0 {
		return WorkedOut{}, false
	}
	r, ok := e.reckoner.prepare(c, i)
	if !ok {
		return WorkedOut{}, false
	}
	t := e.tell(a)
	air := e.reckoner.air(t.world)
	for at := len(a.Moments) - 1; at >= 0; at-- {
		m := &t.world.Moments[at]
		if !r.ready(m, air) {
			continue
		}
		v, ok := e.reckoner.work(&r, m, air, a.Moments[at].Phases)
		if !ok {
			continue
		}
		if text, ok := shown(v.Quantity.SI, r.Dim, r.Unit); ok {
			return WorkedOut{ID: r.ID, Means: r.Means, Value: text, Formula: r.Formula, Caution: r.Caution, Source: r.Source}, true
		}
	}
	return WorkedOut{}, false
}
