package main

import (
	"strings"
	"testing"

	"snagwise/cmd/snagwise/internal/load"
	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/rig"
	"snagwise/engine/sheet"
)

// TestBlankSheets: what "sheet" prints is a sheet as it stands, and with every
// # taken away it is one that the engine understands to the last word.
func TestBlankSheets(t *testing.T) {
	lib, l := load.Open(load.Choice{})
	if len(l) > 0 {
		t.Fatal(l)
	}
	for _, r := range lib.Rigs {
		e, l := lib.Engine(r)
		if len(l) > 0 {
			t.Fatal(l)
		}
		for _, phase := range append([]string{""}, r.Phases...) {
			text := blankSheet(r, phase)
			for line := range strings.Lines(text) {
				if n := screen.Columns(strings.TrimSuffix(line, "\n")); n > 80 {
					t.Errorf("%s %s: %d columns, want at most 80: %s", r.ID, phase, n, line)
				}
			}
			for what, text := range map[string]string{"as it stands": text, "filled in": filledIn(text)} {
				raw, l := sheet.Parse("blank.yaml", []byte(text))
				if len(l) > 0 {
					t.Fatalf("%s %s %s: %v\n%s", r.ID, phase, what, l, text)
				}
				account, l := e.Read(raw)
				if len(l) > 0 {
					t.Fatalf("%s %s %s: %v\n%s", r.ID, phase, what, l, text)
				}
				if want := len(phases(r, phase)); len(account.Moments) != want {
					t.Errorf("%s %s %s: %d moments, want %d", r.ID, phase, what, len(account.Moments), want)
				}
				if what == "filled in" && len(account.Moments[0].Readings) == 0 {
					t.Errorf("%s %s: no reading came out of the # lines", r.ID, phase)
				}
			}
		}
	}
}

func phases(r *rig.Rig, only string) []string {
	if only != "" {
		return []string{only}
	}
	return r.Phases
}

// filledIn takes the # from every line that is not prose.
func filledIn(text string) string {
	var out []string
	for line := range strings.SplitSeq(text, "\n") {
		at := strings.Index(line, "# ")
		bare := ""
		if at >= 0 && strings.TrimSpace(line[:at]) == "" {
			bare = line[:at] + line[at+2:]
		}
		switch trimmed := strings.TrimSpace(bare); {
		case bare == "":
			out = append(out, line)
		case strings.HasPrefix(trimmed, "- "), strings.Contains(bare, ": "), strings.HasSuffix(trimmed, ":"):
			out = append(out, bare)
		default:
			out = append(out, line)
		}
	}
	return strings.Join(out, "\n")
}
