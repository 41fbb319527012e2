// What the tests share: rule bases written as lines of text.
package chain

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"snagwise/engine/condition"
	"snagwise/engine/problem"
)

var word = regexp.MustCompile(`[A-Za-z_][A-Za-z_0-9]*`)

// keywords are the words of a condition that are no names.
var keywords = strings.Fields("and or not seen at together before after n_of")

// A base is a rule base made from text, with the scope of its names: those
// beginning with r_ are readings without a unit, all others truths.
type base struct {
	rules []Rule
	scope *condition.Scope
	text  string
}

// parse reads lines "conclusion <- condition", or "conclusion <- condition |
// condition for having a say"; the rule of line 7 is named by
// its conclusion and, when that has several, a letter.
func parse(tb testing.TB, text string, more ...string) base {
	tb.Helper()
	found := map[string]bool{}
	for _, id := range append(word.FindAllString(text, -1), more...) {
		found[id] = !slices.Contains(keywords, id)
	}
	var truths, all []condition.Name
	for _, id := range sortedTrue(found) {
		if strings.HasPrefix(id, "r_") {
			all = append(all, condition.Name{ID: id, Kind: condition.NumberKind})
			continue
		}
		truths = append(truths, condition.Name{ID: id, Kind: condition.TruthKind})
	}
	scope, err := condition.NewScope(append(all, truths...))
	if err != nil {
		tb.Fatal(err)
	}
	b := base{scope: scope, text: text}
	times := map[string]int{}
	for i, line := range strings.Split(strings.TrimSpace(text), "\n") {
		to, when, ok := strings.Cut(line, "<-")
		if !ok {
			tb.Fatalf("no <- in line %q", line)
		}
		to = strings.TrimSpace(to)
		pos := problem.Pos{File: "base", Line: i + 1, Col: 1}
		at := func(int) problem.Pos { return pos }
		when, say, has := strings.Cut(when, "|")
		program, l := condition.Compile(b.scope, strings.TrimSpace(when), at)
		if len(more) > 0 && len(l) == 1 && l[0].Check == "never-holds" {
			continue // a random condition may contradict itself
		}
		if len(l) > 0 {
			tb.Fatal(l)
		}
		var only *condition.Program
		if has {
			if only, l = condition.Compile(b.scope, strings.TrimSpace(say), at); len(l) > 0 {
				tb.Fatal(l)
			}
		}
		id := to
		if n := times[to]; n > 0 {
			id += "_" + string(rune('a'+n))
		}
		times[to]++
		b.rules = append(b.rules, Rule{ID: id, Slot: b.slot(tb, to), When: program, Only: only, Pos: pos})
	}
	return b
}

func sortedTrue(set map[string]bool) []string {
	var list []string
	for id, in := range set {
		if in {
			list = append(list, id)
		}
	}
	slices.Sort(list)
	return list
}

func (b base) name(tb testing.TB, id string) condition.Name {
	tb.Helper()
	n, ok := b.scope.Lookup(id)
	if !ok {
		tb.Fatalf("no name %q in the base", id)
	}
	return n
}

func (b base) slot(tb testing.TB, id string) int {
	tb.Helper()
	return b.name(tb, id).Slot
}

// plan builds, and fails the test when the base is refused.
func (b base) plan(tb testing.TB) *Plan {
	tb.Helper()
	p, l := Build(b.rules, b.scope)
	if len(l) > 0 {
		tb.Fatal(l)
	}
	return p
}

// tell states facts at the first moment: "a b" are true, "-c" is false.
func (b base) tell(tb testing.TB, s *State, facts string) {
	tb.Helper()
	for _, f := range strings.Fields(facts) {
		id, is := strings.CutPrefix(f, "-")
		t := condition.True
		if is {
			t = condition.False
		}
		s.Tell(0, b.slot(tb, id), t)
	}
}

// run works a base out over one moment with the facts told.
func (b base) run(tb testing.TB, facts string) *State {
	tb.Helper()
	s := b.plan(tb).Start(b.scope.NewWorld(1))
	b.tell(tb, s, facts)
	s.Run()
	return s
}

// closure lists what is known over the whole sheet: "a b -c".
func (b base) closure(s *State) string {
	var list []string
	for _, n := range b.scope.Names(condition.TruthKind) {
		switch s.World.Whole[n.Slot] {
		case condition.True:
			list = append(list, n.ID)
		case condition.False:
			list = append(list, "-"+n.ID)
		}
	}
	return strings.Join(list, " ")
}

// levels returns by name how many rules a true fact rests on, one after
// another, by its proof; a fact is given in full before it is given short.
func levels(n *Node, in map[string]int) map[string]int {
	level := 0
	for _, f := range n.From {
		if !f.Short {
			levels(f, in)
		}
		level = max(level, in[f.ID])
	}
	if n.How == ByRule {
		level++
	}
	in[n.ID] = level
	return in
}
