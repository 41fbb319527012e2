package relate

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"snagwise/engine/document"
	"snagwise/engine/knowledge"
	"snagwise/engine/rig"
	"snagwise/engine/rig/rigtest"
)

func text(words ...string) []document.Text {
	var out []document.Text
	for _, w := range words {
		out = append(out, document.Text{Value: w})
	}
	return out
}

func rel(told string, how []string, own, joined float64) knowledge.RelationSource {
	return knowledge.RelationSource{Told: document.Text{Value: told}, How: text(how...), Own: own, Joined: joined}
}

var relations = []knowledge.RelationSource{
	rel("worked_on", nil, 5, 2),
	rel("worked_on", []string{"cleaned"}, 2.5, 0),
	rel("changed", []string{"no better"}, .25, 0),
	rel("changed", []string{"cured"}, 10, 0),
	rel("looked_at", []string{"good"}, .35, 0),
	rel("looked_at", nil, 6, 0),
	rel("leaks", nil, 8, 2),
	{Told: document.Text{Value: "flow"}, Between: 4, Elsewhere: .2},
}

// one gives every part of a rig one cause.
func one(r *rig.Rig) []knowledge.Instance {
	var out []knowledge.Instance
	for i := range r.Parts {
		out = append(out, knowledge.Instance{Cause: i, Part: i, Share: 1})
	}
	return out
}

func factors(r *rig.Rig, st ...Statement) map[int]float64 {
	out := map[int]float64{}
	for _, s := range Shifts(r, relations, one(r), st) {
		if out[s.Cause] == 0 {
			out[s.Cause] = 1
		}
		out[s.Cause] *= s.Factor
	}
	return out
}

func drawRig(t *rapid.T) *rig.Rig { return rigtest.Rig(t, rigtest.Kinds(t)) }

func TestGoodAsFarAsAndGoneAtLeavesJustWhatLiesBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		if len(r.Links) == 0 {
			t.Skip("no connections")
		}
		l := rapid.SampledFrom(r.Links).Draw(t, "link")
		down := r.Downstream(l.Flow, l.From)
		b := rapid.SampledFrom(append(slices.Clone(down), l.To)).Draw(t, "gone at")
		if b == l.From {
			t.Skip("a loop back to where it is good")
		}
		st := Statement{Told: "flow", Flow: l.Flow, GoodA: []int{l.From}, GoneB: []int{b}}
		between := r.Between(l.Flow, l.From, b)
		between = slices.DeleteFunc(between, func(p int) bool { return p == l.From })
		got := factors(r, st)
		for p := range r.Parts {
			want := 1.0
			switch {
			case slices.Contains(between, p):
				want = 4
			case carries(r, l.Flow, p):
				want = .2
			}
			if f, ok := got[p]; (ok && f != want) || (!ok && want != 1) {
				t.Fatalf("part %s: factor %v, want %v (between %v)", r.Parts[p].ID, f, want, between)
			}
		}
	})
}

func TestAPartChangedWithoutCureClearsItsOwnCausesAndNoOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		p := rapid.IntRange(0, len(r.Parts)-1).Draw(t, "part")
		got := factors(r, Statement{Told: "changed", How: "no better", Parts: []int{p}})
		if want := map[int]float64{p: .25}; !cmp.Equal(got, want) {
			t.Fatalf("factors %v, want %v", got, want)
		}
	})
}

func TestTheOrderOfStatementsNeverMatters(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		part := rapid.IntRange(0, len(r.Parts)-1)
		statement := rapid.Custom(func(t *rapid.T) Statement {
			switch rapid.IntRange(0, 4).Draw(t, "told") {
			case 0:
				return Statement{Told: "worked_on", How: rapid.SampledFrom([]string{"refitted", "cleaned", "cleaned and freed"}).Draw(t, "how"), Parts: []int{part.Draw(t, "part")}}
			case 1:
				return Statement{Told: "changed", How: rapid.SampledFrom([]string{"no better", "cured"}).Draw(t, "how"), Parts: []int{part.Draw(t, "part")}}
			case 2:
				return Statement{Told: "looked_at", How: rapid.SampledFrom([]string{"good", "cracked"}).Draw(t, "how"), Parts: []int{part.Draw(t, "part")}}
			case 3:
				return Statement{Told: "leaks", How: "oil", Parts: []int{part.Draw(t, "part")}}
			}
			a := part.Draw(t, "good")
			return Statement{Told: "flow", Flow: rapid.SampledFrom(append(slices.Clone(r.Flows), "fuel")).Draw(t, "flow"), GoodA: []int{a}}
		})
		list := rapid.SliceOfN(statement, 1, 6).Draw(t, "statements")
		want := factors(r, list...)
		shuffled := rapid.Permutation(list).Draw(t, "shuffled")
		got := factors(r, shuffled...)
		for p := range r.Parts {
			if d := got[p] - want[p]; d > 1e-9 || d < -1e-9 {
				t.Fatalf("part %s: %v in one order, %v in another", r.Parts[p].ID, want[p], got[p])
			}
		}
		twice := factors(r, append(slices.Clone(list), list...)...)
		if !cmp.Equal(twice, want) {
			t.Fatalf("told twice %v, told once %v", twice, want)
		}
	})
}

// Work long done weighs by its time, whatever the work was; a time that no
// relation names changes nothing.
func TestTheTimeOfWorkDecidesFirst(t *testing.T) {
	timed := rel("worked_on", nil, 1.5, 0)
	timed.When = text("long before")
	with := append(slices.Clone(relations), timed)
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		for _, tt := range []struct {
			how, when string
			want      float64
		}{
			{"refitted", "long before", 1.5},
			{"cleaned", "long before", 1.5},
			{"cleaned", "before this run", 2.5},
			{"refitted", "", 5},
		} {
			got := 0.0
			for _, s := range Shifts(r, with, one(r), []Statement{{Told: "worked_on", How: tt.how, When: tt.when, Parts: []int{0}}}) {
				if s.Cause == 0 {
					got = s.Factor
				}
			}
			if got != tt.want {
				t.Fatalf("%s %s: factor %v, want %v", tt.how, tt.when, got, tt.want)
			}
		}
	})
}

func TestTheWordOfAStatementDecides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		for _, tt := range []struct {
			told, how string
			want      float64
		}{
			{"worked_on", "refitted", 5},
			{"worked_on", "cleaned", 2.5},
			{"worked_on", "cleaned and freed", 2.5},
			{"looked_at", "good", .35},
			{"looked_at", "a crack", 6},
			{"changed", "some other word", 0}, // nothing said of it
		} {
			if got := factors(r, Statement{Told: tt.told, How: tt.how, Parts: []int{0}})[0]; got != tt.want {
				t.Fatalf("%s %q: factor %v, want %v", tt.told, tt.how, got, tt.want)
			}
		}
	})
}

func TestChangedAndLookedAtOfOnePartAreOneWitness(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := drawRig(t)
		got := factors(r,
			Statement{Told: "changed", How: "no better", Parts: []int{0}},
			Statement{Told: "looked_at", How: "good", Parts: []int{0}})[0]
		if got != .25 {
			t.Fatalf("factor %v, want the stronger, .25", got)
		}
	})
}
