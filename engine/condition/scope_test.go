package condition

import (
	"fmt"
	"testing"
)

func TestNewScopeRefuses(t *testing.T) {
	for _, tt := range []struct {
		names []Name
		want  string
	}{
		{[]Name{{ID: "x"}, {ID: "x", Kind: TruthKind}}, `name "x" stands twice`},
		{[]Name{{ID: "oil-pressure"}}, `name "oil-pressure" is not made of letters, digits and underscores`},
		{[]Name{{ID: "low"}}, `name "low" is a word of the condition language`},
		{[]Name{{ID: "psi"}}, `name "psi" is a word of the condition language`},
		{[]Name{{ID: "in"}}, `name "in" is a word of the condition language`},
		{[]Name{{ID: "count"}}, `name "count" is a word of the condition language`},
		{[]Name{{ID: "x", Kind: TextKind, Values: make([]string, 65)}}, `name "x" has 65 values, more than 64`},
	} {
		_, err := NewScope(tt.names)
		if got := fmt.Sprint(err); got != tt.want {
			t.Errorf("NewScope(%v) = %q, want %q", tt.names, got, tt.want)
		}
	}
}
