package casebook_test

import (
	"strings"
	"testing"
	"testing/fstest"

	"snagwise/engine/casebook"
	"snagwise/engine/sheet"
)

// leastSaid is the share of what the real accounts tell that their sheets must
// say: the project's own aim.
const leastSaid = .95

func TestTheRealAccountsSayNearlyAllThatWasTold(t *testing.T) {
	list := kept(t, "real")
	said := casebook.Sayings(scored(t, list, usual(t)))
	if len(said) != 4 || said[0].Group != "real, all" || said[0].Cases != len(list) {
		t.Fatalf("groups %+v, want all and three by evidence, of %d cases", said, len(list))
	}
	for _, g := range said {
		t.Logf("%-12s %2d cases, %3d phrases told, %3d said, %.3f", g.Group, g.Cases, g.Told, g.Said, g.Share())
		if g.Share() < leastSaid {
			t.Errorf("%s: %.3f of what was told is said, want %.2f", g.Group, g.Share(), leastSaid)
		}
		if g.Told-g.Said != len(g.Unsaid) {
			t.Errorf("%s: %d phrases unsaid, %d of them named", g.Group, g.Told-g.Said, len(g.Unsaid))
		}
	}
}

func TestSayingsCountOnlyWhatWasCounted(t *testing.T) {
	score := func(file string, evidence sheet.Evidence, p sheet.Counted) casebook.Score {
		return casebook.Score{Case: casebook.Case{File: file}, Account: &sheet.Account{Case: sheet.Case{Evidence: evidence, Phrases: p}}}
	}
	got := casebook.Sayings([]casebook.Score{
		score("real/a.yaml", sheet.Rich, sheet.Counted{Told: 6, Said: 5, Cannot: []sheet.Silent{{Phrase: "at a show", Why: "no field"}}}),
		score("real/b.yaml", sheet.Rich, sheet.Counted{}),
		score("real/c.yaml", sheet.Thin, sheet.Counted{Told: 2, Said: 2}),
		score("situations/d.yaml", sheet.EvidenceUnsaid, sheet.Counted{}),
	})
	want := []casebook.Saying{
		{Group: "real, all", Cases: 2, Told: 8, Said: 7},
		{Group: "real, rich", Cases: 1, Told: 6, Said: 5},
		{Group: "real, thin", Cases: 1, Told: 2, Said: 2},
	}
	if len(got) != len(want) {
		t.Fatalf("got %+v, want %d groups", got, len(want))
	}
	for i, w := range want {
		if g := got[i]; g.Group != w.Group || g.Cases != w.Cases || g.Told != w.Told || g.Said != w.Said {
			t.Errorf("got %+v, want %+v", g, w)
		}
	}
	if u := got[0].Unsaid; len(u) != 1 || u[0].Case != "real/a.yaml" || u[0].Why != "no field" {
		t.Errorf("unsaid %+v, want the one of the first case", u)
	}
	if got := (casebook.Saying{}).Share(); got != 1 {
		t.Errorf("share of nothing told %v, want 1", got)
	}
}

// Rigs that cases bring along lie in a folder of their own and are no cases.
func TestRigsBesideCasesAreNoCases(t *testing.T) {
	fsys := fstest.MapFS{
		"mine/a.yaml":         {Data: []byte("rig: barrow\n")},
		"mine/rigs/b.yaml":    {Data: []byte("rig: barrow\n")},
		"mine/rigs/notes.txt": {Data: []byte("x")},
		"other/c.yaml":        {Data: []byte("rig: barrow\n")},
	}
	list, l := casebook.Load(fsys, "mine", "other")
	if len(l) > 0 || len(list) != 2 || list[0].File != "mine/a.yaml" || list[1].File != "other/c.yaml" {
		t.Errorf("cases %v, %v, want mine/a.yaml and other/c.yaml", list, l)
	}
	rigs, l := casebook.Rigs(fsys, "mine", "other", "none")
	if len(l) > 0 || len(rigs) != 1 || rigs[0].Name != "mine/rigs/b.yaml" || !strings.Contains(string(rigs[0].Text), "barrow") {
		t.Errorf("rigs %v, %v, want mine/rigs/b.yaml", rigs, l)
	}
}
