package main

import (
	"bytes"
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"

	"snagwise/cmd/snagwise/internal/load"
	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/diagnose"
)

// TestAnyTellingIsAnswered tells things drawn at random from the words that a
// rig knows, much of it senseless together: there is an answer, by the schema,
// in eighty columns, what is due at once before all else.
func TestAnyTellingIsAnswered(t *testing.T) {
	lib, l := load.Open(load.Choice{})
	if len(l) > 0 {
		t.Fatal(l)
	}
	schema := published(t, "#/$defs/Result")
	rnd := rand.New(rand.NewPCG(7, 11))
	for _, r := range lib.Rigs {
		e, l := lib.Engine(r)
		if len(l) > 0 {
			t.Fatal(l)
		}
		for range 12 {
			args := senseless(rnd, e)
			var out, page bytes.Buffer
			p := newProgram(nil, nil, &out, &out)
			p.page = screen.Open(&page, func(string) string { return "" })
			raw, l := p.told(args)
			if len(l) > 0 {
				t.Fatalf("%q: %v", args, l)
			}
			account, l := e.Read(raw)
			if len(l) > 0 {
				t.Fatalf("%q: %v", args, l)
			}
			if err := p.answer(e, account, asking{json: true}); err != nil {
				t.Fatalf("%q: %v", args, err)
			}
			valid(t, schema, out.Bytes())
			var res diagnose.Result
			if err := json.Unmarshal(out.Bytes(), &res); err != nil {
				t.Fatal(err)
			}
			(&answerPage{s: p.page, e: e, r: &res}).show()
			for line := range strings.Lines(page.String()) {
				if n := screen.Columns(strings.TrimSuffix(line, "\n")); n > 80 {
					t.Errorf("%q: %d columns, want at most 80: %s", args, n, line)
				}
			}
			if len(res.FirstActions) > 0 && !strings.HasPrefix(page.String(), res.Rig.Name+"\n\nDo this at once\n") {
				t.Errorf("%q: what must be done at once is not first:\n%s", args, page.String())
			}
		}
	}
}

// senseless draws the words of a command line.
func senseless(rnd *rand.Rand, e *diagnose.Engine) []string {
	f := e.Fitted()
	judged := []string{"none", "low", "normal", "high", "rising", "falling", "unsteady"}
	var args []string
	for range 1 + rnd.IntN(3) {
		args = append(args, f.Rig.Phases[rnd.IntN(len(f.Rig.Phases))]+":")
		used := map[string]bool{}
		for range rnd.IntN(8) {
			if i := rnd.IntN(len(f.Readings)); f.ReadOn[i] && len(f.Readings[i].Answers) == 0 && !used[f.Readings[i].ID] {
				used[f.Readings[i].ID] = true
				args = append(args, f.Readings[i].ID+"="+judged[rnd.IntN(len(judged))])
			}
			i := rnd.IntN(len(f.Signs))
			if id := f.Signs[i].ID; !used[id] {
				used[id] = true
				args = append(args, []string{"", "!"}[rnd.IntN(2)]+id)
			}
		}
	}
	return args
}
