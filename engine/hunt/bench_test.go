package hunt_test

import (
	"testing"

	"snagwise/engine/hunt"
)

// BenchmarkTurn is what stands between an answer and the next question: all of
// a turn after a first symptom, and after five answers. The wish is 100 ms.
// Measured: 76 ms each, on 2 busy cores (2026-11-25).
func BenchmarkTurn(b *testing.B) {
	e := engineOf(b, "hollin")
	x := hunt.NewFinder(e.Fitted())
	var facts []hunt.Fact
	for _, id := range []string{"cranks_no_fire", "strong_fuel_smell", "no_coil_buzz", "wet_plugs", "no_volts_at_coil"} {
		if e.Fitted().Sign(id) >= 0 {
			facts = append(facts, hunt.Fact{Kind: hunt.Seen, Name: id})
		}
	}
	for name, n := range map[string]int{"first": 1, "fifth": len(facts)} {
		h := told(hunt.New(e, nil), facts[:n])
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, l := h.Turn(x, hunt.Clock{}); len(l) > 0 {
					b.Fatal(l)
				}
			}
		})
	}
}

// BenchmarkFind is the search for a phrase that names nothing by itself.
func BenchmarkFind(b *testing.B) {
	x := hunt.NewFinder(engineOf(b, "hollin").Fitted())
	b.ReportAllocs()
	for b.Loop() {
		if len(x.Find("white smok from the stacks when warm")) == 0 {
			b.Fatal("nothing found")
		}
	}
}
