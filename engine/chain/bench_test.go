// What a pass costs at full size, and what one changed reading costs beside it.
package chain

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"snagwise/engine/condition"
)

// realistic makes a base of the shape that a full set of rules has: signs told
// by one to three readings, most of them straight from readings, some from one
// or two other signs, a few from what is told; one circle in a hundred rules.
func realistic(tb testing.TB, readings, signs, rules int) base {
	rng := rand.New(rand.NewPCG(1, 2))
	limit := func() string { return fmt.Sprintf("r_%03d > %d", rng.IntN(readings), 1+rng.IntN(8)) }
	var lines []string
	for i := range rules {
		sign := i
		if i >= signs {
			sign = rng.IntN(signs)
		}
		var parts []string
		for range 1 + rng.IntN(3) {
			parts = append(parts, limit())
		}
		if k := sign * 2 / 3; sign > signs/2 && rng.IntN(3) > 0 && k > 0 {
			parts = append(parts, fmt.Sprintf("sign_%03d", rng.IntN(k)))
		}
		if rng.IntN(5) == 0 {
			parts = append(parts, fmt.Sprintf("not told_%02d", rng.IntN(40)))
		}
		if i%100 == 99 && sign < signs-1 {
			parts[0] = fmt.Sprintf("(%s or sign_%03d)", parts[0], sign+1)
			lines = append(lines, fmt.Sprintf("sign_%03d <- sign_%03d and %s", sign+1, sign, limit()))
		}
		lines = append(lines, fmt.Sprintf("sign_%03d <- %s", sign, strings.Join(parts, " and ")))
	}
	return parse(tb, strings.Join(lines[:rules], "\n"))
}

// filled returns a world with nine readings in ten known.
func filled(b base, moments int) *condition.World {
	rng := rand.New(rand.NewPCG(3, 4))
	w := b.scope.NewWorld(moments)
	for m := range w.Moments {
		for i := range w.Moments[m].Num {
			if rng.IntN(10) > 0 {
				w.Moments[m].Num[i] = float64(rng.IntN(10))
			}
		}
	}
	return w
}

// BenchmarkPass is a whole pass over 1,200 rules, 900 signs and 250 readings.
func BenchmarkPass(b *testing.B) {
	for _, moments := range []int{1, 6} {
		b.Run(fmt.Sprintf("moments=%d", moments), func(b *testing.B) {
			base := realistic(b, 250, 900, 1200)
			s := base.plan(b).Start(filled(base, moments))
			s.Run()
			b.ReportAllocs()
			for b.Loop() {
				s.Run()
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/1200, "ns/rule")
		})
	}
}

// BenchmarkOneReadingChanged changes each reading in turn and works out what
// rests on it. The metric is its time over that of a full pass in the same run,
// in turns; at most 0.1 is wanted.
func BenchmarkOneReadingChanged(b *testing.B) {
	base := realistic(b, 250, 900, 1200)
	s := base.plan(b).Start(filled(base, 6))
	s.Run()
	numbers := base.scope.Names(condition.NumberKind)
	i := 0
	change := func() {
		n := numbers[i%len(numbers)]
		at := &s.World.Moments[i%6].Num[n.Slot]
		*at = 9 - *at
		if *at != *at {
			*at = 5
		}
		s.Update(n)
		i++
	}
	ratios := make([]float64, 0, 15)
	for range cap(ratios) {
		full := timed(50, s.Run)
		ratios = append(ratios, float64(timed(500, change))/10/float64(full))
	}
	slices.Sort(ratios)
	b.ReportAllocs()
	for b.Loop() {
		change()
	}
	b.ReportMetric(ratios[len(ratios)/2], "x-full-pass")
}

func timed(times int, do func()) time.Duration {
	from := time.Now()
	for range times {
		do()
	}
	return time.Since(from)
}

// BenchmarkBuild orders 1,200 rules.
func BenchmarkBuild(b *testing.B) {
	base := realistic(b, 250, 900, 1200)
	b.ReportAllocs()
	for b.Loop() {
		base.plan(b)
	}
}
