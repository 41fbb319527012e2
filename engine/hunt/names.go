package hunt

// This file names things: the id that a word of a sheet stands for, and what a
// person calls what an id stands for.

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"snagwise/engine/knowledge"
)

// meant ties sorts of fact to what a word may mean.
var meant = map[Kind]knowledge.MeaningKind{
	Seen: knowledge.MeansSign, NotSeen: knowledge.MeansSign, Read: knowledge.MeansReading, Unread: knowledge.MeansReading, Weather: knowledge.MeansReading,
	Circumstance: knowledge.MeansCircumstance, Course: knowledge.MeansCourse, Trial: knowledge.MeansTrial, Normal: knowledge.MeansNormal,
}

// idOf returns the id that a word stands for, or the word where that is not
// plain.
func idOf(b *knowledge.Base, k Kind, word string) string {
	var ids []string
	for _, m := range b.Meanings(word) {
		if m.Kind == meant[k] && !slices.Contains(ids, m.ID) {
			if m.ID == word {
				return word
			}
			ids = append(ids, m.ID)
		}
	}
	if len(ids) == 1 {
		return ids[0]
	}
	return word
}

// Means says what the thing with an id is, in words.
func (h *Hunt) Means(k Kind, id string) string {
	b := h.engine.Fitted().Base
	switch k {
	case Checked, Left:
		if i := b.Check(id); i >= 0 {
			return plain(b.Checks[i].Do)
		}
		if hz, ok := h.hazard(id); ok {
			return plain(hz.Ask)
		}
		if strings.HasPrefix(id, recalled) {
			return "What else was noticed"
		}
		return "rig " + id
	case Seen, NotSeen:
		if i := b.Sign(id); i >= 0 {
			return plain(b.Signs[i].Means)
		}
	case Lacking:
		return id
	}
	for _, m := range b.Meanings(id) {
		if m.ID == id && m.Kind == meant[k] {
			return plain(m.Means)
		}
	}
	return strings.ReplaceAll(id, "_", " ")
}

// Cause returns the name of a cause: how its part fails.
func (h *Hunt) Cause(id string) string {
	b := h.engine.Fitted().Base
	if i := b.Cause(id); i >= 0 {
		return plain(b.Causes[i].FailsBy)
	}
	return id
}

// Phase says a phase or several as they are spoken.
func Phase(ids string) string {
	words := split(ids)
	for i, w := range words {
		if s, ok := spokenPhase[w]; ok {
			w = s
		}
		words[i] = strings.ReplaceAll(w, "_", " ")
	}
	return strings.Join(words, " or ")
}

// spokenPhase is what phases are called where their id is not the word.
var spokenPhase = map[string]string{
	"rest": "at rest", "pre_oil": "pre-oiling", "crank": "cranking", "warm_up": "warm-up", "run_up": "run-up", "display": "display power", "cool_down": "cool-down",
}

// plain takes the full stop or question mark off a sentence.
func plain(t string) string { return strings.TrimRight(strings.TrimSpace(t), ".?") }

func number(x float64) string { return strconv.FormatFloat(math.Round(x*10)/10, 'f', -1, 64) }

// At returns when something held that is told of a phase: that of the sheet
// begun from if it has such a moment, the last of several.
func (h *Hunt) At(phase string) Moment {
	for i := len(h.base) - 1; i >= 0; i-- {
		if phase != "" && h.base[i].Phase == phase {
			return h.base[i]
		}
	}
	return Moment{Phase: phase}
}

// With returns the moment with one more lever set, such as booster=on.
func (m Moment) With(lever string) Moment {
	name, _, _ := strings.Cut(lever, "=")
	list := slices.DeleteFunc(split(m.Levers), func(l string) bool { return strings.HasPrefix(l, name+"=") })
	list = append(list, lever)
	slices.Sort(list)
	return Moment{Phase: m.Phase, Levers: strings.Join(list, ",")}
}

// Lever reads the setting of a lever or switch, such as "booster on" or
// "booster=on".
func (h *Hunt) Lever(phrase string) (string, bool) {
	f := h.engine.Fitted()
	want := f.Base.Fold(phrase)
	for _, c := range f.Rig.Controls {
		names := []string{c.ID}
		also := map[string][]string{}
		for _, bc := range f.Base.Controls {
			if bc.ID == c.ID {
				names, also = append(names, bc.Words...), bc.Also
			}
		}
		for _, to := range c.Positions {
			for _, n := range names {
				for _, w := range append([]string{to}, also[to]...) {
					if f.Base.Fold(n+" "+w) == want {
						return c.ID + "=" + to, true
					}
				}
			}
		}
	}
	return "", false
}

// When returns the moment of a sign that is told while the talk is of another:
// the phase talked of where the sign can be met in it, else the only phase in
// which it can, else unsaid.
func (h *Hunt) When(sign string, at Moment) Moment {
	f := h.engine.Fitted()
	i := f.Sign(sign)
	if i < 0 {
		return at
	}
	phases := f.Signs[i].Phases
	switch {
	case at.Phase != "" && (len(phases) == 0 || slices.ContainsFunc(split(at.Phase), func(p string) bool { return slices.Contains(phases, p) })):
		return at
	case len(phases) == 1 && slices.Contains(f.Rig.Phases, phases[0]):
		return h.At(phases[0])
	}
	return Moment{}
}

// Telling returns the fact that a chosen thing is so, or with denied that it is
// not there.
func (h *Hunt) Telling(c Choice, at Moment, denied bool) Fact {
	f := Fact{Kind: c.Kind, Name: c.ID}
	if c.Kind == Seen {
		f.At = h.When(c.ID, at)
		if denied {
			f.Kind = NotSeen
		}
	}
	return f
}
