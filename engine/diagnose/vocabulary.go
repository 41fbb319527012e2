package diagnose

import (
	"snagwise/engine/knowledge"
	"snagwise/engine/sheet"
)

// vocabulary gives a sheet the names of a base on a rig.
func vocabulary(f *knowledge.Fitted) sheet.Vocabulary {
	v := sheet.Vocabulary{Rig: f.Rig.ID, Fold: f.Fold, Called: f.Rig.Called}
	for _, p := range f.Phases {
		v.Phases = append(v.Phases, sheet.Named{ID: p})
	}
	for _, r := range f.Readings {
		v.Readings = append(v.Readings, sheet.Reading{Named: sheet.Named{ID: r.ID, Words: r.Words}, Dim: r.Dim, Unit: r.Unit, Answers: r.Answers})
	}
	for _, c := range f.Base.Controls {
		ctl := sheet.Control{Named: sheet.Named{ID: c.ID, Words: c.Words}}
		for _, p := range c.Positions {
			ctl.Positions = append(ctl.Positions, sheet.Named{ID: p, Words: c.Also[p]})
		}
		v.Controls = append(v.Controls, ctl)
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
		part := sheet.Part{Named: sheet.Named{ID: p.ID}, Name: p.Name, Kind: p.Kind, Side: p.Side}
		v.Parts = append(v.Parts, part)
	}
	for _, fl := range f.Kinds.Flows {
		v.Flows = append(v.Flows, sheet.Named{ID: fl.ID, Words: fl.Words})
	}
	return v
}
