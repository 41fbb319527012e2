package diagnose_test

import (
	"maps"
	"testing"
)

// A part that was changed amounts to the trial that its kind, or what goes by
// its name, has for the outcome; one of a pair does not, since the other was not
// changed. Source: none needed; it is one thing told in two ways.
func TestAPartChangedIsTheTrialOfIt(t *testing.T) {
	e := engine(t, "hollin")
	chancesOf := func(told string) map[string]float64 {
		return chances(e, read(t, e, "rig: hollin\nmoments:\n  - phase: display\n    symptoms: [runs_hot_any]\n"+told))
	}
	nothing := chancesOf("")
	for _, tt := range []struct{ part, trial string }{
		{"parts: [{part: thermostat, changed: no better}]\n", "trials: [thermostat_changed_no_change]\n"},
		{"parts: [{part: thermostat, changed: cured}]\n", "trials: [thermostat_changed_cured]\n"},
		{"parts: [{part: points, changed: no better}]\n", "trials: [points_cleaned_no_change]\n"},
	} {
		got, want := chancesOf(tt.part), chancesOf(tt.trial)
		if !maps.Equal(got, want) {
			t.Errorf("%s is not the same as %s", tt.part, tt.trial)
		}
		if maps.Equal(got, nothing) {
			t.Errorf("%s weighs nothing", tt.part)
		}
	}
	one := chancesOf("parts: [{part: magneto_left, changed: no better}]\n")
	if maps.Equal(one, chancesOf("trials: [magneto_changed_no_change]\n")) || maps.Equal(one, nothing) {
		t.Error("one magneto changed must weigh, and not as if both were proved")
	}
}
