package casebook_test

import (
	"io/fs"
	"sync"
	"testing"

	"snagwise/cases"
	"snagwise/engine/casebook"
	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/rig"
	"snagwise/engine/shelf"
	"snagwise/rules"
)

// opened is what ships, made ready once for all tests.
var opened = sync.OnceValues(func() (*shelf.Shelf, problem.List) {
	beside, l := casebook.Rigs(cases.Files, ".")
	if len(l) > 0 {
		return nil, l
	}
	return shelf.Open(shelf.Want{Layers: []fs.FS{shelf.Below(rules.Folder, rules.Files)}, Compact: rules.Compact, Beside: beside})
})

func shipped(t testing.TB) *shelf.Shelf {
	t.Helper()
	s, l := opened()
	if len(l) > 0 {
		t.Fatal(l)
	}
	return s
}

// engines makes an engine for each rig that is asked for, of a base and with
// settings.
func engines(base *knowledge.Base, rigs []*rig.Rig, set diagnose.Settings) func(string) (*diagnose.Engine, error) {
	made := map[string]*diagnose.Engine{}
	return func(id string) (*diagnose.Engine, error) {
		if e := made[id]; e != nil {
			return e, nil
		}
		for _, r := range rigs {
			if r.ID != id {
				continue
			}
			e, l := diagnose.New(base.On(r), set)
			made[id] = e
			return e, l.Err()
		}
		return nil, problem.List{{Check: "unknown-rig", Text: "no rig " + id}}
	}
}

func usual(t testing.TB) func(string) (*diagnose.Engine, error) {
	s := shipped(t)
	return engines(s.Base, s.All(), diagnose.Settings{})
}

// kept returns the kept cases of folders.
func kept(t testing.TB, folders ...string) []casebook.Case {
	t.Helper()
	list, l := casebook.Load(cases.Files, folders...)
	if len(l) > 0 {
		t.Fatal(l)
	}
	return list
}

func scored(t testing.TB, of []casebook.Case, engine func(string) (*diagnose.Engine, error)) []casebook.Score {
	t.Helper()
	scores, err := casebook.Run(of, engine)
	if err != nil {
		t.Fatal(err)
	}
	return scores
}

func recorded(t testing.TB) *casebook.Record {
	t.Helper()
	r, l := casebook.ReadRecord("recorded.yaml", []byte(cases.Recorded))
	if len(l) > 0 {
		t.Fatal(l)
	}
	return r
}
