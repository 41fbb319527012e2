package simulate

import (
	"math"
	"testing"

	"snagwise/engine/hunt"
)

// TestRoomAsksAsTheHunt: what is played is what the hunt at the trailer asks, from
// a whole turn, at every step of some hunts.
func TestRoomAsksAsTheHunt(t *testing.T) {
	m := NewMemory()
	questions := map[hunt.Topic]int{}
	for n := range uint64(4) {
		w := drawn(demo()[n%2], n, 31, 0)
		x := hunt.NewFinder(w.rig.fitted)
		steps := 0
		play(w, func(h *Hunt) (Act, bool) {
			act, ok := m.Room(h)
			if steps++; steps > 8 || len(h.absent) > 0 || h.world != w {
				return act, ok
			}
			turn, l := hunt.New(w.rig.engine, nil).After(h.record()).Turn(x, hunt.Clock{})
			if len(l) > 0 {
				t.Fatal(l)
			}
			q := turn.Question
			questions[q.About]++
			switch q.About {
			case hunt.Recall:
				if len(act.Recall) != len(q.Options) {
					t.Errorf("hunt %d: %d signs are asked for from memory, want %d", n, len(act.Recall), len(q.Options))
				}
			case hunt.Moving:
				if act.Check < 0 && w.rig.states[act.State] != q.Move.To {
					t.Errorf("hunt %d: moved to %s, want %s", n, w.rig.states[act.State], q.Move.To)
				}
			case hunt.Looking:
				if act.Check < 0 || w.rig.fitted.Checks[act.Check].ID.Value != q.Check.ID {
					t.Errorf("hunt %d: does %v, want %s", n, act, q.Check.ID)
				}
			}
			return act, ok
		}, budget)
	}
	if questions[hunt.Recall] == 0 || questions[hunt.Looking] < 4 {
		t.Errorf("asked %v, want questions from memory and looks", questions)
	}
}

// TestKnowingTakesLeast: who knows the fault takes, over some hunts, fewer minutes
// than any who looks for it, and "over all" is the mean of all hunts.
func TestKnowingTakesLeast(t *testing.T) {
	r, err := plan(t, 12).Run()
	if err != nil {
		t.Fatal(err)
	}
	all := r.Group(OverAll)
	for _, row := range all.Rows {
		if least := all.Row(ByKnowing).Minutes; row.Strategy != ByKnowing && row.Minutes <= least {
			t.Errorf("%s takes %v minutes, who knows the fault %v", row.Strategy, row.Minutes, least)
		}
		sum, n := 0.0, 0
		for _, g := range r.Groups {
			if g.Name != OverAll {
				sum += float64(g.Hunts) * g.Row(row.Strategy).Minutes
				n += g.Hunts
			}
		}
		if mean := sum / float64(n); n != all.Hunts || math.Abs(mean-row.Minutes) > .1 { // both rounded
			t.Errorf("%s over all %d hunts: %v minutes, want %v of %d", row.Strategy, all.Hunts, row.Minutes, mean, n)
		}
	}
}

// TestSmallRows: every way through the small problems is told beside the best,
// none is better, and what the best saves follows from the two.
func TestSmallRows(t *testing.T) {
	p := plan(t, 0)
	p.Small = 3
	s := p.small()
	if len(s.Rows) != len(Names()) {
		t.Fatalf("%d rows, want %d", len(s.Rows), len(Names()))
	}
	for _, row := range s.Rows {
		if row.Ratio < 1 || row.Minutes < s.Minutes {
			t.Errorf("%s takes %v minutes, %v of the best way's %v", row.Strategy, row.Minutes, row.Ratio, s.Minutes)
		}
		if got, want := s.BestSaves(row.Strategy), 1-s.Minutes/row.Minutes; math.Abs(got-want) > .005 {
			t.Errorf("the best way saves %v of %s, want %v", got, row.Strategy, want)
		}
	}
}
