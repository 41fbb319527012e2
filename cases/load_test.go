package cases_test

// This file loads the rules that ship and gives a sheet the names they hold.

import (
	"sync"
	"testing"

	"snagwise/cases"
	"snagwise/engine/casebook"
	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/rig"
	"snagwise/engine/sheet"
	"snagwise/rules"
)

// shipped gives, by rig, what holds on it and the names a sheet may use.
func shipped(tb testing.TB) (map[string]*knowledge.Fitted, map[string]*sheet.Lexicon) {
	tb.Helper()
	b := loaded()
	if b.err != nil {
		tb.Fatal(b.err)
	}
	return b.fitted, b.names
}

type base struct {
	fitted map[string]*knowledge.Fitted
	names  map[string]*sheet.Lexicon
	err    error
}

// loaded loads the rules once.
var loaded = sync.OnceValue(func() base {
	b := base{fitted: map[string]*knowledge.Fitted{}, names: map[string]*sheet.Lexicon{}}
	kinds, all := rig.ReadKinds(rules.Files)
	var rigs []*rig.Rig
	entries, err := rules.Files.ReadDir("rigs")
	if err != nil {
		b.err = err
		return b
	}
	for _, e := range entries {
		text, err := rules.Files.ReadFile("rigs/" + e.Name())
		if err != nil {
			b.err = err
			return b
		}
		r, l := rig.Load(kinds, e.Name(), text)
		all = append(all, l...)
		rigs = append(rigs, r)
	}
	beside, l := casebook.Rigs(cases.Files, ".")
	all = append(all, l...)
	for _, f := range beside {
		r, l := rig.Load(kinds, f.Name, f.Text)
		all = append(all, l...)
		rigs = append(rigs, r)
	}
	src, l := knowledge.Read(rules.Files)
	all = append(all, l...)
	known, l := knowledge.Compile(src, kinds, knowledge.ControlsOf(rigs...))
	if all = append(all, l...); len(all) > 0 {
		b.err = all
		return b
	}
	for _, r := range rigs {
		e, l := diagnose.New(known.On(r), diagnose.Settings{})
		if len(l) > 0 {
			b.err = l
			return b
		}
		b.fitted[r.ID], b.names[r.ID] = e.Fitted(), e.Lexicon()
	}
	return b
})

func stop(tb testing.TB, l problem.List) {
	tb.Helper()
	if len(l) > 0 {
		tb.Fatal(l)
	}
}
