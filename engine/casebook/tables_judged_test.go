package casebook_test

// This file holds what the rules make of readings against published figures.

import (
	"strings"
	"testing"

	"snagwise/engine/condition"
	"snagwise/engine/sheet"
)

// A judged is one sheet and what the rules must conclude from it, on each side
// of a published figure.
type judged struct {
	source   string
	rig      string
	phase    string
	readings string
	sign     string
	want     condition.Truth
}

var judgements = []judged{
	// Either magneto at most 50 rpm from the other.
	{"a light aircraft's handbook as quoted in an owners' club article", "hollin", "run_up", "drop_on_left: 90 rpm, drop_on_right: 35 rpm", "drops_differ", condition.True},
	{"a light aircraft's handbook as quoted in an owners' club article", "hollin", "run_up", "drop_on_left: 60 rpm, drop_on_right: 45 rpm", "drops_differ", condition.False},
	// No drop is not good: the other magneto may not be earthed.
	{"FAA-H-8083-32B (2023) pages 10-26, 10-27", "hollin", "run_up", "drop_on_left: 0 rpm, drop_on_right: 60 rpm", "drop_none", condition.True},
	{"FAA-H-8083-32B (2023) pages 10-26, 10-27", "teasel", "run_up", "drop_on_left: 45 rpm, drop_on_right: 50 rpm", "drop_none", condition.False},
	// More than 150 rpm is beyond any light engine's limit; 25 to 75 is typical.
	{"FAA-H-8083-32 chapter 4, ignition system checks", "teasel", "run_up", "drop_on_left: 160 rpm", "drop_left_high", condition.True},
	{"FAA-H-8083-32 chapter 4, ignition system checks", "teasel", "run_up", "drop_on_left: 70 rpm", "drop_left_high", condition.False},
	// 30 s without oil pressure.
	{"FAA-H-8083-32B (2023) page 10-26", "hollin", "idle", "oil_pressure: 0 psi, oil_pressure_delay: 31 s", "oil_press_none", condition.True},
	{"FAA-H-8083-32B (2023) page 10-26", "hollin", "idle", "oil_pressure: 70 psi, oil_pressure_delay: 6 s", "oil_press_none", condition.False},
	// A rise of 10 to 20 rpm is wanted at idle cut-off.
	{"FAA-H-8083-32B (2023) page 10-28", "teasel", "idle", "cut_off_rise: 15 rpm", "cut_off_rise_big", condition.False},
	{"FAA-H-8083-32B (2023) page 10-28", "teasel", "idle", "cut_off_rise: 50 rpm", "cut_off_rise_big", condition.True},
	{"FAA-H-8083-32B (2023) page 10-28", "teasel", "idle", "cut_off_rise: 15 rpm", "cut_off_rise_none", condition.False},
	{"FAA-H-8083-32B (2023) page 10-28", "teasel", "idle", "cut_off_rise: 0 rpm", "cut_off_rise_none", condition.True},
	// Like engines agree within 1 inHg, 0.49 psi, for a given rpm.
	{"FAA-H-8083-32B (2023) page 10-28", "hollin", "run_up", "engine_rpm: 1800 rpm, boost: -3.9 psi, ambient_pressure: 1013 hPa", "boost_high_for_rpm", condition.True},
	{"FAA-H-8083-32B (2023) page 10-28", "hollin", "run_up", "engine_rpm: 1800 rpm, boost: -4.3 psi, ambient_pressure: 1013 hPa", "boost_high_for_rpm", condition.False},
	// Charging at 27 to 29 V.
	{"TM 5-3895-382-24 table 33", "teasel", "run_up", "bus_volts: 28 V", "volts_run_high", condition.False},
	{"TM 5-3895-382-24 table 33", "teasel", "run_up", "bus_volts: 29.2 V", "volts_run_high", condition.True},
	{"TM 5-3895-382-24 table 33", "teasel", "run_up", "bus_volts: 28 V", "volts_run_low", condition.False},
	{"TM 5-3895-382-24 table 33", "teasel", "run_up", "bus_volts: 25.2 V", "volts_run_low", condition.True},
	// Three quarters of a 24 V battery's charge at 24.9 V.
	{"a battery supplier's table, doubled", "hollin", "rest", "bus_volts: 25.2 V", "volts_rest_low", condition.False},
	{"a battery supplier's table, doubled", "hollin", "rest", "bus_volts: 24.4 V", "volts_rest_low", condition.True},
	// A cell from 1.2 to 1.24 is low.
	{"FAA-H-8083-30B page 12-90", "hollin", "rest", "electrolyte_gravity: 1.21", "gravity_all_low", condition.True},
	{"FAA-H-8083-30B page 12-90", "hollin", "rest", "electrolyte_gravity: 1.28", "gravity_all_low", condition.False},
	// Oil at most 118 degC, whatever the engine.
	{"FAA-H-8083-32B (2023) page 10-22", "hollin", "run_up", "oil_temperature_in: 118 degC", "oil_temp_over_stop", condition.True},
	// Heads at most 260 degC, and 230 without harm for long.
	{"FAA-H-8083-32B (2023) page 10-24", "teasel", "display", "head_temperature: 260 degC", "head_over_stop", condition.True},
	{"FAA-H-8083-32B (2023) page 10-24", "teasel", "display", "head_temperature: 200 degC", "head_over_stop", condition.False},
}

func TestReadingsAreJudgedAsPublished(t *testing.T) {
	engine := usual(t)
	for _, j := range judgements {
		e, err := engine(j.rig)
		if err != nil {
			t.Fatal(err)
		}
		s, l := sheet.Parse("told", []byte("rig: "+j.rig+"\nmoments:\n  - phase: "+j.phase+"\n    readings: {"+j.readings+"}\n"))
		if len(l) > 0 {
			t.Fatal(l)
		}
		a, l := e.Read(s)
		if len(l) > 0 {
			t.Fatal(l)
		}
		b := e.Fitted().Base
		i := b.Sign(j.sign)
		if i < 0 {
			t.Fatalf("no sign %s", j.sign)
		}
		got := e.World(a).Whole[b.Signs[i].Slot]
		if got != j.want {
			t.Errorf("%s at %s with %s: %s is %v, want %v (%s)", j.rig, j.phase, j.readings, j.sign, got, j.want, j.source)
		}
	}
}

// Cells that differ by 0.05 are near their end: FAA-H-8083-31 chapter 9 and
// TM 5-3740-214-14. Wind of 5 mph upsets the power check: FAA-H-8083-32B (2023)
// page 10-28.
func TestFiguresInWordsAsPublished(t *testing.T) {
	b := shipped(t).Base
	if i := b.Sign("gravity_one_cell_low"); i < 0 || !strings.Contains(b.Signs[i].Means, "0.05") {
		t.Error("the sign of one low cell does not speak of 0.05")
	}
	n := 0
	for _, r := range b.Rules {
		if strings.HasPrefix(r.ID, "boost_") && strings.Contains(r.When, "wind > mph(5)") {
			n++
		}
	}
	if n < 2 {
		t.Errorf("%d rules on boost leave wind over 5 mph out, want at least 2", n)
	}
}
