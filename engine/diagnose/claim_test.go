package diagnose

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"snagwise/engine/knowledge"
)

// Worked out by hand: odds of 4 and 1/4 squared are 16 and 1/16, whose chances
// add up to 1 as they are; what is alike cannot part; odds of 3/2, 3/2 and 1/9 to
// the power 1 stay.
func TestClaimsAreSharpened(t *testing.T) {
	for _, tt := range []struct {
		name       string
		power      float64
		told, want []float64
	}{
		{"two, squared", 2, []float64{.8, .2}, []float64{16. / 17, 1. / 17}},
		{"alike stay", 3, []float64{.25, .25, .25, .25}, []float64{.25, .25, .25, .25}},
		{"as they stand", 1, []float64{.6, .6, .1}, []float64{.6, .6, .1}},
		{"one that cannot be stays so", 2, []float64{.8, .2, 0}, []float64{16. / 17, 1. / 17, 0}},
	} {
		got := slices.Clone(tt.told)
		sharpen(got, tt.power)
		for i := range got {
			if math.Abs(got[i]-tt.want[i]) > 1e-9 {
				t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
				break
			}
		}
	}
}

func TestSharpeningKeepsOrderAndSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chances := rapid.SliceOfN(rapid.Float64Range(0, 1), 1, 40).Draw(t, "chances")
		power := rapid.Float64Range(1, 3).Draw(t, "power")
		slices.SortFunc(chances, func(a, b float64) int { return cmp.Compare(b, a) })
		got := slices.Clone(chances)
		sharpen(got, power)
		was, is := 0.0, 0.0
		for i, p := range got {
			was, is = was+chances[i], is+p
			if p < 0 || p > 1 || math.IsNaN(p) {
				t.Fatalf("%v to the power %v: got %v, want chances", chances, power, got)
			}
			if i > 0 && p > got[i-1]+1e-12 {
				t.Fatalf("%v to the power %v: got %v, want the same order", chances, power, got)
			}
		}
		if math.Abs(was-is) > 1e-6 {
			t.Fatalf("%v to the power %v: adds up to %v, want %v", chances, power, is, was)
		}
	})
}

// What people say may not belong to the trouble; what a check finds or a rule
// reads off a gauge has its own false alarm alone.
func TestOnlyWhatIsSeenIsMistold(t *testing.T) {
	set := Settings{}.withDefaults()
	for _, tt := range []struct {
		name string
		sign knowledge.Sign
		want float64
	}{
		{"seen", knowledge.Sign{Kind: knowledge.SeenSign}, 1 - (1-set.Leak)*(1-set.Mistold)},
		{"seen, with a false alarm", knowledge.Sign{Kind: knowledge.SeenSign, FalseAlarm: .15}, 1 - (1-math.Pow(.15, set.AlarmPower))*(1-set.Mistold)},
		{"found by a check", knowledge.Sign{Kind: knowledge.CheckSign}, set.CheckLeak},
		{"read off a gauge", knowledge.Sign{Kind: knowledge.ReadingSign, FalseAlarm: .02}, math.Pow(.02, set.AlarmPower)},
		{"vague", knowledge.Sign{Kind: knowledge.VagueSign}, set.VagueLeak},
	} {
		if got := leakOf(tt.sign, set); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
		}
	}
}
