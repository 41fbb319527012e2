package rank

import (
	"math"
	"testing"
)

// scenes calls do for sets of one and two on random bases whose states are
// few enough to be counted out, but do lead to each other in many ways.
func scenes(t *testing.T, do func(v *view, s *solver, set []int32)) {
	z := size{causes: 40, states: 16, signs: 30, given: 2, leads: 2.5, span: 8, shows: 6, words: 3}
	for seed := range uint64(4) {
		n := mustBuild(t, z.random(seed), Options{})
		for sheet := range uint64(3) {
			v := n.viewOf(n.sheet(sheet, 9))
			s := newSolver(v)
			for c := range int32(39) {
				do(v, s, []int32{c})
				do(v, s, []int32{c, c + 1})
			}
		}
	}
}

// prepared readies the scene of a set for summing; it says whether there is
// anything to sum.
func (s *solver) prepared(v *view, set []int32) bool {
	s.set(v, set, nil)
	s.live, s.folded, s.coord = s.live[:0], s.folded[:0], s.coord[:0]
	s.fold()
	s.coordinates()
	s.mass, s.absent = resized(s.mass, len(s.live)), resized(s.absent, len(s.live))
	return len(s.live) > 0
}

// Summing the states out one after another gives what counting every
// configuration does.
func TestSumAgreesWithEveryConfiguration(t *testing.T) {
	tried, most := 0, 0
	scenes(t, func(v *view, s *solver, set []int32) {
		defer s.clear()
		if !s.prepared(v, set) {
			return
		}
		var every enumeration
		want := every.sum(s)
		s.run.plan(s, 0)
		got := s.run.sum(s)
		rounding := 1e-14 // a difference of numbers this much larger
		for _, f := range s.coord {
			rounding *= math.Abs(f.flat) + math.Abs(f.steep)
		}
		tried, most = tried+1, max(most, len(s.live))
		if !(math.Abs(got-want) <= max(1e-9*want, rounding)) {
			t.Fatalf("set %v: %.15g, want %.15g as counted", set, got, want)
		}
	})
	if tried < 100 || most < 8 {
		t.Errorf("only %d scenes of at most %d states tried: the random bases are too simple", tried, most)
	}
}

// The chance of each state given all that is known is the same counted and
// summed out.
func TestPresentAgrees(t *testing.T) {
	scenes(t, func(v *view, s *solver, set []int32) {
		defer s.clear()
		s.back = true
		if !s.prepared(v, set) {
			return
		}
		var every enumeration
		every.sum(s)
		want := s.present(nil)
		clear(s.mass)
		clear(s.absent)
		s.run.plan(s, 0)
		s.run.sum(s)
		for i, got := range s.present(nil) {
			if !(math.Abs(got-want[i]) <= 1e-6) {
				t.Fatalf("set %v: state %d there with chance %v summed out, want %v", set, i, got, want[i])
			}
		}
		s.back = false
	})
}

// On bases of a realistic number of causes whose states can still be counted
// out, the budget changes no chance by more than 1e-6.
func TestBudgetedIsUnbudgeted(t *testing.T) {
	z := size{causes: 120, states: 60, signs: 300, given: 2, leads: .8, span: 20, shows: 6, words: 5}
	for seed := range uint64(3) {
		b := z.random(seed)
		budgeted := mustBuild(t, b, Options{FullSets: 1 << 20})
		whole := mustBuild(t, b, Options{FullSets: 1 << 20, Unbudgeted: true})
		e := budgeted.sheet(seed, 12)
		got, want := budgeted.Posterior(e), whole.Posterior(e)
		near(t, "none", got.None, want.None, 1e-6)
		for _, c := range want.Causes {
			near(t, "chance", got.chanceOf(c.ID), c.Chance, 1e-6)
		}
	}
}

// Where there are far too many ways for states to be, the budget costs
// little: no chance among those that matter moves by more than .05.
func TestBudgetCosts(t *testing.T) {
	if testing.Short() {
		t.Skip("sums millions of configurations")
	}
	b := realistic.random(1)
	usual := mustBuild(t, b, Options{})
	wide := mustBuild(t, b, Options{Budget: 1 << 16, FullSets: 1000})
	for seed := range uint64(3) {
		e := usual.sheet(seed, 15)
		got, want := usual.Posterior(e), wide.Posterior(e)
		for _, c := range want.Causes[:20] {
			near(t, "chance", got.chanceOf(c.ID), c.Chance, .05)
		}
	}
}
