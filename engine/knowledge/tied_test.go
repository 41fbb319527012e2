package knowledge

import (
	"bytes"
	"testing"

	"snagwise/engine/rig"
	"snagwise/rules"
)

func TestWhatShipsIsTied(t *testing.T) {
	base, rigs := load(t)
	if l := base.CheckTies(rigs...); len(l) > 0 {
		t.Error(l)
	}
	if n := len(base.Untied); n >= 60 {
		t.Errorf("%d causes are excused; with 60 the check says little", n)
	}
}

// TestACutPipeLoosensCauses takes the drive of the rpm counter off the engine:
// whatever told on it is loose then, and nothing else.
func TestACutPipeLoosensCauses(t *testing.T) {
	base, rigs := load(t)
	cut := without(t, rigs[0], "[accessory_drives, rpm_drive]")
	loose := base.On(cut).Loose()
	if len(loose) < 100 {
		t.Errorf("%d causes are loose with the counter cut off, want at least 100", len(loose))
	}
	excused := map[string]bool{}
	for _, u := range base.Untied {
		excused[u.Cause.Value+" "+u.Reading.Value] = true
	}
	for _, k := range loose {
		c, rd := base.Causes[k.Cause].ID, base.Readings[k.Reading].ID
		g, _ := cut.Gauge(rd)
		onCounter := false
		for _, p := range g.Taps {
			onCounter = onCounter || cut.Parts[p].Kind == "rpm_drive"
		}
		if !onCounter && !excused[c+" "+rd] && base.Causes[k.Cause].Kind != "rpm_drive" && base.Causes[k.Cause].Kind != "rpm_gauge" {
			t.Errorf("cause %q is loose from %q, which does not tap the counter", c, rd)
		}
	}
	if got := len(base.CheckTies(cut)); got < 100 {
		t.Errorf("CheckTies reports %d causes of the cut rig, want at least 100", got)
	}
}

// without returns a rig that ships with one of its connections taken out.
func without(t *testing.T, r *rig.Rig, chain string) *rig.Rig {
	t.Helper()
	text, err := rules.Files.ReadFile("rigs/" + r.ID + ".yaml")
	if err != nil {
		t.Fatal(err)
	}
	line := []byte("    - " + chain + "\n")
	if !bytes.Contains(text, line) {
		t.Fatalf("rig %q has no connection %s", r.ID, chain)
	}
	cut, l := rig.Load(r.Kinds(), r.ID+".yaml", bytes.Replace(text, line, nil, 1))
	if len(l) > 0 {
		t.Fatal(l)
	}
	return cut
}

func TestExcuses(t *testing.T) {
	base, rigs := load(t)
	bare := *base
	bare.Untied = nil
	l := bare.CheckTies(rigs...)
	if len(l) == 0 {
		t.Fatal("with no excuse nothing is loose: the excuses that ship are not needed")
	}
	for _, p := range l {
		if p.Check != "untied" || p.Pos.Line == 0 {
			t.Errorf("problem %v, want an untied cause with its place", p)
		}
	}
	more := *base
	more.Untied = append([]UntiedSource{{Cause: Text{Value: base.Causes[0].ID}, Reading: Text{Value: base.Readings[0].ID}, Reason: "none"}}, base.Untied...)
	if l := more.CheckTies(rigs...); len(l) != 1 || l[0].Check != "tied" {
		t.Errorf("an excuse that is not needed: %v, want one problem", l)
	}
}
