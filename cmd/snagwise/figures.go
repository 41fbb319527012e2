package main

// This file puts SI values back into the unit that a gauge shows.

import (
	"math"
	"strconv"
	"strings"

	"snagwise/engine/quantity"
	"snagwise/engine/rig"
)

// number returns an SI value in the unit of a gauge, to so many figures as a
// needle shows.
func number(g *rig.Gauge, si float64) string {
	x := si
	if u, ok := quantity.UnitFor(g.Unit, g.Dim); ok {
		x = u.FromSI(si)
	}
	return short(x)
}

// short writes a number to at most four figures.
func short(x float64) string {
	if x = math.Round(x*1e6) / 1e6; math.Abs(x) >= 1000 {
		return strconv.FormatFloat(math.Round(x), 'f', -1, 64)
	}
	text := strconv.FormatFloat(x, 'g', 4, 64)
	if y, err := strconv.ParseFloat(text, 64); err == nil && !strings.Contains(text, "e+") {
		text = strconv.FormatFloat(y, 'f', -1, 64)
	}
	if text == "-0" {
		return "0"
	}
	return text
}

// figure is number with its unit.
func figure(g *rig.Gauge, si float64) string { return strings.TrimSpace(number(g, si) + " " + g.Unit) }

// between tells a stretch, such as "14 to 18 psi".
func between(g *rig.Gauge, lo, hi float64) string {
	if lo == hi {
		return figure(g, lo)
	}
	return number(g, lo) + " to " + figure(g, hi)
}

// phaseWords tells a phase as the trade says it.
func phaseWords(id string) string {
	switch id {
	case "rest":
		return "at rest"
	case "pre_oil":
		return "pre-oiling"
	case "crank":
		return "cranking"
	case "warm_up":
		return "warm-up"
	case "run_up":
		return "run-up"
	case "display":
		return "display power"
	case "cool_down":
		return "cool-down"
	}
	return strings.ReplaceAll(id, "_", " ")
}
