package hunt

// This file puts facts into a sheet and a sheet into facts.

import (
	"cmp"
	"maps"
	"slices"
	"strings"

	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/sheet"
)

// Sheet returns what has been told as a sheet. The signs that checks brought
// stand in a last moment of their own; with cased set they are left to the
// checks, as in a kept snag.
func (h *Hunt) Sheet(cased bool) *sheet.Sheet {
	s := &sheet.Sheet{Rig: text(h.engine.Fitted().Rig.ID)}
	moments, keys := h.moments(cased)
	at := func(m Moment) *sheet.Moment { return &moments[slices.Index(keys, m)] }
	var denied []string
	for i := range h.facts {
		f := &h.facts[i].Fact
		switch f.Kind {
		case Checked:
			if cased && h.engine.Fitted().Check(f.Name) >= 0 {
				s.Checks = append(s.Checks, h.done(f))
				continue
			}
			m := at(Moment{})
			for _, id := range f.Shown {
				add(&m.Symptoms, id)
			}
			denied = append(denied, f.Denied...)
		case Left, Lacking:
		case Circumstance:
			add(&s.Circumstances, f.Name)
		case Trial:
			add(&s.Trials, f.Name)
		case Weather:
			s.Weather = append(s.Weather, entry(f))
		case Part:
			s.Parts = append(s.Parts, statement(f.Part))
		case Course, Normal, Note:
			if f.At == (Moment{}) {
				add(map[Kind]*[]sheet.Text{Course: &s.Course, Normal: &s.Normal, Note: &s.Notes}[f.Kind], cmp.Or(f.Name, strings.Join(f.Values, "; ")))
				continue
			}
			tell(at(f.At), f)
		default:
			tell(at(f.At), f)
		}
	}
	for _, id := range denied { // what one check saw, another need not have
		if m := at(Moment{}); !slices.Contains(m.Symptoms, text(id)) {
			add(&m.NotSeen, id)
		}
	}
	return inSheet(s, moments)
}

// inSheet puts the moments that tell anything into a sheet.
func inSheet(s *sheet.Sheet, moments []sheet.Moment) *sheet.Sheet {
	for _, m := range moments {
		if len(m.Phase)+len(m.Controls)+len(m.Readings)+len(m.Symptoms)+len(m.Course)+len(m.NotSeen)+len(m.CouldNotRead)+len(m.Normal)+len(m.Notes) > 0 {
			s.Moments = append(s.Moments, m)
		}
	}
	return s
}

// moments returns the moments of the sheet with what tells them apart: those
// it began from in their order, then the others by phase and levers, so that
// the order of answers makes no difference; what nobody dated stands last.
func (h *Hunt) moments(cased bool) ([]sheet.Moment, []Moment) {
	keys := slices.Clone(h.base)
	var more []Moment
	for i := range h.facts {
		f := &h.facts[i]
		m := f.At
		if f.Kind == Checked && cased {
			continue
		}
		if !slices.Contains(keys, m) && !slices.Contains(more, m) && m != (Moment{}) {
			more = append(more, m)
		}
	}
	phases := h.engine.Fitted().Phases
	first := func(m Moment) int {
		p, _, _ := strings.Cut(m.Phase, ",")
		if i := slices.Index(phases, p); i >= 0 {
			return i
		}
		return len(phases)
	}
	slices.SortFunc(more, func(a, b Moment) int {
		return cmp.Or(cmp.Compare(first(a), first(b)), cmp.Compare(a.Phase, b.Phase), cmp.Compare(a.Levers, b.Levers))
	})
	keys = append(keys, more...)
	if !slices.Contains(keys, Moment{}) {
		keys = append(keys, Moment{})
	}
	out := make([]sheet.Moment, len(keys))
	for i, k := range keys {
		for _, p := range split(k.Phase) {
			add(&out[i].Phase, p)
		}
		for _, l := range split(k.Levers) {
			name, to, _ := strings.Cut(l, "=")
			out[i].Controls = append(out[i].Controls, sheet.Entry{Name: text(name), Values: []sheet.Text{text(to)}})
		}
		if i > 0 && i < len(h.base) {
			out[i].After = text(k.After)
		}
	}
	return out, keys
}

func tell(m *sheet.Moment, f *Fact) {
	switch f.Kind {
	case Seen:
		add(&m.Symptoms, f.Name)
	case NotSeen:
		add(&m.NotSeen, f.Name)
	case Read:
		m.Readings = append(m.Readings, entry(f))
	case Unread:
		add(&m.CouldNotRead, f.Name)
	case Course:
		add(&m.Course, f.Name)
	case Normal:
		add(&m.Normal, f.Name)
	case Note:
		add(&m.Notes, strings.Join(f.Values, "; "))
	}
}

// done writes a check with its outcome as a kept snag holds it.
func (h *Hunt) done(f *Fact) sheet.Done {
	d := sheet.Done{Check: text(f.Name)}
	var words []string
	for _, id := range f.Shown {
		add(&d.Seen, id)
		words = append(words, h.Means(Seen, id))
	}
	for _, id := range f.Denied {
		add(&d.NotSeen, id)
	}
	if len(words) == 0 {
		words = append(words, "nothing of what was looked for")
	}
	d.Outcome = text(strings.Join(words, "; "))
	if f.Minutes > 0 {
		d.Minutes = text(number(f.Minutes))
	}
	return d
}

func entry(f *Fact) sheet.Entry {
	e := sheet.Entry{Name: text(f.Name)}
	for _, v := range f.Values {
		e.Values = append(e.Values, text(v))
	}
	return e
}

// fields ties the keys of a statement about a part to where they stand.
func fields(s *sheet.Statement) map[string]*[]sheet.Text {
	return map[string]*[]sheet.Text{"part": &s.Part, "worked_on": &s.WorkedOn, "looked_at": &s.LookedAt, "leaks": &s.Leaks, "felt": &s.Felt,
		"good_as_far_as": &s.GoodAsFarAs, "gone_at": &s.GoneAt, "notes": &s.Notes}
}

// words ties those that take one word.
func words(s *sheet.Statement) map[string]*sheet.Text {
	return map[string]*sheet.Text{"when": &s.When, "changed": &s.Changed, "how_much": &s.HowMuch, "flow": &s.Flow}
}

func statement(part map[string][]string) sheet.Statement {
	var s sheet.Statement
	many, one := fields(&s), words(&s)
	for _, k := range slices.Sorted(maps.Keys(part)) {
		if to := many[k]; to != nil {
			for _, v := range part[k] {
				add(to, v)
			}
		} else if to := one[k]; to != nil && len(part[k]) > 0 {
			*to = text(part[k][0])
		}
	}
	return s
}

func text(v string) sheet.Text { return sheet.Text{Value: v} }

func add(list *[]sheet.Text, v string) {
	if t := text(v); !slices.Contains(*list, t) {
		*list = append(*list, t)
	}
}

func split(list string) []string {
	if list == "" {
		return nil
	}
	return strings.Split(list, ",")
}

// Account looks up what has been told. Problems mean that something told does
// not go together; there is no account then.
func (h *Hunt) Account() (*sheet.Account, problem.List) { return h.account() }

// From returns what a sheet tells as moments and facts. The sheet must have
// been read without problems, and its words of a command line settled.
func From(b *knowledge.Base, s *sheet.Sheet) (moments []Moment, facts []Fact) {
	put := func(k Kind, at Moment, list []sheet.Text) {
		for _, t := range list {
			facts = append(facts, Fact{Kind: k, Name: idOf(b, k, t.Value), At: at})
		}
	}
	entries := func(k Kind, at Moment, list sheet.Entries) {
		for _, e := range list {
			f := Fact{Kind: k, Name: idOf(b, k, e.Name.Value), At: at}
			for _, v := range e.Values {
				f.Values = append(f.Values, v.Value)
			}
			facts = append(facts, f)
		}
	}
	notes := func(at Moment, list []sheet.Text) {
		for _, t := range list {
			facts = append(facts, Fact{Kind: Note, Values: []string{t.Value}, At: at})
		}
	}
	entries(Weather, Moment{}, s.Weather)
	for i, m := range s.Moments {
		at := Moment{Nth: i + 1, After: m.After.Value}
		var phases, levers []string
		for _, p := range m.Phase {
			phases = append(phases, p.Value)
		}
		for _, c := range m.Controls {
			for _, v := range c.Values {
				levers = append(levers, c.Name.Value+"="+v.Value)
			}
		}
		at.Phase, at.Levers = strings.Join(phases, ","), strings.Join(levers, ",")
		moments = append(moments, at)
		entries(Read, at, m.Readings)
		put(Seen, at, m.Symptoms)
		put(NotSeen, at, m.NotSeen)
		put(Unread, at, m.CouldNotRead)
		put(Course, at, m.Course)
		put(Normal, at, m.Normal)
		notes(at, m.Notes)
	}
	for i := range s.Parts {
		facts = append(facts, Fact{Kind: Part, Part: spoken(&s.Parts[i])})
	}
	put(Circumstance, Moment{}, s.Circumstances)
	put(Trial, Moment{}, s.Trials)
	put(Course, Moment{}, s.Course)
	put(Normal, Moment{}, s.Normal)
	notes(Moment{}, s.Notes)
	return moments, facts
}

func spoken(s *sheet.Statement) map[string][]string {
	out := map[string][]string{}
	for k, list := range fields(s) {
		for _, t := range *list {
			out[k] = append(out[k], t.Value)
		}
	}
	for k, t := range words(s) {
		if t.Value != "" {
			out[k] = []string{t.Value}
		}
	}
	return out
}
