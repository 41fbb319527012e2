package cases_test

// This file loads the rules that ship and gives a sheet the names they hold.

import (
	"sync"
	"testing"

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
	src, l := knowledge.Read(rules.Files)
	all = append(all, l...)
	known, l := knowledge.Compile(src, kinds, knowledge.ControlsOf(rigs...))
	if all = append(all, l...); len(all) > 0 {
		b.err = all
		return b
	}
	for _, r := range rigs {
		b.fitted[r.ID] = known.On(r)
		b.names[r.ID] = sheet.NewLexicon(vocabulary(b.fitted[r.ID]))
	}
	return b
})

func stop(tb testing.TB, l problem.List) {
	tb.Helper()
	if len(l) > 0 {
		tb.Fatal(l)
	}
}

func vocabulary(f *knowledge.Fitted) sheet.Vocabulary {
	v := sheet.Vocabulary{Rig: f.Rig.ID, Fold: f.Fold, Called: f.Rig.Called}
	for _, p := range f.Phases {
		v.Phases = append(v.Phases, sheet.Named{ID: p})
	}
	for _, r := range f.Readings {
		v.Readings = append(v.Readings, sheet.Reading{Named: sheet.Named{ID: r.ID, Words: r.Words}, Dim: r.Dim, Unit: r.Unit, Answers: r.Answers})
	}
	for _, c := range f.Base.Controls {
		control := sheet.Control{Named: sheet.Named{ID: c.ID, Words: c.Words}}
		for _, p := range c.Positions {
			control.Positions = append(control.Positions, sheet.Named{ID: p, Words: c.Also[p]})
		}
		v.Controls = append(v.Controls, control)
	}
	for _, s := range f.Signs {
		v.Signs = append(v.Signs, sheet.Named{ID: s.ID, Words: s.Words})
	}
	for _, s := range f.Circumstances {
		v.Circumstances = append(v.Circumstances, sheet.Named{ID: s.ID, Words: s.Words})
	}
	for _, s := range f.Courses {
		v.Courses = append(v.Courses, sheet.Named{ID: s.ID, Words: s.Words})
	}
	for _, s := range f.Trials {
		v.Trials = append(v.Trials, sheet.Named{ID: s.ID.Value, Words: knowledge.Values(s.Words)})
	}
	for _, s := range f.Normals {
		v.Normals = append(v.Normals, sheet.Named{ID: s.ID, Words: s.Words})
	}
	for _, c := range f.Base.Causes {
		v.Causes = append(v.Causes, sheet.Named{ID: c.ID, Words: c.Words})
	}
	for _, c := range f.Checks {
		v.Checks = append(v.Checks, sheet.Named{ID: c.ID.Value})
	}
	for _, p := range f.Rig.Parts {
		v.Parts = append(v.Parts, sheet.Part{Named: sheet.Named{ID: p.ID}, Name: p.Name, Kind: p.Kind, Side: p.Side})
	}
	for _, flow := range f.Kinds.Flows {
		v.Flows = append(v.Flows, sheet.Named{ID: flow.ID})
	}
	return v
}
