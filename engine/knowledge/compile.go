package knowledge

import (
	"cmp"
	"fmt"
	"slices"
	"sync"

	"snagwise/engine/condition"
	"snagwise/engine/document"
	"snagwise/engine/problem"
	"snagwise/engine/quantity"
	"snagwise/engine/rig"
)

// compiler carries what is known while a source is turned into a base.
type compiler struct {
	src   *Source
	base  *Base
	l     problem.List
	truth map[string]int // slot of every name that is true or false
	names []condition.Name
	given map[string]bool // ids of sources
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
	c.ids()
	c.index()
	c.nameReadings()
	c.nameTruths()
	c.nameControls(controls)
	// By kind, so that the names of a scope give the same scope again.
	slices.SortStableFunc(c.names, func(a, b condition.Name) int { return cmp.Compare(a.Kind, b.Kind) })
	scope, err := condition.NewScope(c.names)
	if err != nil {
		c.l.Addf(problem.Pos{}, "bad-names", "%v", err)
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

// nameReadings gives each reading its number or text slot.
func (c *compiler) nameReadings() {
	numbers, texts := 0, 1 // text slot 0 is the phase
	c.names = append(c.names, condition.Name{ID: "phase", Kind: condition.TextKind, Values: c.base.Phases, Slot: 0})
	for i, r := range c.src.Readings {
		rd := Reading{ID: r.ID.Value, Means: r.Means, System: r.System, Words: values(r.Words), Fails: r.Fails, Computed: r.Computed,
			Cross: values(r.Cross), Answers: values(r.Answers), Unit: r.Unit.Value, At: r.ID.Pos()}
		c.sources(r.Source)
		if r.Gives.Value == "answer" || len(r.Answers) > 0 {
			if len(r.Answers) == 0 {
				c.l.Add(r.ID.Pos(), "no-answers", fmt.Sprintf("reading %q gives an answer and lists none", rd.ID), "add answers: [...]")
			}
			rd.Slot = texts
			c.names = append(c.names, condition.Name{ID: rd.ID, Kind: condition.TextKind, Values: rd.Answers, Slot: texts, Banded: true})
			texts++
		} else {
			dim, ok := quantity.DimensionNamed(r.Quantity.Value)
			if !ok {
				c.l.Add(r.Quantity.Pos(), "unknown-quantity", fmt.Sprintf("unknown quantity %q", r.Quantity.Value),
					problem.DidYouMean(r.Quantity.Value, quantity.DimensionNames()))
			} else if _, ok := quantity.UnitFor(r.Unit.Value, dim); !ok {
				c.l.Add(r.Unit.Pos(), "unknown-unit", fmt.Sprintf("unit %q does not measure a %s", r.Unit.Value, r.Quantity.Value),
					problem.DidYouMean(r.Unit.Value, quantity.Units(dim)))
			}
			rd.Dim, rd.Slot = dim, numbers
			c.names = append(c.names, condition.Name{ID: rd.ID, Kind: condition.NumberKind, Dim: dim, Slot: numbers, Banded: true})
			numbers++
		}
		c.base.readingAt[rd.ID] = i
		c.base.Readings = append(c.base.Readings, rd)
	}
}

// own gives a name a truth slot. A rule may share the slot of the sign that it
// concludes; anything else that shares a name is a fault.
func (c *compiler) own(id Text, kind OwnerKind, index int, span condition.Span) int {
	if slot, ok := c.truth[id.Value]; ok {
		was := c.base.slotOwner[slot]
		if !(was.Kind == kind && (kind == OwnSign || kind == OwnFact)) {
			c.l.Add(id.Pos(), "id-twice", fmt.Sprintf("%q names two things", id.Value), "give one of them another id")
		}
		return slot
	}
	slot := len(c.base.slotOwner)
	c.truth[id.Value] = slot
	c.base.slotOwner = append(c.base.slotOwner, Owner{Kind: kind, Index: index, ID: id.Value})
	c.names = append(c.names, condition.Name{ID: id.Value, Kind: condition.TruthKind, Slot: slot, Span: span})
	return slot
}

// nameTruths gives every sign, fact, pattern, circumstance, course, normal and
// trial its truth slot. A reading and a truth may not share a name.
func (c *compiler) nameTruths() {
	b := c.base
	sign := func(id Text) (int, bool) {
		if i, ok := b.signAt[id.Value]; ok {
			return i, false
		}
		i := len(b.Signs)
		b.signAt[id.Value] = i
		b.Signs = append(b.Signs, Sign{ID: id.Value, StandsFor: -1, At: id.Pos(), Slot: c.own(id, OwnSign, i, condition.Sometimes)})
		return i, true
	}
	for _, s := range c.src.Signs {
		if _, fresh := sign(s.ID); !fresh {
			c.l.Addf(s.ID.Pos(), "id-twice", "sign %q stands twice", s.ID.Value)
		}
	}
	for i, r := range c.src.Rules {
		if r.Fact {
			c.own(r.ID, OwnFact, i, spanOf(r))
			continue
		}
		if r.Concludes.Value == "" {
			sign(r.ID)
		}
	}
	for i, p := range c.src.Patterns {
		c.own(p.ID, OwnPattern, i, condition.Sometimes)
	}
	for i, p := range c.src.Circumstances {
		c.own(p.ID, OwnCircumstance, i, condition.Throughout)
	}
	for i, p := range c.src.Courses {
		c.own(p.ID, OwnCourse, i, condition.Throughout)
	}
	for i, p := range c.src.Normals {
		c.own(p.ID, OwnNormal, i, condition.Sometimes)
	}
	for i, p := range c.src.Trials {
		c.own(p.ID, OwnTrial, i, condition.Throughout)
	}
	for id := range b.readingAt {
		if slot, ok := c.truth[id]; ok {
			o := b.slotOwner[slot]
			c.l.Addf(b.Readings[b.readingAt[id]].At, "id-twice", "%q names a reading and a %v", id, o.Kind)
		}
	}
}

func spanOf(r RuleSource) condition.Span {
	if r.Moment {
		return condition.Momentary
	}
	return condition.Sometimes
}

func (c *compiler) nameControls(controls []Control) {
	slot := 1
	for _, n := range c.names {
		if n.Kind == condition.TextKind {
			slot = max(slot, n.Slot+1)
		}
	}
	for _, ctl := range controls {
		if _, ok := c.base.readingAt[ctl.ID]; ok {
			continue // a lever whose position is also read: the reading serves
		}
		ctl.Slot = slot
		slot++
		c.base.Controls = append(c.base.Controls, ctl)
		c.names = append(c.names, condition.Name{ID: ctl.ID, Kind: condition.TextKind, Values: ctl.Positions, Slot: ctl.Slot})
	}
}

// lookup finds a name in an index or reports it with a near one.
func (c *compiler) lookup(t Text, what string, at map[string]int) (int, bool) {
	if i, ok := at[t.Value]; ok {
		return i, true
	}
	known := make([]string, 0, len(at))
	for k := range at {
		known = append(known, k)
	}
	slices.Sort(known)
	c.l.Add(t.Pos(), "unknown-name", fmt.Sprintf("unknown %s %q", what, t.Value), problem.DidYouMean(t.Value, known))
	return -1, false
}

// links resolves a map of names to words against a scale.
func (c *compiler) links(pairs []document.Pair, what string, at map[string]int, scale map[string]float64, words []string) []Link {
	var out []Link
	for _, p := range pairs {
		i, ok := c.lookup(p.Key, what, at)
		if by, known := c.word(p.Value, scale, words); ok && known {
			out = append(out, Link{To: i, By: by})
		}
	}
	return out
}

func (c *compiler) word(t Text, scale map[string]float64, words []string) (float64, bool) {
	by, ok := scale[t.Value]
	if !ok {
		c.l.Add(t.Pos(), "unknown-word", fmt.Sprintf("%q is not on the scale", t.Value), problem.DidYouMean(t.Value, words))
	}
	return by, ok
}

func (c *compiler) list(ts []Text, what string, at map[string]int) []int {
	var out []int
	for _, t := range ts {
		if i, ok := c.lookup(t, what, at); ok {
			out = append(out, i)
		}
	}
	return out
}

// stateOrCause sorts names that may be a state, a cause or both.
func (c *compiler) stateOrCause(pairs []document.Pair, scale map[string]float64, words []string) (states, causes []Link) {
	for _, p := range pairs {
		by, ok := c.word(p.Value, scale, words)
		s, isState := c.base.stateAt[p.Key.Value]
		k, isCause := c.base.causeAt[p.Key.Value]
		if !isState && !isCause {
			c.lookup(p.Key, "state or cause", c.statesAndCauses())
			continue
		}
		if ok && isState {
			states = append(states, Link{s, by})
		}
		if ok && isCause {
			causes = append(causes, Link{k, by})
		}
	}
	return states, causes
}

func (c *compiler) stateOrCauseList(ts []Text) (states, causes []int) {
	for _, t := range ts {
		s, isState := c.base.stateAt[t.Value]
		k, isCause := c.base.causeAt[t.Value]
		if !isState && !isCause {
			c.lookup(t, "state or cause", c.statesAndCauses())
			continue
		}
		if isState {
			states = append(states, s)
		}
		if isCause {
			causes = append(causes, k)
		}
	}
	return states, causes
}

func (c *compiler) statesAndCauses() map[string]int {
	m := map[string]int{}
	for k, v := range c.base.stateAt {
		m[k] = v
	}
	for k, v := range c.base.causeAt {
		m[k] = v
	}
	return m
}

// sources checks that each cited source is listed: the id is the first word,
// the rest is the place in it; the two phrases of the trade stand as they are.
func (c *compiler) sources(ts []Text) {
	for _, t := range ts {
		if id := c.sourceID(t.Value); !c.given[id] {
			known := make([]string, 0, len(c.given))
			for k := range c.given {
				known = append(known, k)
			}
			slices.Sort(known)
			c.l.Add(t.Pos(), "unknown-source", fmt.Sprintf("source %q is not listed", id), problem.DidYouMean(id, known))
		}
	}
}

// Values returns the words of a list.
func Values(ts []Text) []string { return values(ts) }

func values(ts []Text) []string {
	var out []string
	for _, t := range ts {
		out = append(out, t.Value)
	}
	return out
}
