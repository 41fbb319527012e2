package simulate

import (
	"slices"

	"snagwise/engine/casebook"
	"snagwise/engine/sheet"
)

// byTables returns the causes of the base in the order of somebody who has the
// published tables: those of the troubles that fit what was told first, in the
// order of the tables, then the rest by how common they are.
func (r *Rig) byTables(tables []casebook.Table, start sheet.Told) []int {
	a := sheet.Account{Rig: r.ID(), Moments: []sheet.Told{start}}
	var order []int
	for _, level := range casebook.TableOrder(tables, r.engine, &a) {
		for _, id := range level {
			order = append(order, r.fitted.Base.Cause(id))
		}
	}
	for _, c := range r.causes {
		if !slices.Contains(order, c) {
			order = append(order, c)
		}
	}
	return order
}

// beginning is what is told first where that is one sign alone.
func beginning(sign int) sheet.Told { return sheet.Told{Signs: []int{sign}} }
