package diagnose_test

// What was told counts, however it was told: common practice of those who write
// down what another says, no source.

import (
	"strings"
	"testing"

	"snagwise/engine/diagnose"
)

// chanceOf returns the chance of a cause, and whether a sign or statement whose
// words hold a text speaks for it.
func chanceOf(r *diagnose.Result, cause, text string) (float64, bool) {
	for _, c := range r.Causes {
		if c.ID != cause {
			continue
		}
		for _, f := range c.For {
			if strings.Contains(f.ID, text) || strings.Contains(f.Means, text) {
				return c.Chance, true
			}
		}
		return c.Chance, false
	}
	return 0, false
}

func TestAVagueWordToldOfAnotherMomentIsNotLost(t *testing.T) {
	e := engine(t, "teasel")
	at := func(phase string) (float64, bool) {
		r := e.Diagnose(read(t, e, "rig: teasel\nmoments:\n  - phase: "+phase+"\n    symptoms: [compression_poor_one]\n"), diagnose.Situation{})
		return chanceOf(r, "valve_burnt", "compression_poor_one")
	}
	for _, phase := range []string{"stopped", "display"} {
		if p, said := at(phase); !said {
			t.Errorf("poor compression told at %s: a burnt valve has chance %.3f and nothing of it speaks for it", phase, p)
		}
	}
}

func TestWhereItLeaksCountsBesideThatItLeaks(t *testing.T) {
	e := engine(t, "hollin")
	r := e.Diagnose(read(t, e, "rig: hollin\nmoments:\n  - phase: display\n    symptoms: [oil_leak_any]\nparts:\n  - {part: oil_cooler, leaks: oil}\n"), diagnose.Situation{})
	p, said := chanceOf(r, "oil_cooler_leak", "leaks oil")
	if !said {
		t.Errorf("the cooler is told to leak: its leak has chance %.3f and the place does not speak for it", p)
	}
	if other, _ := chanceOf(r, "front_seal_leak", ""); p <= other {
		t.Errorf("the cooler is told to leak: its leak has chance %.3f, the front seal %.3f", p, other)
	}
}

func TestWhoCallsItLowHasSeenSome(t *testing.T) {
	e := engine(t, "teasel")
	r := e.Diagnose(read(t, e, "rig: teasel\nmoments:\n  - phase: display\n    readings: {oil_pressure: normal}\n  - phase: idle\n    readings: {oil_pressure: low}\n"), diagnose.Situation{})
	if p, said := chanceOf(r, "bearings_worn", "oil_press_low_idle_hot"); !said {
		t.Errorf("low at idle, right at power: worn bearings have chance %.3f and that does not speak for them", p)
	}
	r = e.Diagnose(read(t, e, "rig: teasel\nmoments:\n  - phase: display\n    readings: {oil_pressure: normal}\n  - phase: idle\n    readings: {oil_pressure: [low, none]}\n"), diagnose.Situation{})
	if _, said := chanceOf(r, "bearings_worn", "oil_press_low_idle_hot"); said {
		t.Error("none at idle counts as low at hot idle")
	}
}
