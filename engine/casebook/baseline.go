package casebook

// This file holds what a ranking is compared with: an order that looks at
// nothing that was told.

import (
	"cmp"
	"slices"

	"snagwise/engine/knowledge"
)

// Expected is what an order with ties scores on one case, on average over all
// ways to break the ties.
type Expected struct {
	Top1 float64 `json:"top_1"`
	Top3 float64 `json:"top_3"`
	Top5 float64 `json:"top_5"`
	MRR  float64 `json:"mrr"`
}

// Expect returns what levels of ids, the best first and each level a tie, score
// where any of the accepted ids is right.
func Expect(levels [][]string, accepted ...string) Expected {
	before := 0
	for _, level := range levels {
		right := 0
		for _, id := range level {
			if slices.Contains(accepted, id) {
				right++
			}
		}
		if right == 0 {
			before += len(level)
			continue
		}
		var e Expected
		missed := 1.0 // chance that none of the places so far was right
		for i := range len(level) - right + 1 {
			hit := missed * float64(right) / float64(len(level)-i)
			missed -= hit
			place := before + i + 1
			e.MRR += hit / float64(place)
			for _, k := range []struct {
				top int
				sum *float64
			}{{1, &e.Top1}, {3, &e.Top3}, {5, &e.Top5}} {
				if place <= k.top {
					*k.sum += hit
				}
			}
		}
		return e
	}
	return Expected{}
}

// Frequencies returns the ids of the causes of a rig by how common they are,
// commonest first: each level is equally common.
func Frequencies(f *knowledge.Fitted) [][]string {
	var causes []int
	for _, c := range f.Causes {
		if !slices.Contains(causes, c.Cause) {
			causes = append(causes, c.Cause)
		}
	}
	frequency := func(k int) float64 { return f.Base.Causes[k].Frequency }
	slices.SortStableFunc(causes, func(a, b int) int { return cmp.Compare(frequency(b), frequency(a)) })
	var levels [][]string
	for i, k := range causes {
		if i == 0 || frequency(k) != frequency(causes[i-1]) {
			levels = append(levels, nil)
		}
		levels[len(levels)-1] = append(levels[len(levels)-1], f.Base.Causes[k].ID)
	}
	return levels
}

// mean returns the mean of what an order scores.
func mean(list []Expected) Expected {
	var m Expected
	for _, e := range list {
		n := float64(len(list))
		m.Top1 += e.Top1 / n
		m.Top3 += e.Top3 / n
		m.Top5 += e.Top5 / n
		m.MRR += e.MRR / n
	}
	return m
}
