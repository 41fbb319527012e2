package examine_test

import (
	"io/fs"
	"sync"
	"testing"

	"snagwise/cases"
	"snagwise/engine/casebook"
	"snagwise/engine/diagnose"
	"snagwise/engine/examine"
	"snagwise/engine/problem"
	"snagwise/engine/shelf"
	"snagwise/rules"
)

// wanted is what ships, with every kept case, read once.
var wanted = sync.OnceValues(func() (examine.Want, problem.List) {
	beside, l := casebook.Rigs(cases.Files, ".")
	if len(l) > 0 {
		return examine.Want{}, l
	}
	s, l := shelf.Open(shelf.Want{Layers: []fs.FS{shelf.Below(rules.Folder, rules.Files)}, Beside: beside})
	if len(l) > 0 {
		return examine.Want{}, l
	}
	w := examine.Want{Base: s.Base}
	if w.Source, l = s.Source(); len(l) > 0 {
		return w, l
	}
	engines := map[string]*diagnose.Engine{}
	for _, r := range s.All() {
		e, l := diagnose.New(s.Base.On(r), diagnose.Settings{})
		if len(l) > 0 {
			return w, l
		}
		engines[r.ID] = e
	}
	for _, r := range s.Rigs {
		w.Engines = append(w.Engines, engines[r.ID])
	}
	list, l := casebook.Load(cases.Files, "published", "real", "situations")
	jobs, more := casebook.Jobs(cases.Files, "scenarios", cases.Split)
	l = append(l, more...)
	for _, c := range append(list, jobs...) {
		e := engines[c.Sheet.Rig.Value]
		a, more := e.Read(c.Sheet)
		l = append(l, more...)
		w.Told = append(w.Told, examine.Told{Engine: e, Account: a})
	}
	return w, l
})

func shipped(t *testing.T) examine.Want {
	t.Helper()
	w, l := wanted()
	if len(l) > 0 {
		t.Fatal(l)
	}
	return w
}

func TestShippedRulesAreClean(t *testing.T) {
	for _, p := range examine.Examine(shipped(t)) {
		t.Error(p)
	}
}

// No two findings of a check share a name, or one accept would cover both.
func TestEveryFindingHasANameOfItsOwn(t *testing.T) {
	w := shipped(t)
	src := *w.Source
	src.Accepted = nil
	w.Source = &src
	found := len(examine.Examine(w))
	names := 0
	for _, a := range shipped(t).Source.Accepted {
		names += len(a.About)
	}
	if found == 0 || found != names {
		t.Errorf("got %d findings and %d names that accept them, want as many", found, names)
	}
}
