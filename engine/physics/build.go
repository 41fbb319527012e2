package physics

// This file holds the small words in which the table is written.

import (
	"slices"

	"snagwise/engine/quantity"
)

// table holds every computed reading.
var table = slices.Concat(speedTable, powerTable, fuelTable, oilTable, coolantTable, batteryTable, startTable, bottleTable, featherTable, weatherTable)

func number(name string, dim quantity.Dimension, unit, means string, from ...Place) Input {
	return Input{Name: name, Dim: dim, Unit: unit, Means: means, From: from}
}

func wording(name, means string, words []string, from ...Place) Input {
	return Input{Name: name, Means: means, Words: words, From: from}
}

// or gives the input a default, which is said to be assumed where it stands in.
func (in Input) or(text string) Input {
	in.Default = text
	return in
}

// optional lets the input stay unknown.
func (in Input) optional() Input {
	in.Optional = true
	return in
}

func reading(name string, phases ...string) Place {
	return Place{Kind: Reading, Name: name, Phases: phases}
}

func weather(name string) Place { return Place{Kind: Weather, Name: name} }

func figure(name string) Place { return Place{Kind: RigFigure, Name: name} }

func ratio(name string) Place { return Place{Kind: RigRatio, Name: name} }

func capacity(name string) Place { return Place{Kind: RigCapacity, Name: name} }

func fact(name string) Place { return Place{Kind: RigFact, Name: name} }

var told = Place{Kind: Told}

func also(name string, si float64, dim quantity.Dimension, unit string) Figure {
	return Figure{name, inUnit(si, dim, unit)}
}

// first returns the first word whose condition holds, else the last word.
func first(word string, holds bool, others string) string {
	if holds {
		return word
	}
	return others
}

// Inputs that several readings share.
var (
	engineRPM = number("engine_rpm", quantity.RotationalSpeed, "rpm", "crank speed", reading("engine_rpm"))
	ambient   = number("ambient_pressure", quantity.AbsolutePressure, "hPa", "air pressure at the stand, not the sea-level figure", weather("ambient_pressure"))
	airT      = number("air_temperature", quantity.Temperature, "degC", "air temperature", weather("air_temperature"))
	dewT      = number("dew_point", quantity.Temperature, "degC", "dew point", weather("dew_point"))
	oilT      = number("oil_temperature_in", quantity.Temperature, "degC", "temperature of the oil into the engine", reading("oil_temperature_in"))
	oilGrade  = Input{Name: "oil_grade", Means: "grade of the oil", Words: OilGrades(), From: []Place{fact("oil_grade")},
		Also: map[string]string{"straight sae 50": OilSAE50, "straight sae 60": OilSAE60, "sae 20w-50": Oil20W50}}
	boostKind = wording("boost_gauge_kind", "what the boost gauge measures against", []string{capsule, differential}, fact("boost_gauge_kind"))
)

// The kinds of boost gauge.
const (
	capsule      = "absolute capsule"
	differential = "differential"
)

// standardDay stands in for the air of the day where it matters little.
func standardDay() Input { return ambient.or("1013.25 hPa") }

// zero returns the pressure in Pa at which the boost gauge shows nothing, in air
// of the given pressure.
func (a *inputs) zero(air func() float64) float64 {
	if a.word("boost_gauge_kind") == differential {
		return air()
	}
	return standardAir
}
