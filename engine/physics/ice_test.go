package physics

import (
	"testing"

	"pgregory.net/rapid"
)

func fahrenheit(f float64) float64 { return kelvin((f - 32) / 1.8) }

func TestIcingRisk(t *testing.T) {
	dewAt := func(air, humidity float64) float64 {
		d, err := DewPoint(air, humidity)
		return must(t, d, err)
	}
	for _, tt := range []struct {
		source   string
		air, dew float64
		low      bool
		atLeast  string
	}{
		{"SA 11-01: severe at 50 to 70 degF above 60 percent", fahrenheit(50.5), dewAt(fahrenheit(50.5), 0.62), false, IcingSerious},
		{"SA 11-01: severe at 50 to 70 degF above 60 percent", fahrenheit(69.5), dewAt(fahrenheit(69.5), 0.62), false, IcingSerious},
		{"SA 11-01: possible at 100 degF and 50 percent", fahrenheit(99.9), dewAt(fahrenheit(99.9), 0.51), true, IcingPossible},
		{"UK icing chart as quoted on a flying page: 22 and 5 degC serious at low power", kelvin(22), kelvin(5), true, IcingSerious},
		{"FAA-H-8083-25 ch.7, from memory: below 70 degF above 80 percent", fahrenheit(60), dewAt(fahrenheit(60), 0.82), false, IcingSerious},
	} {
		margin, err := ThroatMargin(tt.air, tt.dew, 25)
		got, err2 := IcingRisk(tt.air, tt.dew, must(t, margin, err), tt.low)
		if err2 != nil {
			t.Fatal(err2)
		}
		if severity(got) < severity(tt.atLeast) {
			t.Errorf("%s: got %q, want at least %q", tt.source, got, tt.atLeast)
		}
	}
	// SA 11-01: rare below 25 percent.
	got, err := IcingRisk(kelvin(25), dewAt(kelvin(25), 0.15), 1, true)
	if err != nil || got != IcingUnlikely {
		t.Errorf("at 25 degC and 15 percent got %q, %v, want %q", got, err, IcingUnlikely)
	}
}

// Both sides of each edge of the bands, a rough reading of published charts from
// memory, at high power with a warm throat so that nothing else speaks.
func TestIcingBands(t *testing.T) {
	for _, tt := range []struct {
		air, spread float64
		want        string
	}{
		{1, 7.9, IcingSerious}, {1, 8.1, IcingModerate}, {-1, 5, IcingModerate},
		{15.5, 4.9, IcingSerious}, {16.9, 4.9, IcingSerious},
		{-4, 9.9, IcingModerate}, {-4, 10.1, IcingLight}, {24, 9.9, IcingModerate}, {26, 9.9, IcingLight},
		{-6, 9.9, IcingLight}, {-9, 14.9, IcingLight}, {-9, 15.1, IcingUnlikely}, {29, 14.9, IcingLight},
		{31, 14.9, IcingUnlikely}, {-11, 5, IcingUnlikely},
	} {
		got, err := IcingRisk(kelvin(tt.air), kelvin(tt.air-tt.spread), 1, false)
		if err != nil || got != tt.want {
			t.Errorf("%v degC, spread %v: got %q, %v, want %q", tt.air, tt.spread, got, err, tt.want)
		}
	}
}

func severity(word string) int {
	for i, w := range []string{IcingUnlikely, IcingPossible, IcingLight, IcingModerate, IcingSerious} {
		if w == word {
			return i
		}
	}
	return -1
}

// Worked by hand: a throat 25 K colder than 9 degC stands at -16, 23 K below the
// dew point of 7 and 16 below freezing; freezing is the nearer way out.
func TestThroatMargin(t *testing.T) {
	for _, tt := range []struct{ air, dew, cooling, want float64 }{
		{9, 7, 25, -16},
		{22, 5, 25, -3},
		{30, 5, 25, 5},
		{10, -20, 25, 5}, // too dry
		{40, 20, 39, 1},  // the most cooling of a venturi, SA 11-01
	} {
		m, err := ThroatMargin(kelvin(tt.air), kelvin(tt.dew), tt.cooling)
		near(t, "margin", must(t, m, err), tt.want, 1e-9)
	}
}

func TestIceLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		air := rapid.Float64Range(kelvin(-30), kelvin(45)).Draw(t, "air")
		dew := air - rapid.Float64Range(0, 40).Draw(t, "spread")
		cooling := rapid.Float64Range(0, 39).Draw(t, "cooling")
		m, err := ThroatMargin(air, dew, cooling)
		colder, err2 := ThroatMargin(air, dew, cooling+1)
		if must(t, colder, err2) >= must(t, m, err) {
			t.Fatalf("more cooling does not bring ice nearer at %v, %v", air, dew)
		}
		high, err := IcingRisk(air, dew, m, false)
		if err != nil {
			t.Fatal(err)
		}
		low, err := IcingRisk(air, dew, m, true)
		if err != nil {
			t.Fatal(err)
		}
		if severity(low) < severity(high) || severity(high) < 0 {
			t.Fatalf("low power %q is milder than high power %q", low, high)
		}
	})
}
