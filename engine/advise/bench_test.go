package advise

import (
	"math"
	"math/rand/v2"
	"testing"
)

// heavy returns a snag of the size of a full one: 200 sets, 180 checks of two
// to five outcomes.
func heavy() (*Snag, *Situation) {
	r := rand.New(rand.NewPCG(7, 8))
	s := &Snag{Help: 150}
	for range 80 {
		s.Causes = append(s.Causes, Cause{Minutes: 5 + 90*r.Float64()})
	}
	for i := range 199 {
		set := Set{Causes: []int{i % 80}, Weight: math.Exp(-5 * r.Float64())}
		if i >= 80 {
			set = Set{Causes: []int{r.IntN(40), 40 + r.IntN(40)}, Weight: .05 * math.Exp(-5*r.Float64())}
		}
		s.Sets = append(s.Sets, set)
	}
	s.Sets = append(s.Sets, Set{Weight: 2})
	s.States = make([]State, 4)
	s.Moves = [][]float64{{0, 1, 8, 8}, {40, 0, 5, 5}, {45, 4, 0, 2}, {40, 1, 4, 0}}
	words := []float64{.02, .02, .02, .15, .4, .75, .95}
	for i := range 180 {
		c := Check{Minutes: 1 + float64(r.IntN(30)), State: i%5 - 1, CouldNotTell: .05}
		found := make([][]float64, 1+r.IntN(4))
		for k := range found {
			by := make([]float64, len(s.Causes))
			for j := range by {
				by[j] = words[r.IntN(len(words))] * float64(r.IntN(2))
			}
			found[k] = make([]float64, len(s.Sets))
			for j, set := range s.Sets {
				not := .98
				for _, c := range set.Causes {
					not *= 1 - by[c]
				}
				found[k][j] = 1 - not
			}
		}
		c.Outcomes = FirstFound(found)
		s.Checks = append(s.Checks, c)
	}
	return s, &Situation{State: 1, Facts: watched()}
}

func BenchmarkNext(b *testing.B) {
	s, now := heavy()
	for _, bb := range []struct {
		name string
		opt  Options
	}{{"one deep", Options{Ahead: -1}}, {"two deep", Options{}}} {
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Next(s, now, bb.opt); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
