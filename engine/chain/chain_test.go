package chain

import (
	"fmt"
	"math"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snagwise/engine/condition"
	"snagwise/engine/problem"
)

const (
	no   = condition.False
	open = condition.Unknown
	yes  = condition.True
)

// Several rules of one slot: true if one is, false only if all are.
func TestSeveralRulesOfOneSlot(t *testing.T) {
	b := parse(t, "low_flow <- filter_blocked\nlow_flow <- pump_worn")
	for _, c := range []struct {
		facts string
		want  condition.Truth
	}{
		{"filter_blocked", yes},
		{"pump_worn -filter_blocked", yes},
		{"-filter_blocked", open}, // the other may yet be true
		{"-filter_blocked -pump_worn", no},
		{"", open},
	} {
		if got := b.run(t, c.facts).Truth(Whole, b.slot(t, "low_flow")); got != c.want {
			t.Errorf("with %q: %v, want %v", c.facts, got, c.want)
		}
	}
}

// A rule says nothing where it has no say, and others are heard; in a circle
// too.
func TestRulesWithoutSay(t *testing.T) {
	for _, c := range []struct {
		rules string
		speed float64 // NaN is unknown
		facts string
		want  condition.Truth
	}{
		{"a <- b | r_speed > 2", 3, "b", yes},
		{"a <- b | r_speed > 2", 3, "-b", no},
		{"a <- b | r_speed > 2", 1, "b", open},
		{"a <- b | r_speed > 2", 1, "-b", open},
		{"a <- b | r_speed > 2", math.NaN(), "b", open},
		{"a <- b | r_speed > 2", math.NaN(), "-b", open},
		{"a <- b | r_speed > 2\na <- c", 1, "-b -c", no},
		{"a <- b | r_speed > 2\na <- c", 1, "b -c", no},
		{"a <- b | r_speed > 2\na <- c", 3, "b -c", yes},
		{"a <- b | r_speed > 2\na <- c", math.NaN(), "b -c", open},
		{"a <- d or b | r_speed > 2\nd <- a", 3, "-b", no},
		{"a <- d or b | r_speed > 2\nd <- a", 1, "-b", open},
		{"a <- d or b | r_speed > 2\nd <- a", 1, "b", open},
		{"a <- d | r_speed > 2\nd <- a", 3, "", open},
	} {
		b := parse(t, c.rules)
		s := b.plan(t).Start(b.scope.NewWorld(1))
		s.World.Moments[0].Num[0] = c.speed
		b.tell(t, s, c.facts)
		s.Run()
		if got := s.Truth(Whole, b.slot(t, "a")); got != c.want {
			t.Errorf("%q at speed %v with %q: %v, want %v", c.rules, c.speed, c.facts, got, c.want)
		}
	}
	b := parse(t, "a <- b | c\nc <- d")
	_, l := Build(b.rules, b.scope)
	if len(l) != 1 || l[0].Check != "say-depends" || l[0].Pos.Line != 1 {
		t.Errorf("a say by what rules conclude: %v, want one say-depends", l)
	}
}

// A quiet rule adds to the others where it is decided and does not hold them
// back where it is not.
func TestQuietRules(t *testing.T) {
	for _, c := range []struct {
		rules, facts string
		want         condition.Truth
	}{
		{"a <- b\na <- c", "-b", no}, // the second, which is quiet, is undecided
		{"a <- b\na <- c", "-b c", yes},
		{"a <- b\na <- c", "-b -c", no},
		{"a <- b\na <- c", "b", yes},
		{"a <- b\na <- c", "b -c", yes},
		{"a <- b\na <- c", "-c", open}, // the first may yet be true
		{"a <- b\na <- c", "c", yes},
		{"a <- b\na <- c", "", open},
		{"d <- b\na <- c", "", open}, // it stands alone
		{"a <- b\na <- d\nd <- a or c", "-b", no},
		{"a <- b\na <- d\nd <- a or c", "-b c", yes},
	} {
		b := parse(t, c.rules)
		b.rules[1].Quiet = true
		if got := b.run(t, c.facts).Truth(Whole, b.slot(t, "a")); got != c.want {
			t.Errorf("%q with %q: %v, want %v", c.rules, c.facts, got, c.want)
		}
	}
}

// A circle ends: it holds what feeds it, is false when all that could feed it
// is decided false, and is unknown otherwise, also when nothing but being told
// could feed it.
func TestCircles(t *testing.T) {
	for _, c := range []struct{ rules, facts, want string }{
		{"a <- b or c\nb <- a", "c", "a b c"},
		{"a <- b or c\nb <- a", "-c", "-a -b -c"},
		{"a <- b or c\nb <- a", "", ""},
		{"a <- b or c and d\nb <- a", "-c", "-a -b -c"},
		{"a <- b\nb <- a", "", ""},
		{"a <- b\nb <- a", "a", "a b"},
		{"a <- b\nb <- a", "-a", "-a -b"},
		{"a <- a", "", ""},
		{"a <- a or c", "-c", "-a -c"},
		{"a <- b and c\nb <- a", "c", "c"},
		{"a <- b and c\nb <- a", "-c", "-a -b -c"},
		{"a <- b and c\nb <- a", "c b", "a b c"},
		// The second circle rests on one that nobody started.
		{"a <- b\nb <- a\nd <- e or a\ne <- d", "", ""},
		{"a <- b\nb <- a\nd <- e or a\ne <- d", "-a", "-a -b -d -e"},
		{"a <- b\nb <- a\nd <- e or a\ne <- d", "b", "a b d e"},
	} {
		b := parse(t, c.rules)
		if got := b.closure(b.run(t, c.facts)); got != c.want {
			t.Errorf("%q with %q: %q, want %q", c.rules, c.facts, got, c.want)
		}
	}
}

// A rise of what "seen" asks after can turn the answer to a "not seen" over;
// so it may stand only over a lower layer, as "not" may.
func TestRefused(t *testing.T) {
	for _, c := range []struct{ rules, want string }{
		{"a <- not a", `"a" (base:1:1)`},
		{"a <- seen(b)\nb <- a", `"a" (base:1:1), "b" (base:2:1)`},
		{"a <- at(b, c)\nb <- a", `"a" (base:1:1), "b" (base:2:1)`}, // which moments count
		{"a <- at(r_oil > 3, b)\nb <- a", ""},
		{"a <- together(b, c) or before(b, c) or after(c, b)\nb <- n_of(2, a, c, d)", ""},
		{"a <- not (c and not b)\nb <- not not a", ""}, // twice "not" is none
		{"a <- not (c and b)\nb <- a", `"a" (base:1:1), "b" (base:2:1)`},
		{"b <- a\na <- d\na <- c and not b", `"a_b" (base:3:1), "b" (base:1:1)`},
	} {
		b := parse(t, c.rules)
		p, l := Build(b.rules, b.scope)
		switch {
		case c.want == "" && len(l) > 0:
			t.Errorf("%q refused: %v", c.rules, l)
		case c.want == "":
		case p != nil || len(l) != 1 || l[0].Check != "circle-through-not":
			t.Errorf("%q: %v, %v, want one circle-through-not", c.rules, p, l)
		case !strings.HasSuffix(l[0].Text, ": "+c.want):
			t.Errorf("%q: %s, want the rules %s", c.rules, l[0].Text, c.want)
		}
	}
}

// All faults of a set of rules are found at once.
func TestBuildFindsAllFaults(t *testing.T) {
	b := parse(t, "a <- b\nb <- c")
	b.rules[0].Slot = 77
	b.rules = append(b.rules, b.rules[1])
	b.rules[2].Pos = problem.Pos{File: "base", Line: 9, Col: 3}
	_, l := Build(b.rules, b.scope)
	want := problem.List{
		{Pos: problem.Pos{File: "base", Line: 1, Col: 1}, Check: "no-conclusion", Text: `rule "a" concludes no known sign or fact`},
		{Pos: problem.Pos{File: "base", Line: 9, Col: 3}, Check: "double-name", Text: `rule "b" stands at base:2:1 already`},
	}
	if diff := cmp.Diff(want, l); diff != "" {
		t.Errorf("problems (-want +got):\n%s", diff)
	}
}

// A world without moments is worked out from what was told of the whole.
func TestWorldWithoutMoments(t *testing.T) {
	b := parse(t, "damp <- stood_long and cold")
	w := b.scope.NewWorld(0)
	w.Whole[b.slot(t, "stood_long")], w.Whole[b.slot(t, "cold")] = yes, yes
	s := b.plan(t).Start(w)
	s.Run()
	if got := s.Truth(Whole, b.slot(t, "damp")); got != yes {
		t.Errorf("damp = %v, want true", got)
	}
}

// One plan serves many goroutines at once.
func TestPlanIsShared(t *testing.T) {
	b := realistic(t, 60, 120, 160)
	p := b.plan(t)
	want := newOpinion(b, filled(b, 3))
	want.run()
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			s := p.Start(filled(b, 3))
			s.Run()
			if diff := cmp.Diff(truths(want.world), truths(s.World)); diff != "" {
				t.Errorf("naive -, a state of the shared plan +:\n%s", diff)
			}
		})
	}
	all.Wait()
}

// Working out allocates nothing.
func TestRunAllocatesNothing(t *testing.T) {
	b := realistic(t, 60, 120, 160)
	s := b.plan(t).Start(filled(b, 4))
	n := b.scope.Names(condition.NumberKind)[0]
	for name, do := range map[string]func(){
		"Run":    s.Run,
		"Update": func() { s.World.Moments[0].Num[0] = 3 - s.World.Moments[0].Num[0]; s.Update(n) },
	} {
		if got := testing.AllocsPerRun(20, do); got != 0 {
			t.Errorf("%s allocates %v times, want 0", name, got)
		}
	}
}

func ExampleBuild() {
	scope, err := condition.NewScope([]condition.Name{
		{ID: "strainer_choked", Kind: condition.TruthKind},
		{ID: "fuel_short", Kind: condition.TruthKind},
		{ID: "cuts_out", Kind: condition.TruthKind},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	var rules []Rule
	for _, r := range []struct{ id, when string }{
		{"cuts_out", "fuel_short"},
		{"fuel_short", "strainer_choked"},
	} {
		when, problems := condition.Compile(scope, r.when, func(int) problem.Pos { return problem.Pos{} })
		if len(problems) > 0 {
			fmt.Println(problems)
			return
		}
		n, _ := scope.Lookup(r.id)
		rules = append(rules, Rule{ID: r.id, Slot: n.Slot, When: when})
	}
	plan, problems := Build(rules, scope)
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	state := plan.Start(scope.NewWorld(1))
	state.Tell(0, 0, condition.True)
	state.Run()
	for n, depth := state.Proof(Whole, 2), 0; n != nil; depth++ {
		fmt.Printf("%*s%s is %v, %s\n", 2*depth, "", n.ID, n.Truth, n.How)
		if len(n.From) == 0 {
			break
		}
		n = n.From[0]
	}
	// Output:
	// cuts_out is true, by rule
	//   fuel_short is true, by rule
	//     strainer_choked is true, told
}
