package simulate

// This file cuts small problems out of the rules: a few causes, a few checks,
// small enough for the best way through them to be worked out exactly.

import (
	"cmp"
	"math"
	"slices"

	"snagwise/engine/advise"
	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
	"snagwise/engine/sheet"
)

// A Small is a small problem: exactly one of its causes is there, each check
// may be done once, and a cause is found when its check shows it, when its
// remedy is tried, or when help is fetched.
type Small struct {
	rig    *Rig
	first  int       // the sign that was told
	causes []int     // by cause: its number in the base
	prior  []float64 // by cause, adding up to 1
	remedy []float64 // by cause: minutes to try its remedy
	checks []smallCheck
	moves  [][]float64 // minutes from state to state
	start  int
	help   float64 // minutes to fetch help, which finds any cause
}

// A smallCheck is one check of a small problem.
type smallCheck struct {
	minutes float64
	state   int         // of the rig, -1 for any
	rows    [][]float64 // by outcome and cause: its chance
	finds   []int       // by outcome: the cause it finds if that is there, -1 for none
}

// mostOutcomes is how many outcomes a check of a small problem has at most:
// those that tell most, the rest is one with nothing found.
const mostOutcomes = 3

// cut returns the small problem of one sign told: its likeliest causes, and of
// the checks those that settle them and those that tell most. There may be
// none.
func cut(r *Rig, first int, number uint64) (*Small, bool) {
	causes := 4 + int(mix(number, 1)%4) // 4 to 7
	checks := 5 + int(mix(number, 2)%3) // 5 to 7
	if causes+checks > 12 {
		checks = 12 - causes // what can be worked out in time
	}
	a := &sheet.Account{Rig: r.ID(), Moments: []sheet.Told{{Signs: []int{first}}}}
	t := r.engine.Terms(a, diagnose.Situation{EngineerHere: true})
	type one struct {
		set, cause int
		weight     float64
	}
	var list []one
	for i, s := range t.Snag.Sets {
		if len(s.Causes) == 1 {
			list = append(list, one{i, s.Causes[0], s.Weight})
		}
	}
	slices.SortStableFunc(list, func(a, b one) int { return cmp.Compare(b.weight, a.weight) })
	if len(list) < causes {
		return nil, false
	}
	list = list[:causes]
	p := &Small{rig: r, first: first, help: t.Snag.Help, start: r.usual, moves: r.moves}
	sum := 0.0
	for _, o := range list {
		sum += o.weight
	}
	column, among := make([]int, causes), make([]int, causes)
	for k, o := range list {
		column[k], among[k] = o.set, o.cause
		p.causes = append(p.causes, r.fitted.Causes[t.Causes[o.cause]].Cause)
		p.prior = append(p.prior, o.weight/sum)
		p.remedy = append(p.remedy, t.Snag.Causes[o.cause].Minutes)
	}
	var offers []smallOffer
	for i := range t.Snag.Checks {
		c := &t.Snag.Checks[i]
		if math.IsInf(r.cost(t.Checks[i], r.usual), 1) {
			continue
		}
		k := smallCheck{minutes: c.Minutes, state: c.State}
		k.take(c, among, column)
		offers = append(offers, smallOffer{k, advise.Bits(p.prior, k.rows, 0) / (c.Minutes + 2)})
	}
	slices.SortStableFunc(offers, func(a, b smallOffer) int { return cmp.Compare(b.worth, a.worth) })
	for _, o := range offers[:min(checks, len(offers))] {
		if o.worth > 0 {
			p.checks = append(p.checks, o.smallCheck)
		}
	}
	return p, len(p.checks) >= min(checks, 5)
}

type smallOffer struct {
	smallCheck
	worth float64 // bits per minute
}

// take fills in the outcomes that part the causes most, each cause's own
// finding before others.
func (k *smallCheck) take(c *advise.Check, causes, column []int) {
	type row struct {
		chances []float64
		find    int
		worth   float64
	}
	var rows []row
	rest := make([]float64, len(causes))
	for v, full := range c.Outcomes {
		x := row{find: -1, chances: make([]float64, len(causes))}
		lo, hi := 1.0, 0.0
		for i, set := range column {
			x.chances[i] = full[set]
			lo, hi = min(lo, full[set]), max(hi, full[set])
			if v < len(c.Finds) && slices.Contains(c.Finds[v], causes[i]) {
				x.find = i
			}
		}
		if x.worth = hi - lo; x.find >= 0 {
			x.worth++
		}
		if v == len(c.Outcomes)-1 { // nothing found
			x.worth = -1
		}
		rows = append(rows, x)
	}
	slices.SortStableFunc(rows, func(a, b row) int { return cmp.Compare(b.worth, a.worth) })
	for i, x := range rows {
		if i < mostOutcomes-1 && x.worth > .05 {
			k.rows = append(k.rows, x.chances)
			k.finds = append(k.finds, x.find)
			continue
		}
		for j, p := range x.chances {
			rest[j] += p
		}
	}
	k.rows = append(k.rows, rest)
	k.finds = append(k.finds, -1)
}

// smalls returns so many small problems, drawn from signs that need no check.
func smalls(rigs []*Rig, n int, seed uint64) []*Small {
	var out []*Small
	for number := uint64(0); len(out) < n && number < uint64(n)*50; number++ {
		r := rigs[number%uint64(len(rigs))]
		f := r.fitted
		s := int(mix(seed, number, 3) % uint64(len(f.Signs)))
		if !f.SignOn[s] || f.Signs[s].Kind == knowledge.CheckSign {
			continue
		}
		if p, ok := cut(r, s, mix(seed, number)); ok {
			out = append(out, p)
		}
	}
	return out
}
