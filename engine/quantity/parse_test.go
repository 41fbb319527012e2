package quantity

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestParseAs(t *testing.T) {
	for _, tt := range []struct {
		text string
		dim  Dimension
		want string // as shown again
		si   float64
	}{
		{"8.5 psi", GaugePressure, "8.5 psi", 58605.43699193108},
		{"8.5psi", GaugePressure, "8.5 psi", 58605.43699193108},
		{"  8.5   psi ", GaugePressure, "8.5 psi", 58605.43699193108},
		{"0.58 bar", GaugePressure, "0.58 bar", 58000},
		{".58 bar", GaugePressure, "0.58 bar", 58000},
		{"80 lb/sq in", GaugePressure, "80 psi", 551580.583453469},
		{"80 lb per sq. in.", GaugePressure, "80 psi", 551580.583453469},
		{"80 lb", GaugePressure, "80 psi", 551580.583453469},
		{"8 psi gauge", GaugePressure, "8 psi", 55158.0583453469},
		{"8 psi", AbsolutePressure, "8 psi absolute", 55158.0583453469},
		{"8 psia", AbsolutePressure, "8 psi absolute", 55158.0583453469},
		{"8 psi", PressureDifference, "8 psi", 55158.0583453469},
		{"29.92 inHg", AbsolutePressure, "29.92 inHg", 101320.74811900273},
		{"29.92 Hg", AbsolutePressure, "29.92 inHg", 101320.74811900273},
		{`29.92" Hg`, AbsolutePressure, "29.92 inHg", 101320.74811900273},
		{"1004 mbar", AbsolutePressure, "1004 hPa", 100400},
		{"-4 lb", Boost, "-4 lb", -27579.029172673447},
		{"−4 psi", Boost, "-4 psi", -27579.029172673447},
		{"+ 4 psi", Boost, "4 psi", 27579.029172673447},
		{"85 degC", Temperature, "85 degC", 358.15},
		{"85 °C", Temperature, "85 degC", 358.15},
		{"85 C", Temperature, "85 degC", 358.15},
		{"85 degree C", Temperature, "85 degC", 358.15},
		{"85 deg. celsius", Temperature, "85 degC", 358.15},
		{"185 F", Temperature, "185 degF", 358.15},
		{"185°F", Temperature, "185 degF", 358.15},
		{"5 degC", TemperatureDifference, "5 degrees C", 5},
		{"9 degF", TemperatureDifference, "9 degrees F", 5},
		{"5 degC_difference", TemperatureDifference, "5 degrees C", 5},
		{"1300 rpm", RotationalSpeed, "1300 rpm", 1300.0 / 60},
		{"1,300 r.p.m.", RotationalSpeed, "1300 rpm", 1300.0 / 60},
		{"1300 RPM", RotationalSpeed, "1300 rpm", 1300.0 / 60},
		{"1300 revs", RotationalSpeed, "1300 rpm", 1300.0 / 60},
		{"1.3e3 rpm", RotationalSpeed, "1300 rpm", 1300.0 / 60},
		{"-100 rpm", SpeedChange, "-100 rpm", -100.0 / 60},
		{"28 volts", Volts, "28 V", 28},
		{"28v", Volts, "28 V", 28},
		{"20 mV", Volts, "20 mV", 0.02},
		{"350 amps", Amps, "350 A", 350},
		{"156 A min", Charge, "156 A min", 9360},
		{"156 A-min", Charge, "156 A min", 9360},
		{"100 Ah", Charge, "100 Ah", 360000},
		{"120 litres", Volume, "120 L", 0.12},
		{"120 l", Volume, "120 L", 0.12},
		{"26 imperial gallons", Volume, "26 imperial gal", 26 * 4.54609e-3},
		{"26 US gal", Volume, "26 US gal", 26 * 3.785411784e-3},
		{"15 %", Ratio, "15 percent", 0.15},
		{"15 per cent", Ratio, "15 percent", 0.15},
		{"2 min 30 s", Time, "2.5 min", 150},
		{"1 h 20 min", Time, "1.333333333 h", 4800},
		{"12 mins", Time, "12 min", 720},
		{"0.3 mm", Length, "0.3 mm", 0.0003},
		{"½ in", Length, "0.5 in", 0.0127},
		{"4.5 kΩ", Ohms, "4.5 kohm", 4500},
		{"20 mohm", Ohms, "20 mohm", 0.02},
		{"5 Mohm", Ohms, "5 Mohm", 5e6},
		{"1.225 kg/m³", Density, "1.225 kg/m3", 1.225},
		{"140 litres per hour", Flow, "140 L/h", 0.14 / 3600},
		{"20 degrees", Angle, "20 deg", 20 * math.Pi / 180},
		{"300 hp", Power, "300 hp", 223709.96147},
		{"12 kts", Speed, "12 knots", 12 * 1852.0 / 3600},
		{"14 cSt", Viscosity, "14 cSt", 14e-6},
		{"18 blades", Pure, "18 blades", 18},
		{"1.26", Pure, "1.26", 1.26},
		{"about 8 psi", GaugePressure, "8 psi", 55158.0583453469},
		{"~8 psi", GaugePressure, "8 psi", 55158.0583453469},
	} {
		q, err := ParseAs(tt.text, tt.dim, "")
		if err != nil {
			t.Errorf("ParseAs(%q, %v): %v", tt.text, tt.dim, err)
			continue
		}
		if q.Dim != tt.dim || q.String() != tt.want || !near(q.SI, tt.si, 1e-9) {
			t.Errorf("ParseAs(%q, %v) = %v (%v, %.12g SI), want %s (%.12g SI)", tt.text, tt.dim, q, q.Dim, q.SI, tt.want, tt.si)
		}
	}
}

// Bare, a unit stands for its usual dimension.
func TestParseUsualDimension(t *testing.T) {
	for text, want := range map[string]Dimension{
		"8 psi": GaugePressure, "8 psia": AbsolutePressure, "8 psi diff": PressureDifference,
		"29.9 inHg": AbsolutePressure, "1004 hPa": AbsolutePressure, "85 degC": Temperature,
		"85 degC difference": TemperatureDifference, "1300 rpm": RotationalSpeed, "4 lb boost": Mass, "3": Pure,
	} {
		q, err := Parse(text)
		if err != nil || q.Dim != want {
			t.Errorf("Parse(%q) = %v, %v, want a %v", text, q.Dim, err, want)
		}
	}
}

func TestParseErrors(t *testing.T) {
	for _, tt := range []struct {
		text   string
		dim    Dimension
		reason string
		hint   string
		at     int
	}{
		{"", GaugePressure, "nothing is written", "gauge pressure is told in psi, bar, kPa", 0},
		{" \t", GaugePressure, "nothing is written", "psi", 0},
		{"8.5", GaugePressure, "the unit is missing", "gauge pressure is told in psi, bar", 3},
		{"0", Boost, "the unit is missing", "boost is told in", 1},
		{"psi", GaugePressure, "the number before the unit is missing", "psi", 0},
		{"garbage", GaugePressure, "no number is written", "psi", 0},
		{"8.5 pis", GaugePressure, `unknown unit "pis"`, `did you mean "psi"?`, 4},
		{"8.5 bra", GaugePressure, `unknown unit "bra"`, `did you mean "bar"?`, 4},
		{"28 vlots", Volts, `unknown unit "vlots"`, `did you mean "V"?`, 3},
		{"85 degX", Temperature, `unknown unit "degX"`, `did you mean "degC"?`, 3},
		{"8.5 zzzzzz", GaugePressure, `unknown unit "zzzzzz"`, "gauge pressure is told in", 4},
		{"85 degC", GaugePressure, "degC is a unit of temperature, not of gauge pressure", "psi", 3},
		{"8 psia", GaugePressure, "psi absolute is a unit of absolute pressure, not of gauge pressure", "psi", 2},
		{"8 psi", RotationalSpeed, "psi is a unit of gauge pressure, not of rotational speed", "rpm", 2},
		{"18 psi", Pure, "not of number", "write a plain number", 3},
		{"85 deg", Temperature, "deg is a unit of angle, not of temperature", "degC, degF or K", 3},
		{"5 m", Time, "m is a unit of length, not of time", "s, min", 2},
		{"30 inHg", Boost, "inHg alone is not a unit of boost", `did you mean "inHg absolute"?`, 3},
		{"5 gal", Volume, `"gal" could be imperial gal or US gal`, "say which", 2},
		{"12 gph", Flow, `"gph" could be imperial gal/h or US gal/h`, "say which", 3},
		{"5 MOHM", Ohms, `"MOHM" could be Mohm or mohm`, "say which", 2},
		{"8,5 psi", GaugePressure, `"8,5" has a comma where none parts thousands`, `did you mean "8.5 psi"?`, 0},
		{"0,580 bar", GaugePressure, "has a comma", `"0.580 bar"`, 0},
		{"1300,50 rpm", RotationalSpeed, "has a comma", "", 0},
		{"8.5.3 psi", GaugePressure, "the number has two points", "", 0},
		{"1 300 rpm", RotationalSpeed, `a second figure "300 rpm" follows the first`, "", 2},
		{"8.5 psi at idle", GaugePressure, `"at idle" after the unit is not understood`, "", 4},
		{"NaN psi", GaugePressure, `"NaN psi" is not a number a gauge can show`, "", 0},
		{"Inf psi", GaugePressure, "is not a number a gauge can show", "", 0},
		{"-Infinity", GaugePressure, "is not a number a gauge can show", "", 0},
		{".nan", GaugePressure, "no number is written", "", 0},
		{"1e300 psi", GaugePressure, "too large for any gauge", "", 0},
		{"1e999 psi", GaugePressure, "too large for any gauge", "", 0},
		{"99999999999 V", Volts, "too large for any gauge", "", 0},
		{"0x10 V", Volts, `unknown unit "x10 V"`, "", 1},
		{"-300 degC", Temperature, "-300 degC is below absolute zero", "", 0},
		{"-20 psi", GaugePressure, "-20 psi is below a full vacuum", "", 0},
		{"-20 psi", Boost, "-20 psi is below a full vacuum", "", 0},
		{"-1 inHg", AbsolutePressure, "-1 inHg is below a full vacuum", "", 0},
		{"-5 rpm", RotationalSpeed, "-5 rpm is negative", "", 0},
		{"-5 min", Time, "-5 min is negative", "", 0},
		{"-5 L", Volume, "-5 L is negative", "", 0},
		{"8 psi\x00", GaugePressure, "holds a control character", "", 0},
		{"\xff8 psi", GaugePressure, "not readable text (UTF-8)", "", 0},
		{strings.Repeat("8", 101), GaugePressure, "too long for a quantity", "", 0},
		{strings.Repeat("8", 90) + " psi", GaugePressure, "too large for any gauge", "", 0},
		{"8 psi", dimensions + 3, "no such dimension is known", "", 0},
	} {
		q, err := ParseAs(tt.text, tt.dim, "")
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("ParseAs(%q, %v) = %v, %v, want an *Error", tt.text, tt.dim, q, err)
			continue
		}
		if !strings.Contains(e.Reason, tt.reason) || !strings.Contains(e.Hint(), tt.hint) || e.At != tt.at {
			t.Errorf("ParseAs(%q, %v): reason %q, hint %q, at %d; want %q, %q, %d", tt.text, tt.dim, e.Reason, e.Hint(), e.At, tt.reason, tt.hint, tt.at)
		}
		if !strings.Contains(e.Error(), e.Reason) {
			t.Errorf("ParseAs(%q): error %q leaves out its reason", tt.text, e)
		}
	}
}

// The unit of the gauge comes first in what would be right.
func TestWantedNamesTheGaugesUnit(t *testing.T) {
	_, err := ParseAs("29.9", AbsolutePressure, "inHg")
	if err == nil || !strings.Contains(err.Error(), "absolute pressure is told in inHg, ") {
		t.Errorf("got %v, want inHg named first", err)
	}
}

func TestShown(t *testing.T) {
	for _, tt := range []struct {
		text string
		dim  Dimension
		in   string
		want string
	}{
		{"0.58 bar", GaugePressure, "psi", "8.4 psi"},
		{"8.5 psi", GaugePressure, "bar", "0.59 bar"},
		{"185 degF", Temperature, "degC", "85 degC"},
		{"21.67 rev/s", RotationalSpeed, "rpm", "1300 rpm"},
		{"4 lb", Boost, "lb", "+4 lb"},
		{"-4 lb", Boost, "psi", "-4 psi"},
		{"0.01 lb", Boost, "lb", "0 lb"},
		{"-0.01 lb", Boost, "lb", "0 lb"},
		{"0 lb", Boost, "inHg absolute", "29.9 inHg absolute"},
		{"9 degF", TemperatureDifference, "degC", "5 degrees C"},
	} {
		q, err := ParseAs(tt.text, tt.dim, "")
		if err != nil {
			t.Error(err)
			continue
		}
		c, err := q.Convert(tt.in)
		if err != nil {
			t.Error(err)
			continue
		}
		if got := c.Shown(); got != tt.want {
			t.Errorf("%s shown in %s is %q, want %q", tt.text, tt.in, got, tt.want)
		}
	}
	if got := (Quantity{SI: math.NaN()}).Shown(); got != "unknown" {
		t.Errorf("NaN shown as %q, want unknown", got)
	}
	q, _ := ParseAs("8 psi", GaugePressure, "")
	if _, err := q.Convert("degC"); err == nil {
		t.Error("8 psi converts to degC, want an error")
	}
	if _, err := q.In("pis"); err == nil || !strings.Contains(err.Error(), `did you mean "psi"?`) {
		t.Errorf("In(pis): %v, want a near match", err)
	}
}

// A spelling stands for one unit only, apart from those that people do use
// for two, which are refused with both named.
func TestNoSpellingMeansTwo(t *testing.T) {
	allowed := map[string]bool{"mohm": true, "mohms": true}
	for _, w := range []string{"gal", "gals", "gallon", "gallons", "qt", "quart", "quarts", "pt", "pint", "pints", "gph",
		"gal/h", "gal/hr", "gallons/hour", "gpm", "gal/min"} {
		allowed[w] = true
	}
	for word, fs := range lookup().folded {
		if len(fs) > 1 && !allowed[word] {
			t.Errorf("%q means %s and %s", word, fs[0].name, fs[1].name)
		}
		if len(fs) == 1 && allowed[word] {
			t.Errorf("%q means %s alone, want it to be refused", word, fs[0].name)
		}
	}
}

func TestServes(t *testing.T) {
	got := Serves("psi")
	want := []Dimension{GaugePressure, PressureDifference, AbsolutePressure, Boost}
	if len(got) != len(want) {
		t.Fatalf("Serves(psi) = %v, want %v", got, want)
	}
	for i := range got {
		if got[i] != want[i] {
			t.Errorf("Serves(psi) = %v, want %v", got, want)
		}
	}
	if got := Serves("gal"); got != nil {
		t.Errorf("Serves(gal) = %v, want none: it is not one unit", got)
	}
}
