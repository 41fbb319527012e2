package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

// drawn draws a number that can be in some unit of some dimension.
func drawn(t *rapid.T) Quantity {
	dim := rapid.SampledFrom(Dimensions()).Draw(t, "dimension")
	names := append(Units(dim), "")
	if dim != Pure {
		names = names[:len(names)-1]
	}
	u, ok := UnitFor(rapid.SampledFrom(names).Draw(t, "unit"), dim)
	if !ok {
		t.Fatalf("a unit of %v is not found by its own name", dim)
	}
	number := rapid.Float64Range(-3000, 3000).Draw(t, "number")
	number = math.Round(number*1000) / 1000
	q, err := made(number, u, "")
	if err != nil {
		q, err = made(math.Abs(number), u, "")
	}
	if err != nil {
		t.Fatalf("%v %s: %v", number, u.Name, err)
	}
	return q
}

// What is shown can be typed again, and means the same.
func TestShownCanBeTypedAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawn(t)
		again, err := ParseAs(q.String(), q.Dim, "")
		if err != nil {
			t.Fatalf("%v: %v", q, err)
		}
		if again.Unit != q.Unit || !near(again.SI, q.SI, 1e-9) && math.Abs(again.SI-q.SI) > 1e-9*math.Abs(q.Unit.Offset) {
			t.Fatalf("%v read again is %v (%v SI, was %v)", q, again, again.SI, q.SI)
		}
	})
}

// Any unit and back gives the same number; more in one unit is more in every
// other.
func TestUnitsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawn(t)
		if len(Units(q.Dim)) == 0 {
			return
		}
		name := rapid.SampledFrom(Units(q.Dim)).Draw(t, "other unit")
		other, err := q.Convert(name)
		if err != nil {
			t.Fatalf("%v in %s: %v", q, name, err)
		}
		number, err := q.In(name)
		if err != nil {
			t.Fatal(err)
		}
		back := other.Unit.ToSI(number)
		if !near(back, q.SI, 1e-9) && math.Abs(back-q.SI) > 1e-9*math.Abs(other.Unit.Offset) {
			t.Fatalf("%v in %s is %v, back %v SI, want %v", q, name, number, back, q.SI)
		}
		more := q
		more.SI += math.Max(1, math.Abs(q.SI)) / 10
		if greater, _ := more.In(name); greater <= number {
			t.Fatalf("%v grows to %v SI, but in %s from %v to %v", q, more.SI, name, number, greater)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"8.5 psi", "0.58 bar", "29.92 inHg", "85 degC", "185 °F", "1,300 r.p.m.", "28 V", "-4 psi", "156 A min", "120 L",
		"26 imperial gal", "8,5 psi", "8.5 pis", "NaN", "Inf psi", "1e999 V", "", "psi", "2400 -> 1950 rpm", "150-175 rpm",
		"<1 mm", "8 ± 0.5 psi", "2 min 30 s", "½ in", "\xff", "8 psi\x00", "- - -", "->", "..", "4..", "1e", "−", "~", "10..20 V",
		"about", "8½", "¾¾", `"`, "(a)", "5 ℃", "1 -> 2 -> 3 rpm",
	} {
		for d := range 4 {
			f.Add(seed, uint8(d*7))
		}
	}
	f.Fuzz(func(t *testing.T, text string, d uint8) {
		dim := Dimension(d) % dimensions
		told, err := ParseTold(text, dim, "")
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || e.Reason == "" || e.At < 0 || e.At > len(text) {
				t.Fatalf("ParseTold(%q): %#v is no use as an error", text, err)
			}
			if !utf8.ValidString(e.Error()) || strings.ContainsAny(e.Error(), "\n\x00") {
				t.Fatalf("ParseTold(%q): message %q cannot be shown", text, e.Error())
			}
			return
		}
		if math.IsNaN(told.To.SI) || math.IsInf(told.To.SI, 0) || told.To.Dim != dim || told.From.Dim != dim {
			t.Fatalf("ParseTold(%q, %v) = %#v", text, dim, told)
		}
		again, err := ParseTold(told.String(), dim, "")
		if err != nil {
			// Rounding for the eye may carry a figure over its bound.
			if strings.Contains(err.Error(), "first figure of the range") || strings.Contains(err.Error(), "below") || strings.Contains(err.Error(), "too l") {
				return
			}
			t.Fatalf("ParseTold(%q) shows as %q, which is refused: %v", text, told, err)
		}
		if again.Shape != told.Shape || again.String() != told.String() {
			t.Fatalf("ParseTold(%q) shows as %q, which reads as %q", text, told, again)
		}
	})
}
