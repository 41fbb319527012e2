package casebook

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance {
		t.Errorf("%s = %v, want %v", what, got, want)
	}
}

// Source: scikit-learn 1.2 documentation, brier_score_loss; the single
// forecasts from the encyclopedia article on the Brier score.
func TestBrierAgreesWithPublishedScores(t *testing.T) {
	near(t, "four forecasts", Brier([]Claim{{.1, false}, {.9, true}, {.8, true}, {.3, false}}), .0375, 1e-12)
	for _, tt := range []struct{ chance, want float64 }{{1, 0}, {.7, .09}, {.3, .49}, {.5, .25}} {
		near(t, "single forecast", Brier([]Claim{{tt.chance, true}}), tt.want, 1e-12)
	}
}

// Source: D. S. Wilks, Statistical Methods in the Atmospheric Sciences, 1995,
// table 7.3, as data of the R package verification (with .0245 and .0203,
// which make the shares sum to 1).
func TestMurphysSplitAddsUpOnAPublishedTable(t *testing.T) {
	chance := []float64{0, .05, .1, .2, .3, .4, .5, .6, .7, .8, .9, 1}
	observed := []float64{.006, .019, .059, .15, .277, .377, .511, .587, .723, .779, .934, .933}
	share := []float64{.4112, .0671, .1833, .0986, .0616, .0366, .0303, .0275, .0245, .022, .017, .0203}
	var bins []Bin
	rate, brier := 0.0, 0.0
	for i := range chance {
		bins = append(bins, Bin{chance[i], observed[i], share[i]})
		rate += share[i] * observed[i]
		brier += share[i] * (observed[i]*(1-chance[i])*(1-chance[i]) + (1-observed[i])*chance[i]*chance[i])
	}
	near(t, "overall rate", rate, .162, 6e-4)
	rel, res, unc := Murphy(bins)
	near(t, "reliability", rel, .0008, 5e-5)
	near(t, "resolution", res, .0628, 5e-5)
	near(t, "uncertainty", unc, .1354, 5e-5)
	near(t, "the split against the score itself", rel-res+unc, brier, 1e-4)
}

// Source: the encyclopedia article on mean reciprocal rank, after E. Voorhees,
// TREC-8, 1999: correct at ranks 3, 2 and 1 gives 11/18.
func TestMeanReciprocalRankOfThePublishedExample(t *testing.T) {
	m := Measure([]Outcome{
		{Rank: RankOf([]string{"catten", "cati", "cats"}, "cats")},
		{Rank: RankOf([]string{"torii", "tori", "toruses"}, "tori")},
		{Rank: RankOf([]string{"viruses", "virii", "viri"}, "viruses")},
	})
	near(t, "MRR", m.MRR, 11.0/18, 1e-12)
	if got := Measure([]Outcome{{Rank: 0}}).MRR; got != 0 {
		t.Errorf("a cause that is not listed counts %v, want 0", got)
	}
}

// Source: scikit-learn documentation, top_k_accuracy_score: truths 0, 1, 2, 2
// give .75 at two and, worked out here, .5 at one and 1 at three.
func TestTopKOfThePublishedExample(t *testing.T) {
	lists := [][]string{{"0", "1", "2"}, {"1", "0", "2"}, {"1", "2", "0"}, {"0", "1", "2"}}
	truths := []string{"0", "1", "2", "2"}
	var o []Outcome
	two := 0.0
	for i, l := range lists {
		r := RankOf(l, truths[i])
		o = append(o, Outcome{Rank: r})
		two += within(r, 2) / 4
	}
	m := Measure(o)
	near(t, "top 1", m.Top1, .5, 1e-12)
	near(t, "top 2", two, .75, 1e-12)
	near(t, "top 3", m.Top3, 1, 1e-12)
}
