package main

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snagwise/cases"
	"snagwise/cmd/snagwise/internal/load"
	"snagwise/engine/simulate"
)

func huntsRecord(t *testing.T) *simulate.Record {
	t.Helper()
	rec, l := simulate.ReadRecord(huntsFile, []byte(cases.Hunts))
	if len(l) > 0 {
		t.Fatal(l)
	}
	if len(rec.Runs) != 2 {
		t.Fatalf("%s holds %d runs, want a full one and a short one", huntsFile, len(rec.Runs))
	}
	return rec
}

// huntsTable is the table of DEVELOPERS.md, made from the record.
func huntsTable(r *simulate.Report) string {
	var b strings.Builder
	b.WriteString("| next look by |")
	for _, g := range r.Groups {
		fmt.Fprintf(&b, " %d %s |", g.Hunts, g.Name)
	}
	b.WriteString("\n|---|" + strings.Repeat("---|", len(r.Groups)) + "\n")
	for i, row := range r.Groups[0].Rows {
		fmt.Fprintf(&b, "| %s |", row.Strategy)
		for _, g := range r.Groups {
			x := g.Rows[i]
			fmt.Fprintf(&b, " %s, %s, %s %% |", tenths(x.Minutes), tenths(x.Looks), percent(x.Found))
		}
		b.WriteString("\n")
	}
	return b.String()
}

// TestHuntsTableIsTheRecord: the table of DEVELOPERS.md is that of the record.
// UPDATE=1 writes it anew.
func TestHuntsTableIsTheRecord(t *testing.T) {
	const file, head = "../../DEVELOPERS.md", "| next look by |"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, ok := strings.Cut(string(text), head)
	if !ok {
		t.Fatalf("%s has no table of hunts", file)
	}
	table, after, _ := strings.Cut(head+rest, "\n\n")
	full := huntsRecord(t).Runs[0]
	want := huntsTable(&full)
	if table+"\n" == want {
		return
	}
	if os.Getenv("UPDATE") == "" {
		t.Errorf("the table is not that of %s (-table +record):\n%s", huntsFile, cmp.Diff(table+"\n", want))
		return
	}
	if err := os.WriteFile(file, []byte(before+want+"\n"+after), 0o644); err != nil {
		t.Fatal(err)
	}
}

// TestShortHuntsAsRecorded plays the short run of the record again: the same
// rules give the same figures, so that a change to the rules or the advice
// cannot leave the record behind.
func TestShortHuntsAsRecorded(t *testing.T) {
	if testing.Short() {
		t.Skip("hunts take half a minute and would take minutes with the race detector, for which -short is there")
	}
	lib, l := load.Open(load.Choice{})
	if len(l) > 0 {
		t.Fatal(l)
	}
	got, err := playHunts(lib, shortHunts, nil)
	if err != nil {
		t.Fatal(err)
	}
	text := func(r simulate.Report) string { return (&simulate.Record{Runs: []simulate.Report{r}}).Text() }
	if diff := cmp.Diff(text(huntsRecord(t).Runs[1]), text(*got)); diff != "" {
		t.Errorf("the short run is not as recorded; snagwise score --hunts --record (-recorded +now):\n%s", diff)
	}
}
