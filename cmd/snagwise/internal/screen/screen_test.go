package screen

import (
	"bytes"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
	"github.com/olekukonko/tablewriter/pkg/twwidth"
	"pgregory.net/rapid"

	"snagwise/engine/problem"
)

// env returns an environment of the given names and values.
func env(pairs ...string) func(string) string {
	return func(name string) string {
		for i := 0; i < len(pairs); i += 2 {
			if pairs[i] == name {
				return pairs[i+1]
			}
		}
		return ""
	}
}

// page returns a plain screen of so many columns and what it has written.
func page(columns string) (*Screen, *bytes.Buffer) {
	var b bytes.Buffer
	return Open(&b, env("COLUMNS", columns)), &b
}

func TestWidthAndColour(t *testing.T) {
	for _, tt := range []struct {
		name     string
		env      func(string) string
		terminal bool
		wide     int
		width    int
		colour   bool
	}{
		{"pipe", env(), false, 0, 80, false},
		{"terminal", env("TERM", "xterm"), true, 72, 72, true},
		{"terminal of unknown size", env(), true, 0, 80, true},
		{"wide terminal", env(), true, 211, 100, true},
		{"narrow terminal", env(), true, 20, 40, true},
		{"COLUMNS wins", env("COLUMNS", "64"), true, 90, 64, true},
		{"COLUMNS in a pipe", env("COLUMNS", "64"), false, 0, 64, false},
		{"COLUMNS too large", env("COLUMNS", "1000"), false, 0, 100, false},
		{"COLUMNS nonsense", env("COLUMNS", "wide"), false, 0, 80, false},
		{"COLUMNS below nothing", env("COLUMNS", "-5"), false, 0, 80, false},
		{"NO_COLOR", env("NO_COLOR", "1"), true, 80, 80, false},
		{"NO_COLOR empty", env("NO_COLOR", ""), true, 80, 80, true},
		{"dumb terminal", env("TERM", "dumb"), true, 80, 80, false},
	} {
		s := open(&bytes.Buffer{}, tt.env, tt.terminal, tt.wide)
		if s.Width() != tt.width || s.colour != tt.colour {
			t.Errorf("%s: width %d, colour %v, want %d, %v", tt.name, s.Width(), s.colour, tt.width, tt.colour)
		}
	}
}

func TestOpenFile(t *testing.T) {
	f, err := os.Create(filepath.Join(t.TempDir(), "out"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if s := Open(f, env()); s.Width() != 80 || s.colour {
		t.Errorf("a file: width %d, colour %v, want 80 without", s.Width(), s.colour)
	}
}

func TestPage(t *testing.T) {
	s, b := page("")
	s.Gap() // nothing above: no empty line
	s.Alert("STOP", "Stop the engine now by idle cut-off; no restart until another gauge or the eye has shown oil.")
	s.Heading("What is likely")
	s.Text(2, "One of two things.")
	s.Gap()
	s.Gap()
	s.Item(0, "1. ", "Drop the filter bowl and look at the element: spanner, can, new seal, and a fireguard standing by.")
	s.Pair(3, 14, "takes", Minutes(10))
	s.Pair(3, 14, "a label longer than its room", "beside it all the same")
	want := `STOP  Stop the engine now by idle cut-off; no restart until another gauge or the
      eye has shown oil.

What is likely
--------------
  One of two things.

1. Drop the filter bowl and look at the element: spanner, can, new seal, and a
   fireguard standing by.
   takes      10 minutes
   a label longer than its room  beside it all the same
`
	if diff := cmp.Diff(want, b.String()); diff != "" {
		t.Errorf("page (-want +got):\n%s", diff)
	}
}

// TestColourSaysNothingMore: with colour taken out, a terminal shows the same
// as a pipe; and without a terminal there is none.
func TestColourSaysNothingMore(t *testing.T) {
	write := func(s *Screen) {
		s.Alert("STOP", "No second try.")
		s.Heading("What is likely")
		s.Styled(Quiet, 2, "Nothing yet.")
		s.Table(awkwardTable())
		s.Problems(problem.List{{Pos: problem.Pos{File: "a.yaml", Line: 1, Col: 2}, Text: "wrong", Hint: "right"}},
			func(string) []byte { return []byte("abc\n") })
	}
	var plain, colour bytes.Buffer
	write(open(&plain, env(), false, 0))
	write(open(&colour, env(), true, 80))
	if strings.Contains(plain.String(), "\x1b") {
		t.Errorf("a pipe gets colour:\n%q", plain.String())
	}
	if !strings.Contains(colour.String(), "\x1b[1;31mSTOP") {
		t.Errorf("a terminal gets no colour:\n%q", colour.String())
	}
	if diff := cmp.Diff(plain.String(), uncoloured(colour.String())); diff != "" {
		t.Errorf("colour changes the page (-plain +coloured):\n%s", diff)
	}
}

func uncoloured(text string) string {
	for {
		before, rest, ok := strings.Cut(text, "\x1b[")
		if !ok {
			return text
		}
		_, after, _ := strings.Cut(rest, "m")
		text = before + after
	}
}

// awkwardTable has wide characters, accents standing on others, a long id, a
// line end, a bar and something a terminal would obey.
func awkwardTable() Table {
	return Table{
		Columns: []Column{{Title: "chance"}, {Title: "cause"}, {Title: "points", Right: true}, {Title: "what speaks for it"}},
		Rows: [][]string{
			{Chance(.72), "The element of the fine fuel filter is choked", Points(11.8), "Delivery pressure falls at power while the pump keeps its figure."},
			{Chance(.2), "fuel_delivery_pressure_low_at_power_only_and_not_at_idle_on_either_magneto_hot", Points(-.4), "漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字漢字 low"},
			{Chance(.05), "cafe\u0301 | \x1b[31mred", "0", "first line\nsecond line"},
			{"one cell only"},
		},
		Style: func(row int) Style {
			if row == 0 {
				return Strong
			}
			return Plain
		},
	}
}

func TestTable(t *testing.T) {
	s, b := page("")
	s.Table(Table{
		Indent:  2,
		Columns: []Column{{Title: "oil_p °C"}, {Title: "time", Right: true}, {Title: "do"}},
		Rows: [][]string{
			{"walk_round", ShortMinutes(5), "Walk round with a torch: covers and bungs, controls joined, leads on, leaks."},
			{"漢字", ShortMinutes(80), "Look.\nThen write it down.", "a cell too many"},
			{"rest"},
		},
	})
	want := `  oil_p °C          time  do
  ---------------------------------------------------------------------------
  walk_round       5 min  Walk round with a torch: covers and bungs, controls
                          joined, leads on, leaks.
  漢字        1 h 20 min  Look.
                          Then write it down.
  rest
`
	if diff := cmp.Diff(want, b.String()); diff != "" {
		t.Errorf("table (-want +got):\n%s", diff)
	}
	b.Reset()
	s.Table(Table{Columns: []Column{{Title: "nothing"}}})
	if b.Len() != 0 {
		t.Errorf("a table without rows: %q, want nothing", b.String())
	}
}

// TestTableAsList: too narrow for columns, a table becomes a list.
func TestTableAsList(t *testing.T) {
	s, b := page("40")
	s.Table(Table{
		Columns: []Column{{Title: "chance"}, {Title: "cause"}, {Title: "points", Right: true}, {Title: "for it"}},
		Rows: [][]string{
			{"likely, 70 %", "The element is choked", "+11.8", "Delivery pressure falls at power."},
			{"possible, 20 %", "regulator_low", "", "It pops back."},
		},
	})
	want := `chance  likely, 70 %
cause   The element is choked
points  +11.8
for it  Delivery pressure falls at
        power.

chance  possible, 20 %
cause   regulator_low
for it  It pops back.
`
	if diff := cmp.Diff(want, b.String()); diff != "" {
		t.Errorf("list (-want +got):\n%s", diff)
	}
}

// tooWide fails if a line takes more columns than there are.
func tooWide(t interface {
	Helper()
	Errorf(string, ...any)
}, text string, width int) {
	t.Helper()
	for line := range strings.SplitSeq(text, "\n") {
		if n := Columns(line); n > width {
			t.Errorf("%d columns, want at most %d: %q", n, width, line)
		}
		if strings.ContainsFunc(line, func(r rune) bool { return unicode.IsControl(r) }) {
			t.Errorf("control character in %q", line)
		}
	}
}

func TestNeverTooWide(t *testing.T) {
	for _, columns := range []string{"40", "47", "80", "100"} {
		s, b := page(columns)
		long := strings.Repeat("deliveryfuelpressure_", 9)
		s.Table(awkwardTable())
		s.Table(Table{Columns: []Column{{Title: long}, {Title: "b"}}, Rows: [][]string{{"a", long}, {long, long}}})
		many := Table{Columns: make([]Column, 30), Rows: [][]string{make([]string, 30)}}
		for i := range many.Columns {
			many.Columns[i].Title, many.Rows[0][i] = "title", "cell"
		}
		s.Table(many)
		s.Heading(long)
		s.Text(70, long)
		s.Item(50, long, "short")
		s.Alert(long, long)
		s.Pair(3, 30, long, long)
		s.Pair(60, 10, "label", long)
		s.Problems(problem.List{
			{Pos: problem.Pos{File: long + ".yaml", Line: 1, Col: 150}, Check: long, Text: long, Hint: long},
			{Pos: problem.Pos{File: "b.yaml", Line: 2, Col: 60}, Text: "two\nlines \x1b[2J"},
		}, func(string) []byte {
			return []byte(strings.Repeat("漢字 and ", 40) + "\n" + strings.Repeat("\t漢", 80) + "\xff")
		})
		tooWide(t, b.String(), s.Width())
		if s.Err() != nil {
			t.Error(s.Err())
		}
	}
}

// someText draws text with all that is awkward in it.
func someText() *rapid.Generator[string] {
	return rapid.StringOfN(rapid.SampledFrom([]rune("ab_- .%\n\t漢é\u0301ｗ👩🏽\u200d\x1b\x07\u202e|°€")), 0, 200, -1)
}

// TestWrapKeepsAll: no line is too wide, and no character but blanks is lost.
func TestWrapKeepsAll(t *testing.T) {
	squeeze := func(text string) string {
		return strings.Map(func(r rune) rune {
			if unicode.IsSpace(r) {
				return -1
			}
			return r
		}, text)
	}
	rapid.Check(t, func(t *rapid.T) {
		text, width := someText().Draw(t, "text"), rapid.IntRange(2, 100).Draw(t, "width")
		lines := Wrap(text, width)
		tooWide(t, strings.Join(lines, "\n"), width)
		if got, want := squeeze(strings.Join(lines, "")), squeeze(Clean(text)); got != want {
			t.Errorf("Wrap(%q, %d) = %q, want all of %q", text, width, got, want)
		}
	})
}

func TestPagesNeverTooWide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, b := page(rapid.StringMatching("[4-9][0-9]").Draw(t, "columns"))
		table := Table{Indent: rapid.IntRange(0, 50).Draw(t, "indent")}
		columns := rapid.IntRange(1, 7).Draw(t, "n")
		for range columns {
			table.Columns = append(table.Columns, Column{Title: someText().Draw(t, "title"), Right: rapid.Bool().Draw(t, "right")})
		}
		for range rapid.IntRange(0, 3).Draw(t, "rows") {
			table.Rows = append(table.Rows, rapid.SliceOfN(someText(), 0, columns+1).Draw(t, "row"))
		}
		s.Table(table)
		s.Item(rapid.IntRange(0, 90).Draw(t, "at"), someText().Draw(t, "mark"), someText().Draw(t, "text"))
		s.Pair(rapid.IntRange(0, 90).Draw(t, "at"), rapid.IntRange(-9, 90).Draw(t, "to"), someText().Draw(t, "label"), someText().Draw(t, "text"))
		source := someText().Draw(t, "source")
		s.Problems(problem.List{{
			Pos:  problem.Pos{File: "f", Line: rapid.IntRange(0, 4).Draw(t, "line"), Col: rapid.IntRange(0, 300).Draw(t, "col")},
			Text: someText().Draw(t, "wrong"),
		}}, func(string) []byte { return []byte(source) })
		tooWide(t, b.String(), s.Width())
		if s.Err() != nil {
			t.Error(s.Err())
		}
	})
}

// TestWidthWhateverLocale: a locale in which ° and é count as wide must not
// move the columns.
func TestWidthWhateverLocale(t *testing.T) {
	write := func() string {
		s, b := page("")
		s.Table(Table{Columns: []Column{{Title: "°C é ½"}, {Title: "b"}}, Rows: [][]string{{"85 °C", "first\n\nthird"}, {"°°°°°°", "x"}}})
		return b.String()
	}
	twwidth.SetEastAsian(false)
	want := write()
	twwidth.SetEastAsian(true)
	defer twwidth.SetEastAsian(false)
	if diff := cmp.Diff(want, write()); diff != "" {
		t.Errorf("table in another locale (-want +got):\n%s", diff)
	}
	if !strings.Contains(want, "first\n\n") || strings.Count(want, "\n") != 6 {
		t.Errorf("the empty line of a cell is lost:\n%s", want)
	}
}

func TestWrap(t *testing.T) {
	accents := strings.Repeat("\u0301", 1000)
	for _, tt := range []struct {
		text  string
		width int
		want  []string
	}{
		{"", 10, []string{""}},
		{"one two three", 8, []string{"one two", "three"}},
		{"likely, 70 %", 10, []string{"likely,", "70 %"}}, // never a lone % sign
		{"abcdefgh ij", 3, []string{"abc", "def", "gh", "ij"}},
		{"a\n\nb", 3, []string{"a", "", "b"}},
		{"漢字漢字", 5, []string{"漢字", "漢字"}},
		{"a" + accents[:14], 2, []string{"a" + accents[:14]}},
	} {
		if diff := cmp.Diff(tt.want, Wrap(tt.text, tt.width)); diff != "" {
			t.Errorf("Wrap(%q, %d) (-want +got):\n%s", tt.text, tt.width, diff)
		}
	}
	// A pile of accents is cut, or each further one would cost more to measure.
	if got, want := len([]rune(Cut("a"+accents, 5))), 20; got != want {
		t.Errorf("Cut keeps %d characters of a pile, want %d", got, want)
	}
}

func TestClean(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"plain °C £ é 漢", "plain °C £ é 漢"},
		{"a\tb\r\nc", "a b\nc"},
		{"\x1b[2Jgone", "?[2Jgone"},
		{"\x9b31m", "?31m"}, // a byte that is no UTF-8
		{"\u009b31m", "?31m"},
		{"abc\u202edef", "abc?def"},
		{"\ufefftop", "top"},
	} {
		if got := Clean(tt.text); got != tt.want {
			t.Errorf("Clean(%q) = %q, want %q", tt.text, got, tt.want)
		}
	}
}

// TestColumns: widths as in Unicode Standard Annex 11, East Asian Width: wide
// and full-width characters take two columns, marks that stand on another
// none, all else one.
func TestColumns(t *testing.T) {
	for _, tt := range []struct {
		text string
		want int
	}{
		{"", 0}, {"abc", 3}, {"°C", 2}, {"é", 1}, {"e\u0301", 1}, {"漢字", 4}, {"ｗ", 2}, {"–½", 2},
	} {
		if got := Columns(tt.text); got != tt.want {
			t.Errorf("Columns(%q) = %d, want %d", tt.text, got, tt.want)
		}
	}
}

func TestClip(t *testing.T) {
	for _, tt := range []struct {
		text  string
		width int
		want  string
	}{
		{"short", 10, "short"},
		{"two\nlines  here", 20, "two lines here"},
		{"a long text indeed", 10, "a long ..."},
		{"漢字漢字漢字", 8, "漢字..."},
	} {
		if got := Clip(tt.text, tt.width); got != tt.want {
			t.Errorf("Clip(%q, %d) = %q, want %q", tt.text, tt.width, got, tt.want)
		}
	}
}

func TestChance(t *testing.T) {
	for _, tt := range []struct {
		p    float64
		want string
	}{
		{0, "unlikely, under 5 %"}, {.02, "unlikely, under 5 %"}, {.03, "unlikely, 5 %"},
		{.12, "unlikely, 10 %"}, {.13, "possible, 15 %"}, {.36, "possible, 35 %"},
		{.38, "even, 40 %"}, {.5, "even, 50 %"}, {.62, "even, 60 %"}, {.63, "likely, 65 %"},
		{.87, "likely, 85 %"}, {.88, "nearly certain, 90 %"}, {.97, "nearly certain, 95 %"},
		{.99, "nearly certain, over 95 %"}, {1, "nearly certain, over 95 %"},
		{1.2, "nearly certain, over 95 %"}, {-.2, "unlikely, under 5 %"}, {math.NaN(), "not known"},
	} {
		if got := Chance(tt.p); got != tt.want {
			t.Errorf("Chance(%v) = %q, want %q", tt.p, got, tt.want)
		}
	}
}

func TestMinutes(t *testing.T) {
	for _, tt := range []struct {
		m           float64
		long, short string
	}{
		{0, "no time", "0 min"}, {.2, "no time", "0 min"}, {.5, "half a minute", "1/2 min"},
		{1, "1 minute", "1 min"}, {1.4, "1 minute", "1 min"}, {12, "12 minutes", "12 min"},
		{59.6, "1 hour", "1 h"}, {60, "1 hour", "1 h"}, {61, "1 hour 1 minute", "1 h 1 min"},
		{80, "1 hour 20 minutes", "1 h 20 min"}, {179.6, "3 hours", "3 h"}, {190, "3 hours 15 minutes", "3 h 15 min"},
		{240, "4 hours", "4 h"}, {-6, "minus 6 minutes", "minus 6 min"},
		{math.NaN(), "not known", "not known"}, {math.Inf(1), "too long", "too long"},
		{math.Inf(-1), "minus too long", "minus too long"},
	} {
		if got := Minutes(tt.m); got != tt.long {
			t.Errorf("Minutes(%v) = %q, want %q", tt.m, got, tt.long)
		}
		if got := ShortMinutes(tt.m); got != tt.short {
			t.Errorf("ShortMinutes(%v) = %q, want %q", tt.m, got, tt.short)
		}
	}
}

func TestWords(t *testing.T) {
	for _, tt := range []struct{ got, want string }{
		{Points(4.58), "+4.6"}, {Points(-9.54), "-9.5"}, {Points(.04), "0"}, {Points(-.04), "0"}, {Points(math.NaN()), "not known"},
		{Count(0, "check", "checks"), "no checks"}, {Count(1, "check", "checks"), "1 check"}, {Count(3, "check", "checks"), "3 checks"},
		{And(nil), ""}, {And([]string{"a"}), "a"}, {And([]string{"a", "b"}), "a and b"}, {And([]string{"a", "b", "c"}), "a, b and c"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}

func TestUnknown(t *testing.T) {
	commands := []string{"diagnose", "check", "explain", "hunt"}
	many := make([]string, 40)
	for i := range many {
		many[i] = strings.Repeat("x", i+1)
	}
	for _, tt := range []struct {
		kind, word string
		known      []string
		want       string
	}{
		{"command", "diagnos", commands, `unknown command "diagnos"; did you mean "diagnose"?`},
		{"command", "hutn", commands, `unknown command "hutn"; did you mean "hunt"?`},
		{"command", "frobnicate", commands, `unknown command "frobnicate"; one of: diagnose, check, explain, hunt`},
		{"flag", "--jsn", []string{"--json", "--rig"}, `unknown flag "--jsn"; did you mean "--json"?`},
		{"sign", "zzzzzzzz", many, `unknown sign "zzzzzzzz"`},
		{"rig", "\x1b[2J", nil, `unknown rig "?[2J"`},
	} {
		if got := Unknown(tt.kind, tt.word, tt.known); got != tt.want {
			t.Errorf("Unknown(%q, %q) = %q, want %q", tt.kind, tt.word, got, tt.want)
		}
	}
}

// broken is a writer whose far end has gone.
type broken struct{ writes int }

func (b *broken) Write([]byte) (int, error) { b.writes++; return 0, errors.New("gone") }

func TestFirstErrorKept(t *testing.T) {
	var w broken
	s := Open(&w, env())
	s.Text(0, "one")
	s.Heading("two")
	s.Table(awkwardTable())
	if s.Err() == nil || w.writes != 1 {
		t.Errorf("error %v after %d writes, want one write and its error", s.Err(), w.writes)
	}
}
