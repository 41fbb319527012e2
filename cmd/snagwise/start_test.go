package main

import (
	"os/exec"
	"path/filepath"
	"testing"
)

// BenchmarkStart runs the built program cold: the help, which loads nothing,
// beside a diagnosis from the rules that ship. It gives the ratio of the two.
func BenchmarkStart(b *testing.B) {
	program := filepath.Join(b.TempDir(), "snagwise")
	if out, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		b.Fatalf("%v: %s", err, out)
	}
	each := map[string]float64{}
	for _, way := range []struct {
		name string
		args []string
	}{
		{"bare", []string{"--help"}},
		{"rig", []string{"rig"}},
		{"diagnose", []string{"diagnose", "../../cases/situations/both_fuel_pressures_sag_at_power.yaml"}},
	} {
		b.Run(way.name, func(b *testing.B) {
			for b.Loop() {
				if out, err := exec.Command(program, way.args...).Output(); len(out) == 0 {
					b.Fatalf("%v: no answer: %v", way.args, err)
				}
			}
			each[way.name] = float64(b.Elapsed()) / float64(b.N)
			if way.name != "bare" && each["bare"] > 0 {
				b.ReportMetric(each[way.name]/each["bare"], "times-bare")
			}
		})
	}
}
