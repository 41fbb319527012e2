package simulate

import (
	"fmt"
	"hash/fnv"
	"slices"

	"snagwise/engine/casebook"
	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
	"snagwise/engine/sheet"
)

// kept returns a kept case as a world: what its sheet and its checks tell is
// so, the rest is drawn with the causes found. The hunt starts from the first
// thing told from which any sign follows; a case without one, or without a
// cause, gives none.
func kept(r *Rig, c casebook.Case, seed uint64) (*World, error) {
	a, l := r.engine.Read(c.Sheet)
	if len(l) > 0 {
		return nil, fmt.Errorf("case %s: %w", c.File, l)
	}
	name := fnv.New64a()
	name.Write([]byte(c.File))
	w := &World{rig: r, chance: chance{seed: mix(seed, name.Sum64())}, startText: c.File + " ", kept: true}
	for _, k := range a.Case.Found {
		for i, in := range r.fitted.Causes {
			if in.Cause == k { // of like parts the first
				w.causes = append(w.causes, i)
				break
			}
		}
	}
	if len(w.causes) == 0 || !w.startFrom(a) {
		return nil, nil
	}
	w.fixed = make([]condition.Truth, len(r.fitted.Signs))
	whole := r.engine.World(a).Whole
	for s := range w.fixed {
		w.fixed[s] = whole[r.fitted.Signs[s].Slot]
	}
	for _, d := range a.Case.Checks {
		for _, s := range d.Shown {
			w.fixed[s] = condition.True
		}
		for _, s := range d.Denied {
			w.fixed[s] = condition.False
		}
	}
	w.draw()
	return w, nil
}

// startFrom sets what is told first.
func (w *World) startFrom(a *sheet.Account) bool {
	for _, m := range a.Moments {
		first := sheet.Told{Phases: m.Phases, Controls: m.Controls}
		try := func(t sheet.Told) bool {
			told := &sheet.Account{Rig: a.Rig, Moments: []sheet.Told{t}}
			whole := w.rig.engine.World(told).Whole
			at := slices.IndexFunc(w.rig.fitted.Signs, func(s knowledge.Sign) bool { return whole[s.Slot] == condition.True })
			if at >= 0 {
				w.start, w.first = t, at
			}
			return at >= 0
		}
		for _, s := range m.Signs {
			t := first
			t.Signs = []int{s}
			if try(t) {
				w.first = s
				return true
			}
		}
		for _, v := range m.Readings {
			t := first
			t.Readings = []sheet.Value{v}
			if try(t) {
				return true
			}
		}
	}
	return false
}
