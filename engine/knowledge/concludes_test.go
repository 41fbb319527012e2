package knowledge

import (
	"os"
	"slices"
	"testing"

	"snagwise/engine/rig"
)

// A rule may conclude a sign of another name: it adds to that sign's own rule,
// and what the sign means and can be told by stays as it is.
func TestARuleAddsToASignOfAnotherName(t *testing.T) {
	const more = "system: fuel\nreadings:\n" +
		"  - {id: fuel_drop, means: drop over the filter, quantity: pressure difference, unit: psi, computed: true}\n" +
		"rules:\n  - {id: drop_by_sum, concludes: drop_wide, when: fuel_drop > psi(2), means: wide by the sum, phases: [idle], source: practice}\n"
	bare, _ := sound(t, nil)
	base, rigs := sound(t, map[string]string{"a_first.yaml": more})
	s, was := base.Signs[base.Sign("drop_wide")], bare.Signs[bare.Sign("drop_wide")]
	if s.Means != was.Means || s.Kind != was.Kind || len(s.Readings) != len(was.Readings) || s.FalseAlarm != was.FalseAlarm {
		t.Errorf("the sign is %+v, want %+v", s, was)
	}
	if base.Sign("drop_by_sum") >= 0 {
		t.Error("the rule made a sign of its own name")
	}
	var ids []string
	for _, i := range s.Rules {
		r := base.Rules[i]
		ids = append(ids, r.ID)
		if r.Slot != s.Slot || r.Quiet != (r.ID == "drop_by_sum") {
			t.Errorf("rule %s: slot %d, quiet %v", r.ID, r.Slot, r.Quiet)
		}
	}
	if want := []string{"drop_wide", "drop_by_sum"}; !slices.Equal(ids, want) {
		t.Errorf("rules %v conclude it, want %v", ids, want)
	}
	for _, id := range []string{"plain", "other"} {
		if got, want := signsOn(base.On(rigs[id])), signsOn(bare.On(rigs[id])); !slices.Equal(got, want) {
			t.Errorf("%s: signs %v, want %v", id, got, want)
		}
	}
	if rd := base.Readings[base.Reading("fuel_drop")]; !rd.Computed {
		t.Error("the reading is not marked as computed")
	}
}

func TestWrongConclusionsAreRefused(t *testing.T) {
	fsys := os.DirFS("testdata/sound")
	kinds, l := rig.ReadKinds(fsys)
	if len(l) > 0 {
		t.Fatal(l)
	}
	src, l := Read(fsys)
	if len(l) > 0 {
		t.Fatal(l)
	}
	for _, tt := range []struct{ rule, check, hint string }{
		{"{id: more, concludes: drop_wied, when: low(pump_pressure), means: m, source: practice}", "unknown-name", `did you mean "drop_wide"?`},
		{"{id: stops, concludes: drop_wide, when: low(pump_pressure), means: m, source: practice}", "id-twice", "give the rule an id of its own"},
		{"{id: drop_wide, concludes: stops, when: low(pump_pressure), means: m, source: practice}", "id-twice", ""},
		{"{id: more, concludes: drop_wide, fact: true, when: low(pump_pressure), means: m, source: practice}", "not-its-own", ""},
		{"{id: more, concludes: drop_wide, words: [x], when: low(pump_pressure), means: m, source: practice}", "not-its-own", ""},
		{"{id: more, concludes: drop_wide, when: low(pump_pressure), means: m, phases: [idel], source: practice}", "unknown-phase", `did you mean "idle"?`},
	} {
		over, l := Read(files(map[string]string{"own.yaml": "system: fuel\nrules:\n  - " + tt.rule + "\n"}))
		if len(l) > 0 {
			t.Fatal(l)
		}
		all := *src
		all.Rules = append(slices.Clone(src.Rules), over.Rules...)
		_, l = Compile(&all, kinds, nil)
		found := false
		for _, p := range l {
			found = found || p.Check == tt.check && p.Pos.File == "own.yaml" && p.Pos.Line == 3 && (tt.hint == "" || p.Hint == tt.hint)
		}
		if !found {
			t.Errorf("%s: %v, want %s at line 3 with the hint %q", tt.rule, l, tt.check, tt.hint)
		}
	}
}
