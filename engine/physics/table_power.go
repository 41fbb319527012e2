package physics

// This file describes the computed readings of power and of warming up.

import "snagwise/engine/quantity"

var powerTable = []*Computed{
	{
		ID: "power_on_load_law", Means: "Power that the propeller takes on its fine stop", Dim: quantity.Power, Unit: "hp",
		Inputs: []Input{
			number("engine_rpm", quantity.RotationalSpeed, "rpm", "crank speed", reading("engine_rpm", "idle", "warm_up", "run_up", "display", "cool_down")),
			ambient, airT,
			number("load_power", quantity.Power, "hp", "power taken at the reference speed", figure("load_power")),
			number("load_speed", quantity.RotationalSpeed, "rpm", "reference crank speed", figure("load_speed")),
			number("load_air_density", quantity.Density, "kg/m3", "air density of the reference", figure("load_air_density")).or("1.225 kg/m3"),
		},
		Formula: "power = load_power * (engine_rpm / load_speed)^3 * density / load_air_density; density = ambient_pressure / (287.05 * air_temperature)",
		Caution: "Holds for a standing propeller with the blades on the fine stop; void once the governor is working.",
		Source:  "FAA-H-8083-32B (2023) pages 10-27, 10-28 and 10-38; power as speed cubed",
		work: func(a *inputs) result {
			d := a.sum(AirDensity(a.si("ambient_pressure"), a.si("air_temperature")))
			p := a.sum(LoadPower(a.si("load_power"), a.si("load_speed"), a.si("load_air_density"), a.si("engine_rpm"), d))
			return result{si: p, also: []Figure{also("air density", d, quantity.Density, "kg/m3")}}
		},
	},
	{
		ID: "magneto_drop_as_power", Means: "Share of power lost on one magneto, the worse of the two", Dim: quantity.Ratio, Unit: "percent",
		Inputs: []Input{
			number("engine_rpm", quantity.RotationalSpeed, "rpm", "crank speed on both magnetos", reading("engine_rpm", "run_up")),
			number("drop_on_left", quantity.SpeedChange, "rpm", "fall in speed on the left magneto alone", reading("drop_on_left")).optional(),
			number("drop_on_right", quantity.SpeedChange, "rpm", "fall in speed on the right magneto alone", reading("drop_on_right")).optional(),
		},
		Formula: "lost = 1 - ((engine_rpm - drop) / engine_rpm)^3",
		Caution: "No drop at all is not good: the other magneto may not be earthed and the propeller is then live.",
		Source:  "propeller-load law; FAA-H-8083-32B (2023) page 10-27: 10 percent torque loss is the ceiling where torque is measured",
		work: func(a *inputs) result {
			var r result
			none := true
			for _, side := range []string{"left", "right"} {
				if !a.has("drop_on_" + side) {
					continue
				}
				lost := a.sum(PowerLost(a.si("engine_rpm"), a.si("drop_on_"+side)))
				r.also = append(r.also, also("on "+side, lost, quantity.Ratio, "percent"))
				if none || lost > r.si {
					r.si, none = lost, false
				}
			}
			if none {
				a.si("engine_rpm")
				a.si("drop_on_left")
				a.si("drop_on_right")
			}
			return r
		},
	},
	{
		ID: "warm_up_rate", Means: "Rise of a temperature in one minute, and how long to the least figure", Dim: quantity.TemperatureDifference, Unit: "degC",
		Inputs: []Input{
			number("temperature_then", quantity.Temperature, "degC", "the temperature some minutes ago", told),
			number("temperature_now", quantity.Temperature, "degC", "the same temperature now", told),
			number("between", quantity.Time, "min", "time between the two", told),
			number("target", quantity.Temperature, "degC", "temperature wanted before opening up", told).optional(),
		},
		Formula: "rate = (temperature_now - temperature_then) / between; time left = (target - temperature_now) / rate",
		Verdicts: []Verdict{
			{"there", "the target is reached"},
			{"rising", "it rises towards the target"},
			{"not rising", "it does not rise: no time to the target can be given"},
		},
		Caution: "Coolant at twice its usual rate: short of coolant, an airlock or no flow. Oil at under half: thermostatic valve stuck through the cooler, or the bulb at fault.",
		Source:  "exact; what is usual is the rig's own record",
		work: func(a *inputs) result {
			now := a.si("temperature_now")
			rate := a.sum(WarmUpRate(a.si("temperature_then"), now, a.si("between")))
			r := result{si: rate * minute}
			if !a.has("target") {
				return r
			}
			left := a.si("target") - now
			switch {
			case left <= 0:
				r.word = "there"
			case rate > 0:
				r.word = "rising"
				r.also = []Figure{also("time left", left/rate, quantity.Time, "min")}
			default:
				r.word = "not rising"
			}
			return r
		},
	},
	{
		ID: "engine_time", Means: "Engine hours to log", Dim: quantity.Time, Unit: "h",
		Inputs: []Input{
			number("live_time_start", quantity.Time, "h", "magneto live time at the start", told),
			number("live_time_end", quantity.Time, "h", "magneto live time at the end", told),
			number("watch", quantity.Time, "min", "by the watch, earth off to last blade", told).optional(),
		},
		Formula: "hours = live_time_end - live_time_start",
		Source:  "common practice, no source",
		work: func(a *inputs) result {
			start, end := a.si("live_time_start"), a.si("live_time_end")
			a.sum(0, within(spanHours.of(start), spanHours.of(end)))
			if end < start {
				a.sum(0, &RangeError{Name: "magneto live time at the end", Value: end / 3600, Least: start / 3600, Most: spanHours.most, Unit: "h"})
			}
			r := result{si: end - start}
			if a.has("watch") {
				r.also = []Figure{also("meter above watch", r.si-a.si("watch"), quantity.Time, "min")}
			}
			return r
		},
	},
}
