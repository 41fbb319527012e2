package load

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// mine writes a keeper's folder from names and texts, and returns it.
func mine(t *testing.T, files ...string) string {
	t.Helper()
	dir := t.TempDir()
	for i := 0; i < len(files); i += 2 {
		name := filepath.Join(dir, files[i])
		if err := os.MkdirAll(filepath.Dir(name), 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, []byte(files[i+1]), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func TestOpenWhatShips(t *testing.T) {
	lib, l := Open(Choice{})
	if len(l) > 0 {
		t.Fatal(l)
	}
	if got, want := lib.RigNames(), []string{"hollin", "teasel"}; !slices.Equal(got, want) {
		t.Errorf("rigs %v, want %v", got, want)
	}
	for _, tt := range []struct{ name, want string }{{"", "hollin"}, {"teasel", "teasel"}, {"Teasel Nine", "teasel"}, {"HOLLIN", "hollin"}} {
		r, l := lib.Rig(tt.name)
		if len(l) > 0 || r.ID != tt.want {
			t.Errorf("Rig(%q) = %v, %v, want %s", tt.name, r, l, tt.want)
		}
	}
	_, l = lib.Rig("teesel")
	if len(l) != 1 || l[0].Hint != `did you mean "teasel"?` {
		t.Errorf(`Rig("teesel"): %v, want one problem with a near name`, l)
	}
	if e, l := lib.Engine(lib.Rigs[1]); len(l) > 0 || e.Fitted().Rig.ID != "teasel" {
		t.Errorf("no engine for the second rig: %v", l)
	}
	if text := lib.Text("rules/sources.yaml"); !strings.Contains(string(text), "sources:") {
		t.Errorf("the text of a file that ships is %.20q", text)
	}
}

const causeText = `system: fuel
causes:
  - id: fuel_filter_choked
    part: fuel_fine_filter
    fails_by: stuffed
    how_common: common
    gives: {fuel_short_at_power: almost always}
    direct: {element_found_choked: almost always}
    source: ['common practice, no source']
`

func TestOwnRulesLieOver(t *testing.T) {
	dir := mine(t, "fuel/causes.yaml", causeText, "cases/no_rule.yaml", "rig: hollin\n", ".git/x.yaml", "x: [")
	lib, l := Open(Choice{Rules: dir})
	if len(l) > 0 {
		t.Fatal(l)
	}
	shipped, l := Open(Choice{})
	if len(l) > 0 {
		t.Fatal(l)
	}
	if got, want := len(lib.Base.Causes), len(shipped.Base.Causes); got != want {
		t.Errorf("%d causes, want %d: one takes the place of another", got, want)
	}
	if got := lib.Base.Causes[lib.Base.Cause("fuel_filter_choked")].FailsBy; got != "stuffed" {
		t.Errorf("the cause fails by %q, want the keeper's own words", got)
	}
	if src, l := lib.Source(); len(l) > 0 || len(src.Causes) != len(lib.Base.Causes) {
		t.Errorf("the source has %d causes, %v, want %d", len(src.Causes), l, len(lib.Base.Causes))
	}
}

// TestPlaces: a problem names the file as the keeper knows it, and its text can
// be shown.
func TestPlaces(t *testing.T) {
	dir := mine(t, "fuel/causes.yaml", strings.Replace(causeText, "fine_filter", "fine_filtre", 1), "rigs/a.yaml", "rig: a\nname: A\nmeans: A barrow.\nparts: [fuel_tnak]\n")
	_, l := Open(Choice{Rules: dir})
	want := []string{filepath.Join(dir, "rigs", "a.yaml") + ":4:9"}
	if got := places(l); !slices.Equal(got, want) {
		t.Errorf("problems at %v, want %v: %v", got, want, l)
	}
	if err := os.Remove(filepath.Join(dir, "rigs", "a.yaml")); err != nil {
		t.Fatal(err)
	}
	lib, l := Open(Choice{Rules: dir})
	want = []string{filepath.Join(dir, "fuel", "causes.yaml") + ":4:11"}
	if got := places(l); !slices.Equal(got, want) {
		t.Errorf("problems at %v, want %v: %v", got, want, l)
	}
	if text := lib.Text(filepath.Join(dir, "fuel", "causes.yaml")); !strings.Contains(string(text), "fine_filtre") {
		t.Errorf("the text of the file is %.20q", text)
	}
}

func places(l problem.List) []string {
	var out []string
	for _, p := range l {
		out = append(out, p.Pos.String())
	}
	return out
}

// TestLayerIsAFileSystem walks a layer: every file is below its one folder,
// kept cases and hidden folders are left out.
func TestLayerIsAFileSystem(t *testing.T) {
	dir := mine(t, "fuel/causes.yaml", "x", "rigs/a.yaml", "x", "cases/c.yaml", "x", ".hidden/d.yaml", "x")
	y, l := folder(dir)
	if len(l) > 0 {
		t.Fatal(l)
	}
	var got []string
	err := fs.WalkDir(y, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			got = append(got, name)
		}
		return err
	})
	if want := []string{own + "/fuel/causes.yaml", own + "/rigs/a.yaml"}; err != nil || !slices.Equal(got, want) {
		t.Errorf("files %v, %v, want %v", got, err, want)
	}
	if _, err := y.ReadFile("elsewhere.yaml"); err == nil {
		t.Error("a file outside the layer can be read")
	}
	if _, err := y.Open("../x"); err == nil {
		t.Error("a way out of the layer can be opened")
	}
}

func TestReadFileIsBounded(t *testing.T) {
	dir := mine(t, "snag.yaml", "x")
	for _, tt := range []struct{ name, check, hint string }{
		{filepath.Join(dir, "snga.yaml"), "unreadable", `did you mean "` + filepath.Join(dir, "snag.yaml") + `"?`},
		{dir, "not-a-file", "name one file in it"},
		{filepath.Join(dir, "no", "folder.yaml"), "unreadable", ""},
	} {
		_, l := ReadFile(tt.name)
		if len(l) != 1 || l[0].Check != tt.check || l[0].Hint != tt.hint {
			t.Errorf("ReadFile(%s): %v, want one %s, %q", tt.name, l, tt.check, tt.hint)
		}
	}
	text, l := Read(endless{}, "stream")
	if len(l) > 0 || len(text) != document.MaxBytes+1 {
		t.Errorf("%d bytes of a stream without end, %v, want %d", len(text), l, document.MaxBytes+1)
	}
}

type endless struct{}

func (endless) Read(b []byte) (int, error) { return len(b), nil }

func TestIsFile(t *testing.T) {
	for _, tt := range []struct {
		word string
		want bool
	}{{"hollin", false}, {"Teasel Nine", false}, {"a.yaml", true}, {"a.YML", true}, {"x/y", true}, {"", false}, {"boost?", false}} {
		if got := IsFile(tt.word); got != tt.want {
			t.Errorf("IsFile(%q) = %v, want %v", tt.word, got, tt.want)
		}
	}
}

func BenchmarkOpen(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, l := Open(Choice{}); len(l) > 0 {
			b.Fatal(l)
		}
	}
}
