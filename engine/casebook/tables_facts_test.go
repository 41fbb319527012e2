package casebook_test

// This file holds the figures of the rigs and the rules against figures that
// are published. Every source stands with its fact; "common practice" has none.
// The rigs are invented: what is asked is that theirs are figures an engine
// could have.

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"snagwise/engine/quantity"
	"snagwise/engine/rig"
)

// A fact is a figure of a source and how a gauge of a rig stands to it.
type fact struct {
	what, source string
	rigs         []string // none means every rig with the gauge
	reading      string
	phase        string
	figures      []string // with units
	// holds is asked with the figures in SI.
	holds func(rig.Band, rig.Limit, []float64) bool
}

// Ways in which a gauge may stand to published figures. What a rig does not
// say does not hold.
var (
	bandWithin = func(b rig.Band, _ rig.Limit, f []float64) bool { return in(b.Lo, f) && in(b.Hi, f) }
	bandMeets  = func(b rig.Band, _ rig.Limit, f []float64) bool { return b.Lo <= f[1]+slack && b.Hi >= f[0]-slack }
	bandHolds  = func(b rig.Band, _ rig.Limit, f []float64) bool {
		return in(f[0], []float64{b.Lo, b.Hi}) && in(f[len(f)-1], []float64{b.Lo, b.Hi})
	}
	lowestIn     = func(b rig.Band, _ rig.Limit, f []float64) bool { return in(b.Lo, f) }
	highestIs    = func(b rig.Band, _ rig.Limit, f []float64) bool { return in(b.Hi, []float64{f[0], f[0]}) }
	stopAt       = func(_ rig.Band, l rig.Limit, f []float64) bool { return said(l.StopAbove, f[0], f[0]) }
	stopBelowAt  = func(_ rig.Band, l rig.Limit, f []float64) bool { return said(l.StopBelow, f[0], f[0]) }
	stopUnder    = func(_ rig.Band, l rig.Limit, f []float64) bool { return said(l.StopAbove, 0, f[0]) }
	stopOver     = func(_ rig.Band, l rig.Limit, f []float64) bool { return said(l.StopBelow, f[0], 1e12) }
	stopBelowIn  = func(_ rig.Band, l rig.Limit, f []float64) bool { return said(l.StopBelow, f[0], f[1]) }
	watchBelowIn = func(_ rig.Band, l rig.Limit, f []float64) bool { return said(l.WatchBelow, f[0], f[1]) }
	watchUnder   = func(_ rig.Band, l rig.Limit, f []float64) bool { return said(l.WatchAbove, 0, f[0]) }
	stopsWithin  = func(_ rig.Band, l rig.Limit, f []float64) bool {
		return said(l.StopBelow, f[0], f[1]) && said(l.StopAbove, f[0], f[1])
	}
)

const slack = 1e-6

func in(x float64, f []float64) bool { return x >= f[0]-slack && x <= f[1]+slack }

func said(x *float64, lo, hi float64) bool { return x != nil && in(*x, []float64{lo, hi}) }

var facts = []fact{
	{"oil pressure shows within 30 s of a start or the engine is stopped", "FAA-H-8083-32B (2023) page 10-26; FAA-H-8083-30B page 1-14", nil, "oil_pressure_delay", "idle", []string{"30 s"}, stopAt},
	{"relief valves of different engines are set from 35 to 90 psi", "FAA-H-8083-32B (2023) page 6-16", nil, "oil_pressure", "display", []string{"35 psi", "90 psi"}, bandWithin},
	{"an oil pressure gauge with its least at 25 psi", "FAA-H-8083-32B (2023) page 10-22", nil, "oil_pressure", "run_up", []string{"25 psi"}, stopOver},
	{"and its most at 100 psi", "FAA-H-8083-32B (2023) page 10-22", nil, "oil_pressure", "run_up", []string{"100 psi"}, watchUnder},
	{"oil going in is at most 118 degC", "FAA-H-8083-32B (2023) page 10-22", nil, "oil_temperature_in", "run_up", []string{"118 degC"}, stopUnder},
	{"oil is at least 15 to 40 degC before opening up", "common practice", nil, "oil_temperature_in", "run_up", []string{"15 degC", "40 degC"}, watchBelowIn},
	{"the oil cooler comes into play from 65 to 85 degC", "FAA-H-8083-32B (2023) page 6-14", nil, "oil_temperature_in", "display", []string{"65 degC", "85 degC"}, bandMeets},
	{"engine and oil are heated first below -7 degC", "FAA-H-8083-32B (2023) page 6-3", nil, "air_temperature", "rest", []string{"-7 degC"}, stopBelowAt},
	{"a magneto drop is typically 25 to 75 rpm", "FAA-H-8083-32 chapter 4, ignition system checks", nil, "drop_on_left", "run_up", []string{"25 rpm", "75 rpm"}, bandMeets},
	{"and at most 150 rpm by a handbook of a light engine", "a light aircraft's handbook as quoted in an owners' club article", nil, "drop_on_right", "run_up", []string{"150 rpm"}, stopUnder},
	{"the rise of rpm wanted at idle cut-off is 10 to 20 rpm", "FAA-H-8083-32B (2023) page 10-28", nil, "cut_off_rise", "idle", []string{"10 rpm", "20 rpm"}, bandHolds},
	{"warm-up is at 1000 to 1600 rpm", "FAA-H-8083-32B (2023) pages 10-25, 10-26", nil, "engine_rpm", "warm_up", []string{"1000 rpm", "1600 rpm"}, bandMeets},
	{"the engine is stopped from 800 to 1000 rpm", "FAA-H-8083-32B (2023) pages 10-28, 10-29", nil, "engine_rpm", "cool_down", []string{"800 rpm", "1000 rpm"}, bandMeets},
	{"a head is at least 100 degC and at most 260 degC", "FAA-H-8083-32B (2023) page 10-24", []string{"teasel"}, "head_temperature", "display", []string{"100 degC", "260 degC"}, bandWithin},
	{"and is stopped before 260 degC", "FAA-H-8083-32B (2023) page 10-24", []string{"teasel"}, "head_temperature", "display", []string{"260 degC"}, stopUnder},
	{"a float carburettor has from 2 to 9 psi", "FAA-H-8083-32B (2023) page 10-22", []string{"teasel"}, "fuel_delivery_pressure", "run_up", []string{"2 psi", "9 psi"}, stopsWithin},
	{"coolant with 30 percent glycol boils at 125 degC under 15 psi", "IAPWS-IF97 and Raoult's law, computed", []string{"hollin"}, "coolant_temperature", "display", []string{"125 degC"}, stopUnder},
	{"coolant is normally 70 to 105 degC", "common practice", []string{"hollin"}, "coolant_temperature", "display", []string{"70 degC", "105 degC"}, bandWithin},
	{"and at least 60 degC before opening up", "common practice", []string{"hollin"}, "coolant_temperature", "run_up", []string{"60 degC", "60 degC"}, watchBelowIn},
	{"a 24 V set charges at 27 to 29 V", "TM 5-3895-382-24 table 33", nil, "bus_volts", "run_up", []string{"27 V", "29 V"}, bandWithin},
	{"more than 29.5 V is too much", "common practice", nil, "bus_volts", "run_up", []string{"29.5 V"}, stopAt},
	{"a 24 V battery falls to 19.2 V at least while cranking", "common practice", nil, "bus_volts", "crank", []string{"19.2 V", "19.2 V"}, watchBelowIn},
	{"a rested battery three quarters charged has 24.9 V", "a battery supplier's table, doubled", nil, "bus_volts", "rest", []string{"24.9 V", "24.9 V"}, lowestIn},
	{"half charged 24.48 V: a look is due between", "a battery supplier's table, doubled", nil, "bus_volts", "rest", []string{"24.48 V", "24.9 V"}, watchBelowIn},
	{"a quarter charged 24.12 V: no start from between", "a battery supplier's table, doubled", nil, "bus_volts", "rest", []string{"24.12 V", "24.48 V"}, stopBelowIn},
	{"acid from 1.24 is of medium or high charge", "FAA-H-8083-30B page 12-90", nil, "electrolyte_gravity", "rest", []string{"1.24", "1.3"}, bandWithin},
	{"acid from 1.2 to 1.24 is low", "FAA-H-8083-30B page 12-90", nil, "electrolyte_gravity", "rest", []string{"1.2", "1.24"}, watchBelowIn},
	{"a direct-cranking starter takes 100 to 350 A", "FAA-H-8083-32B (2023) page 5-2", nil, "starter_current", "crank", []string{"100 A", "350 A"}, bandMeets},
	{"the differential test is made with 80 psi", "FAA-H-8083-32B (2023) pages 10-39, 10-40", nil, "leak_down", "stopped", []string{"80 psi"}, highestIs},
	{"the pump feathers in 9 to 15 s", "from memory", nil, "feather_time", "stopped", []string{"9 s", "15 s"}, bandMeets},
	{"with 400 to 600 psi", "from memory", nil, "feather_pump_pressure", "stopped", []string{"400 psi", "600 psi"}, bandWithin},
	{"and 100 to 250 A", "from memory", nil, "feather_current", "stopped", []string{"100 A", "250 A"}, bandWithin},
	{"an old air bottle has 200 to 450 psi", "common practice", nil, "air_bottle_pressure", "rest", []string{"200 psi", "450 psi"}, bandHolds},
	{"and 80 to 150 psi behind its reducing valve", "common practice", nil, "air_delivery_pressure", "rest", []string{"80 psi", "150 psi"}, bandWithin},
}

func TestGaugesStandToPublishedFigures(t *testing.T) {
	held := map[string]int{}
	for _, f := range facts {
		n := 0
		for _, r := range shipped(t).Rigs {
			g, ok := r.Gauge(f.reading)
			if !ok || len(f.rigs) > 0 && !slices.Contains(f.rigs, r.ID) {
				continue
			}
			n++
			held[r.ID]++
			var figures []float64
			for _, text := range f.figures {
				q, err := quantity.ParseAs(text, g.Dim, g.Unit)
				if err != nil {
					t.Fatalf("%s: %v", f.what, err)
				}
				figures = append(figures, q.SI)
			}
			band, _ := g.Band(f.phase)
			limit, _ := g.Limit(f.phase)
			if !f.holds(band, limit, figures) {
				t.Errorf("%s: %s of %s at %s does not: band %v to %v, limits %s (%s)", f.what, f.reading, r.ID, f.phase, band.Lo, band.Hi, limits(limit), f.source)
			}
		}
		if n == 0 {
			t.Errorf("%s: no rig has a gauge for %s", f.what, f.reading)
		}
	}
	for _, r := range shipped(t).Rigs {
		if held[r.ID] < 20 {
			t.Errorf("%s: held against %d facts, want at least 20", r.ID, held[r.ID])
		}
	}
}

func limits(l rig.Limit) string {
	var out []string
	for _, x := range []struct {
		name string
		at   *float64
	}{{"watch below", l.WatchBelow}, {"stop below", l.StopBelow}, {"watch above", l.WatchAbove}, {"stop above", l.StopAbove}} {
		if x.at != nil {
			out = append(out, fmt.Sprintf("%s %v", x.name, *x.at))
		}
	}
	return strings.Join(out, ", ")
}
