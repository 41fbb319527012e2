package diagnose

import (
	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/sheet"
)

// A Danger is what forbids checks while it is so or nobody has looked, as it
// stands on one sheet.
type Danger struct {
	ID, Means        string
	Running, Turning bool // which checks it forbids
	So, LookedAt     bool // it is so; it has been looked for, whatever came of it
}

// Dangers returns all that may forbid checks, in the order of the rules, as an
// account leaves it.
func (e *Engine) Dangers(a *sheet.Account) []Danger {
	st := e.follow(e.tell(a))
	var out []Danger
	for i := range e.fitted.Hazards {
		out = append(out, e.danger(i, st))
	}
	return out
}

// danger says how one danger stands in what follows from a sheet.
func (e *Engine) danger(i int, st *chain.State) Danger {
	h := &e.fitted.Hazards[i]
	when := whole(h.When, st)
	return Danger{
		ID: h.ID, Means: h.Means, Running: h.Running, Turning: h.Turning,
		So:       when == condition.True,
		LookedAt: when != condition.Unknown || whole(h.Clear, st) == condition.True,
	}
}
