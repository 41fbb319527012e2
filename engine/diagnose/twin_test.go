package diagnose_test

import (
	"slices"
	"testing"

	"snagwise/engine/sheet"
)

// Manifold pressure is told in inches from vacuum, boost in pounds from
// standard air: 26 inHg is 1.93 lb below it (29.92 inHg and 14.7 psi are one
// pressure: the standard atmosphere, from memory). What is told in the one must
// weigh as in the other, and what is told in both as the boost told.
func TestManifoldPressureStandsAsBoostToo(t *testing.T) {
	e := engine(t, "hollin")
	ranked := func(readings string) []float64 {
		t.Helper()
		s, l := sheet.Parse("f", []byte("rig: hollin\nmoments:\n  - phase: display\n    readings: {engine_rpm: 1400 rpm, "+readings+"}\n"))
		a, more := e.Read(s)
		if l = append(l, more...); len(l) > 0 {
			t.Fatal(l)
		}
		_, chances, _ := e.Ranked(a)
		return chances
	}
	nothing := ranked("oil_contents: 20 L")
	for _, tt := range []struct{ manifold, boost string }{
		{"manifold_pressure: 26 inHg", "boost: -1.93 lb"},
		{"manifold_pressure: 32 -> 26 inHg", "boost: 1 -> -1.93 lb"},
		{"manifold_pressure: high", "boost: high"},
		{"manifold_pressure: 10 inHg, boost: -1.93 lb", "boost: -1.93 lb"},
	} {
		got, want := ranked(tt.manifold), ranked(tt.boost)
		if !slices.Equal(got, want) {
			t.Errorf("%s: chances %.4f, want those of %s, %.4f", tt.manifold, got[:5], tt.boost, want[:5])
		}
		if slices.Equal(got, nothing) {
			t.Errorf("%s: weighs nothing", tt.manifold)
		}
	}
}
