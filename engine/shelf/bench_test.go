package shelf_test

import (
	"io/fs"
	"testing"

	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
	"snagwise/engine/shelf"
	"snagwise/rules"
)

// BenchmarkOpen compares opening what ships from its compact form with reading
// the files, and gives the ratio.
func BenchmarkOpen(b *testing.B) {
	layers := []fs.FS{shelf.Below(rules.Folder, rules.Files)}
	each := map[string]float64{}
	for _, way := range []struct{ name, form string }{{"compact", rules.Compact}, {"files", ""}} {
		b.Run(way.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, l := shelf.Open(shelf.Want{Layers: layers, Compact: way.form}); len(l) > 0 {
					b.Fatal(l)
				}
			}
			each[way.name] = float64(b.Elapsed()) / float64(b.N)
			if way.name == "files" && each["compact"] > 0 {
				b.ReportMetric(each["files"]/each["compact"], "times-compact")
			}
		})
	}
}

// BenchmarkEngine measures each step from what is embedded to an engine for one
// rig, and all of them together.
func BenchmarkEngine(b *testing.B) {
	want := shelf.Want{Layers: []fs.FS{shelf.Below(rules.Folder, rules.Files)}, Compact: rules.Compact}
	s, l := shelf.Open(want)
	if len(l) > 0 {
		b.Fatal(l)
	}
	fitted := s.Base.On(s.Rigs[0])
	source, l := s.Source()
	if len(l) > 0 {
		b.Fatal(l)
	}
	controls := knowledge.ControlsOf(s.Rigs...)
	for _, step := range []struct {
		name string
		do   func() bool
	}{
		{"open", func() bool { _, l := shelf.Open(want); return len(l) == 0 }},
		{"fit", func() bool { return s.Base.On(s.Rigs[0]) != nil }},
		{"new", func() bool { _, l := diagnose.New(fitted, diagnose.Settings{}); return len(l) == 0 }},
		{"all", func() bool {
			s, l := shelf.Open(want)
			if len(l) > 0 {
				return false
			}
			_, l = diagnose.New(s.Base.On(s.Rigs[0]), diagnose.Settings{})
			return len(l) == 0
		}},
		{"source", func() bool { _, l := s.Source(); return len(l) == 0 }},
		{"compile", func() bool { _, l := knowledge.Compile(source, s.Kinds, controls); return len(l) == 0 }},
	} {
		b.Run(step.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if !step.do() {
					b.Fatal("it did not go through")
				}
			}
		})
	}
}
