package diagnose

// This file reads the time gone by from the order of what is told.

import (
	"math"
	"slices"

	"snagwise/engine/condition"
	"snagwise/engine/sheet"
)

// elapse writes into each moment the readings that are time gone by: summed
// from what is told to lie between moments, as long as each is of a phase that
// counts. Times that are not told count for nothing, so that it is the least
// that can have gone by. Where none is told it stays unknown, and what a person
// told stands.
func (e *Engine) elapse(t *telling) {
	for _, rd := range e.fitted.Readings {
		if rd.Elapsed == nil {
			continue
		}
		sum, any := 0.0, false
		for i := range t.account.Moments {
			told := &t.account.Moments[i]
			switch {
			case !e.all(told.Phases, rd.Elapsed):
				sum, any = 0, false
				continue
			case i > 0 && e.all(t.account.Moments[i-1].Phases, rd.Elapsed) && !math.IsNaN(told.After):
				sum, any = sum+told.After, true
			}
			m := &t.world.Moments[i]
			if any && math.IsNaN(m.Num[rd.Slot]) && m.Word[rd.Slot] == (condition.Word{}) {
				m.Num[rd.Slot] = sum
			}
		}
	}
}

// all says whether a moment is surely of one of some phases.
func (e *Engine) all(told sheet.PhaseSet, phases []string) bool {
	for _, p := range told.List() {
		if !slices.Contains(phases, e.fitted.Phases[p]) {
			return false
		}
	}
	return told != 0
}
