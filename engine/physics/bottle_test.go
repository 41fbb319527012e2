package physics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// 7 L at 450 psi, least 150, strokes of 0.35 L at 90 psi: 66; at 220 psi 15. Worked
// examples of the gas law.
func TestActuationsLeft(t *testing.T) {
	for _, tt := range []struct{ psi, want float64 }{{450, 66}, {220, 15}, {150, 0}, {100, 0}} {
		n, err := ActuationsLeft(7e-3, tt.psi*pascalPsi, 150*pascalPsi, 0.35e-3, 90*pascalPsi)
		near(t, "strokes", must(t, n, err), tt.want, 0)
	}
}

// 450 psi at 25 degC is 411 at 0 and 418.8 at 5 with no leak. Gas law, computed.
func TestPressureAtTemperature(t *testing.T) {
	for _, tt := range []struct{ degC, psi, tolerance float64 }{{0, 411, 0.5}, {5, 418.8, 0.05}, {25, 450, 1e-9}} {
		p, err := PressureAtTemperature(450*pascalPsi, kelvin(25), kelvin(tt.degC), 101325)
		near(t, "pressure", must(t, p, err)/pascalPsi, tt.psi, tt.tolerance)
	}
}

func TestLeakRate(t *testing.T) {
	// 3 psi a minute from 7 L: 1.43 free litres a minute. Worked example.
	r, err := LeakRate(7e-3, 3*pascalPsi, 60, 101325)
	near(t, "leak", must(t, r, err)*60e3, 1.43, 0.005)
}

func TestBottleLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(50, 1000).Draw(t, "psi") * pascalPsi
		then := rapid.Float64Range(250, 310).Draw(t, "then")
		now := rapid.Float64Range(250, 310).Draw(t, "now")
		q, err := PressureAtTemperature(p, then, now, 100000)
		back, err2 := PressureAtTemperature(must(t, q, err), now, then, 100000)
		if math.Abs(must(t, back, err2)-p) > 1e-6*p {
			t.Fatalf("%v comes back as %v", p, back)
		}
		if (now > then) != (q > p) && now != then {
			t.Fatalf("from %v to %v K the pressure goes from %v to %v", then, now, p, q)
		}
		n, err := ActuationsLeft(7e-3, p, 3e5, 1e-4, 6e5)
		more, err2 := ActuationsLeft(7e-3, p+1e5, 3e5, 1e-4, 6e5)
		if must(t, more, err2) < must(t, n, err) {
			t.Fatalf("more pressure gives fewer strokes")
		}
		slow, err := LeakRate(7e-3, p, 600, 1e5)
		fast, err2 := LeakRate(7e-3, p, 300, 1e5)
		if must(t, fast, err2) <= must(t, slow, err) {
			t.Fatalf("a quicker fall is no greater leak")
		}
	})
}
