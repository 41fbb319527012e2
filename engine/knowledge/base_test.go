package knowledge

import (
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"snagwise/engine/compact"
	"snagwise/engine/document"
	"snagwise/engine/rig"
)

// sound loads the small base of testdata/sound, for its two rigs; more holds
// further rule files as a map from names to texts, laid over it.
func sound(t testing.TB, more map[string]string) (*Base, map[string]*rig.Rig) {
	t.Helper()
	fsys := os.DirFS("testdata/sound")
	kinds, l := rig.ReadKinds(fsys)
	if len(l) > 0 {
		t.Fatal(l)
	}
	rigs := map[string]*rig.Rig{}
	for _, id := range []string{"plain", "other"} {
		text, err := os.ReadFile("testdata/sound/rig_" + id + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		r, l := rig.Load(kinds, id, text)
		if len(l) > 0 {
			t.Fatal(l)
		}
		rigs[id] = r
	}
	src, l := Read(fsys)
	if len(l) > 0 {
		t.Fatal(l)
	}
	over, l := Read(files(more))
	if len(l) > 0 {
		t.Fatal(l)
	}
	base, l := Compile(Layer(src, over), kinds, ControlsOf(rigs["plain"], rigs["other"]))
	if len(l) > 0 {
		t.Fatal(l)
	}
	return base, rigs
}

func files(texts map[string]string) fstest.MapFS {
	m := fstest.MapFS{}
	for name, text := range texts {
		m[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return m
}

func causesOn(f *Fitted) []string {
	var ids []string
	for _, c := range f.Causes {
		ids = append(ids, f.Base.Causes[c.Cause].ID)
	}
	return ids
}

func signsOn(f *Fitted) []string {
	var ids []string
	for i, on := range f.SignOn {
		if on {
			ids = append(ids, f.Signs[i].ID)
		}
	}
	slices.Sort(ids)
	return ids
}

func TestOnLeavesOutWhatTheRigDoesNotCarry(t *testing.T) {
	base, rigs := sound(t, nil)
	for _, tt := range []struct {
		rig           string
		causes, signs []string
		look          string
	}{
		// no booster; the cause tied to the other rig does not hold
		{"plain", []string{"filter_choked", "pump_worn"}, []string{"coughs", "dirt_seen", "drop_wide", "pump_low", "runs_badly", "stops"}, "a gauge after the filter"},
		// no gauge after the filter: the drop over it cannot be told
		{"other", []string{"filter_choked", "booster_dead", "tank_empty"}, []string{"coughs", "dirt_seen", "pump_low", "runs_badly", "stops"}, "no gauge after the filter"},
	} {
		f := base.On(rigs[tt.rig])
		if got := causesOn(f); !slices.Equal(got, tt.causes) {
			t.Errorf("%s: causes %v, want %v", tt.rig, got, tt.causes)
		}
		if got := signsOn(f); !slices.Equal(got, tt.signs) {
			t.Errorf("%s, %s: signs %v, want %v", tt.rig, tt.look, got, tt.signs)
		}
	}
}

func TestLayerReplacesById(t *testing.T) {
	base, _ := sound(t, map[string]string{
		"own.yaml": "system: fuel\ncauses:\n  - {id: filter_choked, part: filter, fails_by: choked with rust, how_common: rare, gives: {starved: often}, direct: {drop_wide: seldom}, source: practice}\n" +
			"  - {id: filter_torn, part: filter, fails_by: torn, how_common: rare, direct: {dirt_seen: often}, source: practice}\n",
	})
	var got []string
	for _, c := range base.Causes {
		got = append(got, c.ID+": "+c.FailsBy)
	}
	want := []string{"filter_choked: choked with rust", "booster_dead: dead", "pump_worn: worn", "tank_empty: empty", "filter_torn: torn"}
	if !slices.Equal(got, want) {
		t.Errorf("causes %q, want %q", got, want)
	}
	if c := base.Causes[0]; len(c.Direct) != 1 || c.At.File != "own.yaml" {
		t.Errorf("the replaced cause shows %d signs itself and stands in %s, want 1 and own.yaml", len(c.Direct), c.At.File)
	}
}

func TestLayerTakesEveryList(t *testing.T) {
	whole, l := Read(os.DirFS("../../rules"))
	if len(l) > 0 {
		t.Fatal(l)
	}
	// laid over nothing, and under nothing, it is itself
	option := cmp.Comparer(func(a, b document.Text) bool { return a.Value == b.Value && a.At == b.At })
	if diff := cmp.Diff(whole, Layer(&Source{}, whole), option); diff != "" {
		t.Errorf("over nothing (-want +got):\n%s", clipped(diff))
	}
	if diff := cmp.Diff(whole, Layer(whole, &Source{}), option); diff != "" {
		t.Errorf("under nothing (-want +got):\n%s", clipped(diff))
	}
}

func clipped(s string) string { return s[:min(len(s), 2000)] }

func TestControlsOf(t *testing.T) {
	a := &rig.Rig{Controls: []rig.Control{
		{ID: "throttle", Positions: []string{"shut", "open"}},
		{ID: "booster", Positions: []string{"off", "on"}, Also: []document.Pair{{Key: Text{Value: "running"}, Value: Text{Value: "on"}}}},
	}}
	b := &rig.Rig{Controls: []rig.Control{
		{ID: "booster", Positions: []string{"on", "auto"}, Also: []document.Pair{{Key: Text{Value: "running"}, Value: Text{Value: "on"}}}},
	}}
	var got []string
	for _, c := range ControlsOf(a, b) {
		got = append(got, c.ID+": "+strings.Join(c.Positions, " ")+"; on is also "+strings.Join(c.Also["on"], " "))
	}
	want := []string{"booster: off on auto; on is also running", "throttle: shut open; on is also "}
	if !slices.Equal(got, want) {
		t.Errorf("ControlsOf gives %q, want %q", got, want)
	}
}

func TestSameControls(t *testing.T) {
	base, rigs := sound(t, nil)
	if !base.SameControls(ControlsOf(rigs["plain"], rigs["other"])) {
		t.Error("the controls that the base was compiled with are said to be others")
	}
	if base.SameControls(ControlsOf(rigs["plain"])) {
		t.Error("fewer controls are said to be the same")
	}
	more := ControlsOf(rigs["other"])
	more[0].Positions = append(slices.Clone(more[0].Positions), "auto")
	if base.SameControls(more) {
		t.Error("a control with one more position is said to be the same")
	}
}

func TestCompactFormKeepsTheBase(t *testing.T) {
	base, rigs := sound(t, nil)
	write := func(b *Base) string {
		var w compact.Writer
		if err := b.Put(&w); err != nil {
			t.Fatal(err)
		}
		return string(w.Bytes())
	}
	text := write(base)
	r, err := compact.Open(text)
	if err != nil {
		t.Fatal(err)
	}
	again, err := GetBase(r, 0, base.Kinds)
	if err != nil {
		t.Fatal(err)
	}
	if write(again) != text {
		t.Error("written, read and written again the base gives other bytes")
	}
	for id, r := range rigs {
		if diff := cmp.Diff(signsOn(base.On(r)), signsOn(again.On(r))); diff != "" {
			t.Errorf("%s: signs (-compiled +read):\n%s", id, diff)
		}
	}
	if diff := cmp.Diff(base.Meanings("splutters"), again.Meanings("splutters")); diff != "" || len(again.Meanings("splutters")) == 0 {
		t.Errorf("meanings (-compiled +read):\n%s", diff)
	}
}
