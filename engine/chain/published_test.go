// Rule bases whose closure somebody else published.
package chain

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"snagwise/engine/condition"
)

// definite is the base of definite clauses for forward chaining by counting.
// Source: Russell and Norvig, Artificial Intelligence: A Modern Approach, 3rd
// edition 2010, section 7.5.4, figures 7.15 and 7.16 (from memory); that Q is
// entailed stands also in the tests of the book's public code (aima-python,
// tests/test_logic.py). Capitals are small here: A and L are units.
const definite = `
q <- p
p <- l and m
m <- b and l
l <- a and p
l <- a and b`

// The same facts follow in the same rounds, whatever order the rules and facts
// come in; the book's order of inference is A, B, L, M, P, Q.
func TestDefiniteClausesInEveryOrder(t *testing.T) {
	b := parse(t, definite)
	orders := 0
	for rules := range permutations(b.rules) {
		orders++
		for _, facts := range [][]string{{"a", "b"}, {"b", "a"}} {
			b := base{rules: rules, scope: b.scope}
			s := b.plan(t).Start(b.scope.NewWorld(1))
			s.Run()
			for _, id := range facts {
				n := b.name(t, id)
				s.Tell(0, n.Slot, condition.True)
				s.Update(n)
			}
			if got, want := b.closure(s), "a b l m p q"; got != want {
				t.Fatalf("closure with facts %v = %q, want %q", facts, got, want)
			}
			got := levels(s.Proof(Whole, b.slot(t, "q")), map[string]int{})
			want := map[string]int{"a": 0, "b": 0, "l": 1, "m": 2, "p": 3, "q": 4}
			if !maps.Equal(got, want) {
				t.Fatalf("rounds with facts %v = %v, want %v", facts, got, want)
			}
		}
	}
	if orders != 120 {
		t.Errorf("%d orders of five rules, want 120", orders)
	}
}

// Without B nothing follows, and nothing is denied either.
func TestDefiniteClausesWithOneFactMissing(t *testing.T) {
	b := parse(t, definite)
	if got, want := b.closure(b.run(t, "a")), "a"; got != want {
		t.Errorf("closure = %q, want %q", got, want)
	}
	if got, want := b.closure(b.run(t, "a -b")), "a -b -l -m -p -q"; got != want {
		t.Errorf("closure with B false = %q, want %q", got, want)
	}
}

// G and H are entailed, I and J are not. Source: aima-python,
// tests/test_logic.py, definite_clauses_KB and test_pl_fc_entails.
func TestGoalsThatCannotBeDerived(t *testing.T) {
	b := parse(t, `
e <- b and f
g <- a and e and f
f <- b and c
d <- a and b
h <- e and f
j <- h and i`)
	s := b.run(t, "a b c")
	for id, want := range map[string]condition.Truth{
		"g": condition.True, "h": condition.True, "i": condition.Unknown, "j": condition.Unknown,
	} {
		if got := s.Truth(Whole, b.slot(t, id)); got != want {
			t.Errorf("%s = %v, want %v", id, got, want)
		}
	}
	if got, want := b.closure(s), "a b c d e f g h"; got != want {
		t.Errorf("closure = %q, want %q", got, want)
	}
}

// The crime example, its rules taken through the constants of the base. Round
// one adds Sells(West, M1, Nono), Weapon(M1) and Hostile(Nono), round two
// Criminal(West), and then nothing. Source: Russell and Norvig, Artificial
// Intelligence: A Modern Approach, 3rd edition, section 9.3 (from memory); the
// answer Criminal(West) also in aima-python, tests/test_logic.py,
// test_fol_fc_ask.
func TestRulesOverPartsTakenThroughConstants(t *testing.T) {
	things := []string{"west", "nono", "m1", "america"}
	var text strings.Builder
	for _, x := range things {
		fmt.Fprintf(&text, "weapon_%s <- missile_%[1]s\n", x)
		fmt.Fprintf(&text, "sells_west_%s_nono <- missile_%[1]s and owns_nono_%[1]s\n", x)
		fmt.Fprintf(&text, "hostile_%s <- enemy_%[1]s_america\n", x)
		for _, y := range things {
			for _, z := range things {
				fmt.Fprintf(&text, "criminal_%s <- american_%[1]s and weapon_%s and sells_%[1]s_%[2]s_%s and hostile_%[3]s\n", x, y, z)
			}
		}
	}
	b := parse(t, text.String())
	facts := "owns_nono_m1 missile_m1 american_west enemy_nono_america"
	s := b.run(t, facts)
	want := strings.Fields(facts + " sells_west_m1_nono weapon_m1 hostile_nono criminal_west")
	slices.Sort(want)
	if got, want := b.closure(s), strings.Join(want, " "); got != want {
		t.Errorf("closure = %q, want %q", got, want)
	}
	rounds := levels(s.Proof(Whole, b.slot(t, "criminal_west")), map[string]int{})
	for id, want := range map[string]int{
		"sells_west_m1_nono": 1, "weapon_m1": 1, "hostile_nono": 1, "criminal_west": 2,
	} {
		if got := rounds[id]; got != want {
			t.Errorf("%s in round %d, want %d", id, got, want)
		}
	}
}

// The game of moves: a place is won if a move leads from it to a place that is
// not won. With the circle a, b, c it has no layers, and is refused; the part
// below it is won at d and f, lost at e and g. Source: Abiteboul, Hull and
// Vianu, Foundations of Databases, 1995, sections 15.2 and 15.3 (from memory),
// where a, b and c are unknown.
func TestCircleThroughNotIsRefused(t *testing.T) {
	b := parse(t, `
win_b <- move_b_c and not win_c
win_c <- move_c_a and not win_a
win_a <- move_a_b and not win_b
win_a <- move_a_d and not win_d
win_d <- move_d_e and not win_e
win_d <- move_d_f and not win_f
win_f <- move_f_g and not win_g`)
	p, l := Build(b.rules, b.scope)
	if p != nil || len(l) != 1 {
		t.Fatalf("Build = %v, %v, want one problem", p, l)
	}
	want := `base:1:1: rules that deny one another in a circle: ` +
		`"win_a" (base:3:1), "win_b" (base:1:1), "win_c" (base:2:1) [circle-through-not]; ` +
		`let one of them rest on readings alone, or take out the "not", "seen" or "at" that closes the circle`
	if got := l[0].String(); got != want {
		t.Errorf("problem\n got %s\nwant %s", got, want)
	}
	below := base{rules: b.rules[4:], scope: b.scope}
	s := below.run(t, "move_d_e move_d_f move_f_g -win_e -win_g")
	for id, want := range map[string]condition.Truth{
		"win_d": condition.True, "win_f": condition.True, "win_e": condition.False, "win_g": condition.False,
	} {
		if got := s.Truth(Whole, b.slot(t, id)); got != want {
			t.Errorf("%s = %v, want %v", id, got, want)
		}
	}
}

// What is cut off is what cannot be reached: "not" over a lower layer. Nodes 1
// to 5, edges 1-2, 2-3 and 4-5, start at 1. Source: the answer (1, 2, 3
// reached, 4 and 5 cut off) can be read off the drawing; the rule base is that
// of negation in layers in Abiteboul, Hull and Vianu, Foundations of Databases,
// 1995, section 15.2 (from memory).
func TestNotOverLowerLayer(t *testing.T) {
	var text strings.Builder
	facts := "start_1"
	edges := []string{"1_2", "2_3", "4_5"}
	for x := 1; x <= 5; x++ {
		fmt.Fprintf(&text, "reach_%d <- start_%[1]d\ncut_%[1]d <- not reach_%[1]d\n", x)
		if x > 1 {
			facts += fmt.Sprintf(" -start_%d", x)
		}
		for y := 1; y <= 5; y++ {
			edge := fmt.Sprintf("%d_%d", x, y)
			fmt.Fprintf(&text, "reach_%d <- reach_%d and edge_%s\n", y, x, edge)
			if slices.Contains(edges, edge) {
				facts += " edge_" + edge
			} else {
				facts += " -edge_" + edge
			}
		}
	}
	b := parse(t, text.String())
	s := b.run(t, facts)
	for x := 1; x <= 5; x++ {
		reach := condition.True
		if x > 3 {
			reach = condition.False
		}
		for id, want := range map[string]condition.Truth{"reach": reach, "cut": condition.Not(reach)} {
			id = fmt.Sprintf("%s_%d", id, x)
			if got := s.Truth(Whole, b.slot(t, id)); got != want {
				t.Errorf("%s = %v, want %v", id, got, want)
			}
		}
	}
}

// The closure of a chain of n edges has n(n+1)/2 pairs. Working from what
// changed derives each once and evaluates fewer conditions than evaluating
// every rule in every round.
// Source for the method: Abiteboul, Hull and Vianu, Foundations of Databases,
// 1995, chapter 13 (from memory); the size is arithmetic.
func TestClosureOfChain(t *testing.T) {
	for _, n := range []int{4, 10} {
		var text strings.Builder
		var facts strings.Builder
		for x := 0; x <= n; x++ {
			for y := 0; y <= n; y++ {
				fmt.Fprintf(&text, "path_%d_%d <- edge_%[1]d_%[2]d\n", x, y)
				sign := " -"
				if y == x+1 {
					sign = " "
				}
				fmt.Fprintf(&facts, "%sedge_%d_%d", sign, x, y)
				for z := 0; z <= n; z++ {
					fmt.Fprintf(&text, "path_%d_%d <- edge_%[1]d_%[3]d and path_%[3]d_%[2]d\n", x, z, y)
				}
			}
		}
		b := parse(t, text.String())
		s := b.run(t, facts.String())
		pairs := 0
		for x := 0; x <= n; x++ {
			for y := 0; y <= n; y++ {
				if s.Truth(Whole, b.slot(t, fmt.Sprintf("path_%d_%d", x, y))) == condition.True {
					pairs++
				}
			}
		}
		if want := n * (n + 1) / 2; pairs != want {
			t.Errorf("n = %d: %d pairs, want %d", n, pairs, want)
		}
		w := b.scope.NewWorld(1)
		copy(w.Moments[0].Truth, s.told[0])
		naive := newOpinion(b, w)
		naive.run()
		// Each pair has one way to be derived: along its edges in order.
		if s.Work.Derivations != pairs || naive.derivations < 2*pairs {
			t.Errorf("n = %d: %d derivations, naively %d, want %d and twice that at least", n, s.Work.Derivations, naive.derivations, pairs)
		}
		if s.Work.Conditions > naive.conditions/2 {
			t.Errorf("n = %d: %d conditions evaluated, naively %d, want half at most", n, s.Work.Conditions, naive.conditions)
		}
		t.Logf("n = %d: %d pairs; derivations %d, naively %d; conditions evaluated %d, naively %d",
			n, pairs, s.Work.Derivations, naive.derivations, s.Work.Conditions, naive.conditions)
	}
}

// permutations yields every order of a list.
func permutations[E any](list []E) func(yield func([]E) bool) {
	return func(yield func([]E) bool) {
		var place func(done, rest []E) bool
		place = func(done, rest []E) bool {
			if len(rest) == 0 {
				return yield(done)
			}
			for i := range rest {
				next := slices.Concat(rest[:i], rest[i+1:])
				if !place(append(slices.Clone(done), rest[i]), next) {
					return false
				}
			}
			return true
		}
		place(nil, list)
	}
}
