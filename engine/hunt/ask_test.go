package hunt_test

import (
	"slices"
	"testing"

	"snagwise/engine/hunt"
)

// TestALookNamesWhatItIsFor: a check that looks straight at a cause offers what
// settles that cause as an answer, however many other signs the check settles.
// Denying what is not offered would clear nothing.
func TestALookNamesWhatItIsFor(t *testing.T) {
	looks := 0
	for _, s := range tenSnags {
		k := keeperOf(t, "situations/"+s.file+".yaml")
		k.saying(t, s.said)
		e := k.h.Engine()
		for range 6 {
			turn, l := k.h.Turn(k.x, hunt.Clock{})
			if len(l) > 0 {
				t.Fatal(l)
			}
			q := turn.Question
			if q.About == hunt.Looking && q.Check.Inspects != "" {
				cause := e.Fitted().Base.Cause(q.Check.Inspects)
				f := e.Findings()[cause]
				if f.Sign >= 0 && slices.Contains(f.Checks, e.Fitted().Check(q.Check.ID)) {
					looks++
					id := e.Fitted().Signs[f.Sign].ID
					if !slices.ContainsFunc(q.Options, func(o hunt.Option) bool { return o.ID == id }) {
						t.Errorf("%s: %s looks at %s and does not ask for %s", s.file, q.Check.ID, q.Check.Inspects, id)
					}
				}
			}
			if !k.answer(&q) {
				break
			}
		}
	}
	if looks < 5 {
		t.Errorf("%d looks straight at a cause, want at least 5 to tell anything", looks)
	}
}

// TestHeldBackLooksAreOpened: where the looks that would tell most are held back
// by dangers nobody looked for, the dangers are asked for before the hunt closes.
func TestHeldBackLooksAreOpened(t *testing.T) {
	k := keeperOf(t, "situations/charge_does_not_reach_the_bus.yaml")
	k.saying(t, "no charge")
	asked := false
	for range 30 {
		turn, l := k.h.Turn(k.x, hunt.Clock{})
		if len(l) > 0 {
			t.Fatal(l)
		}
		asked = asked || turn.Question.About == hunt.Dangers
		if turn.Question.About == hunt.Closing && !asked {
			t.Fatalf("closed with %d dangers not asked for", len(turn.Ask))
		}
		if !k.answer(&turn.Question) {
			break
		}
	}
	if !asked {
		t.Error("no danger was asked for")
	}
}
