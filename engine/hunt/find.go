package hunt

// This file finds what people mean: everyday words, UK and US, misspelt, with
// figures as the gauge shows them.

import (
	"regexp"
	"slices"
	"strings"
	"sync"

	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/quantity"
	"snagwise/engine/sheet"
)

// A Choice is one thing that a phrase may mean.
type Choice struct {
	Kind  Kind
	ID    string
	Means string
}

// factKind ties what a word may mean to the sort of fact that tells it.
var factKind = map[knowledge.MeaningKind]Kind{
	knowledge.MeansSign: Seen, knowledge.MeansReading: Read, knowledge.MeansCircumstance: Circumstance,
	knowledge.MeansCourse: Course, knowledge.MeansTrial: Trial, knowledge.MeansNormal: Normal,
}

// A Finder finds what phrases mean on one rig.
type Finder struct {
	f     *knowledge.Fitted
	index func() *phraseIndex // made when the first phrase is no name
	// partIndex is the same for the parts of the rig.
	partIndex func() *phraseIndex
}

// NewFinder returns a finder for what can be told on a rig.
func NewFinder(f *knowledge.Fitted) *Finder {
	x := &Finder{f: f}
	x.index, x.partIndex = sync.OnceValue(x.indexed), sync.OnceValue(x.partsIndexed)
	return x
}

// Exactly returns what a phrase names by its id or by a word for it, those of
// this rig only.
func (x *Finder) Exactly(phrase string) []Choice { return x.choices(x.f.Base.Meanings(phrase)) }

// mostFound is how many things a search finds at most.
const mostFound = 6

// Find returns what a phrase may mean, best first: what it names, misspelt
// words put right, or else the things whose words are most like it.
func (x *Finder) Find(phrase string) []Choice {
	if exact := x.Exactly(phrase); len(exact) > 0 {
		return exact
	}
	words := strings.Fields(x.f.Base.Fold(phrase))
	if len(words) == 0 || len(words) > 40 {
		return nil
	}
	for i, w := range words {
		words[i] = x.index().near(w)
	}
	if exact := x.Exactly(strings.Join(words, " ")); len(exact) > 0 {
		return exact
	}
	return x.index().like(words)
}

// choices keeps what can be told here.
func (x *Finder) choices(list []knowledge.Meaning) []Choice {
	var out []Choice
	for _, m := range list {
		k, ok := factKind[m.Kind]
		if !ok {
			continue
		}
		if i := x.f.Sign(m.ID); k == Seen && !x.f.SignOn[i] {
			continue
		}
		if i := x.f.Reading(m.ID); k == Read && !x.f.ReadOn[i] {
			continue
		}
		c := Choice{k, m.ID, plain(m.Means)}
		if !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	return out
}

// Causes returns the ids of the causes that a phrase may mean on this rig.
func (x *Finder) Causes(phrase string) []string {
	var out []string
	on := map[int]bool{}
	for _, c := range x.f.Causes {
		on[c.Cause] = true
	}
	for _, list := range [][]knowledge.Meaning{x.f.Base.Meanings(phrase), x.f.Base.Find(phrase)} {
		for _, m := range list {
			if m.Kind == knowledge.MeansCause && on[x.f.Base.Cause(m.ID)] && !slices.Contains(out, m.ID) {
				out = append(out, m.ID)
			}
		}
		if len(out) > 0 {
			break
		}
	}
	return out[:min(mostFound, len(out))]
}

// gaugeValue parts a phrase that ends in a figure or a word for one from the
// gauge that it is of.
var gaugeValue = regexp.MustCompile(`^(.+?)(?:\s*[=:]\s*|\s+(?:is |was |at |of |reads? |shows? |showing |says? |about )*)([-+]?\d\S*(?:\s*(?:->|to)\s*[-+]?\d\S*)?(?:\s+\S+){0,2})$`)

// Reading returns the gauge and what it shows where a phrase tells both, such
// as "oil pressure 60 psi" or "oil pressure low".
func (x *Finder) Reading(phrase string) (id string, value string, ok bool) {
	if m := gaugeValue.FindStringSubmatch(phrase); m != nil {
		if id, ok := x.gauge(m[1]); ok {
			return id, m[2], true
		}
	}
	if m := middleFigure.FindStringSubmatch(phrase); m != nil { // mag drop 150 on the left
		if id, ok := x.gauge(m[1] + " " + m[3]); ok {
			return id, m[2], true
		}
	}
	if name, value, cut := strings.Cut(phrase, "="); cut {
		if id, ok := x.gauge(name); ok {
			return id, strings.TrimSpace(value), true
		}
	}
	words := strings.Fields(phrase)
	for n := min(3, len(words)-1); n > 0; n-- {
		value := strings.Join(words[len(words)-n:], " ")
		name := strings.TrimSuffix(strings.TrimSuffix(strings.Join(words[:len(words)-n], " "), " is"), " was")
		if !slices.Contains(judgements, strings.ToLower(value)) {
			continue
		}
		if id, ok := x.gauge(name); ok {
			return id, strings.ToLower(value), true
		}
	}
	return "", "", false
}

// middleFigure is a figure within the name of a gauge.
var middleFigure = regexp.MustCompile(`^(.+?)\s+([-+]?\d+(?:\.\d+)?(?:\s*(?:rpm|psi|degC|lb|V|A))?)\s+(\S.*)$`)

// Figured parts a phrase that ends in a figure, where its name is like that of
// a gauge but names none plainly.
func (x *Finder) Figured(phrase string) (name, value string, ok bool) {
	m := gaugeValue.FindStringSubmatch(phrase)
	if m == nil || len(x.gauges(m[1])) == 0 {
		return "", "", false
	}
	return m[1], m[2], true
}

// gauges returns the readings that a name may mean, best first.
func (x *Finder) gauges(name string) []Choice {
	return slices.DeleteFunc(x.Find(name), func(c Choice) bool { return c.Kind != Read })
}

// judgements are the words by which a reading is judged.
var judgements = []string{"none", "nothing", "zero", "low", "too low", "normal", "fine", "good", "high", "too high", "over the stop", "below the stop",
	"rising", "falling", "unsteady", "swinging", "fluctuating", "dead", "stuck", "dropping", "climbing"}

// gauge returns the reading that a name names on this rig.
func (x *Finder) gauge(name string) (string, bool) {
	var found []string
	for _, c := range x.Exactly(strings.TrimSpace(name)) {
		if c.Kind == Read {
			found = append(found, c.ID)
		}
	}
	if len(found) == 1 {
		return found[0], true
	}
	return "", false
}

// Unit returns what a reading is told in on this rig: the unit of its gauge,
// or the answers that it may give.
func (x *Finder) Unit(id string) (unit string, answers []string) {
	i := x.f.Reading(id)
	if i < 0 {
		return "", nil
	}
	unit = x.f.Readings[i].Unit
	if g, ok := x.f.Rig.Gauge(id); ok && g.Unit != "" {
		unit = g.Unit
	}
	return unit, x.f.Readings[i].Answers
}

// Banded says whether what a reading means hangs on when it was read.
func (x *Finder) Banded(id string) bool {
	g, ok := x.f.Rig.Gauge(id)
	return ok && len(g.Bands)+len(g.Limits) > 0
}

// Value returns what was typed for a reading as a sheet takes it: a bare
// figure is in the unit of the gauge. It is refused with what would be right.
func (h *Hunt) Value(x *Finder, id, typed string) (string, problem.List) {
	typed = strings.TrimSpace(typed)
	unit, answers := x.Unit(id)
	if len(answers) == 0 && unit != "" && bareFigure.MatchString(typed) {
		typed += " " + unit
	}
	s := &sheet.Sheet{Rig: text(h.engine.Fitted().Rig.ID)}
	s.Moments = []sheet.Moment{{Readings: sheet.Entries{{Name: text(id), Values: []sheet.Text{text(typed)}}}}}
	_, l := h.engine.Read(s)
	return typed, l
}

// bareFigure is a figure, or two with an arrow, without a unit.
var bareFigure = regexp.MustCompile(`^[-+]?\d+(\.\d+)?(\s*->\s*[-+]?\d+(\.\d+)?)?$`)

// Shows says what a reading usually shows at a phase, in the unit of its
// gauge, or "" where nothing is known.
func (x *Finder) Shows(id, phase string) string {
	g, ok := x.f.Rig.Gauge(id)
	if !ok {
		return ""
	}
	b, ok := g.Band(phase)
	if !ok || len(b.Answers) > 0 {
		return ""
	}
	unit, ok := quantity.UnitFor(g.Unit, g.Dim)
	if !ok {
		return ""
	}
	lo, hi := quantity.Quantity{SI: b.Lo, Dim: g.Dim, Unit: unit}, quantity.Quantity{SI: b.Hi, Dim: g.Dim, Unit: unit}
	return lo.Shown() + " to " + hi.Shown()
}
