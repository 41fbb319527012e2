package rank

import (
	"fmt"
	"testing"
)

// usual is what diagnoses are ranked with.
var usual = Options{Earn: 10, Faintest: .15}

// A base of realistic size, fifteen signs known, all sets of two: the aim is
// 20 ms a sheet on two cores.
func BenchmarkPosterior(b *testing.B) {
	for _, causes := range []int{150, 300, 450, 600} {
		z := realistic
		z.causes = causes
		n := mustBuild(b, z.random(1), usual)
		var sheets []Evidence
		for seed := range uint64(8) {
			sheets = append(sheets, n.sheet(seed, 15))
		}
		b.Run(fmt.Sprintf("causes=%d", causes), func(b *testing.B) {
			b.ReportAllocs()
			i := 0
			for b.Loop() {
				n.Posterior(sheets[i%len(sheets)])
				i++
			}
		})
	}
}

// Sets of two against single causes alone, and a budget four times as large,
// on the same sheets: what pairs and precision cost.
func BenchmarkWays(b *testing.B) {
	net := realistic.random(1)
	for _, way := range []struct {
		name string
		o    Options
	}{
		{"usual", Options{}},
		{"single causes", Options{MaxSize: 1}},
		{"budget x4", Options{Budget: 4 << 12}},
		{"all pairs estimated", Options{FullSets: 1}},
	} {
		n := mustBuild(b, net, way.o)
		var sheets []Evidence
		for seed := range uint64(8) {
			sheets = append(sheets, n.sheet(seed, 15))
		}
		b.Run(way.name, func(b *testing.B) {
			i := 0
			for b.Loop() {
				n.Posterior(sheets[i%len(sheets)])
				i++
			}
		})
	}
}

// Three hundred signs predicted, with what that needs worked out anew each time.
func BenchmarkPredict(b *testing.B) {
	n := mustBuild(b, realistic.random(1), Options{})
	r := n.Posterior(n.sheet(2, 15))
	b.ReportAllocs()
	for b.Loop() {
		r.forecast = new(forecast)
		for f := range 300 {
			r.Predict(f)
		}
	}
}

func BenchmarkLedger(b *testing.B) {
	n := mustBuild(b, realistic.random(1), Options{})
	r := n.Posterior(n.sheet(2, 15))
	for b.Loop() {
		r.Ledger(r.Causes[0].ID)
	}
}

func BenchmarkBuild(b *testing.B) {
	net := realistic.random(1)
	for b.Loop() {
		mustBuild(b, net, Options{})
	}
}
