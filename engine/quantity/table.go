package quantity

// This file is the table of units.
//
// Factors: nist-sp-811, NIST Special Publication 811 (2008), appendix B; those
// that are exact by definition are written out as the definition (inch 25.4 mm,
// pound 0.453 592 37 kg, standard gravity 9.806 65 m/s2, US gallon 231 cubic
// inches, imperial gallon 4.546 09 litres). The spellings: common practice, no
// source.

import "math"

const (
	inch        = 0.0254              // m
	poundMass   = 0.45359237          // kg
	gravity     = 9.80665             // m/s2
	poundForce  = poundMass * gravity // N
	psi         = poundForce / (inch * inch)
	mmHg        = 13595.1e-3 * gravity // conventional: 13595.1 kg/m3
	inHg        = mmHg * 25.4
	inWater     = 1000 * gravity * inch // conventional: 1000 kg/m3
	usGallon    = 231 * inch * inch * inch
	impGallon   = 4.54609e-3
	footPound   = poundForce * 12 * inch
	horsepower  = 550 * footPound
	fahrenheit  = 5.0 / 9
	zeroCelsius = 273.15
	zeroFahr    = zeroCelsius - 32*fahrenheit
	minute      = 60.0
	hour        = 3600.0
	degree      = math.Pi / 180
	perMinute   = 1 / minute
)

// simple makes a family that serves one dimension.
func simple(name string, dim Dimension, factor float64, places int, words ...string) *family {
	return &family{name: name, words: words, units: []*Unit{{Name: name, Dim: dim, Factor: factor, places: places}}}
}

// pressure makes the families of one pressure unit: as it is said bare, with
// "gauge", "absolute" and "difference". first is what it usually means bare.
// Bare, it serves boost only if boost gauges are marked in it: "30 inHg" said of
// boost is an absolute figure and must be said to be one.
func pressure(name string, factor float64, places int, first Dimension, boost bool, words ...string) []*family {
	gauge := &Unit{Name: name, Dim: GaugePressure, Factor: factor, places: places}
	absolute := &Unit{Name: name, Dim: AbsolutePressure, Factor: factor, places: places}
	if first == GaugePressure {
		absolute.Name += " absolute"
	} else {
		gauge.Name += " gauge"
	}
	difference := &Unit{Name: name, Dim: PressureDifference, Factor: factor, places: places}
	boosted := &Unit{Name: name, Dim: Boost, Factor: factor, places: places}
	fromVacuum := &Unit{Name: name + " absolute", Dim: Boost, Factor: factor, Offset: -standardAir, places: places}
	bare := &family{name: name, words: words, units: []*Unit{gauge, difference, absolute}}
	if first == AbsolutePressure {
		bare.units = []*Unit{absolute, gauge, difference}
	}
	if boost {
		bare.units = append(bare.units, boosted)
	}
	spelt := func(suffixes ...string) []string {
		var all []string
		for _, w := range append([]string{name}, words...) {
			for _, s := range suffixes {
				all = append(all, w+s)
			}
		}
		return all[1:]
	}
	return []*family{
		bare,
		{name: name + " absolute", words: spelt(" absolute", " abs", " a", "(a)"), units: []*Unit{absolute, fromVacuum}},
		{name: name + " gauge", words: spelt(" gauge", " gage", " g", "(g)"), units: []*Unit{gauge}},
		{name: name + " difference", words: spelt(" difference", " diff", " d"), units: []*Unit{difference}},
	}
}

// scale makes the families of a temperature unit: the temperature, which also
// serves a difference, and the difference said in so many words.
func scale(name, difference string, factor, offset float64, words ...string) []*family {
	at := &Unit{Name: name, Dim: Temperature, Factor: factor, Offset: offset}
	by := &Unit{Name: difference, Dim: TemperatureDifference, Factor: factor}
	return []*family{
		{name: name, words: append(words, difference), units: []*Unit{at, by}},
		{name: name + " difference", words: []string{name + " rise", name + " change"}, units: []*Unit{by}},
	}
}

var families = buildFamilies()

func buildFamilies() []*family {
	var all []*family
	add := func(fs ...*family) { all = append(all, fs...) }

	add(pressure("psi", psi, 1, GaugePressure, true, "lb/sq in", "lbs/sq in", "lb/in2", "lbf/in2", "lbf/sq in", "lb per sq in",
		"lb per square inch", "pounds per square inch", "pounds per sq in", "p.s.i.")...)
	add(pressure("bar", 1e5, 2, GaugePressure, true, "bars")...)
	add(pressure("kPa", 1e3, 0, GaugePressure, false, "kilopascal", "kilopascals")...)
	add(pressure("hPa", 100, 0, AbsolutePressure, false, "hectopascal", "hectopascals", "mbar", "mb", "millibar", "millibars")...)
	add(pressure("inHg", inHg, 1, AbsolutePressure, false, "Hg", "in Hg", "inches Hg", "inch Hg", "inches of mercury", "inch of mercury", "ins Hg")...)
	add(pressure("mmHg", mmHg, 0, AbsolutePressure, false, "mm Hg", "millimetres of mercury")...)
	add(pressure("inH2O", inWater, 1, GaugePressure, false, "in H2O", "in water", "inch water", "inches of water", "inches water", "inches H2O", "in wg")...)
	add(pressure("Pa", 1, 0, GaugePressure, false, "pascal", "pascals")...)
	add(pressure("kg/cm2", gravity*1e4, 2, GaugePressure, false, "kgf/cm2", "kg/sq cm", "kp/cm2")...)
	add(&family{name: "lb", words: []string{"lbs", "pound", "pounds", "lb boost", "lbs boost", "pounds boost"}, units: []*Unit{
		{Name: "lb", Dim: Mass, Factor: poundMass, places: 1},
		{Name: "lb", Dim: Boost, Factor: psi, places: 1},
		{Name: "psi", Dim: GaugePressure, Factor: psi, places: 1},
		{Name: "psi", Dim: PressureDifference, Factor: psi, places: 1},
	}})

	add(scale("degC", "degrees C", 1, zeroCelsius, "C", "deg C", "degree C", "celsius", "centigrade", "deg celsius",
		"degree celsius", "degrees celsius", "degrees centigrade", "deg centigrade")...)
	add(scale("degF", "degrees F", fahrenheit, zeroFahr, "F", "deg F", "degree F", "fahrenheit", "deg fahrenheit",
		"degree fahrenheit", "degrees fahrenheit")...)
	add(&family{name: "K", words: []string{"kelvin", "kelvins", "deg K"}, units: []*Unit{
		{Name: "K", Dim: Temperature, Factor: 1},
		{Name: "K", Dim: TemperatureDifference, Factor: 1},
	}})

	turning := func(name string, factor float64, places int, words ...string) {
		add(&family{name: name, words: words, units: []*Unit{
			{Name: name, Dim: RotationalSpeed, Factor: factor, places: places},
			{Name: name, Dim: SpeedChange, Factor: factor, places: places},
		}})
	}
	turning("rpm", perMinute, 0, "r.p.m.", "revs", "rev/min", "revs/min", "r/min", "revs per minute", "rev per min", "revs per min",
		"revolutions per minute", "revs/minute", "turns per minute", "turns/min")
	turning("rev/s", 1, 1, "revs/s", "revs per second", "turns per second", "turns/s", "r/s", "rps")

	add(simple("V", Volts, 1, 1, "volt", "volts", "v", "V DC", "volts DC"),
		simple("mV", Volts, 1e-3, 0, "millivolt", "millivolts"),
		simple("kV", Volts, 1e3, 1, "kilovolt", "kilovolts"),
		simple("A", Amps, 1, 0, "amp", "amps", "ampere", "amperes", "a"),
		simple("mA", Amps, 1e-3, 0, "milliamp", "milliamps"),
		simple("A min", Charge, minute, 0, "ampere minute", "ampere minutes", "amp minute", "amp minutes", "amp min", "amp mins", "A mins"),
		simple("Ah", Charge, hour, 1, "A h", "amp hour", "amp hours", "ampere hour", "ampere hours", "amp h", "AH"),
		simple("A s", Charge, 1, 0, "coulomb", "coulombs", "amp seconds"),
		simple("ohm", Ohms, 1, 2, "ohms"),
		simple("kohm", Ohms, 1e3, 1, "kilohm", "kilohms", "kohms", "kilo ohm", "kilo ohms"),
		simple("Mohm", Ohms, 1e6, 1, "megohm", "megohms", "Mohms", "megaohm", "megaohms"),
		simple("mohm", Ohms, 1e-3, 1, "milliohm", "milliohms", "mohms"),
		simple("W", Power, 1, 0, "watt", "watts"),
		simple("kW", Power, 1e3, 1, "kilowatt", "kilowatts"),
		simple("hp", Power, horsepower, 0, "horsepower", "horse power", "bhp", "shp"),
		simple("J", Energy, 1, 0, "joule", "joules"),
		simple("kJ", Energy, 1e3, 1, "kilojoule", "kilojoules"),
		simple("MJ", Energy, 1e6, 1, "megajoule", "megajoules"),
		simple("Wh", Energy, hour, 0, "watt hour", "watt hours"),
		simple("kWh", Energy, 1e3*hour, 1, "kilowatt hour", "kilowatt hours"))

	add(simple("L", Volume, 1e-3, 1, "l", "litre", "litres", "liter", "liters", "ltr", "ltrs", "lit", "dm3"),
		simple("mL", Volume, 1e-6, 0, "ml", "cc", "cm3", "cu cm", "millilitre", "millilitres", "milliliter", "milliliters"),
		simple("m3", Volume, 1, 3, "cubic metre", "cubic metres"),
		simple("imperial gal", Volume, impGallon, 1, "imp gal", "imp gals", "UK gal", "UK gals", "imperial gallon", "imperial gallons",
			"imp gallon", "imp gallons", "UK gallon", "UK gallons", "British gallons", "gal", "gals", "gallon", "gallons"),
		simple("US gal", Volume, usGallon, 1, "US gals", "US gallon", "US gallons", "U.S. gallon", "USG", "American gallons",
			"gal", "gals", "gallon", "gallons"),
		simple("imperial qt", Volume, impGallon/4, 1, "imperial quart", "imperial quarts", "imp quart", "imp quarts", "UK quart", "UK quarts", "qt", "quart", "quarts"),
		simple("US qt", Volume, usGallon/4, 1, "US quart", "US quarts", "qt", "quart", "quarts"),
		simple("imperial pt", Volume, impGallon/8, 1, "imperial pint", "imperial pints", "imp pint", "imp pints", "UK pint", "UK pints", "pt", "pint", "pints"),
		simple("US pt", Volume, usGallon/8, 1, "US pint", "US pints", "pt", "pint", "pints"),
		simple("L/h", Flow, 1e-3/hour, 0, "l/hr", "lph", "litres/h", "litres/hr", "litres/hour", "litres per hour", "litre/h", "liters per hour", "L per h"),
		simple("L/min", Flow, 1e-3/minute, 1, "l/mins", "lpm", "litres/min", "litres/minute", "litres per minute", "litres per min", "liters per minute"),
		simple("imperial gal/h", Flow, impGallon/hour, 1, "imp gal/h", "imp gal/hr", "imperial gal/hr", "UK gal/h", "UK gal/hr", "imperial gallons/h", "imperial gallons/hour",
			"imperial gallons per hour", "imp gallons per hour", "UK gallons per hour", "imperial gph", "imp gph", "UK gph", "gph", "gal/h", "gal/hr", "gallons per hour", "gallons/hour"),
		simple("US gal/h", Flow, usGallon/hour, 1, "US gal/hr", "US gallons/h", "US gallons/hour", "US gallons per hour", "US gph",
			"gph", "gal/h", "gal/hr", "gallons per hour", "gallons/hour"),
		simple("US gal/min", Flow, usGallon/minute, 1, "US gpm", "US gallons per minute", "gpm", "gal/min"),
		simple("imperial gal/min", Flow, impGallon/minute, 1, "imp gpm", "imp gal/min", "imperial gallons per minute", "gpm", "gal/min"),
		simple("m3/s", Flow, 1, 6))

	add(simple("s", Time, 1, 0, "sec", "secs", "second", "seconds"),
		simple("min", Time, minute, 1, "mins", "minute", "minutes"),
		simple("h", Time, hour, 1, "hr", "hrs", "hour", "hours"),
		simple("ms", Time, 1e-3, 0, "millisecond", "milliseconds"),
		simple("days", Time, 24*hour, 0, "day", "d"),
		simple("weeks", Time, 7*24*hour, 0, "week", "wk", "wks"),
		simple("mm", Length, 1e-3, 1, "millimetre", "millimetres", "millimeter", "millimeters"),
		simple("in", Length, inch, 2, "inch", "inches", "ins"),
		simple("thou", Length, inch/1000, 0, "thousandth", "thousandths", "thousandths of an inch", "thousandth of an inch"),
		simple("cm", Length, 1e-2, 1, "centimetre", "centimetres", "centimeter", "centimeters"),
		simple("m", Length, 1, 2, "metre", "metres", "meter", "meters"),
		simple("ft", Length, 12*inch, 1, "foot", "feet"),
		simple("micron", Length, 1e-6, 0, "microns", "um", "micrometre", "micrometres"),
		simple("percent", Ratio, 0.01, 0, "per cent", "pct", "percentage"),
		simple("deg", Angle, degree, 1, "degree", "degrees"),
		simple("rad", Angle, 1, 3, "radian", "radians"),
		simple("turns", Angle, 2*math.Pi, 2, "turn"),
		simple("kg", Mass, 1, 1, "kilo", "kilos", "kilogram", "kilograms", "kilogramme", "kilogrammes", "kgs"),
		simple("g", Mass, 1e-3, 0, "gram", "grams", "gramme", "grammes"),
		simple("oz", Mass, poundMass/16, 1, "ounce", "ounces"),
		simple("kg/m3", Density, 1, 3, "kg/cu m", "kg per m3", "kilograms per cubic metre"),
		simple("kg/L", Density, 1e3, 3, "g/cm3", "g/cc", "g/mL"),
		simple("lb/ft3", Density, poundMass/(12*inch*12*inch*12*inch), 1, "lb/cu ft", "lbs/cu ft"),
		simple("knots", Speed, 1852/hour, 0, "kn", "kt", "kts", "knot"),
		simple("mph", Speed, 63360*inch/hour, 0, "miles per hour", "miles/h", "m.p.h."),
		simple("m/s", Speed, 1, 1, "metres per second", "metres/s"),
		simple("km/h", Speed, 1e3/hour, 0, "kph", "kmh", "km/hr", "kilometres per hour"),
		simple("cSt", Viscosity, 1e-6, 1, "centistokes", "centistoke", "mm2/s"),
		simple("N m", Torque, 1, 1, "Nm", "newton metre", "newton metres"),
		simple("lb ft", Torque, footPound, 1, "lbf ft", "ft lb", "ft lbf", "foot pounds", "pounds feet", "pound feet"),
		simple("lb in", Torque, footPound/12, 0, "lbf in", "in lb", "in lbf", "inch pounds", "pound inches"))
	add(&family{name: "", units: []*Unit{{Dim: Pure, Factor: 1, places: 3}}},
		simple("strokes", Pure, 1, 0, "stroke"),
		simple("blades", Pure, 1, 0, "blade", "blades in 10 s", "blades in ten seconds"),
		simple("times", Pure, 1, 0))
	return all
}
