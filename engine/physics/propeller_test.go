package physics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

const (
	rpm        = 1 / 60.0
	horsepower = 745.69987158227022 // W; GNU units 2.22
	pascalPsi  = 6894.757293168361  // Pa; GNU units 2.22
	pascalInHg = 3386.389           // Pa; NIST SP 811 appendix B, from memory
)

func TestSpeeds(t *testing.T) {
	// Ratio 0.5 at 2,000 crank rpm: worked example.
	n, err := PropellerSpeed(2000*rpm, 0.5)
	near(t, "propeller", must(t, n, err), 1000*rpm, 1e-12)
	n, err = PropellerSpeed(1800*rpm, 0.48)
	near(t, "propeller", must(t, n, err), 864*rpm, 1e-12)
	// 3.4 m at 1,000 rpm: 178 m/s; 3.30 m at 960 rpm: 165.9. Worked examples.
	v, err := TipSpeed(1000*rpm, 3.4)
	near(t, "tip", must(t, v, err), 178, 0.05)
	v, err = TipSpeed(960*rpm, 3.3)
	near(t, "tip", must(t, v, err), 165.9, 0.05)
	// Twelve cylinders and four sparks a turn: 1.5 times the crank; nine at 70 rpm
	// give 79. From memory, computed.
	m, err := MagnetoSpeed(80*rpm, 12, 4)
	near(t, "magneto", must(t, m, err), 120*rpm, 1e-12)
	m, err = MagnetoSpeed(70*rpm, 9, 4)
	near(t, "magneto", must(t, m, err), 78.75*rpm, 1e-12)
}

// The fixed-pitch load law: 0.125, 0.216, 0.343, 0.512, 0.729 and 0.857 of full
// power at 0.5 to 0.95 of full speed, n cubed.
func TestLoadPower(t *testing.T) {
	for _, tt := range []struct{ share, want float64 }{
		{0.5, 0.125}, {0.6, 0.216}, {0.7, 0.343}, {0.8, 0.512}, {0.9, 0.729}, {0.95, 0.857},
	} {
		p, err := LoadPower(1000*horsepower, 2400*rpm, 1.225, tt.share*2400*rpm, 1.225)
		near(t, "power", must(t, p, err)/horsepower/1000, tt.want, 5e-4)
	}
	// 660 hp at 2,400: 278 at 1,800, 382 at 2,000, 361 in air of 25 degC and 990 hPa.
	p, err := LoadPower(660*horsepower, 2400*rpm, 1.225, 1800*rpm, 1.225)
	near(t, "power", must(t, p, err)/horsepower, 278, 0.5)
	d, err := AirDensity(99000, kelvin(25))
	p, err2 := LoadPower(660*horsepower, 2400*rpm, 1.225, 2000*rpm, must(t, d, err))
	near(t, "power", must(t, p, err2)/horsepower, 361, 0.5)
}

func TestPowerLost(t *testing.T) {
	for _, tt := range []struct{ rpm, drop, want float64 }{
		{1800, 75, 0.12},   // 1-(1-75/1800)^3, computed
		{1800, 100, 0.158}, // worked example
		{1800, 60, 0.097},  // worked example
		{1800, 0, 0},
	} {
		lost, err := PowerLost(tt.rpm*rpm, tt.drop*rpm)
		near(t, "lost", must(t, lost, err), tt.want, 5e-4)
	}
}

// FAA-H-8083-32B (2023) page 10-38: needing 32 where 30 inHg used to turn the same
// speed points to a weak cylinder: 2 inHg above the record must come out.
func TestBoost(t *testing.T) {
	record := 30*pascalInHg - standardAir
	want, err := ExpectedBoost(record, standardAir, standardAir, standardAir, standardAir)
	near(t, "same day", 32*pascalInHg-standardAir-must(t, want, err), 2*pascalInHg, 1e-6)

	// 1,800 rpm at 985 hPa from -4.6 lb: 10.1 psi * 0.9721 = 9.82, so -4.88 lb.
	want, err = ExpectedBoost(-4.6*pascalPsi, standardAir, standardAir, 98500, standardAir)
	near(t, "thin day", must(t, want, err)/pascalPsi, -4.88, 0.005)
	// The same engine with a differential gauge shows 4.47 lb below the air.
	want, err = ExpectedBoost(-4.6*pascalPsi, standardAir, standardAir, 98500, 98500)
	near(t, "differential", must(t, want, err)/pascalPsi, 9.814-98500/pascalPsi, 0.005)

	// Boost in lb as inHg absolute: -4 = 21.8, 0 = 29.9, 4 = 38.1, 8 = 46.2, 12 = 54.4.
	for _, tt := range []struct{ lb, inHg float64 }{{-4, 21.8}, {0, 29.9}, {4, 38.1}, {6, 42.1}, {8, 46.2}, {12, 54.4}} {
		p, err := AbsoluteManifoldPressure(tt.lb*pascalPsi, standardAir)
		near(t, "absolute", must(t, p, err)/pascalInHg, tt.inHg, 0.06)
	}
	// Differential, -2.4 on a 960 hPa day: 11.52 psi.
	p, err := AbsoluteManifoldPressure(-2.4*pascalPsi, 96000)
	near(t, "absolute", must(t, p, err)/pascalPsi, 11.52, 0.005)
	// 1000 hPa: -0.20 lb; 950 hPa: -0.92 lb.
	for _, tt := range []struct{ air, lb float64 }{{100000, -0.20}, {95000, -0.92}} {
		b, err := BoostAtRest(tt.air, standardAir)
		near(t, "at rest", must(t, b, err)/pascalPsi, tt.lb, 0.011)
	}
}

func TestFeather(t *testing.T) {
	const flow = 21e-3 / 60
	// 4.2 L at 21 L/min: 12 s warm at 24 V; 21.5 V and cold oil 19 s. Worked examples.
	s, err := FeatherTime(4.2e-3, flow, 24, 24, ColdOilSlip(1))
	near(t, "warm", must(t, s, err), 12, 1e-9)
	s, err = FeatherTime(4.2e-3, flow, 21.5, 24, ColdOilSlip(55))
	near(t, "cold", must(t, s, err), 19, 0.2)
	// A dual hydraulic propeller takes 9 to 15 s with warm oil (from memory).
	if s, err := FeatherTime(4.2e-3, flow, 24, 24, 1); err != nil || s < 9 || s > 15 {
		t.Errorf("warm feathering takes %v s, %v", s, err)
	}
	spare, err := FeatherSpare(9e-3, 4.2e-3)
	near(t, "spare", must(t, spare, err), 0.1e-3, 1e-12) // 9 less 8.9, worked example
}

func TestPropellerLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Float64Range(400, 3000).Draw(t, "rpm") * rpm
		drop := rapid.Float64Range(0, 300).Draw(t, "drop") * rpm
		lost, err := PowerLost(n, drop)
		more, err2 := PowerLost(n, drop+rpm)
		if !(must(t, more, err2) > must(t, lost, err)) {
			t.Fatalf("a greater drop from %v loses no more", n)
		}
		// What is left by the drop is what the load law gives at the lower speed.
		left, err := LoadPower(1e5, n, 1.2, n-drop, 1.2)
		if math.Abs(must(t, left, err)/1e5-(1-lost)) > 1e-12 {
			t.Fatalf("left %v, lost %v", left/1e5, lost)
		}
		air := rapid.Float64Range(85000, 105000).Draw(t, "air")
		boost := rapid.Float64Range(-9, 10).Draw(t, "boost") * pascalPsi
		p, err := AbsoluteManifoldPressure(boost, standardAir)
		want, err2 := ExpectedBoost(boost, air, standardAir, air, standardAir)
		if math.Abs(must(t, want, err2)-boost) > 1e-6 {
			t.Fatalf("on the day of the record %v is wanted, not %v", want, boost)
		}
		thin, err2 := ExpectedBoost(boost, air, standardAir, air-500, standardAir)
		if must(t, thin, err2) >= want || must(t, p, err) < 0 {
			t.Fatalf("thinner air does not lower the boost %v", want)
		}
		volts := rapid.Float64Range(12, 28).Draw(t, "volts")
		ratio := rapid.Float64Range(1, 200).Draw(t, "ratio")
		s, err := FeatherTime(4e-3, 3e-4, volts, 24, ColdOilSlip(ratio))
		lower, err2 := FeatherTime(4e-3, 3e-4, volts-1, 24, ColdOilSlip(ratio))
		thicker, err3 := FeatherTime(4e-3, 3e-4, volts, 24, ColdOilSlip(ratio*1.5))
		if must(t, lower, err2) <= must(t, s, err) || must(t, thicker, err3) < s {
			t.Fatalf("fewer volts or thicker oil feathers sooner: %v %v %v", s, lower, thicker)
		}
	})
}
