package physics

// This file describes the computed readings of fuel.

import "snagwise/engine/quantity"

// Kinds of fuel.
const (
	avgas = "avgas"
	mogas = "mogas"
)

var fuelKind = wording("fuel_kind", "kind of fuel", []string{avgas, mogas}, fact("fuel_kind"), told)

var fuelTable = []*Computed{
	{
		ID: "fuel_drop", Means: "Pressure lost between pump outlet and carburettor", Dim: quantity.PressureDifference, Unit: "psi",
		Inputs: []Input{
			number("fuel_pump_pressure", quantity.GaugePressure, "psi", "pressure at the pump outlet", reading("fuel_pump_pressure")),
			number("fuel_delivery_pressure", quantity.GaugePressure, "psi", "pressure at the carburettor", reading("fuel_delivery_pressure")),
		},
		Formula: "fuel_drop = fuel_pump_pressure - fuel_delivery_pressure",
		Verdicts: []Verdict{
			{"backwards", "delivery above the pump outlet cannot be: the gauges are swapped or one is wrong"},
		},
		Caution: "A regulator makes a drop by itself. A choked filter: delivery right at idle and falling with flow, outlet steady. Regulator low: delivery low by the same at all speeds. Weak pump: both fall and the drop shrinks.",
		Source:  "exact; the reading of it common practice, no source",
		work: func(a *inputs) result {
			drop := a.sum(FuelDrop(a.si("fuel_pump_pressure"), a.si("fuel_delivery_pressure")))
			return result{si: drop, word: first("backwards", drop < 0, "")}
		},
	},
	{
		ID: "vapour_lock_margin", Means: "Pressure at the pump inlet above the fuel's vapour pressure", Dim: quantity.PressureDifference, Unit: "psi",
		Inputs: []Input{
			number("fuel_temperature", quantity.Temperature, "degC", "temperature of the fuel at the pump inlet", told),
			fuelKind,
			number("reid_pressure", quantity.AbsolutePressure, "kPa", "Reid vapour pressure of the fuel", told).optional(),
			number("inlet_pressure", quantity.GaugePressure, "psi", "pressure at the pump inlet; below nothing under suction", told).or("0 psi"),
			ambient,
		},
		Formula: "margin = inlet_pressure + ambient_pressure - vapour pressure at fuel_temperature",
		Verdicts: []Verdict{
			{"boils", "the fuel boils at the pump inlet"},
			{"liquid", "the fuel stays liquid at rest; turbulence and air in it still make bubbles"},
		},
		Caution: "Without its Reid vapour pressure the worst usual figure is taken: avgas 49 kPa, mogas 100 kPa of winter grade. Shake, bends and a hot pump make vapour sooner.",
		Source:  "US EPA AP-42 chapter 7.1 for the vapour pressure (from memory); FAA-H-8083-32B (2023) page 2-1; ASTM D910 limit from memory",
		work: func(a *inputs) result {
			slope, reid := SlopeAviation, 49e3
			if a.word("fuel_kind") == mogas {
				slope, reid = SlopeMotor, 100e3
			}
			if a.has("reid_pressure") {
				reid = a.si("reid_pressure")
			}
			v := a.sum(FuelVapourPressure(a.si("fuel_temperature"), reid, slope))
			m := a.sum(VapourMargin(a.si("inlet_pressure"), a.si("ambient_pressure"), v))
			return result{si: m, word: first("boils", m <= 0, "liquid"),
				also: []Figure{also("vapour pressure", v, quantity.AbsolutePressure, "kPa absolute")}}
		},
	},
	{
		ID: "fuel_for_slot", Means: "Fuel needed for the slot, and what is left", Dim: quantity.Volume, Unit: "L",
		Inputs: []Input{
			number("time_idle", quantity.Time, "min", "time at idle", told).or("0 min"),
			number("time_warm_up", quantity.Time, "min", "time at warm-up", told).or("0 min"),
			number("time_run_up", quantity.Time, "min", "time at run-up", told).or("0 min"),
			number("time_display", quantity.Time, "min", "time at display power", told).or("0 min"),
			number("time_cool_down", quantity.Time, "min", "time cooling down", told).or("0 min"),
			number("fuel_flow_idle", quantity.Flow, "L/h", "flow at idle", figure("fuel_flow_idle")).optional(),
			number("fuel_flow_warm_up", quantity.Flow, "L/h", "flow at warm-up", figure("fuel_flow_warm_up")).optional(),
			number("fuel_flow_run_up", quantity.Flow, "L/h", "flow at run-up", figure("fuel_flow_run_up")).optional(),
			number("fuel_flow_display", quantity.Flow, "L/h", "flow at display power", figure("fuel_flow_display")).optional(),
			number("fuel_flow_cool_down", quantity.Flow, "L/h", "flow cooling down", figure("fuel_flow_cool_down")).optional(),
			number("start_allowance", quantity.Volume, "L", "fuel for the start", figure("fuel_start_allowance")).or("1 L"),
			number("fuel_contents", quantity.Volume, "L", "fuel in the tank", reading("fuel_contents", "rest", "stopped")).optional(),
			number("reserve", quantity.Volume, "L", "least to be left: 20 minutes at warm-up, or the tank's unusable fuel if that is more", figure("fuel_reserve")).optional(),
		},
		Formula: "need = start_allowance + sum of flow * time; left = fuel_contents - need; reserve, where not told, 20 minutes at warm-up flow",
		Verdicts: []Verdict{
			{"enough", "what is left covers the reserve"},
			{"not enough", "what is left does not cover the reserve: fill up first"},
		},
		Source: "exact sums; the reserve is our own rule",
		work: func(a *inputs) result {
			var burns []Burn
			for _, phase := range []string{"idle", "warm_up", "run_up", "display", "cool_down"} {
				if t := a.si("time_" + phase); t > 0 {
					burns = append(burns, Burn{a.si("fuel_flow_" + phase), t})
				}
			}
			r := result{si: a.sum(FuelNeeded(a.si("start_allowance"), burns...))}
			if !a.has("fuel_contents") {
				return r
			}
			left := a.si("fuel_contents") - r.si
			r.also = []Figure{also("left", left, quantity.Volume, "L")}
			reserve := 0.0
			switch {
			case a.has("reserve"):
				reserve = a.si("reserve")
			case a.has("fuel_flow_warm_up"):
				reserve = a.si("fuel_flow_warm_up") * 20 * minute
			default:
				return r
			}
			r.also = append(r.also, also("reserve", reserve, quantity.Volume, "L"))
			r.word = first("enough", left >= reserve, "not enough")
			return r
		},
	},
	{
		ID: "priming_strokes_expected", Means: "Strokes of the hand primer to begin with", Dim: quantity.Pure,
		Inputs: []Input{
			number("engine_temperature", quantity.Temperature, "degC", "temperature of the engine: oil, coolant or heads at rest",
				reading("coolant_temperature", "rest"), reading("head_temperature", "rest"), reading("oil_temperature_in", "rest")),
			number("most_strokes", quantity.Pure, "", "most strokes on a cold day, from the rig's card", figure("priming_most_strokes"), told),
		},
		Formula: "strokes = most_strokes * (1 - engine_temperature / 60), all at 0 degC and below, none from 60 degC on",
		Caution: "Over-priming washes oil from the bores and floods. A hot engine is not primed.",
		Source:  "NAVEDTRA 14076 chapter 3; FAA-H-8083-30B page 1-13; the temperatures common practice, no source",
		work: func(a *inputs) result {
			return result{si: a.sum(PrimingStrokes(a.si("engine_temperature"), a.si("most_strokes")))}
		},
	},
}
