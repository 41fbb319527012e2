package rig

// This file gives a rig its gauges, filled in from the usual ones.

import (
	"fmt"
	"slices"
	"strings"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// takeGauges takes a map of gauges, or a list of readings whose gauges are the
// usual ones.
func (ld *loader) takeGauges(n *document.Node) {
	switch {
	case n == nil || n.Kind == document.Null:
	case n.Kind == document.MapKind:
		for i, key := range n.Keys {
			if enough(ld.l) {
				return
			}
			ld.takeGauge(key, n.Values[i])
		}
	case n.Kind == document.ListKind:
		for _, item := range n.Items {
			if enough(ld.l) {
				return
			}
			if item.Kind != document.Scalar {
				ld.add(item.Pos(), "wrong-type", "wanted a reading", "this is no name of a reading")
				continue
			}
			ld.takeGauge(item, nil)
		}
	default:
		ld.add(n.Pos(), "wrong-type", "wanted {reading: {tap: ..., unit: ...}} or [reading, ...]", "gauges must be a map or a list")
	}
	slices.SortFunc(ld.Gauges, func(a, b Gauge) int { return strings.Compare(a.Reading, b.Reading) })
	for i := range ld.Gauges {
		g := &ld.Gauges[i]
		if i > 0 && g.Reading == ld.Gauges[i-1].Reading {
			ld.add(g.Pos, "name-twice", "", "gauge %q is already there", g.Reading)
		}
		if _, ok := ld.Gauge(g.usualFrom); ok && g.From == "" {
			g.From = g.usualFrom
		}
		if _, ok := ld.Gauge(g.From); g.From != "" && !ok {
			ld.add(g.Pos, "unknown-name", problem.DidYouMean(g.From, ld.readings()), "%q is worked out from %q, which this rig does not give", g.Reading, g.From)
		}
	}
}

func (ld *loader) readings() []string {
	var list []string
	for i := range ld.Gauges {
		list = append(list, ld.Gauges[i].Reading)
	}
	return list
}

func (ld *loader) takeGauge(key, n *document.Node) {
	var f, usual gaugeFile
	if n != nil && n.Kind != document.Null {
		ld.l = append(ld.l, document.Decode(n, &f)...)
	}
	f.At = key.Pos()
	g := Gauge{Reading: key.Value}
	ld.fillUsual(&f, &usual, &g)
	g.fill(&f, &ld.l)
	for _, t := range f.Tap {
		g.Taps = append(g.Taps, ld.named(t)...)
	}
	slices.Sort(g.Taps)
	g.Taps = slices.Compact(g.Taps)
	ld.Gauges = append(ld.Gauges, g)
}

// fillUsual completes a gauge from the usual one of its reading.
func (ld *loader) fillUsual(f, usual *gaugeFile, g *Gauge) {
	node := ld.kinds.usualGauge(g.Reading)
	if node == nil {
		if f.Unit.Value == "" && f.Normal == nil && f.Bands == nil {
			ld.add(f.At, "unknown-name", problem.DidYouMean(g.Reading, ld.kinds.readings), "nothing is usual for the reading %q: give its tap, unit and bands", g.Reading)
		}
		return
	}
	document.Decode(node, usual) // its faults are those of the file of kinds
	if len(f.Tap) == 0 && len(usual.Tap) > 0 {
		for _, t := range usual.Tap {
			if len(ld.OfKind(t.Value)) > 0 {
				f.Tap = append(f.Tap, t)
			}
		}
		if len(f.Tap) == 0 {
			ld.add(f.At, "missing-key", fmt.Sprintf("say where, as in {tap: part}; the usual place is %q", usual.Tap[0].Value), "this rig has no part where %q is usually read", g.Reading)
		}
		if f.Where == "" {
			f.Where = usual.Where
		}
		f.Sees, f.BlindTo = orList(f.Sees, usual.Sees), orList(f.BlindTo, usual.BlindTo)
	}
	if f.By == "" {
		f.By = usual.By
	}
	if f.Unit.Value == "" && f.Bands != nil && usual.Unit.Value != "" {
		ld.add(f.At, "missing-key", fmt.Sprintf("say in which, as in {unit: %s}", usual.Unit.Value), "the bands of %q are in no unit", g.Reading)
	}
	// Usual figures stand in their own unit: a gauge in another unit must give
	// its own.
	if f.Bands == nil && f.Normal == nil && (f.Unit.Value == "" || f.Unit.Value == usual.Unit.Value) {
		f.Bands, f.Normal = usual.Bands, usual.Normal
		g.BandsAssumed = f.Bands != nil || f.Normal != nil
		if f.Limits == nil {
			f.Limits = usual.Limits
			g.LimitsAssumed = f.Limits != nil
		}
	}
	if f.Unit.Value == "" {
		f.Unit = usual.Unit
	}
	if f.Note == "" {
		f.Note = usual.Note
	}
	g.usualFrom = usual.From.Value
}

func orList(a, b []string) []string {
	if len(a) > 0 {
		return a
	}
	return b
}
