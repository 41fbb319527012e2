package physics

// This file holds how thick oil is at a temperature, by ASTM D341.

import "math"

// An Oil is the line of an oil's viscosity against temperature:
// log log (v + 0.7) = a - b log T, v in cSt and T in K.
type Oil struct{ a, b float64 }

const centistoke = 1e-6 // m2/s

func walther(viscosity float64) float64 { return math.Log10(math.Log10(viscosity/centistoke + 0.7)) }

// NewOil returns the line through two points, temperatures in K and kinematic
// viscosities in m2/s; the warmer one must be the thinner.
//
// Source: ASTM D341, Standard Practice for Viscosity-Temperature Charts for Liquid
// Petroleum Products; the short form for 2 cSt and above.
func NewOil(t1, v1, t2, v2 float64) (Oil, error) {
	if err := within(spanOilT.of(t1), spanViscosity.of(v1), spanOilT.of(t2), spanViscosity.of(v2)); err != nil {
		return Oil{}, err
	}
	if t1 > t2 {
		t1, v1, t2, v2 = t2, v2, t1, v1
	}
	if t2-t1 < 5 {
		return Oil{}, &RangeError{Name: "temperature between the two points", Value: t2 - t1, Least: 5, Most: 200, Unit: "K"}
	}
	if v2 >= v1 {
		return Oil{}, &RangeError{Name: "viscosity at the warmer point", Value: v2 / centistoke, Least: 2, Most: v1 / centistoke, Unit: "cSt"}
	}
	b := (walther(v1) - walther(v2)) / (math.Log10(t2) - math.Log10(t1))
	return Oil{a: walther(v1) + b*math.Log10(t1), b: b}, nil
}

// Viscosity returns the kinematic viscosity in m2/s at a temperature in K. Near
// the pour point oil is thicker than the line says.
func (o Oil) Viscosity(temperature float64) (float64, error) {
	if err := within(spanOilT.of(temperature)); err != nil {
		return 0, err
	}
	v := centistoke * (math.Pow(10, math.Pow(10, o.a-o.b*math.Log10(temperature))) - 0.7)
	if err := within(spanViscosity.of(v)); err != nil {
		return 0, err
	}
	return v, nil
}

// Temperature returns the temperature in K at which the oil has a kinematic
// viscosity in m2/s: the inverse of Viscosity.
func (o Oil) Temperature(viscosity float64) (float64, error) {
	if err := within(spanViscosity.of(viscosity)); err != nil {
		return 0, err
	}
	t := math.Pow(10, (o.a-walther(viscosity))/o.b)
	if err := within(spanOilT.of(t)); err != nil {
		return 0, err
	}
	return t, nil
}

// Ratio returns how many times thicker the oil is at one temperature in K than at
// another.
func (o Oil) Ratio(now, working float64) (float64, error) {
	cold, err := o.Viscosity(now)
	if err != nil {
		return 0, err
	}
	warm, err := o.Viscosity(working)
	if err != nil {
		return 0, err
	}
	return cold / warm, nil
}

// Grades of oil that UsualOil knows.
const (
	OilSAE50   = "SAE 50"
	OilSAE60   = "SAE 60"
	Oil20W50   = "20W-50"
	workingOil = 75 + zeroCelsius // K, the temperature the ratio is told against
)

// OilGrades returns the grades that [UsualOil] knows.
func OilGrades() []string { return []string{OilSAE50, OilSAE60, Oil20W50} }

// UsualOil returns the line of a typical oil of a grade, false for a grade it does
// not know. The oil's own data sheet is better.
//
// Source: typical figures at 40 and 100 degC, from memory; those at 100 degC lie
// within SAE J300.
func UsualOil(grade string) (Oil, bool) {
	points := map[string][2]float64{OilSAE50: {225, 19.5}, OilSAE60: {320, 24.5}, Oil20W50: {170, 19.5}}
	p, ok := points[grade]
	if !ok {
		return Oil{}, false
	}
	o, err := NewOil(40+zeroCelsius, p[0]*centistoke, 100+zeroCelsius, p[1]*centistoke)
	return o, err == nil
}

// SayboltViscosity returns the kinematic viscosity in m2/s for a Saybolt Universal
// time in s of 100 or more. An aviation oil's grade number is about its Saybolt
// time at 210 degF.
//
// Source: cSt = 0.220 s - 135/s above 100 s (from memory); ASTM D2161 agrees within
// 1 percent.
func SayboltViscosity(seconds float64) (float64, error) {
	if err := within(spanSaybolt.of(seconds)); err != nil {
		return 0, err
	}
	return centistoke * (0.220*seconds - 135/seconds), nil
}

// ColdOilPressure returns the gallery pressure in Pa, above the air, to expect from
// oil ratio times thicker than when the hot pressure was read at the same speed,
// with a relief valve that opens at relief, both in Pa: the narrow ways of the
// bearings hold back in step with thickness until the relief valve opens. A needle
// somewhat above the setting is usual when cold.
//
// Source: laminar flow, pressure as flow times viscosity; own. FAA-H-8083-32B
// (2023) pages 6-8 and 6-16: adjust pressure only at working temperature.
func ColdOilPressure(hot, relief, ratio float64) (float64, error) {
	if err := within(spanPressure.of(hot), spanPressure.of(relief), spanThicker.of(ratio)); err != nil {
		return 0, err
	}
	if hot <= 0 || hot > relief {
		return 0, &RangeError{Name: "hot oil pressure", Value: hot / 1000, Least: 0, Most: relief / 1000, Unit: "kPa"}
	}
	return math.Min(relief, hot*ratio), nil
}
