package knowledge

import (
	"cmp"
	"slices"
	"sync"

	"snagwise/engine/condition"
	"snagwise/engine/problem"
	"snagwise/engine/rig"
)

// compiler carries what is known while a source is turned into a base.
type compiler struct {
	src   *Source
	base  *Base
	l     problem.List
	truth map[string]int // slot of every name that is true or false
	names []condition.Name
	// truthAt is where the owner of each truth slot stands.
	truthAt []problem.Pos
	given   map[string]bool // ids of sources
	flows   []string        // ids of the flows that join parts
}

// Compile checks a source and turns it into a base. Kinds are the kinds of part
// that causes speak of, controls the levers and switches of the rigs that will
// use it. All faults are reported; with any fault the base is nil.
func Compile(src *Source, kinds *rig.Kinds, controls []Control) (*Base, problem.List) {
	c := &compiler{src: src, base: &Base{
		Phases: rig.Phases(), Kinds: kinds, RigStates: src.RigStates, CallEngineer: src.CallEngineer,
		Sources: src.Sources, PartWords: src.PartWords, Doubles: src.Doubles, Untied: src.Untied,
		sameWords: src.SameWords, fillers: src.Fillers,
		readingAt: map[string]int{}, signAt: map[string]int{}, stateAt: map[string]int{},
		causeAt: map[string]int{}, kindAt: map[string]int{}, checkAt: map[string]int{},
	}, truth: map[string]int{}, given: map[string]bool{}}
	if kinds != nil {
		for _, f := range kinds.Flows {
			c.flows = append(c.flows, f.ID)
		}
	}
	c.ids()
	c.index()
	c.nameReadings()
	c.nameTruths()
	c.nameControls(controls)
	// By kind, so that the names of a scope give the same scope again.
	slices.SortStableFunc(c.names, func(a, b condition.Name) int { return cmp.Compare(a.Kind, b.Kind) })
	scope, err := condition.NewScope(c.names)
	if err != nil {
		c.badNames(err)
		return nil, c.l.Sorted()
	}
	c.base.Scope = scope
	c.signs()
	c.states()
	c.causes()
	c.secondOpinion()
	c.checks()
	c.rules()
	c.patterns()
	c.trials()
	c.courses()
	c.circumstances()
	c.rest()
	c.base.truths = len(c.base.slotOwner)
	c.circles()
	c.orphans()
	c.base.like, c.base.words = sync.OnceValue(c.base.foldWords), sync.OnceValue(c.base.indexWords)
	if len(c.l) > 0 {
		return nil, c.l.Sorted()
	}
	return c.base, nil
}

// ids refuses ids that stand twice.
func (c *compiler) ids() {
	s, l := c.src, &c.l
	twice(l, "reading", s.Readings, func(k ReadingSource) Text { return k.ID })
	twice(l, "state", s.States, func(k StateSource) Text { return k.ID })
	twice(l, "cause", s.Causes, func(k CauseSource) Text { return k.ID })
	twice(l, "check", s.Checks, func(k CheckSource) Text { return k.ID })
	twice(l, "rule", s.Rules, func(k RuleSource) Text { return k.ID })
	twice(l, "pattern", s.Patterns, func(k PatternSource) Text { return k.ID })
	twice(l, "second opinion on", s.SecondOpinion, func(k OpinionSource) Text { return k.Sign })
	twice(l, "first action", s.FirstActions, func(k FirstActionSource) Text { return k.ID })
}

func (c *compiler) index() {
	b := c.base
	for i, k := range b.Kinds.Parts {
		b.kindAt[k.ID] = i
	}
	for i, k := range c.src.States {
		b.stateAt[k.ID.Value] = i
	}
	for i, k := range c.src.Causes {
		b.causeAt[k.ID.Value] = i
	}
	for i, k := range c.src.Checks {
		b.checkAt[k.ID.Value] = i
	}
	for _, k := range c.src.Sources {
		if c.given[k.ID.Value] {
			c.l.Addf(k.ID.Pos(), "id-twice", "source %q stands twice", k.ID.Value)
		}
		c.given[k.ID.Value] = true
	}
}
