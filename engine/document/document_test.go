package document

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snagwise/engine/problem"
)

func TestOffsetPointsAtTheCharacterInEveryStyle(t *testing.T) {
	const word = "delivry"
	for _, tt := range []struct{ name, text string }{
		{"plain", "when: low(delivry) and x\n"},
		{"plain over lines", "when: low(x)\n  and\n  low(delivry)\n"},
		{"single quoted", "when: 'it''s low(delivry)'\n"},
		{"double quoted", `when: "a \"b\" \u00e9 low(delivry)"` + "\n"},
		{"double quoted with escapes for blanks", `when: "a\tb\nlow(delivry)"` + "\n"},
		{"double quoted over lines", "when: \"low(x)\n  and low(delivry)\"\n"},
		{"folded", "when: >-\n  low(x)\n  and low(delivry)\n  and y\n"},
		{"folded with more indent", "when: >\n  low(x)\n\n    and low(delivry)\n"},
		{"literal", "when: |\n  low(x)\n    and low(delivry)\n"},
		{"after accents", "when: 'é° low(delivry)'\n"},
		{"windows line ends", "a: b\r\nwhen: low(delivry)\r\n"},
	} {
		n, problems := Parse("f", []byte(tt.text))
		if len(problems) > 0 {
			t.Errorf("%s: %v", tt.name, problems)
			continue
		}
		v := n.Get("when")
		got := v.Offset(strings.Index(v.Value, word))
		lineNo := 1 + strings.Count(tt.text[:strings.Index(tt.text, word)], "\n")
		line := strings.Split(tt.text, "\n")[lineNo-1]
		want := problem.Pos{File: "f", Line: lineNo, Col: 1 + len([]rune(line[:strings.Index(line, word)]))}
		if got != want {
			t.Errorf("%s: Offset = %v, want %v", tt.name, got, want)
		}
	}
}

func TestParseRefusesWhatIsNotAPlainDocument(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"empty", " \n\n", "f: the file is empty [empty-file]"},
		{"comments only", "# nothing\n", "f: the file holds nothing but comments [empty-file]"},
		{"binary", "a: \x00\x01", "f: the file is binary, not text [not-text]; a sheet or rule file is YAML in UTF-8"},
		{"not UTF-8", "a: b\nc: \xff\n", "f:2:4: byte 0xff is not UTF-8 [not-utf8]; save the file as UTF-8"},
		{"key twice", "a: 1\nb: 2\na: 3\n", `f:3:1: "a" stands twice in one map [key-twice]`},
		{"deep flow", strings.Repeat("[", 500) + strings.Repeat("]", 500), "nested more than 40 levels deep"},
		{"deep flow over lines", strings.Repeat("[\n ", 500) + strings.Repeat("]", 500), "nested more than 40 levels deep"},
		{"deep blocks", deepBlocks(100), "nested more than 40 levels deep"},
		{"alias bomb", "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", "anchors and aliases are not read"},
		{"large", "a: " + strings.Repeat("x", MaxBytes), "at most 8388608 are read"},
		{"syntax", "a: [1, 2\nb: 3\n", "this is not readable YAML"},
		{"tab indent", "a:\n\t- b\n", "this is not readable YAML"},
		{"two documents", "a: 1\n---\nb: 2\n", "this is not readable YAML"},
	} {
		n, problems := Parse("f", []byte(tt.text))
		if n != nil || !strings.Contains(problems.Error(), tt.want) {
			t.Errorf("%s: Parse = %v, problems %q, want %q", tt.name, n, problems.Error(), tt.want)
		}
	}
}

func deepBlocks(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

func TestDecodeReportsAllFaultsAtOnce(t *testing.T) {
	type item struct {
		ID      string  `yaml:"id,required"`
		Minutes float64 `yaml:"minutes"`
		Words   []Text  `yaml:"words"`
		Shows   []Pair  `yaml:"shows"`
		At      problem.Pos
	}
	var file struct {
		System Text   `yaml:"system,required"`
		Items  []item `yaml:"items"`
	}
	n, problems := Parse("f", []byte(`
system: fuel
items:
  - {id: a, minutes: ten, words: one word}
  - {minuets: 3, words: [b, [c]], shows: {x: often, y: seldom}}
  - {id: d, minutes: .nan}
`))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	got := Decode(n, &file).Error()
	want := strings.TrimSpace(`
f:4:22: this is "ten" [wrong-type]; wanted a number
f:5:5: "id" is missing [missing-key]
f:5:6: unknown key "minuets" [unknown-key]; did you mean "minutes"?
f:5:29: this is a list [wrong-type]; wanted a word or sentence
f:6:22: this is ".nan" [wrong-type]; wanted a number`)
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("problems differ (-want +got):\n%s", diff)
	}
	if got := file.Items[0].Words; len(got) != 1 || got[0].Value != "one word" {
		t.Errorf("a single value did not make a list of one: %v", got)
	}
	if got := file.Items[1].Shows; len(got) != 2 || got[1].Key.Value != "y" || got[1].Value.Pos().Col != 56 {
		t.Errorf("pairs out of order or place: %+v", got)
	}
	if got := file.Items[2].At.Line; got != 6 {
		t.Errorf("At.Line = %d, want 6", got)
	}
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"a: b\n", "- [x, {y: z}]\n", "a: |\n  b\n   c\n", "a: \"\\u00e9\\n\"\n", "a: 'it''s'\n", "a: >-\n  b\n\n  c\n", "&a [*a]", "? [x]\n: y\n"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		n, problems := Parse("f", text)
		if (n == nil) == (len(problems) == 0) {
			t.Fatalf("node %v with problems %v", n, problems)
		}
		if n != nil {
			walk(n, func(s *Node) {
				for i := range s.Value {
					if p := s.Offset(i); p.Line < 1 || p.Col < 1 {
						t.Fatalf("Offset(%d) of %q = %v", i, s.Value, p)
					}
				}
			})
		}
	})
}

func walk(n *Node, visit func(*Node)) {
	visit(n)
	for _, c := range append(append([]*Node{}, n.Items...), n.Values...) {
		walk(c, visit)
	}
}
