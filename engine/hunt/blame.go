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

// System returns how likely the causes of one system are, each counted by
// itself and at most 1, and the likeliest of them. Known is false where the rig
// has no cause of it.
func (h *Hunt) System(r *diagnose.Result, system string) (all float64, likeliest []Share, known bool) {
	f := h.engine.Fitted()
	var list []Share
	had := map[int]bool{}
	for _, c := range f.Causes {
		base := &f.Base.Causes[c.Cause]
		if base.System != system || had[c.Cause] {
			continue
		}
		had[c.Cause] = true
		all += r.Chances[base.ID]
		list = append(list, Share{base.ID, r.Chances[base.ID]})
	}
	sortShares(list)
	return min(all, 1), list[:min(len(list), mostBlamed)], len(list) > 0
}

func sortShares(list []Share) {
	slices.SortFunc(list, func(a, b Share) int { return cmp.Or(cmp.Compare(b.Chance, a.Chance), cmp.Compare(a.ID, b.ID)) })
}

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
	sortShares(out)
	return out[:min(len(out), mostBlamed)]
}
