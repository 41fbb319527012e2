package main

import (
	"testing"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/diagnose"
)

// TestOneWordForAChance: the engine and the page have the same word for it.
func TestOneWordForAChance(t *testing.T) {
	for n := range 10001 {
		p := float64(n) / 10000
		if got, want := screen.ChanceWord(p), diagnose.ChanceWord(p); got != want {
			t.Errorf("%v is %q on the page, %q in the answer", p, got, want)
		}
	}
}

// TestHowWords: the ground of a line as it is spoken.
func TestHowWords(t *testing.T) {
	for _, tt := range []struct{ how, want string }{
		{"told (moment 2)", ""},
		{"these things together", ""},
		{"low(oil_pressure) (8 psi) (moment 1)", "oil pressure low at 8 psi"},
		{"not below_stop(fuel_delivery_pressure) (8.6 psi) (moment 2)", "fuel delivery pressure not below stop at 8.6 psi"},
		{"high(boost); rising(engine_rpm)", "boost high; engine rpm rising"},
		{"what was said to be in order", "what was said to be in order"},
	} {
		if got := howWords(tt.how); got != tt.want {
			t.Errorf("howWords(%q) = %q, want %q", tt.how, got, tt.want)
		}
	}
}

// TestShort: figures as a needle shows them.
func TestShort(t *testing.T) {
	for _, tt := range []struct {
		x    float64
		want string
	}{{0, "0"}, {-0.0000001, "0"}, {8.5, "8.5"}, {1950.3, "1950"}, {-9.5, "-9.5"}, {0.30000000004, "0.3"}, {12.3456, "12.35"}, {999.96, "1000"}, {100000, "100000"}} {
		if got := short(tt.x); got != tt.want {
			t.Errorf("short(%v) = %q, want %q", tt.x, got, tt.want)
		}
	}
}
