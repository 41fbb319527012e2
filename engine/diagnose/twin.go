package diagnose

// This file reads one thing that is told on another scale: manifold pressure
// is boost counted from vacuum.

import (
	"slices"

	"snagwise/engine/quantity"
	"snagwise/engine/sheet"
)

// aboveVacuum is how far the zero of a boost gauge stands above vacuum, in Pa.
//
// Source: the standard atmosphere, ISO 2533 (from memory).
const aboveVacuum = 101325

// twins adds to the readings of a moment the same things on the scale that the
// rules read: what is told as an absolute pressure, of a gauge that is worked
// out from one of boost, stands as boost too, unless that was told itself. The
// gauge of either has bands of its own, so that words told of one hold for both.
func (e *Engine) twins(told []sheet.Value) []sheet.Value {
	out := told
	for _, v := range told {
		rd := &e.fitted.Readings[v.Reading]
		if rd.Dim != quantity.AbsolutePressure {
			continue
		}
		g, ok := e.fitted.Rig.Gauge(rd.ID)
		if !ok {
			continue
		}
		r := e.fitted.Reading(g.From)
		if r < 0 || e.fitted.Readings[r].Dim != quantity.Boost || slices.ContainsFunc(told, func(o sheet.Value) bool { return o.Reading == r }) {
			continue
		}
		v.Reading = r
		if v.IsFigure {
			v.Figure.From, v.Figure.To = asBoost(v.Figure.From), asBoost(v.Figure.To)
		}
		out = append(out[:len(out):len(out)], v)
	}
	return out
}

func asBoost(q quantity.Quantity) quantity.Quantity {
	return quantity.Quantity{SI: q.SI - aboveVacuum, Dim: quantity.Boost}
}
