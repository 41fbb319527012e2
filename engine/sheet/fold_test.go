package sheet

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestFoldOfWhatIsFolded holds the short way of fold to the long one: what is
// taken as folded already must come out of the long way unchanged.
func TestFoldOfWhatIsFolded(t *testing.T) {
	long := func(s string) string { return fold(strings.ToUpper(s)) }
	for _, tt := range []struct {
		in, want string
		short    bool
	}{
		{"fuel filter", "fuel filter", true},
		{"no 2 plug", "no 2 plug", true},
		{"fuel  filter", "fuel filter", false},
		{" fuel", "fuel", false},
		{"fuel ", "fuel", false},
		{"", "", false},
		{"fuel_filter", "fuel filter", false},
		{"Fuel-filter", "fuel filter", false},
		{"vapor lock", "vapour lock", false},
		{"grey vapor", "grey vapour", false},
	} {
		if got := fold(tt.in); got != tt.want {
			t.Errorf("fold(%q) = %q, want %q", tt.in, got, tt.want)
		}
		if got := isFolded(tt.in); got != tt.short {
			t.Errorf("isFolded(%q) = %v, want %v", tt.in, got, tt.short)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.StringMatching(`[a-c ]{0,6}(vapor|fuel|gray)?[ _a-b]{0,4}`).Draw(t, "words")
		if isFolded(s) && long(s) != s {
			t.Fatalf("isFolded(%q), yet the long way gives %q", s, long(s))
		}
	})
}
