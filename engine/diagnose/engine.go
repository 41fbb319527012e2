// Package diagnose goes the whole way from one sheet to one [Result]: what is
// told, what follows, what is likely and why, what must be done at once, and
// what to look at next.
//
// An [Engine] is the knowledge made ready for one rig. It is built once and
// used for any number of sheets, from as many goroutines as wanted:
//
//	engine, problems := diagnose.New(base.On(rig), diagnose.Settings{})
//	account, problems := engine.Read(raw)
//	result := engine.Diagnose(account)
package diagnose

import (
	"cmp"
	"maps"
	"slices"
	"sync"

	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/rank"
	"snagwise/engine/sheet"
)

// An Engine is knowledge made ready for one rig.
type Engine struct {
	fitted   *knowledge.Fitted
	set      Settings
	plan     *chain.Plan
	net      *rank.Net
	patterns []int // by pattern of the base: its number in the net, or -1
	lexicon  *sheet.Lexicon
	reckoner *reckoner
	findings []Finding // by cause of the base
}

// New makes an engine. It fails when rules deny one another in a circle.
func New(f *knowledge.Fitted, set Settings) (*Engine, problem.List) {
	set = set.withDefaults()
	e := &Engine{fitted: f, set: set}
	var l problem.List
	var rules []chain.Rule
	for _, r := range f.Base.Rules {
		cr := chain.Rule{ID: r.ID, Slot: r.Slot, When: r.Program, Pos: r.At, Only: r.Only, Quiet: r.Quiet}
		rules = append(rules, cr)
	}
	for i, p := range f.Patterns {
		if f.PatternOn[i] {
			rules = append(rules, chain.Rule{ID: p.ID, Slot: p.Slot, When: p.Program, Pos: p.At})
		}
	}
	for _, c := range f.Circumstances {
		if c.Program != nil {
			rules = append(rules, chain.Rule{ID: c.ID, Slot: c.Slot, When: c.Program, Pos: c.At})
		}
	}
	// The net is most of the work and rests on nothing of the rest.
	var err error
	var meanwhile sync.WaitGroup
	meanwhile.Go(func() { e.net, e.patterns, err = net(f, set, part{}) })
	var more problem.List
	e.plan, l = chain.Build(rules, f.Scope)
	e.reckoner, more = newReckoner(f)
	e.lexicon = sheet.NewLexicon(vocabulary(f))
	e.findings = findings(f)
	meanwhile.Wait()
	if l = append(l, more...); err != nil {
		l.Addf(problem.Pos{}, "bad-net", "%v", err)
	}
	if len(l) > 0 {
		return nil, l
	}
	return e, nil
}

// Fitted returns the knowledge that the engine works with.
func (e *Engine) Fitted() *knowledge.Fitted { return e.fitted }

// Lexicon returns what the engine looks words up in.
func (e *Engine) Lexicon() *sheet.Lexicon { return e.lexicon }

// Read looks up every word of a sheet. All problems are reported; with any
// problem there is no account.
func (e *Engine) Read(raw *sheet.Sheet) (*sheet.Account, problem.List) {
	a, l := e.lexicon.Resolve(raw)
	if len(l) > 0 {
		return nil, l
	}
	return a, nil
}

// follow draws every conclusion from a telling.
func (e *Engine) follow(t *telling) *chain.State {
	st := e.plan.Start(t.world)
	st.Run()
	return st
}

// whole says whether a condition holds anywhere in what follows.
func whole(p *condition.Program, st *chain.State) condition.Truth { return p.EvalWhole(st.World) }

// Ranked returns the ids of the causes, likeliest first, each once with its
// chance, and the chance of none of them: the ranking without its grounds.
func (e *Engine) Ranked(a *sheet.Account) ([]string, []float64, float64) {
	t := e.tell(a)
	st := e.follow(t)
	g := e.gather(t, st)
	r := e.weigh(g.Evidence)
	list, none := e.claimed(r)
	ids, chances := make([]string, len(list)), make([]float64, len(list))
	for i, m := range list {
		ids[i], chances[i] = e.fitted.Base.Causes[m.cause].ID, m.chance
	}
	return ids, chances, none
}

// A mergedCause is a cause of the base with the chances of its instances.
type mergedCause struct {
	cause     int
	chance    float64
	ranked    float64      // what the ranking gave it, where chance is what is claimed
	instances []rank.Cause // likeliest first
}

// merged puts the instances of one cause together: the chance of the cause is
// the share of the weight in sets that hold any of them.
func (e *Engine) merged(r *rank.Result) []mergedCause {
	byCause := map[int]*mergedCause{}
	for _, c := range r.Causes {
		base := e.fitted.Causes[c.ID].Cause
		m := byCause[base]
		if m == nil {
			m = &mergedCause{cause: base}
			byCause[base] = m
		}
		m.instances = append(m.instances, c)
		m.chance += c.Chance
	}
	for _, s := range r.Sets { // a set with both sides is counted once
		seen := map[int]bool{}
		for _, c := range s.Causes {
			base := e.fitted.Causes[c].Cause
			if seen[base] {
				byCause[base].chance -= s.Weight
			}
			seen[base] = true
		}
	}
	var out []mergedCause
	for _, k := range slices.Sorted(maps.Keys(byCause)) {
		out = append(out, *byCause[k])
	}
	slices.SortStableFunc(out, func(a, b mergedCause) int { return cmp.Compare(b.chance, a.chance) })
	return out
}

func sortedWords[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }
