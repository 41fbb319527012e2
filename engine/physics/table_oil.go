package physics

// This file describes the computed readings of oil and coolant.

import (
	"math"

	"snagwise/engine/quantity"
)

// oil returns the viscosity line of the oil in use: through its own two figures,
// or the usual one of its grade.
func (a *inputs) oil() Oil {
	if a.has("viscosity_40") && a.has("viscosity_100") {
		o, err := NewOil(40+zeroCelsius, a.si("viscosity_40"), 100+zeroCelsius, a.si("viscosity_100"))
		a.sum(0, err)
		return o
	}
	o, _ := UsualOil(a.word("oil_grade"))
	return o
}

var (
	viscosity40  = number("viscosity_40", quantity.Viscosity, "cSt", "the oil's viscosity at 40 degC, from its data sheet", told).optional()
	viscosity100 = number("viscosity_100", quantity.Viscosity, "cSt", "the oil's viscosity at 100 degC, from its data sheet", told).optional()
)

const oilFormula = "log log (v + 0.7) = a - b * log T, through the oil's figures at 40 and 100 degC, v in cSt, T in K"

var oilTable = []*Computed{
	{
		ID: "oil_viscosity", Means: "How thick the oil is at its temperature", Dim: quantity.Viscosity, Unit: "cSt",
		Inputs:  []Input{oilT, oilGrade.optional(), viscosity40, viscosity100},
		Formula: oilFormula,
		Caution: "Near its pour point oil is thicker than the line says. The usual figures of a grade stand in where its own are not told.",
		Source:  "ASTM D341; usual figures of the grades from memory",
		work: func(a *inputs) result {
			return result{si: a.sum(a.oil().viscosityOf(a, a.si("oil_temperature_in")))}
		},
	},
	{
		ID: "oil_viscosity_ratio", Means: "How many times thicker the oil is than at 75 degC", Dim: quantity.Pure,
		Inputs:  []Input{oilT, oilGrade.optional(), viscosity40, viscosity100},
		Formula: oilFormula + "; ratio = v(oil_temperature_in) / v(75 degC)",
		Verdicts: []Verdict{
			{"warm", "up to ten times thicker than at working temperature"},
			{"thick", "ten to fifty times: warm up before opening up"},
			{"very thick", "over fifty times: pre-oil longer, keep to the slowest warm-up speed, expect high pressure with poor flow"},
			{"preheat", "over a hundred times: preheat engine and oil first"},
		},
		Caution: "FAA-H-8083-32B (2023) page 6-3 wants preheating below -7 degC whatever the oil.",
		Source:  "ASTM D341; the lines of action are our own",
		work: func(a *inputs) result {
			r := a.oilRatio()
			word := "warm"
			switch {
			case r > 100:
				word = "preheat"
			case r > 50:
				word = "very thick"
			case r > 10:
				word = "thick"
			}
			return result{si: r, word: word}
		},
	},
	{
		ID: "oil_pressure_expected", Means: "Oil pressure to expect at a temperature, from the hot pressure at the same speed", Dim: quantity.GaugePressure, Unit: "psi",
		Inputs: []Input{
			oilT, oilGrade.optional(), viscosity40, viscosity100,
			number("hot_pressure", quantity.GaugePressure, "psi", "pressure at this speed with the oil at hot_temperature", told),
			number("hot_temperature", quantity.Temperature, "degC", "oil temperature of the hot pressure", told).or("75 degC"),
			number("relief_setting", quantity.GaugePressure, "psi", "pressure at which the relief valve opens", figure("oil_relief"), told),
		},
		Formula: "expected = least of relief_setting and hot_pressure * v(oil_temperature_in) / v(hot_temperature)",
		Caution: "Cold oil forces the needle somewhat above the setting. High pressure when cold is not flow: wait for the temperature. Adjust pressure only at working temperature.",
		Source:  "laminar flow, our own; FAA-H-8083-32B (2023) pages 6-8 and 6-16",
		work: func(a *inputs) result {
			o, now, hot := a.oil(), a.si("oil_temperature_in"), a.si("hot_temperature")
			ratio := a.sum(o.viscosityOf(a, now)) / a.sum(o.viscosityOf(a, hot))
			return result{si: a.sum(ColdOilPressure(a.si("hot_pressure"), a.si("relief_setting"), ratio))}
		},
	},
}

// viscosityOf is Viscosity, but says nothing of an oil that is not known: that is
// noted already.
func (o Oil) viscosityOf(a *inputs, temperature float64) (float64, error) {
	if len(a.missing) > 0 || a.err != nil {
		return math.NaN(), nil
	}
	return o.Viscosity(temperature)
}

func (a *inputs) oilRatio() float64 {
	o, now := a.oil(), a.si("oil_temperature_in")
	return a.sum(o.viscosityOf(a, now)) / a.sum(o.viscosityOf(a, workingOil))
}

var coolantTable = []*Computed{
	{
		ID: "coolant_boiling_margin", Means: "How far the coolant is from boiling at the header", Dim: quantity.TemperatureDifference, Unit: "degC",
		Inputs: []Input{
			number("coolant_temperature", quantity.Temperature, "degC", "coolant temperature at the outlet", reading("coolant_temperature")),
			number("glycol_share", quantity.Ratio, "percent", "glycol by volume", figure("glycol_share")),
			number("header_pressure", quantity.GaugePressure, "psi", "pressure in the header", reading("coolant_pressure"), figure("header_relief")),
			standardDay(),
		},
		Formula: "margin = boiling(glycol_share, header_pressure + ambient_pressure) - coolant_temperature; Raoult over the saturation line of water",
		Verdicts: []Verdict{
			{"boils", "at or over the boiling point"},
			{"small", "under 15 degC in hand: after stopping the heads soak heat into still coolant, so cool down longer before cut-off"},
			{"enough", "15 degC in hand or more"},
		},
		Caution: "At the header's relief pressure this is the margin while the valve holds; stuck open it is the one at no pressure. Never open a hot header.",
		Source:  "IAPWS R7-97(2012); Raoult's law; 15 degC is our own rule",
		work: func(a *inputs) result {
			t, glycol, air := a.si("coolant_temperature"), a.si("glycol_share"), a.si("ambient_pressure")
			m := a.sum(BoilingMargin(t, glycol, a.si("header_pressure"), air))
			open := a.sum(BoilingMargin(t, glycol, 0, air))
			word := "enough"
			switch {
			case m <= 0:
				word = "boils"
			case m < 15:
				word = "small"
			}
			return result{si: m, word: word, also: []Figure{
				also("boils at", t+m, quantity.Temperature, "degC"),
				also("margin with no pressure", open, quantity.TemperatureDifference, "degC"),
			}}
		},
	},
}
