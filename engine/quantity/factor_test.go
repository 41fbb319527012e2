package quantity

import (
	"math"
	"testing"
)

// near reports whether got is within a relative rel of want.
func near(got, want, rel float64) bool {
	return math.Abs(got-want) <= rel*math.Max(math.Abs(want), 1e-12)
}

// The factors of NIST Special Publication 811 (2008), appendix B.8, as printed:
// seven figures, or exact. Each is SI per unit; turns and degrees apart, whose
// SI unit here is given beside them.
func TestFactorsAgainstNIST(t *testing.T) {
	for _, tt := range []struct {
		unit string
		dim  Dimension
		want float64
	}{
		{"psi", GaugePressure, 6.894757e3},
		{"psi absolute", AbsolutePressure, 6.894757e3},
		{"psi", PressureDifference, 6.894757e3},
		{"bar", GaugePressure, 1e5},
		{"kPa", GaugePressure, 1e3},
		{"hPa", AbsolutePressure, 1e2}, // millibar 1.0 E+02
		{"inHg", AbsolutePressure, 3.386389e3},
		{"mmHg", AbsolutePressure, 1.333224e2},
		{"inH2O", PressureDifference, 2.490889e2},
		{"kg/cm2", GaugePressure, 9.80665e4},
		{"degF", TemperatureDifference, 5.0 / 9},
		{"US gal", Volume, 3.785412e-3},
		{"imperial gal", Volume, 4.54609e-3},
		{"US qt", Volume, 9.463529e-4},
		{"US pt", Volume, 4.731765e-4},
		{"L", Volume, 1e-3},
		{"US gal/min", Flow, 6.309020e-5},
		{"h", Time, 3.6e3},
		{"min", Time, 60},
		{"days", Time, 8.64e4},
		{"in", Length, 2.54e-2},
		{"ft", Length, 3.048e-1},
		{"thou", Length, 2.54e-5}, // mil
		{"micron", Length, 1e-6},
		{"lb", Mass, 4.535924e-1},
		{"oz", Mass, 2.834952e-2},
		{"hp", Power, 7.456999e2},
		{"kWh", Energy, 3.6e6},
		{"Wh", Energy, 3.6e3},
		{"Ah", Charge, 3.6e3},
		{"knots", Speed, 5.144444e-1},
		{"mph", Speed, 4.4704e-1},
		{"km/h", Speed, 2.777778e-1},
		{"cSt", Viscosity, 1e-6},
		{"lb ft", Torque, 1.355818},
		{"lb in", Torque, 1.129848e-1},
		{"lb/ft3", Density, 1.601846e1},
		{"kg/L", Density, 1e3}, // gram per cubic centimetre
		{"deg", Angle, 1.745329e-2},
		{"rpm", RotationalSpeed, 1.047198e-1 / (2 * math.Pi)}, // printed in rad/s
	} {
		u, ok := UnitFor(tt.unit, tt.dim)
		if !ok {
			t.Errorf("UnitFor(%q, %v) is not known", tt.unit, tt.dim)
			continue
		}
		if !near(u.Factor, tt.want, 5e-7) {
			t.Errorf("%s: factor %.9g, want %.9g", tt.unit, u.Factor, tt.want)
		}
	}
}

// What GNU units 2.22 (Debian package units 2.22-2) prints for
// `units -o %.12g -t '8.5 psi' bar` and so on: twelve figures.
func TestConversionsAgainstGNUUnits(t *testing.T) {
	for _, tt := range []struct {
		text string
		dim  Dimension
		to   string
		want float64
	}{
		{"1 psi", GaugePressure, "Pa", 6894.75729317},
		{"1 inHg", AbsolutePressure, "Pa absolute", 3386.38864034},
		{"1 mmHg", AbsolutePressure, "Pa absolute", 133.322387415},
		{"1 inH2O", PressureDifference, "Pa", 249.08891},
		{"1 kg/cm2", GaugePressure, "Pa", 98066.5},
		{"8.5 psi", GaugePressure, "bar", 0.586054369919},
		{"0.58 bar", GaugePressure, "psi", 8.41218878835},
		{"29.92 inHg", AbsolutePressure, "hPa", 1013.20748119},
		{"-4 psi", Boost, "bar", -0.275790291727},
		{"450 psi", GaugePressure, "bar", 31.0264078193},
		{"1004 hPa", AbsolutePressure, "inHg", 29.6481032342},
		{"85 degC", Temperature, "degF", 185},
		{"446 degF", Temperature, "degC", 230},
		{"-40 degF", Temperature, "degC", -40},
		{"185 degF", Temperature, "K", 358.15},
		{"9 degF", TemperatureDifference, "degC", 5},
		{"120 L", Volume, "imperial gal", 26.3963097959},
		{"120 L", Volume, "US gal", 31.700646283},
		{"1 imperial gal", Volume, "L", 4.54609},
		{"1 US gal", Volume, "L", 3.785411784},
		{"1 imperial pt", Volume, "mL", 568.26125},
		{"1 US pt", Volume, "mL", 473.176473},
		{"1 imperial qt", Volume, "L", 1.1365225},
		{"1 US qt", Volume, "L", 0.946352946},
		{"1 imperial gal/h", Flow, "m3/s", 1.26280277778e-06},
		{"1 US gal/h", Flow, "m3/s", 1.05150327333e-06},
		{"1 US gal/min", Flow, "m3/s", 6.30901964e-05},
		{"1 imperial gal/min", Flow, "m3/s", 7.57681666667e-05},
		{"140 L/h", Flow, "imperial gal/h", 30.7956947619},
		{"1300 rpm", RotationalSpeed, "rev/s", 21.6666666667},
		{"300 hp", Power, "kW", 223.709961475},
		{"156 A min", Charge, "Ah", 2.6},
		{"1 weeks", Time, "s", 604800},
		{"1 lb", Mass, "kg", 0.45359237},
		{"1 oz", Mass, "g", 28.349523125},
		{"1 lb/ft3", Density, "kg/m3", 16.018463374},
		{"20 knots", Speed, "km/h", 37.04},
		{"20 knots", Speed, "mph", 23.0155889605},
		{"1 lb ft", Torque, "N m", 1.35581794833},
		{"1 lb in", Torque, "N m", 0.112984829028},
		{"12 thou", Length, "mm", 0.3048},
		{"1 deg", Angle, "rad", 0.0174532925199},
	} {
		q, err := ParseAs(tt.text, tt.dim, "")
		if err != nil {
			t.Error(err)
			continue
		}
		got, err := q.In(tt.to)
		if err != nil {
			t.Error(err)
			continue
		}
		if !near(got, tt.want, 2e-11) {
			t.Errorf("%s in %s = %.12g, want %.12g", tt.text, tt.to, got, tt.want)
		}
	}
}

// Standard air is 101325 Pa (NIST SP 811, appendix B.8), so a boost of nothing
// is 29.9213 inHg of manifold pressure; GNU units: 1 atm = 29.9212555797 inHg.
func TestBoostAgainstManifoldPressure(t *testing.T) {
	q, err := ParseAs("0 lb", Boost, "lb")
	if err != nil {
		t.Fatal(err)
	}
	got, err := q.In("inHg absolute")
	if err != nil {
		t.Fatal(err)
	}
	if want := 29.9212555797; !near(got, want, 1e-9) {
		t.Errorf("0 lb boost = %.10g inHg absolute, want %.10g", got, want)
	}
}
