package sheet

// This file looks up the words of a sheet: the top level and the moments.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"snagwise/engine/problem"
	"snagwise/engine/quantity"
)

// resolver carries what is needed to look one sheet up.
type resolver struct {
	*Lexicon
	l problem.List
}

// Resolve looks every word of a sheet up. It reports all faults at once; the
// account holds what could be understood, and is nil only for a nil sheet. A
// sheet that [ParseArgs] made is settled first.
func (lx *Lexicon) Resolve(s *Sheet) (*Account, problem.List) {
	if s == nil {
		return nil, problem.List{{Check: "empty-file", Text: "there is no sheet"}}
	}
	r := &resolver{Lexicon: lx}
	s = r.refile(r.settle(s))
	a := &Account{Rig: s.Rig.Value, Title: s.Title.Value, What: s.What.Value, Date: s.Date.Value, Notes: texts(s.Notes)}
	r.rig(s)
	a.Weather = r.values(s.Weather, nil)
	for i, m := range s.Moments {
		a.Moments = append(a.Moments, r.moment(m, i == 0))
	}
	for _, p := range s.Parts {
		a.Statements = append(a.Statements, r.statement(p)...)
	}
	slices.SortStableFunc(a.Statements, compareSaid)
	a.Circumstances = r.names(s.Circumstances, aCircumstance)
	a.Trials = r.names(s.Trials, aTrial)
	a.Courses = r.names(s.Course, aCourse)
	a.Normals, a.NormalRead = r.normal(s.Normal)
	a.Case = r.kept(s)
	return a, few(r.l)
}

func (r *resolver) rig(s *Sheet) {
	if r.v.Rig != "" && s.Rig.Value != "" && fold(s.Rig.Value) != fold(r.v.Rig) {
		r.l.Add(s.Rig.Pos(), "wrong-rig", fmt.Sprintf("the sheet is of the rig %q", clip(s.Rig.Value)), fmt.Sprintf("it is read for the rig %q", r.v.Rig))
	}
}

func (r *resolver) moment(m Moment, first bool) Told {
	t := Told{After: math.NaN(), At: m.At, Notes: texts(m.Notes)}
	for _, p := range m.Phase {
		t.Phases |= r.phase(p)
	}
	t.Phase = strings.Join(texts(m.Phase), " or ")
	if m.After.Value != "" {
		if first {
			r.l.Add(m.After.Pos(), "no-moment-before", "the first moment has none before it", "leave out after, or tell the moment before")
		}
		told, err := quantity.ParseTold(m.After.Value, quantity.Time, "min")
		if err != nil {
			r.quantityProblem(m.After, err)
		} else {
			t.After = told.Value()
		}
	}
	t.Controls = r.controls(m.Controls)
	var unread []int
	t.Readings = r.values(m.Readings, &unread)
	for _, w := range m.CouldNotRead {
		i, ok := r.name(w, aReading)
		if !ok {
			continue
		}
		if slices.ContainsFunc(t.Readings, func(v Value) bool { return v.Reading == i }) {
			r.l.Add(w.Pos(), "contradiction", fmt.Sprintf("%q has a value and could not be read in one moment", r.v.Readings[i].ID), "keep the one that holds")
		}
		unread = append(unread, i)
	}
	t.Unread = unique(unread)
	t.Signs, t.NotSeen = r.signs(m.Symptoms, m.NotSeen)
	t.Courses = r.names(m.Course, aCourse)
	var read []int
	t.Normals, read = r.normal(m.Normal)
	r.judgeNormal(&t, read, m.Normal)
	return t
}

// judgeNormal adds "normal" to readings that are said to be in order.
func (r *resolver) judgeNormal(t *Told, read []int, said []Text) {
	for _, i := range read {
		k := slices.IndexFunc(t.Readings, func(v Value) bool { return v.Reading == i })
		if k < 0 {
			t.Readings = append(t.Readings, Value{Reading: i, Answer: -1, Judged: JudgedNormal, At: t.At})
			continue
		}
		v := &t.Readings[k]
		v.Judged |= JudgedNormal
		if a, b, ok := v.Judged.clash(); ok && len(said) > 0 {
			r.l.Add(said[0].Pos(), "contradiction", fmt.Sprintf("%q is said to be in order and is told %v", r.v.Readings[i].ID, (a|b)&^JudgedNormal), "keep the one that holds")
		}
	}
	slices.SortFunc(t.Readings, func(a, b Value) int { return a.Reading - b.Reading })
}

// signs looks up symptoms and signs not seen. "no smoke" among the symptoms is
// a sign not seen.
func (r *resolver) signs(symptoms, notSeen []Text) (seen, not []int) {
	for _, w := range symptoms {
		if rest, ok := denied(w); ok {
			_, whole := r.by[aSign].find(w.Value)
			_, part := r.by[aSign].find(rest.Value)
			if whole == notFound && part != notFound {
				notSeen = append(notSeen, rest)
				continue
			}
		}
		if i, ok := r.name(w, aSign); ok {
			seen = append(seen, i)
		}
	}
	seen = unique(seen)
	for _, w := range notSeen {
		i, ok := r.name(w, aSign)
		if !ok {
			continue
		}
		if slices.Contains(seen, i) {
			r.l.Add(w.Pos(), "contradiction", fmt.Sprintf("%q is told as seen and as not seen in one moment", r.v.Signs[i].ID), "keep the one that holds, or part them into two moments")
		}
		not = append(not, i)
	}
	return seen, unique(not)
}

// denied takes "not", "no", "never" or "without" off a phrase.
func denied(w Text) (Text, bool) {
	for _, no := range []string{"not", "no", "never", "without"} {
		if n := len(no) + 1; len(w.Value) > n && strings.EqualFold(w.Value[:n-1], no) && (w.Value[n-1] == ' ' || w.Value[n-1] == '_') {
			return Text{Value: strings.TrimSpace(w.Value[n:]), At: w.Place(n)}, true
		}
	}
	return w, false
}

// phase returns the phases that a word may mean.
func (r *resolver) phase(w Text) PhaseSet {
	if found, level := r.by[aPhase].find(w.Value); level != notFound {
		if len(found) == 1 {
			return 1 << found[0]
		}
		r.several(w, "phase", pickStrings(r.by[aPhase].ids, found))
		return 0
	}
	if found, level := r.rough.find(w.Value); level != notFound {
		var set PhaseSet
		for _, i := range found {
			set |= r.sets[i]
		}
		return set
	}
	r.missing(w, "phase", knownOf(r.by[aPhase], r.rough))
	return 0
}

// normal looks up things said to be in order: a normal by id or word, or else
// a reading.
func (r *resolver) normal(words []Text) (normals, readings []int) {
	for _, w := range words {
		n, nl := r.by[aNormal].find(w.Value)
		g, gl := r.by[aReading].find(w.Value)
		switch {
		case nl == notFound && gl == notFound:
			r.unknown(w, "thing in order", aNormal, knownOf(r.by[aNormal], r.by[aReading]))
		case nl <= gl && len(n) == 1:
			normals = append(normals, n[0])
		case gl < nl && len(g) == 1:
			readings = append(readings, g[0])
		case nl <= gl:
			r.several(w, "thing in order", pickStrings(r.by[aNormal].ids, n))
		default:
			r.several(w, "reading", pickStrings(r.by[aReading].ids, g))
		}
	}
	return unique(normals), unique(readings)
}

// names looks up words that must all be of one kind.
func (r *resolver) names(words []Text, k kind) []int {
	var found []int
	for _, w := range words {
		if i, ok := r.name(w, k); ok {
			found = append(found, i)
		}
	}
	return unique(found)
}

// name looks a word up among the things of a kind.
func (r *resolver) name(w Text, k kind) (int, bool) {
	found, _ := r.by[k].find(w.Value)
	switch len(found) {
	case 1:
		return found[0], true
	case 0:
		r.unknown(w, kindWords[k].many, k, r.by[k].known)
	default:
		r.several(w, kindWords[k].many, pickStrings(r.by[k].ids, found))
	}
	return 0, false
}

// unknown reports a word that is no thing of kind k; where it is a thing of
// another kind it says where that belongs.
func (r *resolver) unknown(w Text, what string, k kind, known func() []string) {
	for other := range kinds {
		if other == k || other == aPhase || other == aFlow {
			continue
		}
		if found, level := r.by[other].find(w.Value); level <= byWord && len(found) > 0 {
			r.l.Add(w.Pos(), "wrong-place", fmt.Sprintf("%q is %s, not a %s", clip(w.Value), kindWords[other].a, what), whereTo(w, other))
			return
		}
	}
	r.missing(w, what, known)
}

// whereTo says where a word of a kind belongs.
func whereTo(w Text, k kind) string {
	if w.Pos().File != ArgsFile {
		return "put it under " + kindWords[k].under
	}
	switch {
	case k == aReading || k == aControl:
		return "give it a value: " + clip(w.Value) + "=..."
	case slices.Contains(bareKinds, k):
		return "write it alone, or as !" + clip(w.Value) + " if it was not seen"
	}
	return "it has no place on a command line; write a sheet"
}

// knownOf returns the words of several lists together.
func knownOf(lists ...*index) func() []string {
	return func() []string {
		var all []string
		for _, x := range lists {
			all = append(all, x.known()...)
		}
		return all
	}
}

// missing reports an unknown word with a near match.
func (r *resolver) missing(w Text, what string, known func() []string) {
	switch {
	case strings.TrimSpace(w.Value) == "":
		r.l.Addf(w.Pos(), "missing-value", "an empty %s", what)
	case len(r.l) > MaxProblems: // too many to be worth a search for each
		r.l.Addf(w.Pos(), "unknown-name", "unknown %s %q", what, clip(w.Value))
	default:
		r.l.Add(w.Pos(), "unknown-name", fmt.Sprintf("unknown %s %q", what, clip(w.Value)), problem.DidYouMean(w.Value, known()))
	}
}

// several reports a word that means more than one thing.
func (r *resolver) several(w Text, what string, ids []string) {
	const most = 8
	slices.Sort(ids)
	list := strings.Join(ids[:min(most, len(ids))], ", ")
	if len(ids) > most {
		list += fmt.Sprintf(" and %d more", len(ids)-most)
	}
	r.l.Add(w.Pos(), "ambiguous", fmt.Sprintf("%q means more than one %s", clip(w.Value), what), "say which: "+list)
}

func pickStrings(all []string, at []int) []string {
	out := make([]string, len(at))
	for i, k := range at {
		out[i] = all[k]
	}
	return out
}

// unique sorts a list and drops doubles.
func unique(list []int) []int {
	slices.Sort(list)
	return slices.Compact(list)
}

func texts(list []Text) []string {
	var out []string
	for _, t := range list {
		out = append(out, t.Value)
	}
	return out
}

// clip shortens a word for showing inside a message.
func clip(s string) string {
	const most = 60
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most]) + "..."
}
