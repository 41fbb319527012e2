package screen

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snagwise/engine/problem"
)

func at(file string, line, column int) problem.Pos {
	return problem.Pos{File: file, Line: line, Col: column}
}

const fuel = "system: fuel\n" +
	"    when: low(delivry_fuel_pressure) and normal(pump_fuel_pressure)\r\n" +
	"  - {means: 漢字 pressure, whn: low}\n" +
	"    when: low(fuel_delivery_pressure) and not low(fuel_pump_pressure) and phase in [\"run_up\"] and low(delivry)\n" +
	"\tlast"

func TestProblems(t *testing.T) {
	for _, tt := range []struct {
		name string
		p    problem.Problem
		want string
	}{
		{"line, mark and hint", problem.Problem{
			Pos: at("rules/fuel.yaml", 2, 15), Check: "unknown-name",
			Text: `unknown reading "delivry_fuel_pressure"`, Hint: `did you mean "delivery_fuel_pressure"?`,
		}, `
rules/fuel.yaml:2:15: unknown reading "delivry_fuel_pressure" [unknown-name]
    2 |     when: low(delivry_fuel_pressure) and normal(pump_fuel_pressure)
      |               ^
  did you mean "delivery_fuel_pressure"?
`},
		{"wide characters before it", problem.Problem{Pos: at("a.yaml", 3, 26), Text: `unknown key "whn"`}, `
a.yaml:3:26: unknown key "whn"
    3 |   - {means: 漢字 pressure, whn: low}
      |                            ^
`},
		{"far to the right", problem.Problem{Pos: at("a.yaml", 4, 103), Text: `unknown reading "delivry"`}, `
a.yaml:4:103: unknown reading "delivry"
    4 | ... not low(fuel_pump_pressure) and phase in ["run_up"] and low(delivry)
      |                                                                 ^
`},
		{"far to the left", problem.Problem{Pos: at("a.yaml", 4, 5), Text: `unknown key "when"`}, `
a.yaml:4:5: unknown key "when"
    4 |     when: low(fuel_delivery_pressure) and not low(fuel_pump_pressure)...
      |     ^
`},
		{"behind the last character", problem.Problem{Pos: at("a.yaml", 1, 13), Text: "something is missing"}, `
a.yaml:1:13: something is missing
    1 | system: fuel
      |             ^
`},
		{"far behind it", problem.Problem{Pos: at("a.yaml", 1, 99), Text: "something is missing"}, `
a.yaml:1:99: something is missing
    1 | system: fuel
      |             ^
`},
		{"no column", problem.Problem{Pos: at("a.yaml", 1, 0), Text: "the whole line is wrong"}, `
a.yaml:1: the whole line is wrong
    1 | system: fuel
`},
		{"no column in a long line", problem.Problem{Pos: at("a.yaml", 4, 0), Text: "too long"}, `
a.yaml:4: too long
    4 |     when: low(fuel_delivery_pressure) and not low(fuel_pump_pressure)...
`},
		{"a tab and no line end", problem.Problem{Pos: at("a.yaml", 5, 2), Text: "wrong"}, `
a.yaml:5:2: wrong
    5 |  last
      |  ^
`},
		{"no line", problem.Problem{Pos: at("a.yaml", 0, 0), Text: "the file is empty", Hint: "write something"}, `
a.yaml: the file is empty
  write something
`},
		{"line outside the file", problem.Problem{Pos: at("a.yaml", 77, 1), Text: "wrong"}, `
a.yaml:77:1: wrong
`},
		{"no place", problem.Problem{Text: "wrong"}, `
wrong
`},
		{"long message", problem.Problem{
			Pos: at("rules/lubrication/first_actions.yaml", 1, 1), Check: "dimension",
			Text: "a pressure is compared with a temperature, which can never be decided",
		}, `
rules/lubrication/first_actions.yaml:1:1: a pressure is compared with a
  temperature, which can never be decided [dimension]
    1 | system: fuel
      | ^
`},
	} {
		s, b := page("")
		s.Problems(problem.List{tt.p}, func(string) []byte { return []byte(fuel) })
		if diff := cmp.Diff(tt.want[1:], b.String()); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.name, diff)
		}
	}
}

func TestProblemsWithoutSource(t *testing.T) {
	list := problem.List{{Pos: at("a.yaml", 2, 3), Text: "wrong", Hint: "right"}}
	for name, source := range map[string]func(string) []byte{"nil": nil, "returns nil": func(string) []byte { return nil }} {
		s, b := page("")
		s.Problems(list, source)
		if got, want := b.String(), "a.yaml:2:3: wrong\n  right\n"; got != want {
			t.Errorf("source %s: %q, want %q", name, got, want)
		}
	}
}

func TestManyProblems(t *testing.T) {
	var list problem.List
	for i := range 1234 {
		list.Add(at("a.yaml", i+1, 1), "", fmt.Sprintf("wrong %d", i), "")
	}
	reads := 0
	s, b := page("")
	s.Problems(list, func(string) []byte { reads++; return []byte(strings.Repeat("x\n", 2000)) })
	if got := strings.Count(b.String(), "wrong"); got != 50 || !strings.HasSuffix(b.String(), "and 1184 more problems\n") {
		t.Errorf("%d problems written, ending %q, want 50 and the count of the rest", got, b.String()[b.Len()-40:])
	}
	if reads != 1 {
		t.Errorf("file read %d times, want once", reads)
	}
}

// TestLongLine: a line of megabytes costs no more than its neighbourhood.
func TestLongLine(t *testing.T) {
	text := []byte(strings.Repeat("漢e\u0301", 300_000))
	var list problem.List
	for i := range 50 {
		list.Add(at("a.yaml", 1, 1+15_000*i), "", "wrong", "")
	}
	s, b := page("")
	s.Problems(list, func(string) []byte { return text })
	tooWide(t, b.String(), 80)
	if got := strings.Count(b.String(), "^"); got != 50 {
		t.Errorf("%d marks, want 50", got)
	}
}
