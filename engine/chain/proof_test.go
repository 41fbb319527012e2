package chain

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"snagwise/engine/condition"
)

// sketch writes a proof in one line: name, truth, rules and what it rests on.
func sketch(n *Node) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %v", n.ID, n.Truth)
	switch {
	case n.Short:
		b.WriteString(" as shown")
	case n.How == ByRule:
		fmt.Fprintf(&b, " by %s", strings.Join(n.Rules, ", "))
	default:
		fmt.Fprintf(&b, " %s", n.How)
	}
	if len(n.From) > 0 {
		var parts []string
		for _, from := range n.From {
			parts = append(parts, sketch(from))
		}
		fmt.Fprintf(&b, " [%s]", strings.Join(parts, "; "))
	}
	return b.String()
}

func TestProof(t *testing.T) {
	for _, c := range []struct{ rules, facts, of, want string }{
		{"a <- b and c", "b c", "a", "a true by a [b true told; c true told]"},
		{"a <- b and c", "-c", "a", "a false by a [c false told]"},
		{"a <- b and c", "b", "a", "a unknown not known"},
		{"a <- b\na <- c", "b c", "a", "a true by a [b true told]"},
		{"a <- b\na <- c", "c", "a", "a true by a_b [c true told]"},
		{"a <- b\na <- c", "-b -c", "a", "a false by a, a_b [b false told; c false told]"},
		{"a <- not b\nb <- c", "-c", "a", "a true by a [b false by b [c false told]]"},
		{"a <- b", "a -b", "a", "a true told"},
		// b is proved once.
		{"a <- c and d\nc <- b\nd <- b\nb <- e", "e", "a",
			"a true by a [c true by c [b true by b [e true told]]; d true by d [b true as shown]]"},
		// In a circle the proof goes to what came first, even within one rule.
		{"a <- b and c or c\nb <- a", "c", "a", "a true by a [c true told]"},
		{"a <- b and c or c\nb <- a", "c", "b", "b true by b [a true by a [c true told]]"},
		{"a <- b or c\nb <- a", "-c", "a", "a false by a [b false by b [a false as shown]; c false told]"},
	} {
		b := parse(t, c.rules)
		if got := sketch(b.run(t, c.facts).Proof(Whole, b.slot(t, c.of))); got != c.want {
			t.Errorf("%q with %q, proof of %s\n got %s\nwant %s", c.rules, c.facts, c.of, got, c.want)
		}
	}
}

// A proof names the moment at which the sign showed, and the clauses.
func TestProofNamesMomentAndClauses(t *testing.T) {
	b := parse(t, "smoke <- r_oil > 3")
	w := b.scope.NewWorld(3)
	for m, v := range []float64{1, 5, 5} {
		w.Moments[m].Num[0] = v
	}
	s := b.plan(t).Start(w)
	s.Run()
	n := s.Proof(Whole, b.slot(t, "smoke"))
	if n.Moment != 1 || n.How != ByRule || len(n.Clauses) != 1 {
		t.Fatalf("proof %+v, want one clause at moment 1", n)
	}
}

// What gives a rule its say is told with the clauses.
func TestProofNamesSay(t *testing.T) {
	b := parse(t, "smoke <- black and r_oil > 3 | r_speed > 2")
	w := b.scope.NewWorld(2)
	for m := range w.Moments {
		w.Moments[m].Num[b.name(t, "r_oil").Slot] = 4
		w.Moments[m].Num[b.name(t, "r_speed").Slot] = float64(1 + 2*m)
	}
	w.Whole[b.slot(t, "black")] = yes
	s := b.plan(t).Start(w)
	s.Run()
	n := s.Proof(Whole, b.slot(t, "smoke"))
	var texts []string
	for _, c := range n.Clauses {
		texts = append(texts, fmt.Sprintf("%s at %d", c.Text, c.Moment))
	}
	want := []string{"black at -1", "r_oil > 3 at 1", "r_speed > 2 at 1"}
	if n.Moment != 1 || !slices.Equal(texts, want) {
		t.Errorf("proof at moment %d by %q, want 1 and %q", n.Moment, texts, want)
	}
}

// Every true fact that is not told rests, in the end, on what was told or on
// readings: nothing true is proved by itself. The order of rules does not
// matter.
func TestProofsAreFounded(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		b := drawBase(rt, t, true)
		w := drawWorld(rt, b, rapid.IntRange(1, 3).Draw(rt, "moments"))
		other := base{rules: rapid.Permutation(b.rules).Draw(rt, "order"), scope: b.scope}
		s2 := other.plan(t).Start(twin(b, w))
		s := b.plan(t).Start(w)
		s.Run()
		s2.Run()
		for _, n := range b.scope.Names(condition.TruthKind) {
			proof := s.Proof(Whole, n.Slot)
			if one, two := sketch(proof), sketch(s2.Proof(Whole, n.Slot)); one != two {
				rt.Fatalf("proof depends on the order of rules:\n%s\n%s", one, two)
			}
			founded(rt, proof, nil)
		}
	})
}

// founded fails when a true fact stands beneath itself with nothing but true
// facts between.
func founded(rt *rapid.T, n *Node, above []string) {
	here := fmt.Sprintf("%s at %d", n.ID, n.Moment)
	if n.Truth != condition.True {
		above = nil
	} else if slices.Contains(above, here) {
		rt.Fatalf("%s rests on itself: %v", here, above)
	}
	for _, from := range n.From {
		founded(rt, from, append(slices.Clone(above), here))
	}
}

// A long chain is cut where it is too deep to show, and nothing hangs.
func TestProofIsBounded(t *testing.T) {
	var text strings.Builder
	for i := range 200 {
		fmt.Fprintf(&text, "x%d <- x%d\n", i, i+1)
	}
	b := parse(t, text.String())
	n, deep := b.run(t, "x200").Proof(Whole, b.slot(t, "x0")), 0
	for ; len(n.From) > 0; n = n.From[0] {
		deep++
	}
	if deep != deepest || !n.Short {
		t.Errorf("proof goes %d deep, short %v, want %d and true", deep, n.Short, deepest)
	}
}

func TestNeeds(t *testing.T) {
	for _, c := range []struct{ rules, facts, of, want string }{
		{"a <- b and r_oil > 3", "", "a", "b r_oil"},
		{"a <- b and r_oil > 3", "b", "a", "r_oil"},
		{"a <- b and r_oil > 3", "-b", "a", ""},              // decided
		{"a <- b and c\nb <- r_oil > 3", "", "a", "c r_oil"}, // followed down
		{"a <- b or c\nb <- a", "", "a", "c"},
		{"a <- b and c\nb <- a or d", "", "a", "c d"},
		{"a <- b\nb <- a", "", "a", ""}, // nothing but being told
		{"a <- b | r_oil > 3", "", "a", "b r_oil"},
		{"a <- b | r_oil > 3", "b", "a", "r_oil"},
		{"a <- b", "", "b", ""}, // no rule concludes it
	} {
		b := parse(t, c.rules)
		if got := strings.Join(b.run(t, c.facts).Needs(b.slot(t, c.of)), " "); got != c.want {
			t.Errorf("%q with %q: %s needs %q, want %q", c.rules, c.facts, c.of, got, c.want)
		}
	}
}
