package hunt

// This file answers "is it the pump?".

import (
	"cmp"
	"slices"
	"strings"

	"snagwise/engine/diagnose"
)

// A Share is a cause with its chance.
type Share struct {
	ID     string
	Chance float64
}

// mostBlamed is how many causes of one part are told.
const mostBlamed = 3

// gaugeWords name all gauges at once.
var gaugeWords = []string{"gauge", "gauges", "instrument", "instruments", "needle", "needles", "meter"}

// Blamed returns the likeliest causes of what a word names: a part or parts of
// the rig, the gauges, or causes that go by it.
func (h *Hunt) Blamed(x *Finder, r *diagnose.Result, word string) []Share {
	f := h.engine.Fitted()
	parts := f.Rig.Called(word)
	gauges := slices.Contains(gaugeWords, strings.ToLower(word))
	by := x.Causes(word)
	best := map[string]bool{}
	for _, c := range f.Causes {
		base := &f.Base.Causes[c.Cause]
		best[base.ID] = best[base.ID] || slices.Contains(parts, c.Part) || gauges && base.Class == "instrument" || slices.Contains(by, base.ID)
	}
	var out []Share
	for id, of := range best {
		if of {
			out = append(out, Share{id, r.Chances[id]})
		}
	}
	slices.SortFunc(out, func(a, b Share) int { return cmp.Or(cmp.Compare(b.Chance, a.Chance), cmp.Compare(a.ID, b.ID)) })
	return out[:min(len(out), mostBlamed)]
}
