package casebook

// This file sets orders of causes beside those of the published tables.

import (
	"cmp"
	"maps"
	"slices"

	"snagwise/engine/condition"
	"snagwise/engine/diagnose"
	"snagwise/engine/sheet"
)

// TableOrder returns what somebody with nothing but the published tables would
// look at for an account, first things first, each level a tie: every entry of
// which a symptom is true there gives its causes one over their place in the
// entry, and what a cause is given is added up. Causes that the rig cannot have
// are left out; an account to which no entry speaks gives nothing.
//
// Source of the sum: the reciprocal rank of information retrieval, from memory.
func TableOrder(tables []Table, e *diagnose.Engine, a *sheet.Account) [][]string {
	f := e.Fitted()
	known := e.World(a).Whole
	given := map[string]float64{}
	for _, t := range tables {
		for _, entry := range t.Entries {
			if !entry.InScope || !slices.ContainsFunc(entry.Told.Symptoms, func(s sheet.Text) bool {
				return known[f.Signs[f.Sign(s.Value)].Slot] == condition.True
			}) {
				continue
			}
			for row, ids := range entry.rows(e) {
				for _, id := range ids {
					given[id] += 1 / float64(row+1)
				}
			}
		}
	}
	ids := slices.SortedFunc(maps.Keys(given), func(a, b string) int {
		return cmp.Or(cmp.Compare(given[b], given[a]), cmp.Compare(a, b))
	})
	var levels [][]string
	for i, id := range ids {
		if i == 0 || given[id] != given[ids[i-1]] {
			levels = append(levels, nil)
		}
		levels[len(levels)-1] = append(levels[len(levels)-1], id)
	}
	return levels
}

// rows returns the causes of an entry that a rig can have, in the order of the
// table; a cause stands where it is named first.
func (e Trouble) rows(engine *diagnose.Engine) [][]string {
	seen := map[string]bool{}
	var out [][]string
	for _, c := range e.Causes {
		var ids []string
		for _, m := range c.Means {
			if !seen[m.Value] && Can(engine.Fitted(), m.Value) {
				seen[m.Value] = true
				ids = append(ids, m.Value)
			}
		}
		if len(ids) > 0 {
			out = append(out, ids)
		}
	}
	return out
}

// A Comparison sets the order of the rules beside that of one entry.
type Comparison struct {
	Entry, Rig string
	Rows       int // causes of the table that the rig can have
	// Tau is Kendall's: 1 for the same order, -1 for the opposite, 0 for none.
	Tau float64
	// First is the place of the table's first cause among all causes of the
	// rig, and Among that among those of the entry.
	First, Among int
}

// Compare sets the order of an engine beside that of an entry. Of the causes
// that one row names, the likeliest counts.
func (e Trouble) Compare(engine *diagnose.Engine) (Comparison, error) {
	c := Comparison{Entry: e.ID.Value, Rig: engine.Fitted().Rig.ID}
	ids, _, l := e.Ranked(engine)
	if len(l) > 0 {
		return c, l
	}
	var places []int
	for _, row := range e.rows(engine) {
		places = append(places, RankOf(ids, row...))
	}
	c.Rows = len(places)
	if c.Rows == 0 {
		return c, nil
	}
	c.Tau, c.First, c.Among = Kendall(places), places[0], 1
	for _, p := range places[1:] {
		if p < places[0] {
			c.Among++
		}
	}
	return c, nil
}

// Kendall returns Kendall's tau of a list of places against the order in which
// they stand, or 0 for fewer than two.
//
// Source: M. G. Kendall, "A new measure of rank correlation", Biometrika 30,
// 1938.
func Kendall(places []int) float64 {
	sum, pairs := 0, 0
	for i := range places {
		for _, later := range places[i+1:] {
			sum += cmp.Compare(later, places[i])
			pairs++
		}
	}
	if pairs == 0 {
		return 0
	}
	return float64(sum) / float64(pairs)
}
