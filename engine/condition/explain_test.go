package condition

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"snagwise/engine/quantity"
)

func TestExplain(t *testing.T) {
	s := testScope(t)
	for _, tt := range []struct {
		text    string
		moments []string
		now     int
		want    []string
	}{
		{"p and q", []string{"p true, q true"}, 0, []string{"p is true", "q is true"}},
		{"p and q", []string{"q false"}, 0, []string{"q is false"}},
		{"p and not q", []string{"p true, q false"}, 0, []string{"p is true", "q is false"}},
		{"p or q", []string{"p false, q true"}, 0, []string{"q is true"}},
		{"p or q", []string{"p false, q false"}, 0, []string{"p is false", "q is false"}},
		{"p or q", []string{"p false"}, 0, nil},
		{"n_of(2, p, q, r, s)", []string{"p true, r true, s true"}, 0, []string{"p is true", "r is true"}},
		{"n_of(2, p, q, r)", []string{"p false, q true, r false"}, 0, []string{"p is false", "r is false"}},
		{"oil_pressure < psi(30)", []string{"oil_pressure 20 psi"}, 0, []string{"oil_pressure < psi(30) is true at moment 1 (137895 SI)"}},
		{"degF(185) <= oil_temperature", []string{"oil_temperature 70 degC"}, 0, []string{"degF(185) <= oil_temperature is false at moment 1 (358.15 SI)"}},
		{"low(oil_pressure)", []string{"", "low oil_pressure, oil_pressure 20 psi"}, 1, []string{"low(oil_pressure) is true at moment 2 (137895 SI)"}},
		{`phase in ["run_up", "display"]`, []string{"phase display"}, 0, []string{`phase in ["run_up", "display"] is true at moment 1 ("display")`}},
		{`booster == "on"`, []string{"booster off"}, 0, []string{`booster == "on" is false at moment 1 ("off")`}},
		{"at_idle", []string{"", "at_idle true"}, 1, []string{"at_idle is true at moment 2"}},
		{"at(at_idle, rough_idle)", []string{"at_idle true", "at_idle true, rough_idle true"}, 0, []string{"at_idle is true at moment 2", "rough_idle is true at moment 2"}},
		{"at(at_idle, rough_idle)", []string{"at_idle true", "at_idle true, rough_idle false"}, 0, []string{"at_idle is true at moment 2", "rough_idle is false at moment 2"}},
		{"low(at(at_idle, oil_pressure))", []string{"at_idle true, low oil_pressure", ""}, 1, []string{"low(at(at_idle, oil_pressure)) is true at moment 1"}},
		{"before(p, q)", []string{"p true", "", "q true"}, 0, []string{"p is true at moment 1", "q is true at moment 3"}},
		{"before(p, q)", []string{"p false, q true", "q false"}, 0, []string{"before(p, q) is false"}},
		{"after(p, q)", []string{"q true", "p true", "q true"}, 0, []string{"p is true at moment 2", "q is true at moment 3"}},
		{"together(p, low(oil_pressure))", []string{"p true", "p true, low oil_pressure"}, 0, []string{"p is true at moment 2", "low(oil_pressure) is true at moment 2"}},
		{`at(booster == "on", a) - at(booster == "off", a) > 2`, []string{"booster on, a 5", "booster off, a 2"}, 0, []string{`at(booster == "on", a) - at(booster == "off", a) > 2 is true (3 SI)`}},
		{"highest(a) > 4", []string{"a 3", ""}, 0, []string{"highest(a) > 4 is false (3 SI)"}},
		{"seen(oil_pressure)", []string{""}, 0, []string{"seen(oil_pressure) is false"}},
		{"not (p or a > 3)", []string{"p false, a 2"}, 0, []string{"p is false", "a > 3 is false at moment 1 (2 SI)"}},
	} {
		p := compiled(t, s, tt.text)
		var got []string
		for _, c := range p.Explain(world(t, s, tt.moments...), tt.now) {
			got = append(got, c.String())
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("Explain of %q at %d of %q (-want +got):\n%s", tt.text, tt.now, tt.moments, diff)
		}
	}
}

func TestClauseFields(t *testing.T) {
	s := testScope(t)
	p := compiled(t, s, `coolant_temperature - oil_temperature > degC(5) and booster == "on" and not low(boost) and hot_day`)
	w := world(t, s, "coolant_temperature 90 degC, oil_temperature 80 degC, booster on, not_low boost")
	setter{t, s, w}.tell(-1, "hot_day true")
	nan := math.NaN()
	want := []Clause{
		{Text: "coolant_temperature - oil_temperature > degC(5)", Name: "coolant_temperature", Op: ">", Dim: quantity.TemperatureDifference, Value: 10, Limit: 5, Truth: True},
		{Text: `booster == "on"`, Name: "booster", Op: "in", Value: nan, Limit: nan, Word: "on", Truth: True},
		{Text: "low(boost)", Name: "boost", Op: "low", Dim: quantity.Boost, Value: nan, Limit: nan, Truth: False},
		{Text: "hot_day", Name: "hot_day", Op: "is", Value: nan, Limit: nan, Moment: -1, Truth: True},
	}
	got := p.Explain(w, 0)
	if diff := cmp.Diff(want, got, cmpopts.EquateNaNs(), cmpopts.EquateApprox(0, 1e-9)); diff != "" {
		t.Errorf("Explain (-want +got):\n%s", diff)
	}
}

func TestNeeds(t *testing.T) {
	s := testScope(t)
	for _, tt := range []struct{ text, told, want string }{
		{"p and q", "", "p q"},
		{"p and q", "q true", "p"},
		{"p and q", "q false", ""},
		{"p or q", "", "p"},
		{"p and q or r", "", "r"},
		{"p and q or r", "r false", "p q"},
		{"p and q or r", "p false", "r"},
		{"not (p and q)", "", "p"},
		{"not (p or q)", "", "p q"},
		{"n_of(2, p, q, r and s)", "", "p q"},
		{"n_of(2, p, q, r and s)", "p true", "q"},
		{"n_of(2, p, q, r and s)", "p false", "q r s"},
		{"pump_fuel_pressure - delivery_fuel_pressure > psi(2)", "pump_fuel_pressure 14 psi", "delivery_fuel_pressure"},
		{`phase == "idle" and low(oil_pressure)`, "phase idle", "oil_pressure"},
		{`at(booster == "on", a) > 2`, "booster on", "booster a"},
		{"a > 3 or p and q", "", "a"},
	} {
		p := compiled(t, s, tt.text)
		moment := tt.told
		got := strings.Join(p.Needs(world(t, s, moment), 0), " ")
		if got != tt.want {
			t.Errorf("Needs of %q with %q = %q, want %q", tt.text, tt.told, got, tt.want)
		}
	}
}

// Where each name stands once, no smaller set than the one needed can make the
// condition true, and that one can: held against trying every set.
func TestNeedsIsTheSmallestSet(t *testing.T) {
	s := testScope(t)
	ids := strings.Fields("p q r s fuel_smell rough_idle surges")
	rapid.Check(t, func(t *rapid.T) {
		text := readOnce(t, slices.Clone(ids))
		p, problems := Compile(s, text, nil)
		if p == nil {
			t.Fatalf("Compile(%q): %v", text, problems)
		}
		w := s.NewWorld(1)
		var open []string
		for _, id := range ids {
			if v := Truth(rapid.IntRange(-1, 3).Draw(t, id)); v == True || v == False {
				set(s, w, id, v)
			} else {
				open = append(open, id)
			}
		}
		if p.Eval(w, 0) != Unknown {
			return
		}
		needs := p.Needs(w, 0)
		if !canBeTrue(s, p, w, needs) {
			t.Fatalf("%q is not made true by knowing %v", text, needs)
		}
		for sub := range 1 << len(open) {
			var fewer []string
			for i, id := range open {
				if sub>>i&1 != 0 {
					fewer = append(fewer, id)
				}
			}
			if len(fewer) < len(needs) && canBeTrue(s, p, w, fewer) {
				t.Fatalf("%q needs %v, but %v would do", text, needs, fewer)
			}
		}
	})
}

// readOnce writes a condition in which each of the names stands once.
func readOnce(t *rapid.T, ids []string) string {
	if len(ids) == 1 {
		return rapid.SampledFrom([]string{"", "not "}).Draw(t, "not") + ids[0]
	}
	cut := rapid.IntRange(1, len(ids)-1).Draw(t, "cut")
	a, b := readOnce(t, ids[:cut]), readOnce(t, ids[cut:])
	switch rapid.IntRange(0, 4).Draw(t, "join") {
	case 0:
		return "not (" + a + " and " + b + ")"
	case 1, 2:
		return "(" + a + " and " + b + ")"
	}
	if cut > 1 {
		return "n_of(2, " + readOnce(t, ids[:1]) + ", " + readOnce(t, ids[1:cut]) + ", " + b + ")"
	}
	return "(" + a + " or " + b + ")"
}

// canBeTrue tries every way in which the names given may turn out.
func canBeTrue(s *Scope, p *Program, w *World, ids []string) bool {
	for way := range 1 << len(ids) {
		try := s.NewWorld(1)
		copy(try.Whole, w.Whole)
		for i, id := range ids {
			n, _ := s.Lookup(id)
			try.Whole[n.Slot] = of(way>>i&1 != 0)
		}
		if p.Eval(try, 0) == True {
			return true
		}
	}
	return false
}
