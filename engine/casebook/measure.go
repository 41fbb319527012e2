// Package casebook keeps snags whose cause was found, and measures how well the
// rules find it: how often first, how often among three, and whether what is
// claimed is what happens.
package casebook

import (
	"cmp"
	"math"
	"slices"
)

// An Outcome is what a ranking said of one case.
type Outcome struct {
	Rank    int     // place of the best accepted cause, from 1; 0 when not in the list
	Chances []Claim // every chance that was claimed, and whether it came true
}

// A Claim is one chance that was stated and whether the thing was so.
type Claim struct {
	Chance float64
	True   bool
}

// Measures sums up many outcomes.
type Measures struct {
	N           int     `json:"cases"`
	Top1        float64 `json:"top_1"` // share of cases with an accepted cause first
	Top3        float64 `json:"top_3"` // or among three
	Top5        float64 `json:"top_5"`
	MRR         float64 `json:"mrr"`         // mean of one over the rank; 0 when not in the list
	Brier       float64 `json:"brier"`       // mean squared difference of claim and truth, one class
	Reliability float64 `json:"reliability"` // Murphy's split: Brier = Reliability - Resolution + Uncertainty
	Resolution  float64 `json:"resolution"`
	Uncertainty float64 `json:"uncertainty"`
	Says        float64 `json:"says"` // mean chance claimed for the first cause
	Is          float64 `json:"is"`   // how often it was right
}

// Measure sums up outcomes. The chance of each is that claimed for the first
// cause of its list, in Chances[0].
func Measure(outcomes []Outcome) Measures {
	m := Measures{N: len(outcomes)}
	if m.N == 0 {
		return m
	}
	var first []Claim
	for _, o := range outcomes {
		m.Top1 += within(o.Rank, 1)
		m.Top3 += within(o.Rank, 3)
		m.Top5 += within(o.Rank, 5)
		if o.Rank > 0 {
			m.MRR += 1 / float64(o.Rank)
		}
		if len(o.Chances) > 0 {
			first = append(first, o.Chances[0])
		}
	}
	n := float64(m.N)
	m.Top1, m.Top3, m.Top5, m.MRR = m.Top1/n, m.Top3/n, m.Top5/n, m.MRR/n
	m.Brier = Brier(first)
	m.Reliability, m.Resolution, m.Uncertainty = Murphy(binned(first))
	for _, c := range first {
		m.Says += c.Chance / float64(len(first))
		m.Is += truth(c) / float64(len(first))
	}
	return m
}

func within(rank, k int) float64 {
	if rank > 0 && rank <= k {
		return 1
	}
	return 0
}

func truth(c Claim) float64 {
	if c.True {
		return 1
	}
	return 0
}

// Brier returns the mean squared difference of chances and truths, over one
// class: half the form of 1950 for two classes.
//
// Source: G. W. Brier, "Verification of forecasts expressed in terms of
// probability", Monthly Weather Review 78, 1950.
func Brier(claims []Claim) float64 {
	if len(claims) == 0 {
		return 0
	}
	sum := 0.0
	for _, c := range claims {
		d := c.Chance - truth(c)
		sum += d * d
	}
	return sum / float64(len(claims))
}

// A Bin is a group of claims of one chance: its share of all, and how often it
// came true.
type Bin struct{ Chance, Observed, Share float64 }

// Murphy splits the Brier score of binned claims into reliability, resolution
// and uncertainty: Brier = reliability - resolution + uncertainty.
//
// Source: A. H. Murphy, "A new vector partition of the probability score",
// Journal of Applied Meteorology 12, 1973 (from memory).
func Murphy(bins []Bin) (reliability, resolution, uncertainty float64) {
	rate := 0.0
	for _, b := range bins {
		rate += b.Share * b.Observed
	}
	for _, b := range bins {
		reliability += b.Share * (b.Chance - b.Observed) * (b.Chance - b.Observed)
		resolution += b.Share * (b.Observed - rate) * (b.Observed - rate)
	}
	return reliability, resolution, rate * (1 - rate)
}

// binned groups claims by equal chance, each its own group when they all
// differ, so that Murphy's split is exact for them.
func binned(claims []Claim) []Bin {
	c := slices.Clone(claims)
	slices.SortFunc(c, func(a, b Claim) int { return cmp.Compare(a.Chance, b.Chance) })
	var bins []Bin
	for i := 0; i < len(c); {
		j, sum, hits := i, 0.0, 0.0
		for ; j < len(c) && (j == i || math.Floor(c[j].Chance*10) == math.Floor(c[i].Chance*10)); j++ {
			sum += c[j].Chance
			hits += truth(c[j])
		}
		n := float64(j - i)
		bins = append(bins, Bin{Chance: sum / n, Observed: hits / n, Share: n / float64(len(c))})
		i = j
	}
	return bins
}

// RankOf returns the place, from 1, of the best of the accepted ids in a list,
// or 0.
func RankOf(list []string, accepted ...string) int {
	for i, id := range list {
		if slices.Contains(accepted, id) {
			return i + 1
		}
	}
	return 0
}
