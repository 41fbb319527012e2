package quantity

// This file reads one quantity: a number, then a unit.

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

const (
	longest = 100 // bytes of a text that may be a quantity
	largest = 1e9 // number in any unit; no gauge of this trade comes near
)

// Parse reads a number with a unit, such as "8.5 psi", "8.5psi" or "-4 psi", in
// the usual dimension of the unit: psi is gauge pressure, inHg absolute
// pressure, degC a temperature. A number without a unit is a plain number. The
// error is an [*Error].
func Parse(text string) (Quantity, error) {
	return parse(text, anyDimension, "")
}

// ParseAs reads a number with a unit of dim: "8 psi" as a pressure difference
// when that is wanted. unit names the unit of the gauge, for the message when
// one is missing or wrong; it may be empty, and is never assumed. A plain number
// needs no unit. The error is an [*Error].
func ParseAs(text string, dim Dimension, unit string) (Quantity, error) {
	return parse(text, dim, unit)
}

// anyDimension stands for the usual dimension of the unit.
const anyDimension = dimensions

func parse(text string, dim Dimension, unit string) (Quantity, error) {
	if err := readable(text, dim, unit); err != nil {
		return Quantity{}, err
	}
	if dim > anyDimension {
		return Quantity{}, &Error{Text: text, Reason: "no such dimension is known"}
	}
	number, at, bad := scanNumber(text, 0)
	if bad != nil {
		bad.Want = wanted(dim, unit)
		return Quantity{}, bad
	}
	if q, ok := clock(text, number, at, dim); ok {
		return q, nil
	}
	u, err := unitOf(text[at:], dim, unit, text, at)
	if err != nil {
		return Quantity{}, err
	}
	return made(number, u, text)
}

// made checks that a number in a unit can be and returns its quantity.
func made(number float64, u *Unit, text string) (Quantity, error) {
	if math.IsNaN(number) || math.Abs(number) > largest {
		return Quantity{}, &Error{Text: text, Reason: "the number is too large for any gauge"}
	}
	q := Quantity{SI: u.ToSI(number), Dim: u.Dim, Unit: u}
	info := infos[u.Dim]
	if slack := 1e-9 * math.Abs(u.Offset); info.bounded && q.SI < info.least-slack {
		return Quantity{}, &Error{Text: text, Reason: q.String() + " " + info.tooLow}
	}
	return q, nil
}

// readable refuses what cannot be a quantity at all.
func readable(text string, dim Dimension, unit string) *Error {
	e := &Error{Text: text, Want: wanted(dim, unit)}
	switch {
	case strings.TrimSpace(text) == "":
		e.Reason = "nothing is written"
	case len(text) > longest:
		e.Reason = "too long for a quantity"
	case !utf8.ValidString(text):
		e.Reason = "not readable text (UTF-8)"
	case strings.ContainsFunc(text, func(r rune) bool { return unicode.IsControl(r) && r != '\t' }):
		e.Reason = "holds a control character"
	default:
		return nil
	}
	return e
}

// roughly are the words people put before a figure that leave it as it is.
var roughly = []string{"approximately", "approx.", "approx", "about", "around", "circa", "some", "~", "≈"}

// fractions are the signs a keyboard or a tidy-up may put for a part of one.
var fractions = map[rune]float64{'½': 0.5, '¼': 0.25, '¾': 0.75, '⅓': 1.0 / 3, '⅔': 2.0 / 3, '⅛': 0.125}

// scanNumber reads the number at byte at of text and returns it with the byte
// after it. Thousands may be parted by commas (1,300); a decimal comma is
// refused, as it could be read two ways.
func scanNumber(text string, at int) (float64, int, *Error) {
	i := skipSpace(text, at)
	for _, w := range roughly {
		if rest := text[i:]; len(rest) > len(w) && strings.EqualFold(rest[:len(w)], w) {
			i = skipSpace(text, i+len(w))
			break
		}
	}
	begin, sign := i, 1.0
	for _, s := range []struct {
		sign string
		by   float64
	}{{"+", 1}, {"-", -1}, {"−", -1}, {"–", -1}} {
		if strings.HasPrefix(text[i:], s.sign) {
			sign, i = s.by, skipSpace(text, i+len(s.sign))
			break
		}
	}
	digits, i, err := scanDigits(text, i)
	if err != nil {
		return 0, 0, err
	}
	value := 0.0
	if digits != "" {
		v, e := strconv.ParseFloat(digits, 64)
		if e != nil || math.IsInf(v, 0) {
			return 0, 0, &Error{Text: text, At: begin, Reason: "the number is too large for any gauge"}
		}
		value = v
	}
	r, size := utf8.DecodeRuneInString(text[i:])
	part, isPart := fractions[r]
	if isPart {
		value, i = value+part, i+size
	} else if digits == "" {
		return 0, 0, noNumber(text, begin)
	}
	return sign * value, i, nil
}

// scanDigits returns the digits, point and exponent at byte i without commas.
func scanDigits(text string, i int) (string, int, *Error) {
	begin := i
	for i < len(text) && (isDigit(text, i) || text[i] == ',' && isDigit(text, i+1)) {
		i++
	}
	whole := text[begin:i]
	if groups := strings.Split(whole, ","); len(groups) > 1 {
		if len(groups[0]) > 3 || groups[0] == "0" || slices.ContainsFunc(groups[1:], func(g string) bool { return len(g) != 3 }) {
			return "", 0, &Error{Text: text, At: begin, Reason: fmt.Sprintf("%q has a comma where none parts thousands", whole),
				Near: strings.Replace(whole, ",", ".", 1) + text[i:]}
		}
		whole = strings.Join(groups, "")
	}
	twoDots := strings.HasPrefix(text[i:], "..") // as in 10..20 V
	if i < len(text) && text[i] == '.' && !twoDots && (whole != "" || isDigit(text, i+1)) {
		j := i + 1
		for isDigit(text, j) {
			j++
		}
		whole, i = whole+text[i:j], j
		if i < len(text) && text[i] == '.' && isDigit(text, i+1) {
			return "", 0, &Error{Text: text, At: begin, Reason: "the number has two points"}
		}
	}
	if i < len(text) && (text[i] == 'e' || text[i] == 'E') && whole != "" {
		j := i + 1
		if j < len(text) && (text[j] == '+' || text[j] == '-') {
			j++
		}
		if isDigit(text, j) {
			for isDigit(text, j) {
				j++
			}
			whole, i = whole+text[i:j], j
		}
	}
	return whole, i, nil
}

func noNumber(text string, at int) *Error {
	word := strings.TrimLeft(strings.ToLower(strings.TrimSpace(text[at:])), "+-")
	switch {
	case word == "":
		return &Error{Text: text, At: at, Reason: "a figure is missing"}
	case strings.HasPrefix(word, "nan"), strings.HasPrefix(word, "inf"):
		return &Error{Text: text, At: at, Reason: fmt.Sprintf("%q is not a number a gauge can show", clip(strings.TrimSpace(text[at:])))}
	case len(lookup().find(text[at:])) > 0:
		return &Error{Text: text, At: at, Reason: "the number before the unit is missing"}
	}
	return &Error{Text: text, At: at, Reason: "no number is written"}
}

// clock reads a time told in two steps, such as "2 min 30 s" or "1 h 20 min".
// number is the first figure and at the byte after it.
func clock(text string, number float64, at int, dim Dimension) (Quantity, bool) {
	if dim != Time && dim != anyDimension {
		return Quantity{}, false
	}
	cut := strings.IndexFunc(text[at:], unicode.IsDigit)
	if cut < 0 {
		return Quantity{}, false
	}
	cut += at
	big, ok := UnitFor(text[at:cut], Time)
	if !ok {
		return Quantity{}, false
	}
	second, end, err := scanNumber(text, cut)
	if err != nil {
		return Quantity{}, false
	}
	small, ok := UnitFor(text[end:], Time)
	if !ok || small.Factor >= big.Factor || second*small.Factor >= big.Factor || number < 0 || number > largest {
		return Quantity{}, false
	}
	return Quantity{SI: big.ToSI(number) + small.ToSI(second), Dim: Time, Unit: big}, true
}

func skipSpace(s string, i int) int {
	for i < len(s) {
		r, size := utf8.DecodeRuneInString(s[i:])
		if !unicode.IsSpace(r) {
			break
		}
		i += size
	}
	return i
}

func isDigit(s string, i int) bool { return i < len(s) && s[i] >= '0' && s[i] <= '9' }
