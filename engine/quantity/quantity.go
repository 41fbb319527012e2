package quantity

// This file holds Quantity, how it is shown, and the error of everything that
// cannot be read.

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A Quantity is a number with its dimension. The zero Quantity is the plain
// number 0 without a unit.
type Quantity struct {
	SI   float64   // the value in the SI unit of Dim
	Dim  Dimension // what it measures
	Unit *Unit     // the unit it was told in; nil for SI or a plain number
}

// New returns the quantity of a number in a unit of dim. It fails on an unknown
// or unfitting unit and on a number no gauge can show, with an [*Error].
func New(number float64, unit string, dim Dimension) (Quantity, error) {
	return ParseAs(strconv.FormatFloat(number, 'g', -1, 64)+" "+unit, dim, "")
}

// In returns the number of q in another unit of its dimension. The error is an
// [*Error] when the unit is unknown or of another dimension.
func (q Quantity) In(unit string) (float64, error) {
	u, err := unitOf(unit, q.Dim, "", unit, 0)
	if err != nil {
		return 0, err
	}
	return u.FromSI(q.SI), nil
}

// Convert returns q told in another unit of its dimension; the value stays. The
// error is an [*Error] when the unit is unknown or of another dimension.
func (q Quantity) Convert(unit string) (Quantity, error) {
	u, err := unitOf(unit, q.Dim, "", unit, 0)
	if err != nil {
		return Quantity{}, err
	}
	q.Unit = u
	return q, nil
}

// String returns q in the unit it was told in, to ten figures, such as "8.5 psi":
// what was typed comes back.
func (q Quantity) String() string {
	if math.IsNaN(q.SI) {
		return "unknown"
	}
	number := q.number()
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(number, 'g', 10, 64), 64)
	return q.with(strconv.FormatFloat(rounded, 'f', -1, 64))
}

// Shown returns q rounded as a gauge in its unit is read: rpm and degC to the
// whole, psi and volts to one decimal, bar to two. Boost carries its sign.
func (q Quantity) Shown() string {
	if math.IsNaN(q.SI) {
		return "unknown"
	}
	places := 3
	if q.Unit != nil {
		places = q.Unit.places
	}
	s := strconv.FormatFloat(q.number(), 'f', places, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if strings.Trim(s, "-0") == "" {
		s = "0"
	} else if q.Dim == Boost && !strings.HasPrefix(s, "-") && q.Unit != nil && q.Unit.Offset == 0 {
		s = "+" + s
	}
	return q.with(s)
}

func (q Quantity) number() float64 {
	if q.Unit == nil {
		return q.SI
	}
	return q.Unit.FromSI(q.SI)
}

func (q Quantity) with(number string) string {
	if number == "-0" {
		number = "0"
	}
	if q.Unit == nil || q.Unit.Name == "" {
		return number
	}
	return number + " " + q.Unit.Name
}

// An Error says why a text is no quantity of the wanted kind.
type Error struct {
	Text   string // what was read
	At     int    // byte in Text where the fault lies
	Reason string // what is wrong: lower case, no full stop
	Want   string // what would be right; may be empty
	Near   string // the nearest known unit; may be empty
}

// Error returns the reason, what would be right and the near match in one line.
func (e *Error) Error() string {
	s := fmt.Sprintf("%q: %s", clip(e.Text), e.Reason)
	if hint := e.Hint(); hint != "" {
		s += "; " + hint
	}
	return s
}

// Hint returns what would be right, with the near match where there is one.
func (e *Error) Hint() string {
	switch {
	case e.Near != "" && e.Want != "":
		return fmt.Sprintf("did you mean %q? %s", e.Near, e.Want)
	case e.Near != "":
		return fmt.Sprintf("did you mean %q?", e.Near)
	}
	return e.Want
}

// clip shortens a text for showing inside a message.
func clip(s string) string {
	const most = 40
	r := []rune(s)
	if len(r) <= most {
		return s
	}
	return string(r[:most]) + "..."
}
