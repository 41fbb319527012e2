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

// A tree with enough cuts sums what counting every configuration does.
func TestTreeAgreesWithConfigurations(t *testing.T) {
	tried, mostCuts := 0, 0
	scenes(t, func(v *view, s *solver, set []int32) {
		s.set(v, set, nil)
		defer s.clear()
		s.live, s.folded, s.coord = s.live[:0], s.folded[:0], s.coord[:0]
		s.fold()
		s.coordinates()
		if len(s.live) == 0 {
			return
		}
		want := s.run.sum(s)
		cuts := s.tree.plan(s)
		got := s.tree.sum(s, cuts, len(s.coord))
		rounding := 1e-14 // a difference of numbers this much larger
		for _, f := range s.coord {
			rounding *= math.Abs(f.flat) + math.Abs(f.steep)
		}
		tried, mostCuts = tried+1, max(mostCuts, cuts)
		if !(math.Abs(got-want) <= max(1e-9*want, rounding)) {
			t.Fatalf("set %v: tree with %d cuts %.15g, want %.15g as counted", set, cuts, got, want)
		}
	})
	if tried < 100 || mostCuts < 3 {
		t.Errorf("only %d scenes and at most %d cuts tried: the random bases are too simple", tried, mostCuts)
	}
}

// The chance of each state given all that is known is the same counted and
// by the tree.
func TestPresentAgrees(t *testing.T) {
	scenes(t, func(v *view, s *solver, set []int32) {
		s.set(v, set, nil)
		defer s.clear()
		s.live, s.folded, s.coord = s.live[:0], s.folded[:0], s.coord[:0]
		s.fold()
		s.back = true
		s.coordinates()
		if len(s.live) == 0 {
			return
		}
		s.run.sum(s)
		want := s.present(nil)
		clear(s.mass)
		clear(s.absent)
		s.tree.sum(s, s.tree.plan(s), len(s.coord))
		for i, got := range s.present(nil) {
			if !(math.Abs(got-want[i]) <= 1e-6) {
				t.Fatalf("set %v: state %d there with chance %v by tree, want %v", set, i, got, want[i])
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
