package shelf_test

import (
	"bytes"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"snagwise/engine/condition"
	"snagwise/engine/document"
	"snagwise/engine/knowledge"
	"snagwise/engine/quantity"
	"snagwise/engine/rig"
	"snagwise/engine/shelf"
	"snagwise/rules"
)

var shipped = shelf.Below(rules.Folder, rules.Files)

// same compares what holds knowledge by what it shows of itself, conditions by
// their own compact form.
var same = cmp.Options{
	cmpopts.IgnoreUnexported(document.Text{}, knowledge.Base{}, rig.Kinds{}, rig.Rig{}, rig.Gauge{}),
	cmp.Comparer(func(a, b *quantity.Unit) bool { return a == b }), // units are shared
	cmp.Comparer(func(a, b *condition.Scope) bool {
		for _, k := range []condition.Kind{condition.NumberKind, condition.TruthKind, condition.TextKind} {
			if !cmp.Equal(a.Names(k), b.Names(k)) {
				return false
			}
		}
		return true
	}),
	cmp.Comparer(func(a, b *condition.Program) bool {
		if a == nil || b == nil {
			return a == b
		}
		x, err := a.MarshalBinary()
		y, err2 := b.MarshalBinary()
		return err == nil && err2 == nil && bytes.Equal(x, y)
	}),
}

func mustOpen(t testing.TB, w shelf.Want) *shelf.Shelf {
	t.Helper()
	s, l := shelf.Open(w)
	if len(l) > 0 {
		t.Fatal(l)
	}
	return s
}

func TestCompactFormIsFresh(t *testing.T) {
	want, l := shelf.Pack(shipped)
	if len(l) > 0 {
		t.Fatal(l)
	}
	if rules.Compact != string(want) {
		t.Error("rules/base.bin was made from other files: run go generate ./rules")
	}
}

func TestCompactFormGivesWhatTheFilesGive(t *testing.T) {
	text, l := shelf.Pack(shipped)
	if len(l) > 0 {
		t.Fatal(l)
	}
	got := mustOpen(t, shelf.Want{Layers: []fs.FS{shipped}, Compact: string(text)})
	want := mustOpen(t, shelf.Want{Layers: []fs.FS{shipped}})
	if diff := cmp.Diff(want.Kinds, got.Kinds, same); diff != "" {
		t.Errorf("kinds of part (-files +compact):\n%s", diff)
	}
	if diff := cmp.Diff(want.Rigs, got.Rigs, same); diff != "" {
		t.Errorf("rigs (-files +compact):\n%s", diff)
	}
	if diff := cmp.Diff(want.Base, got.Base, same); diff != "" {
		t.Errorf("base (-files +compact):\n%s", diff)
	}
	if got, want := got.Base.Phrases(), want.Base.Phrases(); !slices.Equal(got, want) {
		t.Errorf("%d phrases, want %d", len(got), len(want))
	}
	for slot := range want.Base.Truths() {
		if got, want := got.Base.Owner(slot), want.Base.Owner(slot); got != want {
			t.Errorf("truth %d belongs to %v, want %v", slot, got, want)
		}
	}
	written, l := got.Source()
	if len(l) > 0 {
		t.Fatal(l)
	}
	read, l := want.Source()
	if len(l) > 0 {
		t.Fatal(l)
	}
	if diff := cmp.Diff(read, written, same); diff != "" {
		t.Errorf("source (-files +compact):\n%s", diff)
	}
	for i, r := range want.Rigs {
		g := got.Rigs[i]
		for a := range r.Parts {
			if got, want := g.Downstream("", a), r.Downstream("", a); !slices.Equal(got, want) {
				t.Fatalf("%s: downstream of %q: %v, want %v", r.ID, r.Parts[a].ID, got, want)
			}
			if got, want := g.Called(r.Parts[a].Name), r.Called(r.Parts[a].Name); !slices.Equal(got, want) {
				t.Fatalf("%s: %q calls %v, want %v", r.ID, r.Parts[a].Name, got, want)
			}
		}
	}
}

// changed returns what ships with one file put in its place or added.
func changed(t *testing.T, name, text string) fs.FS {
	t.Helper()
	m := fstest.MapFS{}
	err := fs.WalkDir(shipped, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(shipped, name)
		m[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	m[name] = &fstest.MapFile{Data: []byte(text)}
	return m
}

func TestFilesAreReadWhereTheFormIsStaleOrDamaged(t *testing.T) {
	text, l := shelf.Pack(shipped)
	if len(l) > 0 {
		t.Fatal(l)
	}
	const file = "rules/fuel/zz.yaml"
	more := changed(t, file, "system: fuel\ncourses:\n  - {id: only_on_a_tuesday, means: \"only on a Tuesday\", speaks_for: {}}\n")
	if s := mustOpen(t, shelf.Want{Layers: []fs.FS{more}, Compact: string(text)}); !hasCourse(s, "only_on_a_tuesday") {
		t.Error("a file that was added after the form was made is not read")
	}
	_, l = shelf.Open(shelf.Want{Layers: []fs.FS{changed(t, file, "system: fuel\ncauses: 3\n")}, Compact: string(text)})
	if len(l) != 1 || l[0].Pos.File != file {
		t.Errorf("a faulty file beside the form: %v, want one problem in %s", l, file)
	}
	for _, cut := range []int{4, len(text) - 1} {
		mustOpen(t, shelf.Want{Layers: []fs.FS{shipped}, Compact: string(text[:cut])})
	}
	for at := 8; at < len(text); at += len(text) / 3 {
		bad := bytes.Clone(text)
		bad[at] ^= 0x55
		shelf.Open(shelf.Want{Layers: []fs.FS{shipped}, Compact: string(bad)}) // must not panic
	}
}

func hasCourse(s *shelf.Shelf, id string) bool {
	return slices.ContainsFunc(s.Base.Courses, func(c knowledge.Course) bool { return c.ID == id })
}

func TestKeepersFolderLiesOver(t *testing.T) {
	own := shelf.Below("~own", fstest.MapFS{
		"fuel/courses.yaml": {Data: []byte("system: fuel\ncourses:\n  - {id: only_on_a_tuesday, means: \"only on a Tuesday\", speaks_for: {}}\n")},
	})
	for _, form := range []string{rules.Compact, ""} {
		s := mustOpen(t, shelf.Want{Layers: []fs.FS{shipped, own}, Compact: form})
		if !hasCourse(s, "only_on_a_tuesday") {
			t.Error("the keeper's course is missing")
		}
	}
	broken := shelf.Below("~own", fstest.MapFS{
		"fuel/states.yaml": {Data: []byte("system: fuel\nstates:\n  - id: own_state\n    means: \"x\"\n    shows: {no_such_sign: often}\n")},
	})
	var told []string
	for _, form := range []string{rules.Compact, ""} {
		_, l := shelf.Open(shelf.Want{Layers: []fs.FS{shipped, broken}, Compact: form})
		if len(l) == 0 || l[0].Pos.String() != "~own/fuel/states.yaml:5:13" {
			t.Errorf("problems %v, want one at ~own/fuel/states.yaml:5:13", l)
		}
		told = append(told, l.Error())
	}
	if told[0] != told[1] {
		t.Errorf("with the form %s\nfrom the files %s", told[0], told[1])
	}
}

func TestOwnRig(t *testing.T) {
	text, err := rules.Files.ReadFile("rigs/teasel.yaml")
	if err != nil {
		t.Fatal(err)
	}
	mine := strings.Replace(string(text), "rig: teasel", "rig: mine", 1)
	for _, form := range []string{rules.Compact, ""} {
		s := mustOpen(t, shelf.Want{Layers: []fs.FS{shipped}, Compact: form, Rig: &rig.File{Name: "mine.yaml", Text: []byte(mine)}})
		if s.Own == nil || s.Own.ID != "mine" || len(s.Rigs) != 3 {
			t.Fatalf("own rig %v of %d", s.Own, len(s.Rigs))
		}
		if got := len(s.Base.On(s.Own).Causes); got < 150 {
			t.Errorf("%d causes on the own rig, want at least 150", got)
		}
	}
	_, l := shelf.Open(shelf.Want{Layers: []fs.FS{shipped}, Compact: rules.Compact, Rig: &rig.File{Name: "mine.yaml", Text: []byte("rig: mine\n")}})
	if len(l) == 0 || l[0].Pos.File != "mine.yaml" {
		t.Errorf("an own rig without parts: %v, want a problem in mine.yaml", l)
	}
}

// Rigs that kept cases bring along stand apart from those of the rules, and the
// base knows their levers.
func TestRigsBeside(t *testing.T) {
	const barrow = "rig: barrow\nname: Barrow\nmeans: A barrow.\nparts: [fuel_tank, fuel_cock, carburettor_float, cylinders]\n"
	for _, form := range []string{rules.Compact, ""} {
		s := mustOpen(t, shelf.Want{Layers: []fs.FS{shipped}, Compact: form, Beside: []rig.File{{Name: "b.yaml", Text: []byte(barrow)}}})
		if len(s.Rigs) != 2 || len(s.Beside) != 1 || s.Beside[0].ID != "barrow" || len(s.All()) != 3 || s.Own != nil {
			t.Fatalf("rigs %d, beside %d, own %v", len(s.Rigs), len(s.Beside), s.Own)
		}
		if got := len(s.Base.On(s.Beside[0]).Causes); got < 10 {
			t.Errorf("%d causes on it, want at least 10", got)
		}
	}
	_, l := shelf.Open(shelf.Want{Layers: []fs.FS{shipped}, Compact: rules.Compact, Beside: []rig.File{{Name: "b.yaml", Text: []byte("rig: b\n")}}})
	if len(l) == 0 || l[0].Pos.File != "b.yaml" {
		t.Errorf("a rig beside without parts: %v, want a problem in b.yaml", l)
	}
}
