package advise

// Laws that hold whatever the snag.

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// randomSnag draws a snag with all that can vary. Moves are closed under
// ways through a third state, and all states are harmless to be in.
func randomSnag(t *rapid.T) *Snag {
	n := rapid.IntRange(1, 8).Draw(t, "causes")
	seed := rapid.Uint64().Draw(t, "seed")
	r := rand.New(rand.NewPCG(seed, 5))
	s := &Snag{Help: float64(r.IntN(2)) * (20 + 200*r.Float64())}
	for i := range n {
		s.Causes = append(s.Causes, Cause{Minutes: 1 + 60*r.Float64()})
		s.Sets = append(s.Sets, Set{Causes: []int{i}, Weight: r.Float64()})
		if i > 0 {
			s.Sets = append(s.Sets, Set{Causes: []int{r.IntN(i), i}, Weight: .3 * r.Float64()})
		}
	}
	s.Sets = append(s.Sets, Set{Weight: .2*r.Float64() + .001})
	at := make([]float64, 3) // states on a line: every way is the shortest
	for i := range at {
		at[i] = 30 * r.Float64()
	}
	s.States = make([]State, len(at))
	for _, from := range at {
		row := make([]float64, len(at))
		for i, to := range at {
			row[i] = math.Abs(to - from)
		}
		s.Moves = append(s.Moves, row)
	}
	for range 1 + r.IntN(6) {
		c := Check{Minutes: 10 * r.Float64(), State: r.IntN(len(at)+1) - 1, CouldNotTell: float64(r.IntN(2)) * .4 * r.Float64()}
		if r.IntN(3) == 0 {
			c.Tools = []int{r.IntN(3)}
		}
		c.Hazard = Hazard(r.IntN(4)) * Hazard(r.IntN(2))
		found := make([][]float64, 1+r.IntN(3))
		for k := range found {
			found[k] = make([]float64, len(s.Sets))
			for i := range found[k] {
				found[k][i] = r.Float64()
			}
		}
		c.Outcomes = FirstFound(found)
		s.Checks = append(s.Checks, c)
	}
	return s
}

func draw(t *rapid.T) (*Snag, *Situation) {
	s := randomSnag(t)
	now := &Situation{State: rapid.IntRange(0, len(s.States)-1).Draw(t, "state"), Facts: watched()}
	return s, now
}

// TestUselessCheck: what says the same whatever is wrong saves nothing, alone
// or with another to follow.
func TestUselessCheck(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, now := draw(t)
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		row := make([]float64, len(s.Sets))
		for i := range row {
			row[i] = p
		}
		useless := Check{Minutes: rapid.Float64Range(0, 9).Draw(t, "minutes"), State: rapid.IntRange(-1, 2).Draw(t, "in"), Outcomes: splits(row...)}
		s.Checks = append(s.Checks, useless)
		for _, c := range mustNextRapid(t, s, now).Checks {
			if c.Check == len(s.Checks)-1 && (c.Saves > 1e-9 || c.Pays || c.Bits > 1e-9) {
				t.Fatalf("useless check: %+v", c)
			}
		}
	})
}

func mustNextRapid(t *rapid.T, s *Snag, now *Situation) *Advice {
	a, err := Next(s, now, Options{})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// TestFreeCheckDoesNoHarm: the value of information is never negative
// (S. Russell, P. Norvig, Artificial Intelligence: A Modern Approach, section
// 16.6, 3rd edition), so a check that costs no minutes saves 0 or more. Nor
// can any save more than inspecting in vain costs, and two deep is no worse
// than one. Outcomes have chance 1 in all, and so have the causes after each
// taken together, as far as sets are single.
func TestFreeCheckDoesNoHarm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, now := draw(t)
		a := mustNextRapid(t, s, now)
		for _, c := range a.Checks {
			if c.Saves+c.Minutes+c.SetUp < -1e-9 {
				t.Fatalf("check %d: saves %v before its own minutes, want 0 or more", c.Check, c.Saves+c.Minutes+c.SetUp)
			}
			if c.SavesAhead < c.Saves-1e-9 || c.SavesAhead > a.Minutes {
				t.Fatalf("check %d: saves %v, ahead %v of %v", c.Check, c.Saves, c.SavesAhead, a.Minutes)
			}
			var sum float64
			back := make([]float64, len(s.Causes))
			for _, o := range c.Outcomes {
				sum += o.Chance
				for _, share := range o.Causes {
					back[share.Cause] += o.Chance * share.Chance
				}
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Fatalf("check %d: outcomes have chance %v in all, want 1", c.Check, sum)
			}
			for _, i := range a.Inspections { // the mean of what is believed after is what is believed now
				if math.Abs(back[i.Cause]-i.Chance) > 1e-9 {
					t.Fatalf("check %d: cause %d comes to %v after, %v now", c.Check, i.Cause, back[i.Cause], i.Chance)
				}
			}
		}
	})
}

// TestUnknownNeverOpens: whatever is drawn, no check with a danger is offered
// while a fact that bars the danger is true or unknown, and a check that is
// barred by an unknown fact stays barred when the fact turns out true. Every
// check appears exactly once.
func TestUnknownNeverOpens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, now := draw(t)
		s.States[2] = State{Being: Running, Reach: Turning}
		now.Facts = nil
		for range rapid.IntRange(0, 4).Draw(t, "facts") {
			now.Facts = append(now.Facts, Fact{
				Known:  Truth(rapid.IntRange(-1, 1).Draw(t, "known")),
				Blocks: Hazard(rapid.IntRange(0, 15).Draw(t, "blocks")),
			})
		}
		a := mustNextRapid(t, s, now)
		var all []int
		for _, c := range a.Checks {
			all = append(all, c.Check)
			check := s.Checks[c.Check]
			danger := check.Hazard
			if check.State == 2 {
				danger |= Running
				if now.State != 2 {
					danger |= Turning
				}
			}
			for _, f := range now.Facts {
				if f.Known != False && f.Blocks&danger != 0 {
					t.Fatalf("check %d with danger %b offered against %+v", c.Check, danger, f)
				}
				danger &^= f.Blocks
			}
			if danger != 0 {
				t.Fatalf("check %d offered though nobody spoke of danger %b", c.Check, danger)
			}
		}
		for _, p := range a.Apart {
			all = append(all, p.Check)
		}
		for _, g := range a.Gated {
			all = append(all, g.Check)
		}
		slices.Sort(all)
		for i, c := range all {
			if i != c || len(all) != len(s.Checks) {
				t.Fatalf("checks listed: %v of %d", all, len(s.Checks))
			}
		}
		for i := range now.Facts {
			if now.Facts[i].Known == Unknown {
				now.Facts[i].Known = True
			}
		}
		if b := mustNextRapid(t, s, now); len(b.Gated) != len(a.Gated) {
			t.Fatalf("%d gated with facts unknown, %d with them true", len(a.Gated), len(b.Gated))
		}
	})
}

// TestSameInputSameBytes also turns the order of the tools round, which must
// not matter.
func TestSameInputSameBytes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, now := draw(t)
		now.Tools = []int{0, 2}
		one, err := json.Marshal(mustNextRapid(t, s, now).Checks)
		if err != nil {
			t.Fatal(err)
		}
		slices.Reverse(now.Tools)
		two, err := json.Marshal(mustNextRapid(t, s, now).Checks)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(one, two) {
			t.Fatalf("two answers:\n%s\n%s", one, two)
		}
	})
}

// TestScaleOfWeights: weights have no scale of their own, and a set that
// weighs nothing changes nothing.
func TestScaleOfWeights(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, now := draw(t)
		a := mustNextRapid(t, s, now)
		for i := range s.Sets {
			s.Sets[i].Weight *= 1024
		}
		if diff := cmp.Diff(a, mustNextRapid(t, s, now)); diff != "" {
			t.Fatalf("weights a thousand times larger (-before +after):\n%s", diff)
		}
	})
}
