package diagnose

import (
	"math"
	"slices"

	"snagwise/engine/rank"
)

// This file says how sure the ranking is. Its own chances claim too little: what
// nobody told of counts neither way, though a person would have told of much of
// it, and the mean of two estimates is duller than either. So the odds of each
// cause and of none are raised to a power, and all are multiplied by one factor,
// so that the chances add up to what they did. The order stays.
//
// That a mean of chances claims too little even where each claims what is so: R.
// Ranjan, T. Gneiting, "Combining probability forecasts", J. R. Statist. Soc. B
// 72, 2010 (from memory); the power of the odds: J. Platt, "Probabilistic outputs for
// support vector machines", 1999 (from memory). What the power should be was
// measured on kept cases.

// claimed returns the causes of a ranking with the chances that are claimed for
// them and for their instances, and the chance that it is none of them.
func (e *Engine) claimed(r *rank.Result) ([]mergedCause, float64) {
	list := e.merged(r)
	chances := make([]float64, 0, len(list)+1)
	for _, m := range list {
		chances = append(chances, m.chance)
	}
	chances = append(chances, r.None)
	sharpen(chances, e.set.Sharpness)
	for i := range list {
		m := &list[i]
		m.ranked = m.chance
		if m.chance > 0 {
			by := chances[i] / m.chance
			m.instances = slices.Clone(m.instances)
			for k := range m.instances {
				m.instances[k].Chance *= by
			}
		}
		m.chance = chances[i]
	}
	return list, chances[len(list)]
}

// sharpen raises the odds of each chance to a power and multiplies them by what
// leaves the sum as it is.
func sharpen(chances []float64, power float64) {
	if power == 1 {
		return
	}
	sum := 0.0
	odds := make([]float64, len(chances))
	for i, p := range chances {
		p = math.Min(math.Max(p, 0), surest)
		sum += p
		odds[i] = math.Pow(p/(1-p), power)
	}
	low, high := -mostShift, mostShift // logarithm of the factor
	for range 60 {
		mid := (low + high) / 2
		by, got := math.Exp(mid), 0.0
		for _, o := range odds {
			got += by * o / (1 + by*o)
		}
		if got < sum {
			low = mid
		} else {
			high = mid
		}
	}
	by := math.Exp((low + high) / 2)
	for i, o := range odds {
		chances[i] = by * o / (1 + by*o)
	}
}

const (
	surest    = 1 - 1e-12 // the highest chance that has odds
	mostShift = 100.0     // of the logarithm of all odds
)
