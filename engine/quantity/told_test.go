package quantity

import (
	"math"
	"strings"
	"testing"
)

func TestParseTold(t *testing.T) {
	for _, tt := range []struct {
		text      string
		dim       Dimension
		shape     Shape
		want      string
		low, high float64 // interval, in the unit of To
	}{
		{"8.5 psi", GaugePressure, Exact, "8.5 psi", 8.5, 8.5},
		{"2400 -> 1950 rpm", RotationalSpeed, Changed, "2400 rpm -> 1950 rpm", 1950, 1950},
		{"2400 rpm → 1950 rpm", RotationalSpeed, Changed, "2400 rpm -> 1950 rpm", 1950, 1950},
		{"2400=>1950 rpm", RotationalSpeed, Changed, "2400 rpm -> 1950 rpm", 1950, 1950},
		{"0.9 bar -> 8 psi", GaugePressure, Changed, "0.9 bar -> 8 psi", 8, 8},
		{"-4 -> -6 lb", Boost, Changed, "-4 lb -> -6 lb", -6, -6},
		{"150-175 rpm", SpeedChange, Range, "150 rpm to 175 rpm", 150, 175},
		{"150 to 175 rpm", SpeedChange, Range, "150 rpm to 175 rpm", 150, 175},
		{"150–175 rpm", SpeedChange, Range, "150 rpm to 175 rpm", 150, 175},
		{"10..20 V", Volts, Range, "10 V to 20 V", 10, 20},
		{"-4 - -3 psi", Boost, Range, "-4 psi to -3 psi", -4, -3},
		{"8psi-9psi", GaugePressure, Range, "8 psi to 9 psi", 8, 9},
		{"8 ± 0.5 psi", GaugePressure, Range, "7.5 psi to 8.5 psi", 7.5, 8.5},
		{"20 +/- 5 degC", Temperature, Range, "15 degC to 25 degC", 15, 25},
		{"156 A-min", Charge, Exact, "156 A min", 156, 156},
		{"<1 mm", Length, Bounded, "< 1 mm", math.Inf(-1), 1},
		{"<= 1 mm", Length, Bounded, "<= 1 mm", math.Inf(-1), 1},
		{"under 1 mm", Length, Bounded, "< 1 mm", math.Inf(-1), 1},
		{">20 psi", GaugePressure, Bounded, "> 20 psi", 20, math.Inf(1)},
		{"≥ 20 psi", GaugePressure, Bounded, ">= 20 psi", 20, math.Inf(1)},
		{"Over 20 psi", GaugePressure, Bounded, "> 20 psi", 20, math.Inf(1)},
		{"at least 20 psi", GaugePressure, Bounded, ">= 20 psi", 20, math.Inf(1)},
	} {
		got, err := ParseTold(tt.text, tt.dim, "")
		if err != nil {
			t.Errorf("ParseTold(%q): %v", tt.text, err)
			continue
		}
		if got.Shape != tt.shape || got.String() != tt.want {
			t.Errorf("ParseTold(%q) = %v (shape %d), want %s (shape %d)", tt.text, got, got.Shape, tt.want, tt.shape)
		}
		low, high := got.Interval()
		for _, end := range []struct{ got, want float64 }{{low, tt.low}, {high, tt.high}} {
			want := end.want
			if !math.IsInf(want, 0) {
				want = got.To.Unit.ToSI(want)
			}
			if end.got != want && !near(end.got, want, 1e-9) {
				t.Errorf("ParseTold(%q): interval %v to %v in SI, want %v to %v in %s", tt.text, low, high, tt.low, tt.high, got.To.Unit.Name)
			}
		}
	}
}

func TestToldValue(t *testing.T) {
	for text, want := range map[string]float64{"150-175 rpm": 162.5 / 60, "2400 -> 1950 rpm": 1950.0 / 60, "1300 rpm": 1300.0 / 60} {
		got, err := ParseTold(text, RotationalSpeed, "")
		if err != nil || !near(got.Value(), want, 1e-12) {
			t.Errorf("%s: value %v, %v, want %v", text, got.Value(), err, want)
		}
	}
	bound, err := ParseTold("<1300 rpm", RotationalSpeed, "")
	if err != nil || !math.IsNaN(bound.Value()) {
		t.Errorf("<1300 rpm: value %v, %v, want NaN: a bound is no value", bound.Value(), err)
	}
}

func TestToldErrors(t *testing.T) {
	for _, tt := range []struct {
		text string
		dim  Dimension
		want string
		at   int
	}{
		{"2400->1950", RotationalSpeed, "the unit is missing", 10},
		{"1 -> 2 -> 3 rpm", RotationalSpeed, "a change has one arrow", 4},
		{"-> 3 rpm", RotationalSpeed, "a figure is missing", 0},
		{"3 rpm ->", RotationalSpeed, "nothing is written", 8},
		{"2400 -> 1950 rmp", RotationalSpeed, `did you mean "rpm"`, 13},
		{"2400 rmp -> 1950 rpm", RotationalSpeed, `did you mean "rpm"`, 5},
		{"2400 psi -> 1950 rpm", RotationalSpeed, "psi is a unit of gauge pressure", 5},
		{"175-150 rpm", SpeedChange, "the first figure of the range is the higher", 0},
		{"8 ± -1 psi", GaugePressure, "the part after ± is negative", 0},
		{"≥20", GaugePressure, "the unit is missing", 5},
		{"< psi", GaugePressure, "the number before the unit is missing", 2},
		{">", GaugePressure, "nothing is written", 1},
	} {
		_, err := ParseTold(tt.text, tt.dim, "")
		e, ok := err.(*Error)
		if !ok || !strings.Contains(e.Error(), tt.want) || e.At != tt.at {
			t.Errorf("ParseTold(%q): %v (at %+v), want %q at %d", tt.text, err, e, tt.want, tt.at)
		}
	}
	for what, err := range map[string]error{
		"change": func() error { _, _, err := ParseChange("8 psi", GaugePressure, ""); return err }(),
		"range":  func() error { _, _, err := ParseRange("8 psi", GaugePressure, ""); return err }(),
		"bound":  func() error { _, _, err := ParseBound("8 psi", GaugePressure, ""); return err }(),
	} {
		if err == nil || !strings.Contains(err.Error(), "is written; write a "+what) {
			t.Errorf("8 psi as a %s: %v, want to be told how one is written", what, err)
		}
	}
}
