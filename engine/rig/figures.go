package rig

// This file reads the figures and tables of a rig.

import (
	"fmt"
	"math"
	"strconv"

	"snagwise/engine/document"
	"snagwise/engine/problem"
	"snagwise/engine/quantity"
)

func (ld *loader) takeFigures(pairs []document.Pair, plain bool) []Figure {
	var list []Figure
	for _, p := range pairs {
		q, err := quantity.Parse(p.Value.Value)
		if err != nil {
			hint := "a number with a unit, such as 120 L"
			text := err.Error()
			if e, ok := err.(*quantity.Error); ok {
				text, hint = fmt.Sprintf("%q: %s", p.Value.Value, e.Reason), e.Hint()
			}
			ld.add(p.Value.At, "bad-quantity", hint, "%s", text)
			continue
		}
		if plain && (q.Dim != quantity.Pure || q.SI <= 0) {
			ld.add(p.Value.At, "bad-quantity", "wanted a plain number above nothing, such as 0.48", "%q is no ratio", p.Value.Value)
			continue
		}
		list = append(list, Figure{p.Key.Value, q})
	}
	return list
}

// takeReadingFigures reads plain numbers in the units of the rig's gauges.
func (ld *loader) takeReadingFigures(n *document.Node) []Figure {
	if n == nil || n.Kind == document.Null {
		return nil
	}
	if n.Kind != document.MapKind {
		ld.add(n.Pos(), "wrong-type", "wanted {reading: number}", "this must be a map by reading")
		return nil
	}
	var list []Figure
	for i, key := range n.Keys {
		g, ok := ld.Gauge(key.Value)
		if !ok {
			ld.add(key.Pos(), "unknown-name", problem.DidYouMean(key.Value, ld.readings()), "this rig has no gauge %q", key.Value)
			continue
		}
		u, _ := quantity.UnitFor(g.Unit, g.Dim)
		if v, ok := number(n.Values[i], u, &ld.l); ok {
			list = append(list, Figure{key.Value, quantity.Quantity{SI: v, Dim: g.Dim, Unit: u}})
		}
	}
	return list
}

func (ld *loader) takeTables(n *document.Node) {
	if n == nil || n.Kind == document.Null {
		return
	}
	if n.Kind != document.MapKind {
		ld.add(n.Pos(), "wrong-type", "wanted {name: [[number, number], ...]}", "tables must be a map")
		return
	}
	for i, key := range n.Keys {
		t := Table{Name: key.Value}
		last := math.Inf(-1)
		for _, row := range n.Values[i].Items {
			r, ok := tableRow(row)
			if !ok || r[0] <= last {
				ld.add(row.Pos(), "bad-row", "wanted [number, number], the first ones rising", "this is no row of a table")
				continue
			}
			last = r[0]
			t.Rows = append(t.Rows, r)
		}
		if len(t.Rows) == 0 {
			ld.add(key.Pos(), "empty-table", "wanted [[number, number], ...]", "table %q holds no rows", key.Value)
		}
		ld.Tables = append(ld.Tables, t)
	}
}

func tableRow(n *document.Node) (row [2]float64, ok bool) {
	if n.Kind != document.ListKind || len(n.Items) != 2 {
		return row, false
	}
	for i, item := range n.Items {
		v, err := strconv.ParseFloat(item.Value, 64)
		if err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			return row, false
		}
		row[i] = v
	}
	return row, true
}
