package quantity

// This file finds the unit a word names, and says what would be right where it
// names none.

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/agnivade/levenshtein"
)

// unitOf returns the unit of dim that a word names. text and at say where the
// word stands, for the error; unit is the gauge's own.
func unitOf(word string, dim Dimension, unit, text string, at int) (*Unit, error) {
	at = skipSpace(text, at)
	word = strings.TrimSpace(word)
	e := &Error{Text: text, At: min(at, len(text)), Want: wanted(dim, unit)}
	fs := lookup().find(word)
	if dim == anyDimension {
		switch len(fs) {
		case 1:
			return fs[0].units[0], nil
		case 0:
			e.unknown(word, dim)
		default:
			e.severalFor(word, fs)
		}
		return nil, e
	}
	u, n := lookup().pick(word, dim)
	switch {
	case n == 1:
		return u, nil
	case n > 1:
		e.severalFor(word, fs)
	case word == "":
		e.Reason = "the unit is missing"
	case len(fs) > 0:
		e.Reason = fmt.Sprintf("%s is a unit of %s, not of %s", fs[0].name, fs[0].units[0].Dim, dim)
		if w := fs[0].name + " absolute"; len(lookup().find(w)) == 1 && fs[0].units[0].Dim != dim {
			if _, ok := UnitFor(w, dim); ok {
				e.Reason = fmt.Sprintf("%s alone is not a unit of %s", fs[0].name, dim)
				e.Near = w
			}
		}
	default:
		e.unknown(word, dim)
	}
	return nil, e
}

// unknown fills in the reason for a word that is no unit.
func (e *Error) unknown(word string, dim Dimension) {
	if first, _ := utf8.DecodeRuneInString(word); unicode.IsDigit(first) {
		e.Reason = fmt.Sprintf("a second figure %q follows the first", clip(word))
		return
	}
	// "8.5 psi at idle": the unit is there, with something after it.
	words := strings.Fields(word)
	for n := len(words) - 1; n > 0; n-- {
		if fs := lookup().find(strings.Join(words[:n], " ")); len(fs) > 0 {
			e.Reason = fmt.Sprintf("%q after the unit is not understood", clip(strings.Join(words[n:], " ")))
			e.Want = ""
			return
		}
	}
	e.Reason = fmt.Sprintf("unknown unit %q", clip(word))
	e.Near = nearUnit(word, dim)
}

func (e *Error) severalFor(word string, fs []*family) {
	names := make([]string, len(fs))
	for i, f := range fs {
		names[i] = f.name
	}
	e.Reason = fmt.Sprintf("%q could be %s", word, strings.Join(names, " or "))
	e.Want = "say which of the two it is"
}

// nearUnit returns the spelling nearest to word among the units of dim, or of
// any dimension, and "" when nothing is near.
func nearUnit(word string, dim Dimension) string {
	key := strings.ToLower(squeeze(word))
	if n := utf8.RuneCountInString(key); n == 0 || n > 30 {
		return ""
	}
	best, least := "", 1+utf8.RuneCountInString(key)/3
	for _, f := range families {
		if dim != anyDimension && f.serving(dim) == nil || f.name == "" {
			continue
		}
		for _, w := range append([]string{f.name}, f.words...) {
			d := levenshtein.ComputeDistance(key, strings.ToLower(squeeze(w)))
			if d < least || d == least && best == "" {
				best, least = f.name, d
			}
		}
	}
	return best
}

// wanted says what would be right for dim, with the gauge's own unit first.
func wanted(dim Dimension, unit string) string {
	if dim >= anyDimension {
		return "write a number and a unit, such as 8.5 psi"
	}
	if dim == Pure {
		return "write a plain number"
	}
	names := Units(dim)
	if u, ok := UnitFor(unit, dim); ok {
		names = slices.Insert(slices.DeleteFunc(names, func(n string) bool { return n == u.Name }), 0, u.Name)
	}
	if len(names) > 4 {
		names = names[:4]
	}
	if len(names) == 1 {
		return fmt.Sprintf("%s is told in %s", dim, names[0])
	}
	last := len(names) - 1
	return fmt.Sprintf("%s is told in %s or %s", dim, strings.Join(names[:last], ", "), names[last])
}
