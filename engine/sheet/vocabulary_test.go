package sheet

import (
	"slices"
	"strings"

	"snagwise/engine/quantity"
)

func named(id string, words ...string) Named { return Named{ID: id, Words: words} }

// testVocabulary is a small vocabulary of an invented rig.
func testVocabulary() Vocabulary {
	reading := func(id string, dim quantity.Dimension, unit string, words ...string) Reading {
		return Reading{Named: named(id, words...), Dim: dim, Unit: unit}
	}
	v := Vocabulary{
		Rig: "hollin",
		Phases: []Named{named("rest", "at rest"), named("pre_oil", "pre-oiling"), named("crank", "cranking"), named("idle"), named("warm_up", "warm-up"),
			named("run_up", "run-up"), named("display", "display power"), named("cool_down", "cool-down"), named("stopped")},
		Readings: []Reading{
			reading("engine_rpm", quantity.RotationalSpeed, "rpm", "rpm", "revs", "rev counter"),
			reading("boost", quantity.Boost, "lb", "boost pressure"),
			reading("oil_pressure", quantity.GaugePressure, "psi", "oil press", "pressure"),
			reading("fuel_pump_pressure", quantity.GaugePressure, "psi", "fuel pressure at the pump"),
			reading("fuel_delivery_pressure", quantity.GaugePressure, "psi", "fuel pressure", "pressure"),
			reading("coolant_temperature", quantity.Temperature, "degC", "coolant temp", "water temperature"),
			reading("drop_on_left", quantity.SpeedChange, "rpm", "left drop"),
			reading("air_temperature", quantity.Temperature, "degC"),
			reading("dew_point", quantity.Temperature, "degC"),
			reading("ambient_pressure", quantity.AbsolutePressure, "hPa", "air_pressure", "air pressure"),
			reading("oil_contents", quantity.Volume, "L", "oil level"),
			{Named: named("fuel_sample"), Answers: []string{"clear and right colour", "water globules", "cloudy", "dirt"}},
			{Named: named("test_gap_spark"), Answers: []string{"fat blue", "thin or yellow", "none"}},
			reading("cranking_blade_count", quantity.Pure, "blades"),
		},
		Controls: []Control{
			{Named: named("booster", "booster_switch", "booster pump"), Positions: []Named{named("on"), named("off")}},
			{Named: named("throttle", "throttle lever"), Positions: []Named{named("shut", "closed"), named("idle"), named("part"), named("power"), named("wide", "open", "full")}},
			{Named: named("magneto_switch", "magnetos"), Positions: []Named{named("off"), named("left"), named("right"), named("both", "on")}},
		},
		Signs: []Named{named("pops_back_running", "spits back", "coughs through the carburettor"), named("rpm_top_short", "will not reach full revs"),
			named("black_smoke"), named("runs_rough", "rough", "lumpy"), named("engine_stopped", "quit", "cut out"), named("stops_suddenly", "stopped dead", "cut out"),
			named("filter_element_found_black", "element black"), named("no_spark_found")},
		Circumstances: []Named{named("just_transported", "after the road"), named("damp_day", "wet day"), named("hot_day", "rough day")},
		Courses:       []Named{named("came_on_gradually", "came on slowly"), named("comes_and_goes")},
		Trials:        []Named{named("booster_on_no_change"), named("magneto_changed_no_change", "new magneto and no better")},
		Normals:       []Named{named("cranks_well"), named("runs_smoothly", "runs sweetly")},
		Causes:        []Named{named("fuel_filter_choked"), named("regulator_low"), named("condenser_weak")},
		Checks:        []Named{named("filter_bowl_open"), named("fuel_flow_test")},
		Flows:         []Named{named("fuel", "petrol"), named("oil"), named("spark")},
	}
	part := func(id, name, kind, side string, words ...string) {
		v.Parts = append(v.Parts, Part{Named: named(id, words...), Name: name, Kind: kind, Side: side})
	}
	part("fuel_fine_filter", "fine fuel filter", "fuel_fine_filter", "")
	part("engine_fuel_pump", "engine fuel pump", "engine_fuel_pump", "", "fuel_pump")
	part("carburettor_metering", "carburettor metering", "carburettor_metering", "", "carburettor")
	part("carburettor_nozzle", "carburettor nozzle", "carburettor_nozzle", "", "carburettor")
	part("magneto_left", "left magneto", "magneto", "left")
	part("magneto_right", "right magneto", "magneto", "right")
	part("oil_cooler", "oil cooler", "oil_cooler", "")
	part("stub_a3", "stub A3", "exhaust_stubs", "")
	// Like words are one: mag for magneto, as the rules' own lists fold them.
	v.Fold = func(s string) string {
		words := strings.Fields(fold(s))
		for i, w := range words {
			switch w {
			case "mag", "mags", "magnetos":
				words[i] = "magneto"
			case "revs":
				words[i] = "rpm"
			}
		}
		words = slices.DeleteFunc(words, func(w string) bool { return w == "the" || w == "a" })
		return strings.Join(words, " ")
	}
	return v
}

var testLexicon = NewLexicon(testVocabulary())

// sample is the sheet of a choked filter, with everything a sheet may hold.
const sample = `title: Short of fuel at display power
rig: hollin
weather: {air_temperature: 6 degC, dew_point: 4 degC, air_pressure: 1004 hPa}
moments:                                   # in order
  - phase: idle
    controls: {booster_switch: on}
    readings: {fuel_pump_pressure: 16.0 psi, fuel_delivery_pressure: 11.0 psi}
  - phase: display
    after: 12 min
    readings: {engine_rpm: 2400 -> 1950 rpm, fuel_pump_pressure: 16.5 psi, fuel_delivery_pressure: [8.2 psi, falling]}
    symptoms: [pops_back_running, rpm_top_short]
    course: came_on_gradually
    not_seen: [black_smoke]
    could_not_read: [boost]
    normal: [oil_pressure, cranks_well]
parts:
  - {part: carburettor, worked_on: refitted, when: before this run}
  - {part: magneto_left, changed: no better}
  - {part: fuel_fine_filter, looked_at: good}
  - {part: oil_cooler, leaks: oil, how_much: a pool}
  - {part: stub_a3, felt: cold}
  - {flow: fuel, good_as_far_as: fuel_pump, gone_at: carburettor}
circumstances: [just_transported]
trials: [booster_on_no_change]
notes:
  - The element was last seen in spring.
about: invented
evidence: rich
found: [fuel_filter_choked]
also_found: condenser_weak
certainty: confirmed
remedy: Element cleaned.
checks:
  - {check: fuel_flow_test, minutes: 10, outcome: full flow}
  - {check: filter_bowl_open, minutes: 25, outcome: filter_element_found_black}
`
