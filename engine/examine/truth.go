package examine

// This file looks at rules by themselves and against one another.

import (
	"fmt"
	"slices"
	"strings"

	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
)

// neverTrue finds rules and patterns whose condition none of the sheets makes
// true. That the same was simply told does not count.
func (x *examiner) neverTrue() {
	var worlds []*condition.World
	for _, t := range x.Told {
		worlds = append(worlds, t.Engine.World(t.Account))
	}
	never := func(p *condition.Program) bool {
		return !slices.ContainsFunc(worlds, func(w *condition.World) bool { return p.EvalWhole(w) == condition.True })
	}
	const hint = "tell it in a case, or accept it with the reason why none is kept"
	for i, r := range x.Base.Rules {
		if s := x.Source.Rules[i]; never(r.Program) {
			x.add(s.ID.Pos(), r.ID, fmt.Sprintf("no kept case makes the rule %q true", r.ID), hint)
		}
	}
	for i, p := range x.Base.Patterns {
		if s := x.Source.Patterns[i]; never(p.Program) {
			x.add(s.ID.Pos(), p.ID, fmt.Sprintf("no kept case makes the pattern %q true", p.ID), hint)
		}
	}
}

// clauses splits a condition into what all must hold.
func clauses(p *condition.Program) []string {
	var out []string
	text, depth, from, or := p.String(), 0, 0, false
	for i := range len(text) {
		switch text[i] {
		case '(', '[':
			depth++
		case ')', ']':
			depth--
		case ' ':
			switch {
			case depth > 0:
			case strings.HasPrefix(text[i:], " and "):
				out = append(out, text[from:i])
				from = i + len(" and ")
			case strings.HasPrefix(text[i:], " or "):
				or = true
			}
		}
	}
	if or {
		return []string{text}
	}
	return append(out, text[from:])
}

// within says whether every clause of a stands among those of b.
func within(a, b []string) bool {
	return !slices.ContainsFunc(a, func(c string) bool { return !slices.Contains(b, c) })
}

// shadows finds rules that conclude the same as another under a condition that
// takes in theirs, signs that are told by the very condition of another, and
// patterns that say no more than a wider one.
func (x *examiner) shadows() {
	rules := x.Base.Rules
	all := make([][]string, len(rules))
	for i, r := range rules {
		all[i] = clauses(r.Program)
	}
	for i, r := range rules {
		for k, wide := range rules {
			s := x.Source.Rules[i]
			same := within(all[i], all[k]) && within(all[k], all[i])
			switch {
			case i == k || !within(all[k], all[i]) || !phasesWithin(s, x.Source.Rules[k]):
			case r.Slot == wide.Slot && (!same || i > k):
				x.add(s.ID.Pos(), pair(r.ID, wide.ID), fmt.Sprintf("rule %q adds nothing: %q concludes the same whenever it holds", r.ID, wide.ID), "take it out, or say what it holds for besides")
			case r.Slot != wide.Slot && same && i > k && r.Fact == wide.Fact && phasesWithin(x.Source.Rules[k], s):
				x.add(s.ID.Pos(), pair(r.ID, wide.ID), fmt.Sprintf("rules %q and %q have one condition", wide.ID, r.ID), "let one name serve, or part them")
			}
		}
	}
	patterns := x.Base.Patterns
	all = make([][]string, len(patterns))
	for i, p := range patterns {
		all[i] = clauses(p.Program)
	}
	for i := range patterns {
		p, s := &patterns[i], x.Source.Patterns[i]
		for k := range patterns {
			wide := &patterns[k]
			if i == k || !within(all[k], all[i]) || len(all[i]) == len(all[k]) && i < k || !noMore(p, wide) || !rigsWithin(p.Rigs, wide.Rigs) {
				continue
			}
			x.add(s.ID.Pos(), pair(p.ID, wide.ID), fmt.Sprintf("pattern %q adds nothing: %q holds whenever it does and concludes as much", p.ID, wide.ID), "take it out, or let it conclude more strongly")
		}
	}
}

// phasesWithin says whether a rule has a say only where another has.
func phasesWithin(a, b knowledge.RuleSource) bool {
	if len(b.Phases) == 0 {
		return true
	}
	return len(a.Phases) > 0 && within(knowledge.Values(a.Phases), knowledge.Values(b.Phases))
}

func rigsWithin(a, b []string) bool { return len(b) == 0 || len(a) > 0 && within(a, b) }

// noMore says whether a pattern concludes nothing that another does not conclude
// at least as strongly.
func noMore(p, wide *knowledge.Pattern) bool {
	weaker := func(a, b []knowledge.Link) bool {
		return !slices.ContainsFunc(a, func(l knowledge.Link) bool {
			return !slices.ContainsFunc(b, func(m knowledge.Link) bool { return m.To == l.To && m.By >= l.By })
		})
	}
	fewer := func(a, b []int) bool {
		return !slices.ContainsFunc(a, func(k int) bool { return !slices.Contains(b, k) })
	}
	return weaker(p.ForState, wide.ForState) && weaker(p.ForCause, wide.ForCause) &&
		fewer(p.AgainstState, wide.AgainstState) && fewer(p.AgainstCause, wide.AgainstCause)
}

// twice finds items of one sort that mean or say the same.
func (x *examiner) twice() {
	type item struct {
		kind, id, means string
		words           []string
		at              problem.Pos
	}
	var items []item
	s := x.Source
	for _, k := range s.Signs {
		items = append(items, item{"symptom", k.ID.Value, k.Means, knowledge.Values(k.Words), k.ID.Pos()})
	}
	for _, k := range s.Rules {
		if k.Concludes.Value == "" {
			items = append(items, item{"symptom", k.ID.Value, k.Means, knowledge.Values(k.Words), k.ID.Pos()})
		}
	}
	for _, k := range s.Readings {
		items = append(items, item{"reading", k.ID.Value, k.Means, knowledge.Values(k.Words), k.ID.Pos()})
	}
	for _, k := range s.Causes {
		items = append(items, item{"cause", k.ID.Value, k.FailsBy, knowledge.Values(k.Words), k.ID.Pos()})
	}
	for _, k := range s.States {
		items = append(items, item{"state", k.ID.Value, k.Means, nil, k.ID.Pos()})
	}
	for _, k := range s.Patterns {
		items = append(items, item{"pattern", k.ID.Value, k.Means, nil, k.ID.Pos()})
	}
	for _, k := range s.Checks {
		items = append(items, item{"check", k.ID.Value, k.Do, knowledge.Values(k.Words), k.ID.Pos()})
	}
	for _, k := range s.Trials {
		items = append(items, item{"trial", k.ID.Value, k.Means, knowledge.Values(k.Words), k.ID.Pos()})
	}
	for _, k := range s.Circumstances {
		items = append(items, item{"circumstance", k.ID.Value, k.Means, knowledge.Values(k.Words), k.ID.Pos()})
	}
	first := map[string]item{}
	for _, it := range items {
		for i, text := range append([]string{it.means}, it.words...) {
			key := it.kind + " " + plain(text)
			was, old := first[key]
			switch {
			case !old:
				first[key] = it
			case was.id != it.id:
				verb := "mean"
				if i > 0 {
					verb = "are both told by"
				}
				x.add(it.at, fmt.Sprintf("%s by %q", pair(it.id, was.id), text), fmt.Sprintf("the %ss %q and %q %s %q", it.kind, was.id, it.id, verb, text), "give each words of its own, or make them one")
			}
		}
	}
}

// plain folds a text so that only its words count.
func plain(text string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" .,;:()-'\"", r) }), " ")
}
