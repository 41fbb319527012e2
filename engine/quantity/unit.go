package quantity

// This file finds units by the words people use for them.

import (
	"slices"
	"strings"
	"sync"
)

// A Unit is one unit of one dimension: value in SI = number * Factor + Offset.
// Units are shared and must not be changed.
type Unit struct {
	Name   string    // as it is shown, such as "psi" or "imperial gal"
	Dim    Dimension // what it measures
	Factor float64   // SI per unit
	Offset float64   // SI at zero of the unit: 273.15 for degC
	places int       // decimals a gauge in this unit is usually read to
}

// ToSI returns the SI value of a number in this unit.
func (u *Unit) ToSI(number float64) float64 { return number*u.Factor + u.Offset }

// FromSI returns the number in this unit of an SI value.
func (u *Unit) FromSI(si float64) float64 { return (si - u.Offset) / u.Factor }

// A family is one word for a unit with every dimension it serves; the first is
// the usual one.
type family struct {
	name  string // the spelling to recommend
	words []string
	units []*Unit
}

// serving returns the unit of f for dim.
func (f *family) serving(dim Dimension) *Unit {
	for _, u := range f.units {
		if u.Dim == dim {
			return u
		}
	}
	return nil
}

// lexicon finds families by spelling: exact first, then without case.
type lexicon struct {
	exact  map[string][]*family
	folded map[string][]*family
	words  []string // every spelling, sorted, for near matches
}

var lookup = sync.OnceValue(func() *lexicon {
	l := &lexicon{exact: map[string][]*family{}, folded: map[string][]*family{}}
	add := func(m map[string][]*family, key string, f *family) {
		if !slices.Contains(m[key], f) {
			m[key] = append(m[key], f)
		}
	}
	for _, f := range families {
		for _, w := range append([]string{f.name}, f.words...) {
			key := squeeze(w)
			add(l.exact, key, f)
			add(l.folded, strings.ToLower(key), f)
			l.words = append(l.words, w)
		}
	}
	slices.Sort(l.words)
	l.words = slices.Compact(l.words)
	return l
})

// find returns the families a word may mean: none, one, or several where the
// word alone does not tell, such as "gal".
func (l *lexicon) find(word string) []*family {
	key := squeeze(word)
	if fs := l.exact[key]; fs != nil {
		return fs
	}
	return l.folded[strings.ToLower(key)]
}

// UnitFor returns the unit of dim that goes by this name or one of its common
// spellings, and false where there is none or the word could mean two.
func UnitFor(name string, dim Dimension) (*Unit, bool) {
	u, n := lookup().pick(name, dim)
	return u, n == 1
}

// pick returns the unit of dim a word means and how many it could mean.
func (l *lexicon) pick(word string, dim Dimension) (*Unit, int) {
	var found []*Unit
	for _, f := range l.find(word) {
		if u := f.serving(dim); u != nil {
			found = append(found, u)
		}
	}
	if len(found) == 0 {
		return nil, 0
	}
	return found[0], len(found)
}

// Units returns the names of the units of dim, usual ones first.
func Units(dim Dimension) []string {
	var usual, others []string
	for _, f := range families {
		u := f.serving(dim)
		switch {
		case u == nil || u.Name == "" || slices.Contains(usual, u.Name) || slices.Contains(others, u.Name):
		case f.units[0] == u:
			usual = append(usual, u.Name)
		default:
			others = append(others, u.Name)
		}
	}
	return append(usual, others...)
}

// Serves returns the dimensions that a unit is used for, the usual one first:
// for "psi" gauge pressure, pressure difference, absolute pressure and boost.
// It is empty for a word that is no unit or could mean two.
func Serves(name string) []Dimension {
	fs := lookup().find(name)
	if len(fs) != 1 {
		return nil
	}
	var dims []Dimension
	for _, u := range fs[0].units {
		dims = append(dims, u.Dim)
	}
	return dims
}

var squeezer = strings.NewReplacer(
	" per ", "/", " ", "", "\u00a0", "", "\u202f", "", ".", "", "_", "", "-", "", "^", "", "·", "", "*", "",
	"°", "deg", "º", "deg", "˚", "deg", "℃", "degC", "℉", "degF",
	"Ω", "ohm", "\u2126", "ohm", "µ", "u", "μ", "u", "²", "2", "³", "3", "₂", "2",
	`"`, "in", "″", "in", "”", "in", "%", "percent", "square", "sq", "cubic", "cu",
)

// squeeze takes out of a unit's spelling what people write in different ways:
// spaces, dots, hyphens and signs. Case stays: MV and mV differ.
func squeeze(word string) string {
	return squeezer.Replace(strings.Join(strings.Fields(word), " "))
}

// foldWords makes names comparable: lower case, one space between words.
func foldWords(s string) string {
	return strings.Join(strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return r == ' ' || r == '_' || r == '-' || r == '\t'
	}), " ")
}
