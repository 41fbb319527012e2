package hunt

// This file takes what is said of parts: worked on, changed, looked at, leaks,
// felt, and how far along a flow all is well.

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"snagwise/engine/problem"
	"snagwise/engine/sheet"
)

// subjectOf is what a statement is about: of two with one subject the later
// counts. A part may leak two things and feel two ways, but not hot and cold.
func subjectOf(part map[string][]string) string {
	key := []string{"part"}
	for _, k := range []string{"part", "flow"} {
		key = append(key, part[k]...)
	}
	for _, k := range []string{"worked_on", "changed", "looked_at", "leaks", "felt", "good_as_far_as", "gone_at"} {
		if len(part[k]) == 0 {
			continue
		}
		key = append(key, k)
		switch {
		case k == "felt" && len(part[k]) == 1 && slices.Contains([]string{sheet.Hot.String(), sheet.Cold.String()}, part[k][0]):
			key = append(key, "warmth")
		case k == "worked_on" || k == "leaks" || k == "felt":
			key = append(key, part[k]...)
		case k == "good_as_far_as" || k == "gone_at":
			return strings.Join(append(key[:len(key)-1], "flow"), "\x00")
		}
	}
	return strings.Join(key, "\x00")
}

// IsStatement says whether a phrase is typed as a statement about a part or a
// flow, such as "oil cooler.leaks=oil".
func IsStatement(phrase string) bool { return typedStatement.MatchString(phrase) }

var typedStatement = regexp.MustCompile(`^[^=.:]+\.\s*[A-Za-z_ -]+\s*=`)

// namingKeys are the keys of a statement under which parts are named.
var namingKeys = []string{"part", "good_as_far_as", "gone_at"}

// Statements takes phrases that are typed as statements, those of one line
// together: a phrase may belong to the one before it. A name that is not known
// waits for its meaning.
func (h *Hunt) Statements(phrases []string) (facts []Fact, wait []Pending, l problem.List) {
	for i, p := range phrases { // blanks round the dot and the stroke are not meant
		name, value, _ := strings.Cut(p, "=")
		of, key, _ := strings.Cut(name, ".")
		phrases[i] = strings.TrimSpace(of) + "." + strings.TrimSpace(key) + "=" + strings.TrimSpace(value)
	}
	s, l := sheet.ParseArgs(phrases)
	if s == nil {
		return nil, nil, l
	}
	for i := range s.Parts {
		f, w, more := h.Place(spoken(&s.Parts[i]))
		l = append(l, more...)
		switch {
		case f != nil:
			facts = append(facts, *f)
		case w != nil:
			wait = append(wait, *w)
		}
	}
	return facts, wait, l
}

// Place looks a statement up: it is a fact, or names a part that is not known,
// or is refused.
func (h *Hunt) Place(part map[string][]string) (*Fact, *Pending, problem.List) {
	part = maps.Clone(part)
	for _, k := range namingKeys {
		names := slices.Clone(part[k])
		for i, name := range names {
			id, ok := h.part(name)
			if !ok {
				return nil, &Pending{Text: name, Part: part}, nil
			}
			names[i] = id
		}
		if len(names) > 0 {
			part[k] = names
		}
	}
	s := &sheet.Sheet{Rig: text(h.engine.Fitted().Rig.ID), Parts: []sheet.Statement{statement(part)}}
	a, l := h.engine.Read(s)
	if len(l) > 0 {
		return nil, nil, l
	}
	for _, said := range a.Statements { // one word for what many words say
		switch {
		case said.Manner == sheet.Changed:
			part["changed"] = []string{said.Outcome.String()}
		case said.Manner == sheet.Leaks && len(part["leaks"]) == 1:
			part["leaks"] = []string{said.Fluid.String()}
		case said.Manner == sheet.Felt && len(part["felt"]) == 1:
			part["felt"] = []string{said.Feeling.String()}
		case said.Manner == sheet.Flows && said.Flow >= 0:
			part["flow"] = []string{h.engine.Lexicon().Vocabulary().Flows[said.Flow].ID}
		}
	}
	return &Fact{Kind: Part, Part: part}, nil, nil
}

// Meant returns a statement with a part in the place of the name that was not
// known.
func (p *Pending) Meant(part string) map[string][]string {
	out := maps.Clone(p.Part)
	for _, k := range namingKeys {
		names := slices.Clone(out[k])
		for i, n := range names {
			if n == p.Text {
				names[i] = part
			}
		}
		if len(names) > 0 {
			out[k] = names
		}
	}
	return out
}

// part returns the id of the part that a word names, or the word where it
// names several: either of them is meant.
func (h *Hunt) part(word string) (string, bool) {
	r := h.engine.Fitted().Rig
	word = strings.TrimSpace(word)
	if low, ok := strings.CutPrefix(strings.ToLower(word), "the "); ok {
		word = low
	}
	switch found := r.Called(word); {
	case len(found) == 1:
		return r.Parts[found[0]].ID, true
	case len(found) > 1:
		return strings.ToLower(word), true
	}
	s := &sheet.Sheet{Rig: text(r.ID), Parts: []sheet.Statement{{Part: []sheet.Text{text(word)}, LookedAt: []sheet.Text{text("good")}}}}
	a, l := h.engine.Read(s)
	if len(l) > 0 || len(a.Statements) == 0 {
		return "", false
	}
	if said := a.Statements[0].Parts; len(said) == 1 {
		return r.Parts[said[0]].ID, true
	}
	return strings.ToLower(word), true
}

// PartName says a part as it is called on the rig.
func (h *Hunt) PartName(id string) string {
	for _, p := range h.engine.Fitted().Rig.Parts {
		if p.ID == id {
			return p.Name
		}
	}
	return strings.ReplaceAll(id, "_", " ")
}

// Parts returns the parts of the rig whose names are most like a word, best
// first.
func (x *Finder) Parts(word string) []Choice {
	words := strings.Fields(x.f.Base.Fold(word))
	if len(words) == 0 || len(words) > 40 {
		return nil
	}
	n := x.partIndex()
	for i, w := range words {
		words[i] = n.near(w)
	}
	if list := n.like(words); len(list) > 0 {
		return list
	}
	var names []string
	for _, c := range n.all {
		names = append(names, c.ID, c.Means)
	}
	near := problem.Near(word, names)
	return slices.DeleteFunc(slices.Clone(n.all), func(c Choice) bool { return near == "" || c.ID != near && c.Means != near })
}

// partsIndexed makes the index of the parts of the rig.
func (x *Finder) partsIndexed() *phraseIndex {
	n := newPhraseIndex()
	kinds := map[string]int{}
	for _, p := range x.f.Rig.Parts {
		kinds[p.Kind]++
		n.add(x.f.Base.Fold, Part, 1, p.ID, p.Name, []string{p.Kind})
	}
	for _, k := range slices.Sorted(maps.Keys(kinds)) {
		if kinds[k] > 1 && len(x.f.Rig.Called(k)) > 1 { // which of them is not said
			n.add(x.f.Base.Fold, Part, 1, k, strings.ReplaceAll(k, "_", " ")+", any of them", nil)
		}
	}
	n.settle()
	return n
}
