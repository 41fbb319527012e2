package knowledge

import (
	"testing"

	"snagwise/engine/rig"
	"snagwise/rules"
)

// load reads and compiles what ships, for the rigs that ship.
func load(tb testing.TB) (*Base, []*rig.Rig) {
	tb.Helper()
	kinds, problems := rig.ReadKinds(rules.Files)
	if len(problems) > 0 {
		tb.Fatal(problems)
	}
	var rigs []*rig.Rig
	for _, id := range []string{"hollin", "teasel"} {
		text, err := rules.Files.ReadFile("rigs/" + id + ".yaml")
		if err != nil {
			tb.Fatal(err)
		}
		r, problems := rig.Load(kinds, "rigs/"+id+".yaml", text)
		if len(problems) > 0 {
			tb.Fatal(problems)
		}
		rigs = append(rigs, r)
	}
	src, problems := Read(rules.Files)
	if len(problems) > 0 {
		tb.Fatal(problems)
	}
	base, problems := Compile(src, kinds, ControlsOf(rigs...))
	if len(problems) > 0 {
		tb.Fatal(problems)
	}
	return base, rigs
}

func TestWhatShipsCompiles(t *testing.T) {
	base, rigs := load(t)
	for _, r := range rigs {
		f := base.On(r)
		t.Logf("%s: %d causes of %d, %d instances", r.ID, len(f.Base.Causes), len(base.Causes), len(f.Causes))
		if len(f.Causes) < 150 {
			t.Errorf("rig %q: %d causes, want at least 150", r.ID, len(f.Causes))
		}
	}
}
