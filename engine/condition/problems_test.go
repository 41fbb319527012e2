package condition

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// wrong lists conditions with everything that is wrong with them: the place is
// marked with ^ before the character, in the order in which they stand; each
// mark has its check and a piece of its text or hint.
var wrong = []struct {
	text string
	want []string
}{
	{`^low(delivry_fuel_pressure) and normal(pump_fuel_pressure)`, []string{`5 unknown-name "delivry_fuel_pressure"; did you mean "delivery_fuel_pressure"?`}},
	{`low(oil_presure) or boots > psi(3) and not rough_idel`, []string{`5 unknown-name did you mean "oil_pressure"?`, `21 unknown-name did you mean "boost"?`, `44 unknown-name did you mean "rough_idle"?`}},
	{`hihg(oil_pressure)`, []string{`1 unknown-name unknown function "hihg"; did you mean "high"?`}},
	{`oil_pressure < pis(30)`, []string{`16 unknown-name did you mean "psi"?`}},
	{`p(3)`, []string{`1 unknown-name "p" takes no brackets`}},
	{`rough_idle and oil-pressure`, []string{`16 unknown-name unknown name "oil"`, `20 unknown-name unknown name "pressure"`}},
	{`booster == "onn"`, []string{`12 unknown-word "booster" is never "onn"; did you mean "on"?`}},
	{`phase in ["runup", "idle", "displai"]`, []string{`11 unknown-word did you mean "run_up"?`, `28 unknown-word did you mean "display"?`}},
	{`booster == on`, []string{`12 unknown-word on stands without quotes; write "on"`}},
	{`at(idel == phase, a) > 1`, []string{`4 unknown-word idel stands without quotes; write "idle"`}},
	{`phase in [idle, "run_up", displai]`, []string{`11 unknown-word write "idle"`, `27 unknown-word write "display"`}},
	{`booster == nonsense`, []string{`12 unknown-name unknown name "nonsense"`}},
	{`pump_fuel_pressure - oil_pressure > 3`, []string{`37 wrong-dimension write psi(3)`}},
	{`booster = "on"`, []string{`9 syntax write ==`}},
	{`booster < "on"`, []string{`9 wrong-kind "<" does not compare texts`}},
	{`booster == magnetos`, []string{`9 wrong-kind with a word in quotes only`}},
	{`booster == 1`, []string{`9 wrong-kind a text is compared with a number`}},
	{`booster and p`, []string{`1 wrong-kind "booster" is a text; compare it, as in booster == "on"`}},
	{`not booster == "on"`, []string{`1 wrong-kind write not (booster == "on")`}},
	{`not phase in ["idle"]`, []string{`1 wrong-kind write phase not in ["idle"]`}},
	{`not a > 3`, []string{`1 wrong-kind write not (a > 3)`}},
	{`p == q`, []string{`3 wrong-kind a and b or not a and not b`}},
	{`oil_pressure`, []string{`1 wrong-kind "oil_pressure" is a number; compare it`}},
	{`p and oil_pressure + psi(3)`, []string{`7 wrong-kind is a number, where something true or false is wanted`}},
	{`oil_pressure < 30`, []string{`16 wrong-dimension "30" has no unit, but is compared with a gauge pressure; write psi(30)`}},
	{`0 < coolant_temperature`, []string{`1 wrong-dimension write degC(0)`}},
	{`oil_pressure < degC(30)`, []string{`14 wrong-dimension a gauge pressure is compared with a temperature or temperature difference; a gauge pressure is told in psi`}},
	{`oil_pressure < oil_temperature`, []string{`14 wrong-dimension a gauge pressure is compared with a temperature`}},
	{`oil_pressure - oil_temperature < psi(3)`, []string{`14 wrong-dimension gauge pressure - temperature means nothing`}},
	{`oil_temperature + coolant_temperature > degC(80)`, []string{`17 wrong-dimension temperature + temperature means nothing`}},
	{`oil_temperature + 5 > degC(80)`, []string{`17 wrong-dimension temperature + number means nothing; give the number a unit, as in degC_difference(3)`}},
	{`2 * oil_temperature > degC(80)`, []string{`3 wrong-dimension number * temperature means nothing`}},
	{`pump_fuel_pressure - ambient_pressure > psi(1)`, []string{`20 wrong-dimension`}},
	{`max(oil_pressure, oil_temperature) > psi(3)`, []string{`19 wrong-dimension a temperature beside a gauge pressure in max(...)`}},
	{`low(p)`, []string{`5 wrong-kind "p" is a truth`}},
	{`low(dead_cut)`, []string{`5 wrong-kind "dead_cut" is a text; compare it, as in dead_cut == "cuts"`}},
	{`low(air_temperature)`, []string{`5 wrong-kind "air_temperature" has no bands`}},
	{`low(pump_fuel_pressure - oil_pressure)`, []string{`5 wrong-kind write the reading itself or at(condition, reading)`}},
	{`low(oil_pressure, oil_temperature)`, []string{`1 wrong-arguments low(...) with 2 arguments; write low(reading)`}},
	{`before(p)`, []string{`1 wrong-arguments write before(a, b)`}},
	{`n_of(4, p, q, r)`, []string{`6 wrong-arguments the number must be from 1 to 3`}},
	{`n_of(p, q, r)`, []string{`6 wrong-arguments begins with a whole number`}},
	{`psi(oil_pressure) > psi(3)`, []string{`5 wrong-arguments psi(...) makes a quantity of a plain number`}},
	{`at(booster == "on", phase) == "idle"`, []string{`21 wrong-kind at(...) takes a number or a truth`}},
	{`at(oil_pressure, p)`, []string{`4 wrong-kind "oil_pressure" is a number`}},
	{`seen(low(oil_pressure))`, []string{`6 wrong-kind seen(...) is asked of a name`}},
	{`now() > 3`, []string{`1 refused now(...) is no part of the condition language; reads no clock`}},
	{`p and date("2024-01-01") == q or duration("1h") > a`, []string{`7 refused date(...)`, `34 refused duration(...)`}},
	{`any([p, q], #)`, []string{`1 refused any(...) is no part of the condition language; n_of(k, a, b, ...)`}},
	{`count(p) > 1`, []string{`1 refused count(...)`}},
	{`len(phase) > 1`, []string{`1 refused len(...)`}},
	{`upper(booster) == "ON"`, []string{`1 refused upper(...)`}},
	{`filter(a, q`, []string{`1 refused filter(...)`}},
	{`a in 1..5`, []string{`7 refused ".." is no part of the condition language; write a >= 1 and a <= 5`}},
	{`a in b`, []string{`6 refused after in stands a list`}},
	{`a in [b]`, []string{`7 wrong-kind a list holds plain figures`}},
	{`phase in [booster]`, []string{`11 wrong-kind "phase" is compared with words in quotes`}},
	{`p in [q]`, []string{`1 wrong-kind "p" is true or false and in no list`}},
	{`phase in []`, []string{`10 never-holds nothing is in an empty list`}},
	{`p ? q : r`, []string{`1 refused a choice with ?`}},
	{`if p { q } else { r }`, []string{`4 refused a choice with ?`}},
	{`let x = 3; x > a`, []string{`5 refused let is no part`}},
	{`a % 2 == 1`, []string{`3 refused "%" is no part`}},
	{`a ** 2 == 1`, []string{`3 refused write x * x`}},
	{`(a ?? 3) > 2`, []string{`4 refused seen(x) asks whether it is known`}},
	{`booster matches "o"`, []string{`9 refused compare with ==`}},
	{`booster not contains "o"`, []string{`13 refused compare with ==`}},
	{`p == nil`, []string{`6 refused nil is no part`}},
	{`phase.idle`, []string{`1 refused "phase.idle" is no part`}},
	{`[p, q][0]`, []string{`1 refused`}},
	{`{"a": p}`, []string{`1 refused`}},
	{`p; q`, []string{`1 refused`}},
	{`low(oil_pressure`, []string{`17 syntax the condition stops short`}},
	{`p and`, []string{`6 syntax the condition stops short`}},
	{`p and or q`, []string{`7 syntax "or" cannot stand here`}},
	{`oil_pressure < 8psi`, []string{`16 syntax "8psi" is no number; write psi(8)`}},
	{`p and q @ r`, []string{`9 syntax unrecognized character`}},
	{`low(oil_pressure) and high(oil_pressure)`, []string{`1 never-holds "oil_pressure" both low and high`}},
	{`p and (q and not p)`, []string{`1 never-holds "p" both so and not so`}},
	{`phase == "idle" and q and phase in ["run_up", "display"]`, []string{`1 never-holds no value is left for "phase"`}},
	{`oil_pressure < psi(30) and not (p or oil_pressure <= bar(4))`, []string{`1 never-holds no figure is left for "oil_pressure"`}},
	{`a > 3 and a < 3`, []string{`1 never-holds no figure is left for "a"`}},
	{`a < 5 and (q and a >= 5)`, []string{`1 never-holds no figure is left for "a"`}},
	{`a > 3 and a <= 3`, []string{`1 never-holds no figure is left for "a"`}},
	{`a == 3 and a == 4`, []string{`1 never-holds no figure is left for "a"`}},
	{`rising(boost) and not (p or not falling(boost))`, []string{`1 never-holds "boost" both rising and falling`}},
	{`dead_cut == "né" and low(oil_presure)`, []string{`13 unknown-word "dead_cut" is never "né"`, `26 unknown-name "oil_presure"`}},
	{`false and p`, []string{`1 never-holds it comes out false`}},
	{`psi(3) > psi(4)`, []string{`1 never-holds`}},
	{`oil_pressure / 0 > psi(1)`, []string{`16 divides-by-zero`}},
	{`a > 1e308 * 10`, []string{`1 too-big a number too large`}},
	{``, []string{`1 syntax empty condition`}},
	{`  `, []string{`1 syntax empty condition`}},
}

// check compares problems with what was wanted; col gives the column of the
// n-th character of the condition.
func checkProblems(t *testing.T, name string, got problem.List, want []string, place func(char int) (line, col int)) {
	t.Helper()
	if len(got) != len(want) {
		t.Errorf("%s: %d problems, want %d: %v", name, len(got), len(want), got)
		return
	}
	for i, w := range want {
		at, rest, _ := strings.Cut(w, " ")
		check, text, _ := strings.Cut(rest, " ")
		char, err := strconv.Atoi(at)
		if err != nil {
			t.Fatal(err)
		}
		line, col := place(char)
		g := got[i]
		if g.Pos.Line != line || g.Pos.Col != col {
			t.Errorf("%s: problem %v at %d:%d, want %d:%d", name, g, g.Pos.Line, g.Pos.Col, line, col)
		}
		if g.Check != check {
			t.Errorf("%s: check of %v = %q, want %q", name, g, g.Check, check)
		}
		for part := range strings.SplitSeq(text, "; ") {
			if !strings.Contains(g.Text, part) && !strings.Contains(g.Hint, part) {
				t.Errorf("%s: problem %q, hint %q, want %q in one of them", name, g.Text, g.Hint, part)
			}
		}
	}
}

func TestProblemsAreAllToldAtTheirPlace(t *testing.T) {
	s := testScope(t)
	for _, tt := range wrong {
		text := strings.TrimPrefix(tt.text, "^")
		p, got := Compile(s, text, nil)
		if p != nil {
			t.Errorf("Compile(%q) gave a program, want problems %q", text, tt.want)
			continue
		}
		checkProblems(t, text, got, tt.want, func(char int) (int, int) { return 1, char })
	}
}

// The same conditions written in every way YAML has.
func TestProblemsPointIntoTheFile(t *testing.T) {
	s := testScope(t)
	for _, tt := range wrong {
		text := strings.TrimPrefix(tt.text, "^")
		if strings.TrimSpace(text) == "" {
			continue
		}
		for _, style := range []struct {
			name string
			open string // what stands before the text, on line 2
			text string // as written
			skip int    // characters before the text on its line
			line int
			fits bool
		}{
			{"plain", "when: ", text, 8, 2, !strings.ContainsAny(text[:1], "[{") && !strings.Contains(text, ": ") && !strings.Contains(text, " #")},
			{"single quoted", "when: '", text + "'", 9, 2, true},
			{"double quoted", `when: "`, strings.ReplaceAll(text, `"`, `\"`) + `"`, 9, 2, true},
			{"literal", "when: |-\n      ", text, 6, 3, true},
			{"folded", "when: >-\n      ", strings.ReplaceAll(text, " and ", "\n      and "), 6, 3, true},
			{"folded, one line", "when: >-\n      ", text, 6, 3, true},
		} {
			if !style.fits {
				continue
			}
			file := "- id: x\n  " + style.open + style.text + "\n"
			node, problems := document.Parse("rules.yaml", []byte(file))
			if len(problems) > 0 {
				t.Fatalf("%s: %v in %s", style.name, problems, file)
			}
			when := node.Items[0].Get("when")
			if when.Value != text {
				t.Fatalf("%s: value %q, want %q", style.name, when.Value, text)
			}
			_, got := Compile(s, when.Value, when.Offset)
			checkProblems(t, style.name+" "+text, got, tt.want, func(char int) (int, int) {
				return written(file, style.line, style.skip, text, char)
			})
		}
	}
}

// written finds the line and column of the n-th character of text in a file
// in which it starts after skip characters of a line: it steps through both,
// passing over line ends and indents for a space and over backslashes.
func written(file string, line, skip int, text string, n int) (int, int) {
	lines := strings.Split(file, "\n")
	row, col := line-1, skip
	for _, r := range []rune(text)[:min(n-1, len([]rune(text)))] {
		here := []rune(lines[row])
		switch {
		case col >= len(here) && r == ' ':
			row, col = row+1, 6
		case here[col] == '\\':
			col += 2
		default:
			col++
		}
	}
	if n <= len([]rune(text)) && col >= len([]rune(lines[row])) && row+1 < len(lines) && strings.TrimSpace(lines[row+1]) != "" {
		return row + 1, col + 1
	}
	return row + 1, col + 1
}

// place is asked for bytes, though problems are counted in characters.
func TestPlaceIsGivenBytes(t *testing.T) {
	s := testScope(t)
	text := `dead_cut == "né" and low(oil_presure)`
	var got []int
	_, problems := Compile(s, text, func(i int) problem.Pos {
		got = append(got, i)
		return problem.Pos{Line: 1, Col: 1 + i}
	})
	want := []int{strings.Index(text, `"né"`), strings.Index(text, "oil_presure")}
	if !slices.Equal(got, want) {
		t.Errorf("place was asked for bytes %v, want %v (%v)", got, want, problems)
	}
}

// What may hold is let through, close as it may be.
func TestMayHold(t *testing.T) {
	s := testScope(t)
	for _, text := range []string{
		"a >= 3 and a <= 3", "a >= 3 and a < 5 and a <= 3", "a < 5 and a <= 3 and a >= 3", "a > 3 and a == 5 and a <= 5", "a != 3 and a == 3.5",
		"low(oil_pressure) or high(oil_pressure)", "low(oil_pressure) and not high(oil_pressure)", "low(oil_pressure) and high(oil_temperature)",
		"low(oil_pressure) and none(oil_pressure)", "low(oil_pressure) and high(at(at_idle, oil_pressure))", "p or not p", "not (p and not p)",
		`phase in ["idle", "run_up"] and phase in ["run_up", "display"]`, `not (phase == "idle" or phase == "display")`,
		"at(p, q) and not q", "not false and p", "p or not true",
	} {
		if p, problems := Compile(s, text, nil); p == nil {
			t.Errorf("Compile(%q): %v, want a program", text, problems)
		}
	}
}

func TestBudgets(t *testing.T) {
	s := testScope(t)
	chain := "a"
	for range 30 {
		chain = "at(1 < " + chain + " < 2, a)"
	}
	for _, tt := range []struct{ name, text, want string }{
		{"text", strings.Repeat("p or ", 900) + "q", "more than 4096"},
		{"parts", strings.Repeat("p or ", 300) + "q", "more than 500 parts"},
		{"depth", strings.Repeat("(p or q and ", 41) + "r" + strings.Repeat(")", 41), "more than 40 deep"},
		{"shared parts of chained comparisons", chain + " > 1", "more than"},
		{"moments within moments", "at(at(at(at(p, q), q), q), q)", "nested more than 3"},
		{"open brackets", strings.Repeat("(", 4000), "stops short"},
		{"minus signs", strings.Repeat("-", 4000) + "a > 1", "more than"},
	} {
		p, got := Compile(s, tt.text, nil)
		if p != nil || len(got) != 1 || !strings.Contains(got[0].Text, tt.want) {
			t.Errorf("%s: program %v, problems %v, want %q", tt.name, p != nil, got, tt.want)
		}
	}
	if p, got := Compile(s, strings.Repeat("p or ", 240)+"q", nil); p == nil {
		t.Errorf("240 parts: %v, want none", got)
	}
}
