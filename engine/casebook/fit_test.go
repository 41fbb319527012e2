package casebook_test

import (
	"math"
	"testing"

	"snagwise/engine/casebook"
)

// outcome is one with so much claimed of what was found, at a place.
func outcome(chance float64, rank int) casebook.Score {
	return casebook.Score{Outcome: casebook.Outcome{Rank: rank, Chances: []casebook.Claim{{Chance: 1 - chance}, {Chance: chance, True: true}}}}
}

// A way that is best for one case alone is chosen in the sample, and never for
// the case that it is best for.
func TestLeftOutCasesHaveNoPartInTheirChoice(t *testing.T) {
	by := map[string][]casebook.Score{
		"usual": {outcome(.5, 1), outcome(.5, 1), outcome(.5, 1)},
		"other": {outcome(.9, 1), outcome(.45, 2), outcome(.45, 2)},
	}
	fit, err := casebook.Choose([]casebook.Figures{{Name: "usual"}, {Name: "other"}}, func(f casebook.Figures) ([]casebook.Score, error) { return by[f.Name], nil })
	if err != nil {
		t.Fatal(err)
	}
	if fit.Best != "other" || fit.Chosen != 2 {
		t.Errorf("best %q, chosen for %d cases, want other, for 2", fit.Best, fit.Chosen)
	}
	if want := -(math.Log(.5) + 2*math.Log(.45)) / 3; math.Abs(fit.LeftOut.LogLoss-want) > 1e-12 {
		t.Errorf("log loss of cases left out %v, want %v: the first by the usual figures, the others by the other", fit.LeftOut.LogLoss, want)
	}
	if fit.LeftOut.Top1 != 1./3 || fit.AsTheyStand.Top1 != 1 {
		t.Errorf("first %v left out and %v as they stand, want 1/3 and 1", fit.LeftOut.Top1, fit.AsTheyStand.Top1)
	}
}

// Other values of the words change the strengths and nothing else, and leave
// the base they are taken from as it is.
func TestRewordedChangesStrengthsAlone(t *testing.T) {
	base := shipped(t).Base
	f := casebook.Figures{Words: map[float64]float64{.75: .6}}
	got := casebook.Reworded(base, f)
	moved := 0
	for i, s := range base.States {
		for k, l := range s.Shows {
			want := l.By
			if want == .75 {
				want = .6
				moved++
			}
			if by := got.States[i].Shows[k].By; by != want {
				t.Fatalf("state %s: %v became %v, want %v", s.ID, l.By, by, want)
			}
		}
	}
	if moved < 100 {
		t.Errorf("%d strengths moved, want a hundred or more", moved)
	}
	same := func(i int) bool { return got.Causes[i].Frequency == base.Causes[i].Frequency }
	for i := range base.Causes {
		if !same(i) {
			t.Errorf("cause %s: how common it is moved", base.Causes[i].ID)
		}
	}
	if again := casebook.Reworded(base, casebook.Figures{}); again != base {
		t.Error("with nothing to change the base is not the same")
	}
	names := map[string]bool{}
	for _, w := range casebook.Ways(5) {
		if names[w.Name] {
			t.Errorf("two ways are called %q", w.Name)
		}
		names[w.Name] = true
	}
	if ways := casebook.Ways(5); len(ways) < 20 || ways[0].Name != "as they stand" {
		t.Errorf("%d ways, the first %q", len(ways), ways[0].Name)
	}
}
