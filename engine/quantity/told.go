package quantity

// This file reads the fuller ways of telling a figure: a change, a range and a
// bound.

import (
	"math"
	"strings"
)

// A Relation says on which side of a bound a value lies.
type Relation uint8

// The relations a bound may be told with.
const (
	Below   Relation = iota // <
	AtMost                  // <=
	AtLeast                 // >=
	Above                   // >
)

// String returns the sign of r, such as "<".
func (r Relation) String() string { return [...]string{"<", "<=", ">=", ">"}[r&3] }

// A Shape says in which way a figure was told.
type Shape uint8

// The shapes of a told figure.
const (
	Exact   Shape = iota // 8.5 psi
	Range                // 150-175 rpm
	Changed              // 2400 -> 1950 rpm
	Bounded              // <1 mm
)

// A Told is one figure as it was told. From and To are the same for [Exact] and
// [Bounded]; for [Range] they are the low and high end, for [Changed] the value
// before and after.
type Told struct {
	Shape    Shape
	From, To Quantity
	Relation Relation // of a bound
}

// Value returns the SI value to reckon with: the figure itself, the middle of a
// range, the end of a change. A bound has none; it gives NaN.
func (t Told) Value() float64 {
	switch t.Shape {
	case Range:
		return (t.From.SI + t.To.SI) / 2
	case Bounded:
		return math.NaN()
	}
	return t.To.SI
}

// Interval returns the least and the greatest SI value it may have at the end;
// a bound is open to infinity on its far side.
func (t Told) Interval() (low, high float64) {
	switch {
	case t.Shape == Range:
		return t.From.SI, t.To.SI
	case t.Shape == Bounded && t.Relation <= AtMost:
		return math.Inf(-1), t.To.SI
	case t.Shape == Bounded:
		return t.To.SI, math.Inf(1)
	}
	return t.To.SI, t.To.SI
}

// String returns t as it may be typed again.
func (t Told) String() string {
	switch t.Shape {
	case Range:
		return t.From.String() + " to " + t.To.String()
	case Changed:
		return t.From.String() + " -> " + t.To.String()
	case Bounded:
		return t.Relation.String() + " " + t.To.String()
	}
	return t.To.String()
}

// ParseTold reads a figure of dim in any of its shapes. The error is an
// [*Error]; unit is as in [ParseAs].
func ParseTold(text string, dim Dimension, unit string) (Told, error) {
	if _, _, ok := cutArrow(text); ok {
		from, to, err := ParseChange(text, dim, unit)
		return Told{Shape: Changed, From: from, To: to}, err
	}
	if _, _, ok := cutRelation(text); ok {
		r, q, err := ParseBound(text, dim, unit)
		return Told{Shape: Bounded, From: q, To: q, Relation: r}, err
	}
	if _, _, ok := cutRange(text); ok {
		low, high, err := ParseRange(text, dim, unit)
		return Told{Shape: Range, From: low, To: high}, err
	}
	q, err := ParseAs(text, dim, unit)
	return Told{From: q, To: q}, err
}

// ParseChange reads a change of one reading, "2400 -> 1950 rpm" or "2400 rpm ->
// 1950 rpm"; the arrow may be ->, => or →. The unit may be told once, at the end.
// The error is an [*Error]; unit is as in [ParseAs].
func ParseChange(text string, dim Dimension, unit string) (from, to Quantity, err error) {
	if e := readable(text, dim, unit); e != nil {
		return from, to, e
	}
	before, after, ok := cutArrow(text)
	if !ok {
		return from, to, &Error{Text: text, Reason: "no arrow is written", Want: "write a change as 2400 -> 1950 rpm"}
	}
	if _, _, again := cutArrow(after); again {
		return from, to, &Error{Text: text, At: len(text) - len(after), Reason: "a change has one arrow", Want: "put each step in a moment of its own"}
	}
	return pair(text, before, after, dim, unit)
}

// ParseRange reads "150-175 rpm", "150 to 175 rpm" or "8 ± 0.5 psi" and returns
// both ends, low first. The error is an [*Error]; unit is as in [ParseAs].
func ParseRange(text string, dim Dimension, unit string) (low, high Quantity, err error) {
	if e := readable(text, dim, unit); e != nil {
		return low, high, e
	}
	if middle, by, ok := cutEither(text); ok {
		return around(text, middle, by, dim, unit)
	}
	before, after, ok := cutRange(text)
	if !ok {
		return low, high, &Error{Text: text, Reason: "no range is written", Want: "write a range as 150-175 rpm"}
	}
	low, high, err = pair(text, before, after, dim, unit)
	if err == nil && low.SI > high.SI {
		err = &Error{Text: text, Reason: "the first figure of the range is the higher", Want: "put the lower first, or write -> for a change"}
	}
	return low, high, err
}

// ParseBound reads a figure that is only known from one side, "<1 mm", ">= 20
// psi", "over 20 psi". The error is an [*Error]; unit is as in [ParseAs].
func ParseBound(text string, dim Dimension, unit string) (Relation, Quantity, error) {
	if e := readable(text, dim, unit); e != nil {
		return 0, Quantity{}, e
	}
	r, rest, ok := cutRelation(text)
	if !ok {
		return 0, Quantity{}, &Error{Text: text, Reason: "no bound is written", Want: "write a bound as <1 mm or >20 psi"}
	}
	q, err := ParseAs(rest, dim, unit)
	return r, q, shifted(err, text, len(text)-len(rest))
}

// pair reads two figures of which the first may leave the unit to the second.
func pair(text, before, after string, dim Dimension, unit string) (a, b Quantity, err error) {
	start := len(text) - len(after)
	if b, err = ParseAs(after, dim, unit); err != nil {
		return a, b, shifted(err, text, start)
	}
	number, at, e := scanNumber(before, 0)
	if e != nil {
		e.Want = wanted(dim, unit)
		return a, b, shifted(e, text, 0)
	}
	if strings.TrimSpace(before[at:]) == "" && b.Unit != nil {
		a, err = made(number, b.Unit, text)
		return a, b, err
	}
	a, err = ParseAs(before, dim, unit)
	return a, b, shifted(err, text, 0)
}

// around reads "8 ± 0.5 psi".
func around(text, middle, by string, dim Dimension, unit string) (low, high Quantity, err error) {
	mid, half, err := pair(text, middle, by, dim, unit)
	if err != nil {
		return low, high, err
	}
	spread := half.Unit.Factor * half.Unit.FromSI(half.SI)
	if spread < 0 {
		return low, high, &Error{Text: text, Reason: "the part after ± is negative"}
	}
	low, err = made(mid.Unit.FromSI(mid.SI-spread), mid.Unit, text)
	if err != nil {
		return low, high, err
	}
	high, err = made(mid.Unit.FromSI(mid.SI+spread), mid.Unit, text)
	return low, high, err
}

// shifted moves an error of a part to its place in the whole text.
func shifted(err error, text string, by int) error {
	e, ok := err.(*Error)
	if !ok || e == nil {
		return err
	}
	return &Error{Text: text, At: min(e.At+by, len(text)), Reason: e.Reason, Want: e.Want, Near: e.Near}
}

func cutArrow(text string) (before, after string, ok bool) {
	at, size := -1, 0
	for _, arrow := range []string{"->", "=>", "→", "-->"} {
		if i := strings.Index(text, arrow); i >= 0 && (at < 0 || i < at) {
			at, size = i, len(arrow)
		}
	}
	if at < 0 {
		return "", "", false
	}
	return text[:at], text[at+size:], true
}

func cutEither(text string) (middle, by string, ok bool) {
	if middle, by, ok = strings.Cut(text, "±"); ok {
		return middle, by, ok
	}
	return strings.Cut(text, "+/-")
}

// relations are the ways a bound is told, longer ones before those they begin
// with.
var relations = []struct {
	sign string
	is   Relation
}{
	{"<=", AtMost}, {"≤", AtMost}, {">=", AtLeast}, {"≥", AtLeast}, {"<", Below}, {">", Above},
	{"less than ", Below}, {"more than ", Above}, {"no more than ", AtMost}, {"no less than ", AtLeast},
	{"not more than ", AtMost}, {"not less than ", AtLeast}, {"at most ", AtMost}, {"at least ", AtLeast},
	{"up to ", AtMost}, {"under ", Below}, {"over ", Above}, {"below ", Below}, {"above ", Above},
}

func cutRelation(text string) (r Relation, rest string, ok bool) {
	t := strings.TrimLeft(text, " \t")
	for _, rel := range relations {
		if len(t) >= len(rel.sign) && strings.EqualFold(t[:len(rel.sign)], rel.sign) {
			return rel.is, t[len(rel.sign):], true
		}
	}
	return 0, "", false
}

// cutRange parts "150-175 rpm": after a first figure, and perhaps its unit, stands
// a dash or "to", and then another figure.
func cutRange(text string) (before, after string, ok bool) {
	if middle, by, ok := cutEither(text); ok {
		return middle, by, true
	}
	_, at, err := scanNumber(text, 0)
	if err != nil {
		return "", "", false
	}
	for _, sep := range []string{" to ", "...", "..", "–", "—", "-"} {
		i := strings.Index(text[at:], sep)
		if i < 0 {
			continue
		}
		begin, end := at+i, at+i+len(sep)
		if _, _, err := scanNumber(text, end); err == nil {
			return text[:begin], text[end:], true
		}
	}
	return "", "", false
}
