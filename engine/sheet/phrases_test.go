package sheet

import (
	"strings"
	"testing"
)

func TestWhenWorkWasDoneIsToldInHoursAndDays(t *testing.T) {
	for _, tt := range []struct {
		text string
		want When
	}{
		{"11 h before", JustBefore},
		{"1.6 running hours before", JustBefore},
		{"50 hours ago", JustBefore},
		{"51 hours ago", LongBefore},
		{"4 days before", JustBefore},
		{"8 weeks ago", JustBefore},
		{"9 weeks ago", LongBefore},
		{"2 months before", JustBefore},
		{"3 months ago", LongBefore},
		{"1 year ago", LongBefore},
		{"before this run", JustBefore},
		{"11 h", WhenUnsaid},
		{"-2 days ago", WhenUnsaid},
		{"11 moons ago", WhenUnsaid},
		{"ago", WhenUnsaid},
	} {
		if got := whenOf(tt.text); got != tt.want {
			t.Errorf("whenOf(%q) = %v, want %v", tt.text, got, tt.want)
		}
	}
}

// What a source tells and a sheet cannot say is named, each with its reason;
// the counts must agree with that.
func TestPhrasesAreCounted(t *testing.T) {
	const head = "about: real\nphrases:\n"
	for _, tt := range []struct{ name, text, want string }{
		{"all said", "  told: 4\n  said: 4\n", ""},
		{"one not", "  told: 4\n  said: 3\n  cannot:\n    - {phrase: at a show, why: no field says where}\n", ""},
		{"one not named", "  told: 4\n  said: 3\n", "4 phrases told, 3 said, and 0 that cannot be"},
		{"more said than told", "  told: 3\n  said: 4\n", "3 phrases told, 4 said"},
		{"no number", "  told: some\n  said: 4\n", `"some" is no count`},
		{"none told", "  said: 4\n", "told"},
		{"no reason", "  told: 1\n  said: 0\n  cannot: [{phrase: at a show}]\n", "why"},
		{"another key", "  told: 1\n  said: 1\n  heard: 1\n", "heard"},
	} {
		s, l := Parse("f", []byte(head+tt.text))
		a, more := testLexicon.Resolve(s)
		l = append(l, more...)
		switch {
		case tt.want == "" && len(l) > 0:
			t.Errorf("%s: %v", tt.name, l)
		case tt.want != "" && !strings.Contains(l.Error(), tt.want):
			t.Errorf("%s: problems %v, want one with %q", tt.name, l, tt.want)
		case tt.want == "":
			p := a.Case.Phrases
			if p.Told != 4 || p.Said+len(p.Cannot) != 4 {
				t.Errorf("%s: %+v", tt.name, p)
			}
			again, l := Parse("f", Format(s))
			if len(l) > 0 || again.Phrases == nil || again.Phrases.Told.Value != "4" || len(again.Phrases.Cannot) != len(p.Cannot) {
				t.Errorf("%s: written back as\n%s%v", tt.name, Format(s), l)
			}
		}
	}
}
