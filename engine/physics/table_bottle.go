package physics

// This file describes the computed readings of the air bottle and of feathering.

import (
	"math"

	"snagwise/engine/quantity"
)

var bottleVolume = number("air_bottle", quantity.Volume, "L", "volume of the bottle", capacity("air_bottle"))

var bottleTable = []*Computed{
	{
		ID: "air_actuations_left", Means: "Brake and ram strokes left in the air bottle", Dim: quantity.Pure,
		Inputs: []Input{
			number("air_bottle_pressure", quantity.GaugePressure, "psi", "pressure in the bottle", reading("air_bottle_pressure")),
			bottleVolume,
			number("least_pressure", quantity.GaugePressure, "psi", "least useful bottle pressure", figure("air_bottle_least")),
			number("ram_swept", quantity.Volume, "L", "swept volume of one stroke", capacity("shutter_ram_swept")),
			number("delivery_pressure", quantity.GaugePressure, "psi", "pressure after the reducing valve", reading("air_delivery_pressure"), figure("air_delivery")),
		},
		Formula: "strokes = whole part of air_bottle * (air_bottle_pressure - least_pressure) / (ram_swept * delivery_pressure)",
		Verdicts: []Verdict{
			{"none", "at or below the least pressure: no stroke left"},
			{"some", "strokes left"},
		},
		Caution: "Holds without leaks and for slow use, so that the bottle keeps its temperature.",
		Source:  "gas law",
		work: func(a *inputs) result {
			n := a.sum(ActuationsLeft(a.si("air_bottle"), a.si("air_bottle_pressure"), a.si("least_pressure"), a.si("ram_swept"), a.si("delivery_pressure")))
			return result{si: n, word: first("none", n == 0, "some")}
		},
	},
	{
		ID: "air_bottle_temperature_correction", Means: "Bottle pressure that temperature alone would give", Dim: quantity.GaugePressure, Unit: "psi",
		Inputs: []Input{
			number("pressure_then", quantity.GaugePressure, "psi", "bottle pressure before", told),
			number("temperature_then", quantity.Temperature, "degC", "temperature of the bottle before", told),
			number("temperature_now", quantity.Temperature, "degC", "temperature of the bottle now", told, weather("air_temperature")),
			standardDay(),
			number("air_bottle_pressure", quantity.GaugePressure, "psi", "bottle pressure now", reading("air_bottle_pressure")).optional(),
		},
		Formula: "expected = (pressure_then + ambient_pressure) * temperature_now / temperature_then - ambient_pressure, temperatures in K",
		Caution: "A bottle takes hours to come to the temperature of the air. What is missing beyond this has leaked.",
		Source:  "gas law",
		work: func(a *inputs) result {
			r := result{si: a.sum(PressureAtTemperature(a.si("pressure_then"), a.si("temperature_then"), a.si("temperature_now"), a.si("ambient_pressure")))}
			if a.has("air_bottle_pressure") {
				r.also = []Figure{also("leaked", r.si-a.si("air_bottle_pressure"), quantity.PressureDifference, "psi")}
			}
			return r
		},
	},
	{
		ID: "air_leak_rate", Means: "Air leak in free litres a minute", Dim: quantity.Flow, Unit: "L/min",
		Inputs: []Input{
			bottleVolume,
			number("pressure_lost", quantity.PressureDifference, "psi", "fall of bottle pressure", told),
			number("between", quantity.Time, "min", "over this time", told),
			standardDay(),
		},
		Formula: "leak = air_bottle * pressure_lost / (between * ambient_pressure)",
		Caution: "At one temperature; vent the bottle before undoing a joint.",
		Source:  "gas law",
		work: func(a *inputs) result {
			return result{si: a.sum(LeakRate(a.si("air_bottle"), a.si("pressure_lost"), a.si("between"), a.si("ambient_pressure")))}
		},
	},
}

var featherTable = []*Computed{
	{
		ID: "feather_time_expected", Means: "Time to feather from the oil needed and the pump's flow", Dim: quantity.Time, Unit: "s",
		Inputs: []Input{
			number("feathering_charge", quantity.Volume, "L", "oil that feathering takes", capacity("feathering_charge")),
			number("pump_flow", quantity.Flow, "L/min", "rated flow of the feathering pump", figure("feathering_pump_flow")),
			number("bus_volts", quantity.Volts, "V", "volts while the pump runs", reading("bus_volts")),
			batteryVolts,
			number("slip", quantity.Ratio, "percent", "share of the flow that the oil leaves; from its temperature where not told", told).optional(),
			oilT.optional(), oilGrade.optional(), viscosity40, viscosity100,
			number("feather_time", quantity.Time, "s", "time it took", reading("feather_time")).optional(),
		},
		Formula: "time = feathering_charge / (pump_flow * bus_volts / battery_volts * slip); slip 1 warm, 0.7 from fifty times thicker on",
		Verdicts: []Verdict{
			{"explained", "no more than 2 s over what volts and oil explain: do not blame the propeller yet"},
			{"slow", "over 2 s slower than volts and oil explain"},
		},
		Caution: "The share that cold oil leaves is a guess. Test-feather oil ends in the sump: scavenge it before a start.",
		Source:  "own; the slip is a guess, no source",
		work: func(a *inputs) result {
			volts, rated := a.si("bus_volts"), a.si("battery_volts")
			t := a.sum(FeatherTime(a.si("feathering_charge"), a.si("pump_flow"), volts, rated, a.slip()))
			r := result{si: t}
			if a.has("feather_time") {
				r.word = first("slow", a.si("feather_time") > t+2, "explained")
				r.also = []Figure{also("over what is explained", math.Max(0, a.si("feather_time")-t), quantity.Time, "s")}
			}
			return r
		},
	},
	{
		ID: "feather_reserve_check", Means: "Oil under the standpipe beyond what feathering and unfeathering take", Dim: quantity.Volume, Unit: "L",
		Inputs: []Input{
			number("feathering_reserve", quantity.Volume, "L", "oil below the standpipe", capacity("feathering_reserve")),
			number("feathering_charge", quantity.Volume, "L", "oil that feathering takes", capacity("feathering_charge")),
		},
		Formula: "spare = feathering_reserve - (2 * feathering_charge + 0.5 L)",
		Verdicts: []Verdict{
			{"enough", "oil enough to feather and unfeather"},
			{"short", "not enough to feather and unfeather"},
		},
		Source: "FAA-H-8083-32B (2023) page 6-6 for the standpipe; the factor is our own",
		work: func(a *inputs) result {
			s := a.sum(FeatherSpare(a.si("feathering_reserve"), a.si("feathering_charge")))
			return result{si: s, word: first("enough", s >= 0, "short")}
		},
	},
}

// slip returns the share of the pump's flow that the oil leaves, as told or from
// the oil's temperature.
func (a *inputs) slip() float64 {
	if a.has("slip") {
		return a.si("slip")
	}
	return ColdOilSlip(a.oilRatio())
}
