package diagnose_test

import (
	"maps"
	"testing"
)

// Ten minutes told between running moments are ten minutes run; time told
// before the start, or beside a moment that is not surely of a running phase,
// is not. Source: none needed; that is what the words mean.
func TestTimeRunIsSummedFromTheOrderOfEvents(t *testing.T) {
	e := engine(t, "hollin")
	ranked := func(moments, rest string) map[string]float64 {
		return chances(e, read(t, e, "rig: hollin\nmoments:\n"+moments+rest))
	}
	const stopped = "    symptoms: [engine_stopped]\n"
	for _, tt := range []struct {
		name, moments string
		long          bool
	}{
		{"at once", "  - phase: idle\n  - phase: display\n    after: 10 min\n" + stopped, true},
		{"in steps", "  - phase: idle\n  - phase: warm_up\n    after: 6 min\n  - phase: display\n    after: 4 min\n" + stopped, true},
		{"too short", "  - phase: idle\n  - phase: display\n    after: 9 min\n" + stopped, false},
		{"before the start", "  - phase: rest\n  - phase: display\n    after: 10 min\n" + stopped, false},
		{"stopped between", "  - phase: idle\n  - phase: warm_up\n    after: 6 min\n  - phase: rest\n    after: 1 min\n  - phase: display\n    after: 5 min\n" + stopped, false},
		{"not told", "  - phase: idle\n  - phase: display\n" + stopped, false},
	} {
		got, told := ranked(tt.moments, ""), ranked(tt.moments, "circumstances: [it_had_run_long]\n")
		if same := maps.Equal(got, told); same != tt.long {
			t.Errorf("%s: as if run long is %v, want %v", tt.name, same, tt.long)
		}
	}
}
