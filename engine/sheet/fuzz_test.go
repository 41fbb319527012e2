package sheet

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"snagwise/engine/problem"
)

// seeds are sheets, good and bad, for the fuzz targets.
var seeds = []string{
	sample, "rig: hollin", "", "# x", "[", "moments:", "moments: [{phase: at power, symptoms: [no black smoke]}]", "moments: [{readings: {oil_pressure: .nan}}]",
	"moments: [&a {phase: idle}, *a]", "rig: h\x00", "rig: \xff", "moments: [{readings: {oil_pressure: [60 psi, low, falling], boost: '?'}}]",
	"parts: [{part: [magneto_left, magneto_right], changed: no better}, {flow: fuel, gone_at: carburettor}]", "notes: |\n  two\n  lines\n",
	"moments: [{readings: {oil_pressure: ' 60 pis'}}]", "moments: [{phase: \"\\u00e9\"}]", "moments: {phase: idle}", "moments: [[]]", "checks: [{check: x, minutes: 1e9}]",
	"symptoms: [x]", "moments:\n  - after: 1 h 20 min\n    readings: {rpm: 2400 -> 1950 rpm}\n", "weather: {air_temperature: '?'}",
}

// usable fails a test when a problem could not be shown to a person.
func usable(t *testing.T, l problem.List) {
	t.Helper()
	if len(l) > MaxProblems+1 {
		t.Fatalf("%d problems", len(l))
	}
	for _, p := range l {
		if p.Text == "" || p.Check == "" || strings.ContainsAny(p.Text+p.Hint, "\n\x00") || !utf8.ValidString(p.Text+p.Hint) {
			t.Fatalf("%#v is no use as a problem", p)
		}
		if p.Pos.Line < 0 || p.Pos.Line > 0 && p.Pos.Col < 1 {
			t.Fatalf("%v has no place", p)
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		s, l := Parse("snag.yaml", text)
		usable(t, l)
		if s == nil {
			if len(l) == 0 {
				t.Fatal("no sheet and no problem")
			}
			return
		}
		a, more := testLexicon.Resolve(s)
		usable(t, more)
		again, _ := testLexicon.Resolve(s)
		if diff := cmp.Diff(a, again, sameAccount); diff != "" {
			t.Fatalf("looked up twice:\n%s", diff)
		}
		if len(l)+len(more) > 0 {
			return
		}
		written := Format(s)
		back, l := Parse("again.yaml", written)
		if len(l) > 0 {
			t.Fatalf("%q is written as\n%s\nwhich is refused: %v", text, written, l)
		}
		b, l := testLexicon.Resolve(back)
		if len(l) > 0 {
			t.Fatalf("%q is written as\n%s\nwhich is refused: %v", text, written, l)
		}
		if diff := cmp.Diff(a, b, sameAccount); diff != "" {
			t.Fatalf("%q is written as\n%s\nwhich says otherwise:\n%s", text, written, diff)
		}
	})
}

func FuzzParseArgs(f *testing.F) {
	for _, s := range []string{
		"display: engine_rpm=1950rpm fuel_pump_pressure=16.5psi pops_back_running", "idle: booster=on !black_smoke not rough boost?", "weather: dew_point=4degC",
		"magneto_left.changed=cured", "=", ":", "?", "!", "a=b=c", "a:b:c=d", "after=3min", "note=x", "x.y.z=1", "not", "idle:=", "\xff", "oil_pressure=low,falling",
		"!=", "::", ".=x", "a.=x", ". ?", "rpm=", "weather:weather:", "\x00=",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, line string) {
		args := strings.Split(line, " ")
		s, l := ParseArgs(args)
		usable(t, l)
		if s == nil {
			return
		}
		a, more := testLexicon.Resolve(s)
		usable(t, more)
		if a == nil {
			t.Fatal("no account of a sheet")
		}
		if len(l)+len(more) > 0 {
			return
		}
		settled, _ := testLexicon.Settle(s)
		back, l := Parse("again.yaml", Format(settled))
		if len(l) > 0 {
			t.Fatalf("%q is written as\n%s\nwhich is refused: %v", line, Format(settled), l)
		}
		b, l := testLexicon.Resolve(back)
		if diff := cmp.Diff(a, b, sameAccount); diff != "" || len(l) > 0 {
			t.Fatalf("%q is written as\n%s\nwhich says otherwise: %v\n%s", line, Format(settled), l, diff)
		}
	})
}
