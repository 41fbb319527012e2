package hunt_test

import (
	"math"
	"testing"

	"snagwise/engine/hunt"
)

// turnWith is a turn of a hunt in which signs were seen.
func turnWith(t *testing.T, clock hunt.Clock, ids ...string) *hunt.Turn {
	t.Helper()
	e := engineOf(t, "hollin")
	h := hunt.New(e, nil)
	for _, id := range ids {
		h = h.After(hunt.Record{Steps: []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Seen, Name: id}}}})
	}
	turn, l := h.Turn(hunt.NewFinder(e.Fitted()), clock)
	if len(l) > 0 {
		t.Fatal(l)
	}
	return turn
}

// TestChecksPayOff: no check is offered that, done, leaves no time to cure any
// of the causes that it may put first and warm the engine up, by the figures
// of the rules.
func TestChecksPayOff(t *testing.T) {
	e := engineOf(t, "hollin")
	b := e.Fitted().Base
	offered := 0
	for _, left := range []float64{120, 40, 20, 12, 6, 0, -5} {
		turn := turnWith(t, hunt.Clock{Set: true, Left: left}, "cranks_no_fire", "no_coil_buzz")
		checks := turn.Others
		if turn.Question.Check.ID != "" {
			checks = append(checks, turn.Question.Check)
		}
		for _, c := range checks {
			offered++
			least := math.Inf(1)
			for _, a := range c.Answers {
				for _, id := range a.Leads {
					k := &b.Causes[b.Cause(id)]
					switch {
					case k.RunOn == "note" || k.RunOn == "finish the run":
						least = 0
					case k.Who == "operator":
						least = math.Min(least, math.Max(k.RemedyMinutes, 5))
					}
				}
			}
			if c.Inspects != "" {
				least = 0
			}
			if c.Minutes+least > left {
				t.Errorf("%v minutes left: %s takes %v and the least cure %v", left, c.ID, c.Minutes, least)
			}
		}
		if left <= 0 && len(checks) > 0 {
			t.Errorf("%v minutes left and %d checks offered", left, len(checks))
		}
	}
	if offered == 0 {
		t.Error("no check was offered at all")
	}
}

// TestStandDown: the last moment to stand down comes nearer as the clock runs,
// one minute a minute, and past it the answer is not today.
func TestStandDown(t *testing.T) {
	long := turnWith(t, hunt.Clock{Set: true, Left: 90}, "cranks_no_fire", "no_coil_buzz", "no_volts_at_coil").Verdict
	if !long.Possible || long.Stand <= 0 || long.Stand >= 90-long.Way {
		t.Fatalf("90 minutes: stand down in %v, possible %v, warm-up %v", long.Stand, long.Possible, long.Way)
	}
	if len(long.NotToday) > 0 {
		t.Errorf("90 minutes: not today: %v", long.NotToday)
	}
	late := turnWith(t, hunt.Clock{Set: true, Left: 3}, "cranks_no_fire", "no_coil_buzz", "no_volts_at_coil").Verdict
	if late.Stand >= 0 || len(late.NotToday) == 0 {
		t.Errorf("3 minutes: stand down in %v, not today %v", late.Stand, late.NotToday)
	}
}

// TestRunOn: nothing is run on with while something must be done at once, a
// danger was not looked for, or too little is known; never on silence.
func TestRunOn(t *testing.T) {
	for _, ids := range [][]string{{}, {"black_smoke"}, {"knock_heavy"}, {"fuel_leak_seen"}, {"oil_press_none"}} {
		v := turnWith(t, hunt.Clock{Set: true, Left: 30}, ids...).Verdict
		if v.RunOn == hunt.InsideReduced {
			t.Errorf("%v: running on inside reduced limits, want no", ids)
		}
	}
	// All dangers looked for, and a cause that lets a run be finished.
	e := engineOf(t, "hollin")
	h := hunt.New(e, nil)
	a, l := h.Account()
	if len(l) > 0 {
		t.Fatal(l)
	}
	for _, d := range e.Dangers(a) {
		if !d.LookedAt {
			f := hunt.Fact{Kind: hunt.Checked, Name: d.ID, Denied: h.Denies(hunt.Danger{ID: d.ID})}
			h = h.After(hunt.Record{Steps: []hunt.Step{{Tell: &f}}})
		}
	}
	h = h.After(hunt.Record{Steps: []hunt.Step{
		{Tell: &hunt.Fact{Kind: hunt.Seen, Name: "air_bottle_falls_overnight"}}, {Tell: &hunt.Fact{Kind: hunt.Circumstance, Name: "cold_day"}},
	}})
	turn, l := h.Turn(hunt.NewFinder(e.Fitted()), hunt.Clock{Set: true, Left: 30})
	if len(l) > 0 {
		t.Fatal(l)
	}
	if turn.Verdict.RunOn != hunt.InsideReduced {
		t.Errorf("a cold bottle, all dangers looked for: %v because %v, want inside reduced limits", turn.Verdict.RunOn, turn.Verdict.RunOnWhy)
	}
}
