package hunt_test

import (
	"io/fs"
	"sync"
	"testing"

	"snagwise/engine/diagnose"
	"snagwise/engine/shelf"
	"snagwise/rules"
)

var library = sync.OnceValues(func() (*shelf.Shelf, map[string]*diagnose.Engine) {
	sh, _ := shelf.Open(shelf.Want{Compact: rules.Compact, Layers: []fs.FS{rules.Files}})
	return sh, map[string]*diagnose.Engine{}
})

func engineOf(t testing.TB, name string) *diagnose.Engine {
	t.Helper()
	sh, made := library()
	if e := made[name]; e != nil {
		return e
	}
	for _, r := range sh.Rigs {
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
