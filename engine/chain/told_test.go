// What was told against what rules conclude.
package chain

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snagwise/engine/condition"
)

// What was told stands over what rules conclude, moment by moment, and is
// taken back by telling Unknown.
func TestToldStandsOverConcluded(t *testing.T) {
	b := parse(t, "smoke <- r_oil > 3\nworn <- smoke")
	smoke, worn := b.name(t, "smoke"), b.slot(t, "worn")
	w := b.scope.NewWorld(3)
	for m, v := range []float64{1, 5, 5} {
		w.Moments[m].Num[0] = v
	}
	s := b.plan(t).Start(w)
	s.Run()
	check := func(what string, want []condition.Truth, wantWorn condition.Truth) {
		t.Helper()
		got := []condition.Truth{s.Truth(Whole, smoke.Slot)}
		for m := range w.Moments {
			got = append(got, s.Truth(m, smoke.Slot))
		}
		if !slices.Equal(got, want) || s.Truth(Whole, worn) != wantWorn {
			t.Errorf("%s: smoke %v, worn %v, want %v, %v", what, got, s.Truth(Whole, worn), want, wantWorn)
		}
	}
	check("nothing told", []condition.Truth{yes, no, yes, yes}, yes)
	s.Tell(1, smoke.Slot, no)
	s.Update(smoke)
	check("denied once", []condition.Truth{yes, no, no, yes}, yes)
	s.Tell(Whole, smoke.Slot, no)
	s.Update(smoke)
	check("denied throughout", []condition.Truth{no, no, no, yes}, no)
	want := []Disagreement{
		{ID: "smoke", Slot: smoke.Slot, Moment: Whole, Told: no, Concluded: yes, Rules: []string{"smoke"}},
		{ID: "smoke", Slot: smoke.Slot, Moment: 1, Told: no, Concluded: yes, Rules: []string{"smoke"}},
	}
	if diff := cmp.Diff(want, s.Disagreements()); diff != "" {
		t.Errorf("disagreements (-want +got):\n%s", diff)
	}
	s.Tell(Whole, smoke.Slot, open)
	s.Tell(1, smoke.Slot, open)
	s.Update(smoke)
	check("taken back", []condition.Truth{yes, no, yes, yes}, yes)
	s.Tell(2, worn, no) // its rule cannot say at which moment
	s.Update(b.name(t, "worn"))
	check("conclusion denied", []condition.Truth{yes, no, yes, yes}, no)
	if got := s.Disagreements(); len(got) != 1 || got[0].ID != "worn" || got[0].Moment != 2 || got[0].Concluded != yes {
		t.Errorf("disagreements %+v, want one on worn at moment 2", got)
	}
	s.Tell(2, worn, open)
	s.Update(b.name(t, "worn"))
	if got := s.Disagreements(); len(got) != 0 {
		t.Errorf("disagreements after taking back: %v, want none", got)
	}
}

// A thing told that the rules cannot decide is no disagreement.
func TestToldWhereRulesDoNotKnow(t *testing.T) {
	b := parse(t, "smoke <- r_oil > 3\nworn <- smoke\nhot <- r_oil > 3 | r_speed > 2")
	s := b.plan(t).Start(b.scope.NewWorld(1))
	s.World.Moments[0].Num[b.name(t, "r_speed").Slot] = 1 // "hot" has no say
	b.tell(t, s, "smoke hot")
	s.Run()
	if got, want := b.closure(s), "hot smoke worn"; got != want {
		t.Errorf("closure %q, want %q", got, want)
	}
	if got := s.Disagreements(); len(got) != 0 {
		t.Errorf("disagreements %v, want none", got)
	}
}
