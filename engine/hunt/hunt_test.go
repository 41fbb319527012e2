package hunt_test

import (
	"io/fs"
	"sync"
	"testing"

	"snagwise/cases"
	"snagwise/engine/diagnose"
	"snagwise/engine/rig"
	"snagwise/engine/shelf"
	"snagwise/rules"
)

var library = sync.OnceValues(func() (*shelf.Shelf, map[string]*diagnose.Engine) {
	want := shelf.Want{Compact: rules.Compact, Layers: []fs.FS{rules.Files}}
	beside, _ := fs.Glob(cases.Files, "rigs/*.yaml") // those that kept cases bring along
	for _, name := range beside {
		text, _ := cases.Files.ReadFile(name)
		want.Beside = append(want.Beside, rig.File{Name: name, Text: text})
	}
	sh, _ := shelf.Open(want)
	return sh, map[string]*diagnose.Engine{}
})

func engineOf(t testing.TB, name string) *diagnose.Engine {
	t.Helper()
	sh, made := library()
	if e := made[name]; e != nil {
		return e
	}
	for _, r := range sh.All() {
		if r.ID == name {
			e, l := diagnose.New(sh.Base.On(r), diagnose.Settings{})
			if len(l) > 0 {
				t.Fatal(l)
			}
			made[name] = e
			return e
		}
	}
	t.Fatalf("no rig %q", name)
	return nil
}
