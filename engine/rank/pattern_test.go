package rank

import "testing"

// patternNet has a cause for each way to stand to a pattern over signs 0 and 1:
// pointed to, reached through a state, spoken against, and neither.
func patternNet(t *testing.T, o Options, parts ...int) *Net {
	b := NewBuilder(4, 1, 3)
	for c := range 4 {
		b.Prior(c, .01)
		b.Direct(c, 0, .4)
		b.Direct(c, 1, .4)
		b.Direct(c, 2, .4)
	}
	b.Give(1, 0, .5)
	b.Pattern(Pattern{
		Parts:      parts,
		Concludes:  []Named{{ID: 0, Strength: .95}, {ID: 0, State: true, Strength: .9}},
		Against:    []Named{{ID: 2}},
		FalseAlarm: .05,
	})
	b.Pattern(Pattern{Parts: []int{1, 2}, Concludes: []Named{{ID: 0, Strength: .75}}, FalseAlarm: .05})
	return mustBuild(t, b, o)
}

// value is the likelihood of a set with patterns, in absolute terms.
func (n *Net) value(e Evidence, set ...int32) float64 {
	v := n.viewOf(e)
	w := newWorker(v)
	_, l := v.whole(w, set)
	for _, o := range v.obs {
		l *= o.base
	}
	return l
}

func TestPatterns(t *testing.T) {
	part := 1 - .98*.6 // one part, by a cause's own word
	parts := part * part
	for _, tt := range []struct {
		name    string
		combine Combine
		parts   []int
		signs   []int
		pattern []int
		set     []int32
		want    float64
	}{
		{"does not hold", Stronger, []int{0, 1}, []int{0, 1}, nil, []int32{0}, parts},
		{"points to it", Stronger, []int{0, 1}, []int{0, 1}, []int{0}, []int32{0}, .95},
		{"points to its state", Stronger, []int{0, 1}, []int{0, 1}, []int{0}, []int32{1}, .45},
		{"against it", Stronger, []int{0, 1}, []int{0, 1}, []int{0}, []int32{2}, .02},
		{"not named", Stronger, []int{0, 1}, []int{0, 1}, []int{0}, []int32{3}, parts},
		{"none", Stronger, []int{0, 1}, []int{0, 1}, []int{0}, nil, .02 * .02},
		{"against one, pointing to the other", Stronger, []int{0, 1}, []int{0, 1}, []int{0}, []int32{0, 2}, .95},
		{"other signs stand", Stronger, []int{0, 1}, []int{0, 1, 2}, []int{0}, []int32{0}, .95 * part},
		{"weaker than its parts", Stronger, []int{0}, []int{0}, []int{0}, []int32{1}, .45},
		{"in place of its parts", Replace, []int{0}, []int{0}, []int{0}, []int32{2}, .02},
		{"never adds", Stronger, []int{0}, []int{0}, []int{0, 0}, []int32{0}, .95},
		{"two that share a part: the strongest", Stronger, []int{0, 1}, []int{0, 1, 2}, []int{0, 1}, []int32{0}, .95 * part},
		{"no parts among the signs: pointed to", Stronger, nil, nil, []int{0}, []int32{0}, .95},
		{"no parts among the signs: not named", Stronger, nil, nil, []int{0}, []int32{3}, .05},
		{"no parts among the signs: against", Stronger, nil, nil, []int{0}, []int32{2}, .02},
	} {
		n := patternNet(t, Options{Combine: tt.combine}, tt.parts...)
		e := known(tt.signs...)
		e.Patterns = tt.pattern
		near(t, tt.name, n.value(e, tt.set...), tt.want, 1e-12)
	}
}

func TestPatternsInTheLedger(t *testing.T) {
	n := patternNet(t, Options{}, 0, 1)
	e := known(0, 1, 2)
	bare := n.Posterior(e).Ledger(0)
	e.Patterns = []int{0}
	r := n.Posterior(e)
	l := r.Ledger(0)
	last := l.Lines[len(l.Lines)-1]
	if last.Kind != Holds || last.ID != 0 {
		t.Fatalf("last line %+v, want the pattern's", last)
	}
	near(t, "with the pattern", l.Total, bare.Total+last.Points, 1e-9)
	for _, c := range r.Causes {
		if c.ID == 0 {
			near(t, "points", c.Points, l.Total, 1e-9)
		}
	}
	if r.Causes[0].ID != 0 || r.Causes[3].ID != 2 {
		t.Errorf("order %v, want the one pointed to first and the one spoken against last", r.Causes)
	}
}
