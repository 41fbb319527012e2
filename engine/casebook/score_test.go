package casebook_test

import (
	"math"
	"testing"

	"snagwise/engine/casebook"
)

// The real accounts are faults told in public, each with the cause that was
// found; the address of each stands in its file under source. The published ones
// are a sample apart, from which no rule was written.
func TestScoreIsNotBelowWhatIsRecorded(t *testing.T) {
	if testing.Short() {
		t.Skip("ranks every kept case and would take minutes with the race detector, for which -short is there")
	}
	scores := scored(t, kept(t, "published", "real", "situations"), usual(t))
	groups := casebook.Report(scores)
	for _, g := range groups {
		if g.Whole() {
			m := g.Measures
			t.Logf("%-16s %d cases: first %.3f, among three %.3f, among five %.3f, mean reciprocal rank %.3f; Brier %.3f; says %.2f, is %.2f; the commonest first: among three %.3f, mean reciprocal rank %.3f",
				g.Name, m.N, m.Top1, m.Top3, m.Top5, m.MRR, m.Brier, m.Says, m.Is, g.ByFrequency.Top3, g.ByFrequency.MRR)
			if m.MRR <= g.ByFrequency.MRR {
				t.Errorf("%s: mean reciprocal rank %.3f, no better than the commonest first with %.3f", g.Name, m.MRR, g.ByFrequency.MRR)
			}
		}
	}
	for _, what := range recorded(t).Below(groups) {
		t.Error(what)
	}
}

func TestARecordIsHeldAgainstWhatIsReached(t *testing.T) {
	group := casebook.Group{Name: "real, all", Measures: casebook.Measures{N: 10, Top1: .5, Top3: .7, MRR: .6}}
	r := &casebook.Record{Groups: casebook.Floors([]casebook.Group{group})}
	back, l := casebook.ReadRecord("recorded.yaml", []byte(r.Text()))
	if len(l) > 0 {
		t.Fatal(l)
	}
	group.Measures.Top1 -= .1 // one case of slack
	if got := back.Below([]casebook.Group{group}); len(got) > 0 {
		t.Errorf("one case fewer: %q, want no complaint", got)
	}
	group.Measures.Top1 -= .1
	if got := back.Below([]casebook.Group{group}); len(got) != 1 {
		t.Errorf("two cases fewer: %q, want one complaint", got)
	}
	group.Name = "other"
	if got := back.Below([]casebook.Group{group}); len(got) != 1 {
		t.Errorf("a group of which nothing is recorded: %q, want one complaint", got)
	}
}

// Worked out by hand: two commoner, then three alike of which one is right, so
// that it stands at 3, 4 or 5, each in a third of the orders; and two of four
// alike, of which the first right one stands at 1, 2 or 3 with 1/2, 1/3, 1/6.
func TestTiesAreBrokenInAllWays(t *testing.T) {
	for _, tt := range []struct {
		name     string
		levels   [][]string
		accepted []string
		want     casebook.Expected
	}{
		{"one of three after two", [][]string{{"a", "b"}, {"c", "d", "e"}}, []string{"d"},
			casebook.Expected{Top1: 0, Top3: 1. / 3, Top5: 1, MRR: (1./3 + 1./4 + 1./5) / 3}},
		{"two of four", [][]string{{"a", "b", "c", "d"}}, []string{"a", "d"},
			casebook.Expected{Top1: .5, Top3: 1, Top5: 1, MRR: 1./2 + 1./6 + 1./18}},
		{"none", [][]string{{"a"}}, []string{"b"}, casebook.Expected{}},
	} {
		got := casebook.Expect(tt.levels, tt.accepted...)
		for _, k := range [][2]float64{{got.Top1, tt.want.Top1}, {got.Top3, tt.want.Top3}, {got.Top5, tt.want.Top5}, {got.MRR, tt.want.MRR}} {
			if math.Abs(k[0]-k[1]) > 1e-12 {
				t.Errorf("%s: got %+v, want %+v", tt.name, got, tt.want)
				break
			}
		}
	}
}
