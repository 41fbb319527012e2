package sheet

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// sameWords compares sheets by their words alone; a list without anything in
// it is the same as none.
var sameWords = cmp.Options{
	cmp.Comparer(func(a, b document.Text) bool { return a.Value == b.Value }),
	cmpopts.IgnoreTypes(problem.Pos{}), cmpopts.EquateEmpty(),
}

func TestFormatSample(t *testing.T) {
	s, l := Parse("snag.yaml", []byte(sample))
	if len(l) > 0 {
		t.Fatal(l)
	}
	text := Format(s)
	again, l := Parse("again.yaml", text)
	if len(l) > 0 {
		t.Fatalf("%v\nof\n%s", l, text)
	}
	if diff := cmp.Diff(s, again, sameWords); diff != "" {
		t.Errorf("written and read again (-was +is):\n%s\nin\n%s", diff, text)
	}
	if got := Format(again); string(got) != string(text) {
		t.Errorf("written twice:\n%s\nand\n%s", text, got)
	}
}

func TestFormatQuotes(t *testing.T) {
	for _, word := range []string{"on", "off", "yes", "Null", "~", "60 psi", "-4 lb", "- 4", "2400 -> 1950 rpm", "<1 mm", ">20 psi", "a: b", "a #b", "#b", "a, b", "[x]",
		"{x}", "*x", "&x", "!x", "?", "it's", `"quoted"`, `back\slash`, "two\nlines", "tab\there", "déjà vu", "½ in", "85 °C", " lead", "trail ", "x:", ":x", "%x", "@x",
		"\u0085", "\u2028", "\ufeffx", "\x7f", "\x01", "0x10", "010", "1e3", "2024-01-01", "=", "<<", "...", "---", "\U0001f527", "|", ">", "'", "a'b", "x\r", "\ufffd"} {
		for _, s := range []*Sheet{
			{Notes: []Text{{Value: word}}, Remedy: Text{Value: word}},
			{Moments: []Moment{{Readings: Entries{{Name: Text{Value: word}, Values: []Text{{Value: word}, {Value: word}}}}, Symptoms: []Text{{Value: word}, {Value: word}}}}},
		} {
			text := Format(s)
			again, l := Parse("again.yaml", text)
			if len(l) > 0 {
				t.Errorf("%q is written as\n%s\nwhich is refused: %v", word, text, l)
				continue
			}
			if diff := cmp.Diff(s, again, sameWords); diff != "" {
				t.Errorf("%q is written as\n%s\nwhich reads otherwise:\n%s", word, text, diff)
			}
		}
	}
}

func TestFormatOfArgs(t *testing.T) {
	s, _ := ParseArgs([]string{"idle:", "booster=on", "rough", "just_transported"})
	s, l := testLexicon.Settle(s)
	if len(l) > 0 {
		t.Fatal(l)
	}
	want := "moments:\n  - phase: idle\n    controls: {booster: \"on\"}\n    symptoms: [rough]\ncircumstances: [just_transported]\n"
	if got := string(Format(s)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// Whatever a sheet says, its file says the same, and is the same bytes.
func TestFormatRoundTrip(t *testing.T) {
	word := rapid.Custom(func(t *rapid.T) Text {
		return Text{Value: rapid.OneOf(
			rapid.SampledFrom([]string{"oil_pressure", "60 psi", "no better", "- x", "on", "a: b", "2400 -> 1950 rpm", "it's, well"}),
			rapid.StringMatching(`[a-z "'\\:#,{}\[\]&*!|>%@?-]{1,12}`),
			rapid.StringOf(rapid.Rune().Filter(func(r rune) bool { return r != 0 && r != '\ufffd' })).Filter(func(s string) bool { return s != "" }),
		).Draw(t, "word")}
	})
	words := rapid.SliceOfN(word, 0, 3)
	entries := rapid.Custom(func(t *rapid.T) Entries {
		var e Entries
		for i := range rapid.IntRange(0, 2).Draw(t, "entries") {
			e = append(e, Entry{Name: Text{Value: fmt.Sprint(word.Draw(t, "name").Value, i)}, Values: rapid.SliceOfN(word, 1, 2).Draw(t, "values")})
		}
		return e
	})
	rapid.Check(t, func(t *rapid.T) {
		s := &Sheet{}
		fill(reflect.ValueOf(s).Elem(), func() Text { return word.Draw(t, "text") }, func() []Text { return words.Draw(t, "list") },
			func() Entries { return entries.Draw(t, "map") }, func() int { return rapid.IntRange(0, 2).Draw(t, "items") })
		text := Format(s)
		again, l := Parse("again.yaml", text)
		if len(l) > 0 {
			t.Fatalf("refused: %v\nin\n%s", l, text)
		}
		if diff := cmp.Diff(s, again, sameWords); diff != "" {
			t.Fatalf("reads otherwise:\n%s\nin\n%s", diff, text)
		}
		if got := Format(again); string(got) != string(text) {
			t.Fatalf("written twice:\n%s\nand\n%s", text, got)
		}
	})
}

// fill gives every field with a key a drawn value, so that no field can be
// left out of Format unnoticed.
func fill(v reflect.Value, text func() Text, list func() []Text, entries func() Entries, items func() int) {
	for i := range v.NumField() {
		key, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("yaml"), ",")
		if key == "" {
			continue
		}
		switch f := v.Field(i); f.Interface().(type) {
		case Text:
			f.Set(reflect.ValueOf(text()))
		case []Text:
			f.Set(reflect.ValueOf(list()))
		case Entries:
			f.Set(reflect.ValueOf(entries()))
		case *Phrases:
			f.Set(reflect.New(f.Type().Elem()))
			fill(f.Elem(), text, list, entries, items)
		default:
			s := reflect.MakeSlice(f.Type(), items(), 2)
			for k := range s.Len() {
				fill(s.Index(k), text, list, entries, items)
			}
			f.Set(s)
		}
	}
}
