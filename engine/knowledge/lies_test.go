package knowledge

import (
	"os"
	"slices"
	"testing"

	"snagwise/engine/problem"
	"snagwise/engine/rig"
)

// A cause that wants its part before or after another kind along a flow is on
// the rigs where it lies so. Before a kind that a rig lacks lies nothing.
func TestACauseHoldsWhereItsPartLies(t *testing.T) {
	const more = "system: fuel\ncauses:\n" +
		"  - {id: choked_suction, part: filter, fails_by: choked, how_common: rare, gives: {starved: often}, before: {fuel: pump}, source: practice}\n" +
		"  - {id: choked_pressure, part: filter, fails_by: choked, how_common: rare, gives: {starved: often}, after: {fuel: pump}, source: practice}\n"
	base, rigs := sound(t, map[string]string{"more.yaml": more})
	for _, tt := range []struct {
		name, text string
		want       []string
	}{
		{"as usual", "rig: a\nname: A\nmeans: A.\nparts: [tank, pump, filter]\n", []string{"choked_pressure"}},
		{"the other way", "rig: a\nname: A\nmeans: A.\nparts: [tank, pump, filter]\nconnections: {fuel: [[tank, filter, pump]]}\n", []string{"choked_suction"}},
		{"no pump", "rig: a\nname: A\nmeans: A.\nparts: [tank, filter]\n", []string{"choked_pressure"}},
		{"no filter", "rig: a\nname: A\nmeans: A.\nparts: [tank, pump]\n", nil},
	} {
		r, l := rig.Load(base.Kinds, "a", []byte(tt.text))
		if len(l) > 0 {
			t.Fatal(l)
		}
		var got []string
		for _, in := range base.On(r).Causes {
			if id := base.Causes[in.Cause].ID; id == "choked_suction" || id == "choked_pressure" {
				got = append(got, id)
			}
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: causes %v, want %v", tt.name, got, tt.want)
		}
	}
	if got := signsOn(base.On(rigs["plain"])); len(got) == 0 {
		t.Error("no sign on the plain rig")
	}
}

func TestAPlaceOnNoFlowIsRefused(t *testing.T) {
	for _, tt := range []struct{ place, hint string }{
		{"before: {fule: pump}", `did you mean "fuel"?`},
		{"after: {fuel: pmup}", `did you mean "pump"?`},
	} {
		text := "system: fuel\ncauses:\n  - {id: x, part: filter, fails_by: y, how_common: rare, gives: {starved: often}, " + tt.place + ", source: practice}\n"
		l := refused(t, text)
		if len(l) != 1 || l[0].Check != "unknown-name" || l[0].Hint != tt.hint || l[0].Pos.Line != 3 {
			t.Errorf("%s: %v, want one problem in line 3 with %q", tt.place, l, tt.hint)
		}
	}
}

// A sign may say for itself how often it is told for nothing.
func TestASignMayHaveAFalseAlarmOfItsOwn(t *testing.T) {
	const more = "system: fuel\nsigns:\n  - {id: quits, means: it quits, kind: vague, covers: [stops], false_alarm: hardly ever}\n"
	base, _ := sound(t, map[string]string{"more.yaml": more})
	if got, want := base.Signs[base.Sign("quits")].FalseAlarm, strengths["hardly ever"]; got != want {
		t.Errorf("false alarm %v, want %v", got, want)
	}
	if got := base.Signs[base.Sign("runs_badly")].FalseAlarm; got != 0 {
		t.Errorf("false alarm %v of a sign that says none, want 0", got)
	}
	if l := refused(t, "system: fuel\nsigns:\n  - {id: quits, means: q, kind: vague, covers: [stops], false_alarm: now and then}\n"); len(l) != 1 {
		t.Errorf("an unknown strength: %v, want one problem", l)
	}
}

// refused lays a file over the sound base and returns what is wrong with it.
func refused(t *testing.T, text string) problem.List {
	t.Helper()
	fsys := os.DirFS("testdata/sound")
	kinds, l := rig.ReadKinds(fsys)
	src, more := Read(fsys)
	if l = append(l, more...); len(l) > 0 {
		t.Fatal(l)
	}
	over, l := Read(files(map[string]string{"own.yaml": text}))
	if len(l) > 0 {
		t.Fatal(l)
	}
	_, l = Compile(Layer(src, over), kinds, nil)
	return l
}

// A reading may be the time gone by in phases; it is worked out, not read.
func TestAReadingMayBeTimeGoneBy(t *testing.T) {
	const more = "system: fuel\nreadings:\n  - {id: gone_by, means: time run, quantity: time, unit: min, elapsed: [idle, display]}\n"
	base, _ := sound(t, map[string]string{"more.yaml": more})
	if rd := base.Readings[base.Reading("gone_by")]; !rd.Computed || !slices.Equal(rd.Elapsed, []string{"idle", "display"}) {
		t.Errorf("got %+v, want it worked out of two phases", rd)
	}
	l := refused(t, "system: fuel\nreadings:\n  - {id: gone_by, means: time run, quantity: time, unit: min, elapsed: [idel]}\n")
	if len(l) != 1 || l[0].Check != "unknown-phase" || l[0].Hint != `did you mean "idle"?` {
		t.Errorf("an unknown phase: %v, want one problem with a near name", l)
	}
}
