package casebook_test

import (
	"fmt"
	"strings"
	"testing"

	"snagwise/engine/diagnose"
	"snagwise/engine/sheet"
)

// A figure beyond a stop limit is a danger in whatever words the phase was told, on
// every rig: one for which the rig gives no band has no say. Oil pressure of
// nothing with the engine running is to be stopped at once (FAA-H-8083-32B
// 10-22: no pressure after 30 seconds, stop).
func TestNoOilPressureStopsEveryRigInWhateverWords(t *testing.T) {
	s := shipped(t)
	of := engines(s.Base, s.All(), diagnose.Settings{})
	tried := 0
	for _, r := range s.All() {
		if g, ok := r.Gauge("oil_pressure"); !ok || len(g.Bands) == 0 {
			continue
		}
		e, err := of(r.ID)
		if err != nil {
			t.Fatal(err)
		}
		for _, phase := range []string{"running", "at power", "slow running", "in the run"} {
			told := fmt.Sprintf("rig: %s\nmoments: [{phase: %s, readings: {oil_pressure: 0 psi}}]\n", r.ID, phase)
			sh, l := sheet.Parse("told", []byte(told))
			if len(l) > 0 {
				t.Fatal(l)
			}
			a, l := e.Read(sh)
			if len(l) > 0 {
				t.Fatal(l)
			}
			var do []string
			for _, f := range e.Diagnose(a, diagnose.Situation{Causes: 1}).FirstActions {
				do = append(do, f.Do)
			}
			if !strings.Contains(strings.ToLower(strings.Join(do, " ")), "stop") {
				t.Errorf("%s, %s: no oil pressure, and the first actions are %q", r.ID, phase, do)
			}
			tried++
		}
	}
	if tried < 8 {
		t.Errorf("%d tried, want some rigs", tried)
	}
}
