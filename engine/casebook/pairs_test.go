package casebook_test

import (
	"fmt"
	"math"
	"os"
	"slices"
	"testing"

	"snagwise/engine/diagnose"
	"snagwise/engine/document"
	"snagwise/engine/knowledge"
	"snagwise/engine/sheet"
)

// A lookalike is a pair of causes that the rules say look alike, on a rig that
// can have both and show what parts them.
type lookalike struct {
	engine  *diagnose.Engine
	a, b    int   // causes
	alike   []int // signs
	parting []int // signs
	how     string
}

func (p lookalike) name() string {
	base := p.engine.Fitted().Base
	return base.Causes[p.a].ID + ", " + base.Causes[p.b].ID
}

// lookalikes lists the pairs that some rig can have, each on the first such.
func lookalikes(t *testing.T) (list []lookalike, nowhere int) {
	s := shipped(t)
	src, l := s.Source()
	if len(l) > 0 {
		t.Fatal(l)
	}
	engine := usual(t)
	for _, pair := range src.Pairs {
		found := false
		for _, r := range s.Rigs {
			e, err := engine(r.ID)
			if err != nil {
				t.Fatal(err)
			}
			f := e.Fitted()
			p := lookalike{engine: e, a: f.Base.Cause(pair.Of[0].Value), b: f.Base.Cause(pair.Of[1].Value), how: pair.How}
			p.alike, p.parting = on(f, pair.Alike), on(f, pair.PartedBy)
			if !has(f, p.a) || !has(f, p.b) || len(p.parting) == 0 {
				continue
			}
			list, found = append(list, p), true
			break
		}
		if !found {
			nowhere++
		}
	}
	return list, nowhere
}

func on(f *knowledge.Fitted, ids []knowledge.Text) []int {
	var out []int
	for _, id := range ids {
		if s := f.Sign(id.Value); s >= 0 && f.SignOn[s] {
			out = append(out, s)
		}
	}
	return out
}

func has(f *knowledge.Fitted, cause int) bool {
	return slices.ContainsFunc(f.Causes, func(i knowledge.Instance) bool { return i.Cause == cause })
}

// tell returns a sheet of one moment on which the signs that two causes share
// are told, and one more thing as seen or looked for and not seen.
func (p lookalike) tell(seen, notSeen []int) *sheet.Account {
	signs := append(slices.Clone(p.alike), seen...)
	signs = slices.DeleteFunc(signs, func(s int) bool { return slices.Contains(notSeen, s) })
	slices.Sort(signs)
	return &sheet.Account{Rig: p.engine.Fitted().Rig.ID, Moments: []sheet.Told{{After: math.NaN(), Signs: slices.Compact(signs), NotSeen: notSeen}}}
}

// odds returns the odds of the one cause against the other.
func (p lookalike) odds(a *sheet.Account) float64 {
	ids, chances, _ := p.engine.Ranked(a)
	base := p.engine.Fitted().Base
	of := func(k int) float64 {
		if i := slices.Index(ids, base.Causes[k].ID); i >= 0 {
			return math.Max(chances[i], 1e-9)
		}
		return 1e-9
	}
	return of(p.a) / of(p.b)
}

// least is the factor by which what parts two causes must move the odds between
// them: the project's own choice.
const least = 2

// What looks alike and what parts it is the rules' own: pairs.yaml of each
// system. What is tested is that the links of the causes, written apart from
// it, agree.
func TestWhatPartsTwoCausesMovesTheOdds(t *testing.T) {
	list, nowhere := lookalikes(t)
	t.Logf("%d pairs, and %d that no rig can have or show", len(list), nowhere)
	if len(list) < 150 {
		t.Errorf("%d pairs tested, want at least 150", len(list))
	}
	if testing.Short() {
		list = list[:len(list)/4]
	}
	excused := excuses(t, "odds")
	for _, p := range list {
		best, sign := 0.0, -1
		for _, s := range p.parting {
			w := 1.0
			if p.engine.Shown(p.a)[s] < p.engine.Shown(p.b)[s] {
				w = -1
			}
			moved := math.Pow(p.odds(p.tell([]int{s}, nil))/p.odds(p.tell(nil, []int{s})), w)
			if sign < 0 || moved > best {
				best, sign = moved, s
			}
		}
		if best >= least {
			continue
		}
		what := fmt.Sprintf("%s: %s (%.2f and %.2f) moves the odds by %.2f, want at least %d; %s", p.name(), p.engine.Fitted().Signs[sign].ID,
			p.engine.Shown(p.a)[sign], p.engine.Shown(p.b)[sign], best, least, p.how)
		excused.fault(t, p.name(), what)
	}
	excused.unused(t)
}

// With what parts them not known, be it that only what looks alike is told or all
// that the two share, a check that settles it must be named, or one that settles
// something else which tells the two apart about as well.
func TestACheckIsNamedThatPartsTwoCauses(t *testing.T) {
	list, _ := lookalikes(t)
	if testing.Short() {
		list = list[:len(list)/8]
	}
	excused := excuses(t, "checks")
	for _, p := range list {
		named := p.named(nil)
		if !slices.ContainsFunc(named, p.settles) {
			named = append(named, p.named(p.shared())...)
		}
		if slices.ContainsFunc(named, p.settles) {
			continue
		}
		what := fmt.Sprintf("%s: no check named parts them: %v", p.name(), named)
		excused.fault(t, p.name(), what)
	}
	excused.unused(t)
}

// named lists the checks that are named when the signs that look alike are
// told, and more beside them.
func (p lookalike) named(more []int) []string {
	r := p.engine.Diagnose(p.tell(more, nil), diagnose.Situation{Causes: 3})
	var named []string
	for _, c := range append(r.NextChecks, r.NeedsTools...) {
		named = append(named, c.ID)
	}
	for _, h := range r.HeldBack {
		named = append(named, h.ID)
	}
	return named
}

// shared lists what may be seen and told of either cause: signs that both show
// sometimes at least and about as often.
func (p lookalike) shared() []int {
	f := p.engine.Fitted()
	var out []int
	a, b := p.engine.Shown(p.a), p.engine.Shown(p.b)
	for s := range a {
		if f.SignOn[s] && f.Signs[s].Kind != knowledge.CheckSign && f.Signs[s].Kind != knowledge.VagueSign &&
			math.Min(a[s], b[s]) >= .35 && math.Abs(a[s]-b[s]) < .3 && !slices.Contains(p.parting, s) {
			out = append(out, s)
		}
	}
	return out
}

// settles says whether a check settles what parts the two causes, or a sign
// that they show by .3 differently.
func (p lookalike) settles(id string) bool {
	f := p.engine.Fitted()
	c := f.Base.Check(id)
	return c >= 0 && slices.ContainsFunc(f.Checks[c].Settles, func(s int) bool {
		return slices.Contains(p.parting, s) || math.Abs(p.engine.Shown(p.a)[s]-p.engine.Shown(p.b)[s]) >= .3
	})
}

// pairsExcused are the pairs, by name, that a test passes over, with the reason.
type pairsExcused struct {
	reason map[string]string
	used   map[string]bool
}

// fault tells what is wrong with a pair, and fails unless it is excused.
func (x pairsExcused) fault(t *testing.T, name, what string) {
	t.Helper()
	if reason := x.reason[name]; reason != "" {
		x.used[name] = true
		t.Logf("excused: %s (%s)", what, reason)
		return
	}
	t.Error(what)
}

// unused fails for each excuse that no pair needed; a short run sees too few.
func (x pairsExcused) unused(t *testing.T) {
	t.Helper()
	for name := range x.reason {
		if !x.used[name] && !testing.Short() {
			t.Errorf("excused and not needed: %s", name)
		}
	}
}

// excuses reads the pairs that a test passes over.
func excuses(t *testing.T, from string) pairsExcused {
	t.Helper()
	const name = "testdata/excused.yaml"
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	type excuse struct {
		Of     []document.Text `yaml:"of,required"`
		Reason string          `yaml:"reason,required"`
	}
	var file struct {
		Odds   []excuse `yaml:"odds"`
		Checks []excuse `yaml:"checks"`
	}
	node, l := document.Parse(name, text)
	if node != nil {
		l = append(l, document.Decode(node, &file)...)
	}
	if len(l) > 0 {
		t.Fatal(l)
	}
	out := map[string]string{}
	for _, e := range map[string][]excuse{"odds": file.Odds, "checks": file.Checks}[from] {
		out[e.Of[0].Value+", "+e.Of[1].Value] = e.Reason
	}
	if len(out) > 12 {
		t.Errorf("%d pairs are excused from %s, want at most 12", len(out), from)
	}
	return pairsExcused{out, map[string]bool{}}
}
