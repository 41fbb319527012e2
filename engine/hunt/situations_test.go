package hunt_test

import (
	"slices"
	"testing"

	"snagwise/cases"
	"snagwise/engine/hunt"
	"snagwise/engine/sheet"
)

// tenSnags are kept snags of all systems, and what a keeper would say first.
var tenSnags = []struct{ file, said string }{
	{"will_not_fire_no_buzz", "cranks well but won't fire"},
	{"dies_when_the_button_is_let_go", "dies when the button is let go"},
	{"both_fuel_pressures_low_at_idle", "fuel pressure low"},
	{"no_oil_pressure_cock_shut", "no oil pressure"},
	{"coolant_climbs_radiator_cold", "coolant climbing"},
	{"bottle_down_in_the_morning", "bottle down in the morning"},
	{"no_drop_on_one_magneto", "no mag drop on one side"},
	{"charge_does_not_reach_the_bus", "no charge"},
	{"first_exercise_slow", "prop slow to change"},
	{"click_and_no_turning", "starter just clicks"},
}

// A played hunt is how one of them went.
type played struct {
	answers int // checks and questions answered
	rank    int // of what was found, in the end, from 1; 0 for not listed
	first   int // answers until it led; -1 for never
}

// play goes through a kept snag as a keeper would who knows at first the one
// thing that he says, and who sees at each check what the snag showed: the
// signs of the case, or else those that its cause shows more often than not.
func play(t *testing.T, file, said string) played {
	text, err := cases.Files.ReadFile("situations/" + file + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	raw, l := sheet.Parse(file, text)
	if len(l) > 0 {
		t.Fatal(l)
	}
	e := engineOf(t, raw.Rig.Value)
	kept, l := e.Read(raw)
	if len(l) > 0 {
		t.Fatal(l)
	}
	f := e.Fitted()
	truth := map[string]bool{}
	shown := e.Shown(kept.Case.Found[0])
	for i, s := range f.Signs {
		truth[s.ID] = shown[i] > .5
	}
	for _, m := range kept.Moments {
		for _, s := range m.Signs {
			truth[f.Signs[s].ID] = true
		}
		for _, s := range m.NotSeen {
			truth[f.Signs[s].ID] = false
		}
	}
	for _, c := range kept.Case.Checks {
		for _, s := range c.Shown {
			truth[f.Signs[s].ID] = true
		}
		for _, s := range c.Denied {
			truth[f.Signs[s].ID] = false
		}
	}
	x := hunt.NewFinder(f)
	found := x.Find(said)
	if len(found) == 0 {
		t.Fatalf("%s: nothing goes by %q", file, said)
	}
	at := slices.IndexFunc(found, func(c hunt.Choice) bool { return c.Kind == hunt.Seen && truth[c.ID] })
	if at < 0 {
		at = slices.IndexFunc(found, func(c hunt.Choice) bool { return c.Kind == hunt.Seen })
	}
	h := hunt.New(e, nil)
	fact := h.Telling(found[at], hunt.Moment{}, false)
	h = h.After(hunt.Record{Steps: []hunt.Step{{Tell: &fact}}})
	p := played{first: -1}
	want := f.Base.Causes[kept.Case.Found[0]].ID
	for range 40 {
		turn, l := h.Turn(x, hunt.Clock{})
		if len(l) > 0 {
			t.Fatal(l)
		}
		p.rank = 0
		for i, c := range turn.Result.Causes {
			if c.ID == want {
				p.rank = i + 1
			}
		}
		if p.rank == 1 && p.first < 0 {
			p.first = p.answers
		}
		if p.rank == 1 && turn.Result.Causes[0].Chance >= .8 {
			break
		}
		q := turn.Question
		var step hunt.Step
		switch q.About {
		case hunt.Moving:
			step = hunt.Step{Rig: q.Move.To}
		case hunt.Dangers:
			p.answers++
			a := hunt.Fact{Kind: hunt.Checked, Name: q.Danger.ID, Denied: h.Denies(q.Danger)}
			for _, id := range q.Danger.Open {
				if truth[id] {
					a.Shown, a.Denied = append(a.Shown, id), nil
				}
			}
			step = hunt.Step{Tell: &a}
		case hunt.Recall:
			p.answers++
			steps := []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Left, Name: q.Waiting.Text, Values: []string{hunt.NotNow}}}}
			for _, o := range q.Options {
				f := h.Telling(o.Choice, hunt.Moment{}, !truth[o.ID])
				steps = append(steps, hunt.Step{Tell: &f})
			}
			h = h.After(hunt.Record{Steps: steps})
			continue
		case hunt.Looking:
			p.answers++
			a := hunt.Fact{Kind: hunt.Checked, Name: q.Check.ID}
			for _, o := range q.Options {
				if o.Kind == hunt.Seen && truth[o.ID] {
					a.Shown = append(a.Shown, o.ID)
				}
			}
			if len(a.Shown) == 0 {
				for _, o := range q.Options {
					if o.Kind == hunt.Seen {
						a.Denied = append(a.Denied, o.ID)
					}
				}
			}
			step = hunt.Step{Tell: &a}
		default:
			return p
		}
		h = h.After(hunt.Record{Steps: []hunt.Step{step}})
	}
	return p
}

// TestTenSnags: from one thing said, a keeper who answers what is asked comes
// to what was found, and soon.
func TestTenSnags(t *testing.T) {
	if testing.Short() {
		t.Skip("ten whole hunts take ten seconds")
	}
	led, all := 0, 0
	for _, s := range tenSnags {
		p := play(t, s.file, s.said)
		t.Logf("%-34s rank %d after %d answers, led after %d", s.file, p.rank, p.answers, p.first)
		if p.rank == 1 {
			led++
		}
		all += p.answers
	}
	// Measured on 2026-11-25: ten led, 95 answers; without the questions from
	// memory and those about dangers asked first, eight and 175.
	if led < 9 {
		t.Errorf("%d of %d led in the end, want 9", led, len(tenSnags))
	}
	if all > 12*len(tenSnags) {
		t.Errorf("%d answers in all, want at most 12 a snag", all)
	}
}
