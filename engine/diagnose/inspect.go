package diagnose

// This file lets the rules be looked at from outside: what they say of a sheet
// and of a cause, before anything is weighed.

import (
	"snagwise/engine/condition"
	"snagwise/engine/sheet"
)

// Usual returns the figures of the ranking as they stand where nothing else is
// said.
func Usual() Settings { return Settings{}.withDefaults() }

// Shown returns how often a cause of the base shows each sign, by sign, all its
// states summed over: by its own word, by what its states show, or by the
// second opinion where that counts.
func (e *Engine) Shown(cause int) []float64 {
	m := newMarginals(e.fitted, nil)
	k := m.of(cause)
	out := make([]float64, len(e.fitted.Signs))
	for i := range out {
		out[i] = k.shown(i)
	}
	for _, w := range k.words(&e.fitted.Base.Causes[cause], e.set) {
		out[w.To] = w.By
	}
	for _, n := range e.fitted.Base.Causes[cause].Never {
		out[n] = 0
	}
	return out
}

// World returns all that is known of a sheet: what was told and what the rules
// conclude from it.
func (e *Engine) World(a *sheet.Account) *condition.World { return e.follow(e.tell(a)).World }
