package hunt_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"snagwise/engine/diagnose"
	"snagwise/engine/hunt"
	"snagwise/engine/sheet"
)

// anyFact draws a thing that may be told.
func anyFact(t *rapid.T, e *diagnose.Engine) hunt.Fact {
	f := e.Fitted()
	sign := func(label string) string {
		return f.Signs[rapid.IntRange(0, len(f.Signs)-1).Draw(t, label)].ID
	}
	at := hunt.Moment{Phase: rapid.SampledFrom([]string{"", "crank", "idle", "run_up"}).Draw(t, "phase")}
	switch rapid.IntRange(0, 6).Draw(t, "kind") {
	case 0, 1:
		return hunt.Fact{Kind: hunt.Seen, Name: sign("sign"), At: at}
	case 2:
		return hunt.Fact{Kind: hunt.NotSeen, Name: sign("sign"), At: at}
	case 3:
		return hunt.Fact{Kind: hunt.Circumstance, Name: f.Circumstances[rapid.IntRange(0, len(f.Circumstances)-1).Draw(t, "circumstance")].ID}
	case 4:
		word := rapid.SampledFrom([]string{"low", "normal", "high", "unsteady"}).Draw(t, "word")
		name := rapid.SampledFrom([]string{"oil_pressure", "fuel_delivery_pressure", "engine_rpm", "bus_volts"}).Draw(t, "gauge")
		return hunt.Fact{Kind: hunt.Read, Name: name, Values: []string{word}, At: at}
	case 5:
		return anyStatement(t, e)
	}
	c := f.Checks[rapid.IntRange(0, len(f.Checks)-1).Draw(t, "check")]
	return hunt.Fact{Kind: hunt.Checked, Name: c.ID.Value, Shown: []string{f.Signs[c.Settles[0]].ID}}
}

// anyStatement draws something said of a part or a flow, as it is typed.
func anyStatement(t *rapid.T, e *diagnose.Engine) hunt.Fact {
	parts := e.Fitted().Rig.Parts
	name := func(label string) string { return parts[rapid.IntRange(0, len(parts)-1).Draw(t, label)].ID }
	of, typed := name("part"), []string{}
	switch rapid.IntRange(0, 5).Draw(t, "said") {
	case 0:
		typed = []string{of + ".leaks=" + rapid.SampledFrom([]string{"oil", "fuel", "water"}).Draw(t, "fluid"), of + ".how_much=drips"}
	case 1:
		typed = []string{of + ".changed=" + rapid.SampledFrom([]string{"cured", "no help", "worse"}).Draw(t, "outcome")}
	case 2:
		typed = []string{of + ".looked_at=" + rapid.SampledFrom([]string{"good", "black inside"}).Draw(t, "found")}
	case 3:
		typed = []string{of + ".felt=" + rapid.SampledFrom([]string{"hot", "cold", "loose"}).Draw(t, "feeling")}
	case 4:
		typed = []string{of + ".worked_on=refitted", of + ".when=" + rapid.SampledFrom([]string{"before this run", "long before"}).Draw(t, "when")}
	case 5:
		typed = []string{"fuel.good_as_far_as=" + of, "fuel.gone_at=" + name("gone")}
	}
	facts, wait, l := hunt.New(e, nil).Statements(typed)
	if len(l) > 0 || len(wait) > 0 || len(facts) != 1 {
		t.Fatalf("%q: %v, waiting %v, %v", typed, facts, wait, l)
	}
	return facts[0]
}

// told is a hunt in which facts were told, those left out that contradict what
// was told before.
func told(h *hunt.Hunt, facts []hunt.Fact) *hunt.Hunt {
	for i := range facts {
		if n := h.After(hunt.Record{Steps: []hunt.Step{{Tell: &facts[i]}}}); fits(n) {
			h = n
		}
	}
	return h
}

func fits(h *hunt.Hunt) bool {
	_, l := h.Account()
	return len(l) == 0
}

func account(t *rapid.T, h *hunt.Hunt) *sheet.Account {
	a, l := h.Account()
	if len(l) > 0 {
		t.Fatal(l)
	}
	return a
}

// state is all that a hunt shows of itself.
func state(h *hunt.Hunt) []any {
	return []any{h.Facts(), h.Moment(), h.Rig(), h.Slot(), h.End(), string(sheet.Format(h.Sheet(false)))}
}

// TestTakenBack: taking an answer back leaves exactly what was before it, and
// the same is asked.
func TestTakenBack(t *testing.T) {
	e := engineOf(t, "hollin")
	x := hunt.NewFinder(e.Fitted())
	rapid.Check(t, func(t *rapid.T) {
		h := hunt.New(e, nil)
		for range rapid.IntRange(0, 5).Draw(t, "told") {
			h = told(h, []hunt.Fact{anyFact(t, e)})
			if rapid.IntRange(0, 3).Draw(t, "moved") == 0 {
				h = h.After(hunt.Record{Steps: []hunt.Step{{Rig: rapid.SampledFrom([]string{"earthed", "cold", "running"}).Draw(t, "rig")}}})
			}
		}
		fact := anyFact(t, e)
		n := h.After(hunt.Record{Steps: []hunt.Step{{Tell: &fact}}})
		last := 0
		for _, f := range n.Facts() {
			last = max(last, f.N)
		}
		back := n.After(hunt.Record{Steps: []hunt.Step{{Take: last}}})
		if d := cmp.Diff(state(h), state(back)); d != "" {
			t.Fatalf("after taking %v back (-before +after):\n%s", fact, d)
		}
		was, l := h.Turn(x, hunt.Clock{})
		now, l2 := back.Turn(x, hunt.Clock{})
		if len(l)+len(l2) > 0 {
			t.Fatal(l, l2)
		}
		if d := cmp.Diff(was.Question, now.Question); d != "" {
			t.Errorf("another question after taking %v back:\n%s", fact, d)
		}
	})
}

// TestOrderOfAnswers: the order in which things are told changes neither what
// is known nor the ranking.
func TestOrderOfAnswers(t *testing.T) {
	e := engineOf(t, "hollin")
	rapid.Check(t, func(t *rapid.T) {
		h := hunt.New(e, nil)
		for range rapid.IntRange(1, 6).Draw(t, "told") {
			h = told(h, []hunt.Fact{anyFact(t, e)})
		}
		var facts []hunt.Fact
		for _, f := range h.Facts() { // those that hold: no two have one subject
			facts = append(facts, f.Fact)
		}
		other := told(hunt.New(e, nil), rapid.Permutation(facts).Draw(t, "order"))
		ids, chances, none := e.Ranked(account(t, h))
		ids2, chances2, none2 := e.Ranked(account(t, other))
		if d := cmp.Diff([]any{ids, chances, none}, []any{ids2, chances2, none2}); d != "" {
			t.Errorf("another order of %v: another ranking:\n%s", facts, d)
		}
	})
}

// TestRecordsAreTheHunt: what is read back from its records is the hunt that
// was left, question and all.
func TestRecordsAreTheHunt(t *testing.T) {
	e := engineOf(t, "hollin")
	x := hunt.NewFinder(e.Fitted())
	rapid.Check(t, func(t *rapid.T) {
		h := hunt.New(e, nil)
		for range rapid.IntRange(0, 4).Draw(t, "told") {
			h = told(h, []hunt.Fact{anyFact(t, e)})
			step := rapid.SampledFrom([]hunt.Step{
				{Rig: "earthed"}, {Want: "running"}, {Ask: "on"}, {Moment: &hunt.Moment{Phase: "idle", Levers: "booster=on"}},
				{Wait: []hunt.Pending{{Text: "white smok"}}}, {Done: true}, {Slot: "2026-08-15T15:00:00Z"},
			}).Draw(t, "step")
			h = h.After(hunt.Record{Said: "x", Steps: []hunt.Step{step}})
		}
		again := hunt.New(e, nil)
		for _, r := range h.Records() {
			text, err := json.Marshal(r)
			if err != nil {
				t.Fatal(err)
			}
			var back hunt.Record
			if err := json.Unmarshal(text, &back); err != nil {
				t.Fatal(err)
			}
			again = again.After(back)
		}
		a, l := h.Turn(x, hunt.Clock{})
		b, l2 := again.Turn(x, hunt.Clock{})
		if len(l)+len(l2) > 0 {
			t.Fatal(l, l2)
		}
		if d := cmp.Diff(state(h), state(again)); d != "" {
			t.Fatal(d)
		}
		if d := cmp.Diff(a.Question, b.Question); d != "" {
			t.Errorf("another question:\n%s", d)
		}
	})
}

// TestRigStandsStill: while nothing is told the rig is not moved to and fro: of
// the ways asked for one after another without an answer between them, there
// are at most two.
func TestRigStandsStill(t *testing.T) {
	e := engineOf(t, "hollin")
	x := hunt.NewFinder(e.Fitted())
	rapid.Check(t, func(t *rapid.T) {
		h := told(hunt.New(e, nil), []hunt.Fact{anyFact(t, e), anyFact(t, e)})
		for range 2 {
			for moves := 0; ; moves++ {
				turn, l := h.Turn(x, hunt.Clock{})
				if len(l) > 0 {
					t.Fatal(l)
				}
				q := turn.Question
				if q.About == hunt.Recall {
					h = h.After(hunt.Record{Steps: []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Left, Name: q.Waiting.Text, Values: []string{hunt.NotNow}}}}})
					moves = -1
					continue
				}
				if q.About != hunt.Moving {
					break
				}
				if moves == 2 {
					t.Fatalf("a third way, to %s, and nothing was told since the first", q.Move.To)
				}
				h = h.After(hunt.Record{Steps: []hunt.Step{{Rig: q.Move.To}}})
			}
			h = told(h, []hunt.Fact{anyFact(t, e)})
		}
	})
}

// TestNoRunningCheckInDanger: a check that wants the engine running or turned
// is asked for only when every danger that forbids it was looked for and is
// not there.
func TestNoRunningCheckInDanger(t *testing.T) {
	e := engineOf(t, "hollin")
	x := hunt.NewFinder(e.Fitted())
	rapid.Check(t, func(t *rapid.T) {
		h := told(hunt.New(e, nil), []hunt.Fact{anyFact(t, e), anyFact(t, e)})
		if rapid.Bool().Draw(t, "wanted") {
			h = h.After(hunt.Record{Steps: []hunt.Step{{Want: rapid.SampledFrom([]string{"running", "cranked"}).Draw(t, "state")}}})
		}
		for range 9 {
			turn, l := h.Turn(x, hunt.Clock{})
			if len(l) > 0 {
				t.Fatal(l)
			}
			q := turn.Question
			state := q.Check.RigState
			if q.About == hunt.Moving {
				state = q.Move.To
			}
			if state == "running" || state == "cranked" {
				for _, d := range e.Dangers(account(t, h)) {
					if (d.Running && state == "running" || d.Turning) && (d.So || !d.LookedAt) {
						t.Fatalf("%v asks for the rig %s while: %s (so %v, looked at %v)", q.About, state, d.Means, d.So, d.LookedAt)
					}
				}
			}
			var steps []hunt.Step
			switch q.About {
			case hunt.Moving:
				steps = []hunt.Step{{Rig: q.Move.To}}
			case hunt.Dangers:
				f := hunt.Fact{Kind: hunt.Checked, Name: q.Danger.ID, Denied: h.Denies(q.Danger)}
				if rapid.IntRange(0, 9).Draw(t, "danger") == 0 && len(q.Danger.Open) > 0 {
					f.Shown, f.Denied = q.Danger.Open[:1], nil
				}
				steps = []hunt.Step{{Tell: &f}}
			case hunt.Recall:
				steps = []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Left, Name: q.Waiting.Text, Values: []string{hunt.NotNow}}}}
			case hunt.Looking:
				steps = []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Left, Name: q.Check.ID, Values: []string{hunt.CouldNotTell}}}}
			default:
				return
			}
			if n := h.After(hunt.Record{Steps: steps}); fits(n) {
				h = n
				continue
			}
			return
		}
	})
}

// TestWayToRunning: asked to have the rig running, it asks for every danger
// that forbids it first and then walks the steps; one that is so, or could not
// be told, shuts the way.
func TestWayToRunning(t *testing.T) {
	e := engineOf(t, "hollin")
	x := hunt.NewFinder(e.Fitted())
	for _, answer := range []string{"none", "one is so", "could not tell"} {
		h := told(hunt.New(e, nil), []hunt.Fact{{Kind: hunt.Seen, Name: "black_smoke"}})
		h = h.After(hunt.Record{Steps: []hunt.Step{{Want: "running"}}})
		asked := 0
		for {
			turn, l := h.Turn(x, hunt.Clock{})
			if len(l) > 0 {
				t.Fatal(l)
			}
			q := turn.Question
			if q.About != hunt.Dangers || len(h.Forbids("running")) > 0 {
				if walked := q.About == hunt.Moving && q.Move.To == "running"; walked != (answer == "none") {
					t.Errorf("%s: asks %v for %q, way to running %v", answer, q.About, q.Move.To, walked)
				}
				break
			}
			asked++
			f := hunt.Fact{Kind: hunt.Checked, Name: q.Danger.ID, Denied: h.Denies(q.Danger)}
			switch answer {
			case "one is so":
				f.Shown, f.Denied = q.Danger.Open[:1], nil
			case "could not tell":
				f = hunt.Fact{Kind: hunt.Left, Name: q.Danger.ID, Values: []string{hunt.CouldNotTell}}
			}
			h = h.After(hunt.Record{Steps: []hunt.Step{{Tell: &f}}})
		}
		if forbids := len(h.Forbids("running")) > 0; forbids != (answer != "none") {
			t.Errorf("%s: forbids running: %v", answer, h.Forbids("running"))
		}
		if asked == 0 {
			t.Errorf("%s: no danger was asked for", answer)
		}
	}
}

// TestPlantedWrongAnswer: a wrong answer among right ones is pointed at, and
// taking it back leaves what would have been without it.
func TestPlantedWrongAnswer(t *testing.T) {
	e := engineOf(t, "hollin")
	right := []hunt.Fact{
		{Kind: hunt.Seen, Name: "cranks_no_fire"}, {Kind: hunt.Seen, Name: "strong_fuel_smell"}, {Kind: hunt.Seen, Name: "no_volts_at_coil"},
	}
	wrong := hunt.Fact{Kind: hunt.NotSeen, Name: "no_coil_buzz"} // "the coils did buzz"
	clean := told(hunt.New(e, nil), right)
	h := told(hunt.New(e, nil), []hunt.Fact{right[0], wrong, right[1], right[2]})
	found := 0
	for _, d := range h.Doubts() {
		if d.Name == wrong.Name {
			found = d.N
		}
	}
	if found == 0 {
		t.Fatalf("the wrong answer is not among the doubts %v", h.Doubts())
	}
	h = h.After(hunt.Record{Steps: []hunt.Step{{Take: found}}})
	a, l := h.Account()
	b, l2 := clean.Account()
	if len(l)+len(l2) > 0 {
		t.Fatal(l, l2)
	}
	ids, _, _ := e.Ranked(a)
	want, _, _ := e.Ranked(b)
	if d := cmp.Diff(want, ids); d != "" {
		t.Errorf("ranking after taking the wrong answer back:\n%s", d)
	}
}
