package physics

// This file describes the computed readings of the air and of carburettor ice.

import "snagwise/engine/quantity"

// The kinds of carburettor, and the phases.
const (
	floatCarburettor    = "float"
	pressureCarburettor = "pressure"
)

var phaseWords = []string{"rest", "pre_oil", "crank", "idle", "warm_up", "run_up", "display", "cool_down", "stopped"}

func lowPower(phase string) bool { return phase != "run_up" && phase != "display" }

var weatherTable = []*Computed{
	{
		ID: "relative_humidity", Means: "Relative humidity from air temperature and dew point", Dim: quantity.Ratio, Unit: "percent",
		Inputs:  []Input{airT, dewT},
		Formula: "rh = exp(17.62*td/(243.12+td) - 17.62*t/(243.12+t)), t and td in degC",
		Source:  "Magnus form of WMO-No. 8, constants from memory",
		work: func(a *inputs) result {
			return result{si: a.sum(RelativeHumidity(a.si("air_temperature"), a.si("dew_point")))}
		},
	},
	{
		ID: "dew_point_from_humidity", Means: "Dew point from air temperature and relative humidity", Dim: quantity.Temperature, Unit: "degC",
		Inputs:  []Input{airT, number("relative_humidity", quantity.Ratio, "percent", "relative humidity", told)},
		Formula: "the inverse of relative_humidity",
		Source:  "Magnus form of WMO-No. 8, constants from memory",
		work: func(a *inputs) result {
			return result{si: a.sum(DewPoint(a.si("air_temperature"), a.si("relative_humidity")))}
		},
	},
	{
		ID: "carburettor_icing_margin", Means: "How far the carburettor's throat stays clear of ice; below nothing, ice can form", Dim: quantity.TemperatureDifference, Unit: "degC",
		Inputs: []Input{
			airT, dewT,
			{Name: "carburettor", Means: "kind of carburettor: float, or pressure with the fuel sprayed after the throttle",
				Words: []string{floatCarburettor, pressureCarburettor}, From: []Place{fact("carburettor")}, Default: floatCarburettor},
			number("cooling", quantity.TemperatureDifference, "degC", "cooling in the throat; the worst usual one of the carburettor where not told", told).optional(),
			{Name: "phase", Means: "phase of the run; run-up and display are not low power", Words: phaseWords, From: []Place{{Kind: Phase}}, Default: "idle"},
		},
		Formula: "throat = air_temperature - cooling; margin = greater of throat - 0 degC and throat - dew_point; cooling 25 float, 15 sprayed after the throttle",
		Verdicts: []Verdict{
			{IcingSerious, "serious icing is to be expected"},
			{IcingModerate, "moderate icing is to be expected"},
			{IcingLight, "light icing is to be expected"},
			{IcingPossible, "ice can form though the air is rather dry"},
			{IcingUnlikely, "icing is unlikely"},
		},
		Caution: "Idle and warm-up are the worst case. The bands are a rough reading of published charts: use the official chart where there is one. Mogas ices sooner.",
		Source:  "FAA-H-8083-32B (2023) page 2-9; US Department of the Interior Safety Alert SA 11-01; bands from memory",
		work: func(a *inputs) result {
			air, dew := a.si("air_temperature"), a.si("dew_point")
			cooling := 0.0
			if a.has("cooling") {
				cooling = a.si("cooling")
			} else {
				cooling = UsualThroatCooling(a.word("carburettor") == floatCarburettor)
			}
			m := a.sum(ThroatMargin(air, dew, cooling))
			word, err := IcingRisk(air, dew, m, lowPower(a.word("phase")))
			a.sum(0, err)
			return result{si: m, word: word, also: []Figure{
				also("spread", air-dew, quantity.TemperatureDifference, "degC"),
				also("throat", air-cooling, quantity.Temperature, "degC"),
			}}
		},
	},
	{
		ID: "air_density", Means: "Density of the air at the stand", Dim: quantity.Density, Unit: "kg/m3",
		Inputs:  []Input{ambient, airT},
		Formula: "density = ambient_pressure / (287.05 * air_temperature), in Pa and K, dry air",
		Source:  "gas law with the constants of the U.S. Standard Atmosphere, 1976",
		work: func(a *inputs) result {
			return result{si: a.sum(AirDensity(a.si("ambient_pressure"), a.si("air_temperature")))}
		},
	},
	{
		ID: "standard_air_pressure", Means: "Pressure of the standard atmosphere at a height above the sea", Dim: quantity.AbsolutePressure, Unit: "hPa",
		Inputs:  []Input{number("height", quantity.Length, "m", "height of the stand above the sea", told)},
		Formula: "p = 1013.25 hPa * (1 - 0.0065 * h / 288.15)^5.25588, h geopotential in m",
		Caution: "The air of the day may be 30 hPa off: read a barometer at the stand.",
		Source:  "U.S. Standard Atmosphere, 1976",
		work: func(a *inputs) result {
			h := a.si("height")
			t := a.sum(StandardTemperature(h))
			return result{si: a.sum(StandardPressure(h)), also: []Figure{also("standard temperature", t, quantity.Temperature, "degC")}}
		},
	},
}
