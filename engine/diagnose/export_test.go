package diagnose

import (
	"math"

	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
	"snagwise/engine/physics"
	"snagwise/engine/sheet"
)

// A Followed is what follows from one sheet, for tests.
type Followed struct {
	told  *telling
	state *chain.State
}

// Follow works a sheet out as far as signs, circumstances and patterns.
func (e *Engine) Follow(a *sheet.Account) Followed {
	t := e.tell(a)
	return Followed{t, e.follow(t)}
}

// Moments returns how many moments there are.
func (f Followed) Moments() int { return len(f.state.World.Moments) }

// Truth returns what is known of a slot at a moment, or of the whole sheet.
func (f Followed) Truth(moment, slot int) condition.Truth { return f.state.Truth(moment, slot) }

// Number returns the figure of a number slot at a moment, NaN where unknown.
func (f Followed) Number(moment, slot int) float64 { return f.state.World.Moments[moment].Num[slot] }

// Assumed lists the usual figures that stood in.
func (f Followed) Assumed() []string { return f.told.assumed }

// WorksOut lists the computed readings that are worked out on the engine's rig.
func (e *Engine) WorksOut() []*physics.Computed {
	var out []*physics.Computed
	for _, r := range e.reckoner.list {
		out = append(out, r.Computed)
	}
	return out
}

// WorkOutAll returns the engine working out whatever its rig allows, asked for
// or not.
func (e *Engine) WorkOutAll() *Engine {
	all := *e
	k := *e.reckoner
	k.list = nil
	for i := range e.fitted.Readings {
		if !e.fitted.Readings[i].Computed {
			continue
		}
		c, err := physics.Find(e.fitted.Readings[i].ID)
		if err != nil {
			continue
		}
		if r, ok := k.prepare(c, i); ok {
			k.list = append(k.list, r)
		}
	}
	all.reckoner = &k
	return &all
}

// WithoutWorkingOut returns the engine working nothing out.
func (e *Engine) WithoutWorkingOut() *Engine {
	none := *e
	none.reckoner = &reckoner{fitted: e.fitted}
	return &none
}

// Programs calls use with every rule, pattern and circumstance that concludes
// a slot, and what it reads.
func (e *Engine) Programs(use func(slot int, reads []condition.Name)) {
	for _, r := range e.fitted.Base.Rules {
		use(r.Slot, r.Program.Reads())
		if r.Only != nil {
			use(r.Slot, r.Only.Reads())
		}
	}
	for _, p := range e.fitted.Patterns {
		use(p.Slot, p.Program.Reads())
	}
	for _, c := range e.fitted.Circumstances {
		if c.Program != nil {
			use(c.Slot, c.Program.Reads())
		}
	}
}

// Fails returns what is wrong with the computed readings of a base.
func Fails(f *knowledge.Fitted) []string {
	_, l := newReckoner(f)
	var out []string
	for _, p := range l {
		out = append(out, p.Check+": "+p.Text+"; "+p.Hint)
	}
	return out
}

// Known says whether a figure is known.
func Known(x float64) bool { return !math.IsNaN(x) }
