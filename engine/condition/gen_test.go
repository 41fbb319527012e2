package condition

import (
	"fmt"
	"math"
	"strings"

	"pgregory.net/rapid"

	"snagwise/engine/quantity"
)

// A writer makes up conditions that are right, as people could type them.
type writer struct {
	t       *rapid.T
	moments bool // at(...), before(...) and the like may be used
	figures bool // so may figures over moments: at(c, x), highest(x), lowest(x)
	asked   bool // so may seen(x)
	divide  bool // so may a / b
}

func (w writer) pick(list ...string) string { return rapid.SampledFrom(list).Draw(w.t, "pick") }

func (w writer) words(list string) string { return w.pick(strings.Fields(list)...) }

// truth writes something true or false.
func (w writer) truth(depth int) string {
	if depth <= 0 {
		return w.leaf()
	}
	d := depth - 1
	n := rapid.IntRange(0, 11).Draw(w.t, "sort")
	switch {
	case n <= 2:
		return "(" + w.truth(d) + " and " + w.truth(d) + ")"
	case n <= 5:
		return "(" + w.truth(d) + " or " + w.truth(d) + ")"
	case n == 6:
		return "not (" + w.truth(d) + ")"
	case n == 7:
		return fmt.Sprintf("n_of(%d, %s, %s, %s)", rapid.IntRange(1, 3).Draw(w.t, "of"), w.truth(d), w.truth(d), w.truth(d))
	case n == 8 && w.moments:
		return w.words("before after together") + "(" + w.truth(min(d, 1)) + ", " + w.truth(min(d, 1)) + ")"
	case n == 9 && w.moments && w.figures:
		return w.pick("at("+w.leaf()+", "+w.truth(min(d, 1))+")", w.words("low high normal")+"(at("+w.leaf()+", oil_pressure))")
	}
	return w.leaf()
}

func (w writer) leaf() string {
	switch n := rapid.IntRange(0, 9).Draw(w.t, "leaf"); {
	case n <= 2:
		return w.words("p q r s at_idle at_power hot_day fuel_smell")
	case n == 3:
		return w.words("none low normal high over_stop below_stop rising falling unsteady dead") +
			"(" + w.words("oil_pressure boost engine_rpm coolant_temperature") + ")"
	case n == 4:
		return w.pick(`phase == "idle"`, `phase in ["run_up", "display"]`, `booster != "on"`, `"left" == magnetos`, `phase not in ["rest", "stopped"]`, `dead_cut == "cuts on one side only"`)
	case n == 5 && w.asked:
		return "seen(" + w.words("p hot_day at_idle oil_pressure booster") + ")"
	case n == 6:
		return w.words("a b") + w.pick(" in [1, 2, 3]", " not in [0, 2.5]")
	}
	return w.comparison()
}

// The sorts of quantity that comparisons are made of.
var sorts = []struct{ readings, changes, unit, change string }{
	{"oil_pressure pump_fuel_pressure delivery_fuel_pressure", "", "psi bar kPa", "psi psi_difference"},
	{"oil_temperature coolant_temperature air_temperature", "", "degC degF K", "degC_difference degF_difference"},
	{"engine_rpm propeller_rpm", "drop_on_left drop_on_right", "rpm rev_per_s", "rpm"},
	{"bus_volts battery_volts", "", "V mV", "V"},
	{"a b blade_count", "", "", ""},
}

func (w writer) comparison() string {
	s := rapid.SampledFrom(sorts).Draw(w.t, "sorts")
	o := w.words("< <= > >= == !=")
	unit := func(units string) string {
		n := rapid.IntRange(-1, 6).Draw(w.t, "figure")
		if units == "" {
			return fmt.Sprint(n)
		}
		return fmt.Sprintf("%s(%d)", w.words(units), n)
	}
	x, y := w.words(s.readings), w.words(s.readings)
	switch rapid.IntRange(0, 10).Draw(w.t, "shape") {
	case 0:
		return x + " " + o + " " + y
	case 1:
		return unit(s.unit) + " " + o + " " + x
	case 2:
		return x + " - " + y + " " + o + " " + unit(s.change)
	case 3:
		return "abs(" + y + " - " + x + ") " + o + " " + unit(s.change)
	case 4:
		return w.words("min max") + "(" + x + ", " + y + ", " + unit(s.unit) + ") " + o + " " + y
	case 5:
		return x + " - " + unit(s.change) + " " + o + " " + y
	case 6:
		if w.divide {
			return "(bus_volts - V(2)) / (battery_volts - V(1)) " + o + " " + unit("")
		}
	case 7:
		if w.moments && w.figures {
			return w.pick("at("+w.words("p at_idle hot_day")+", "+x+")", "highest("+x+")", "lowest("+x+")") + " " + o + " " + unit(s.unit)
		}
	case 8:
		return unit(s.unit) + " < " + x + " <= " + unit(s.unit)
	case 9:
		if s.changes != "" {
			return w.words(s.changes) + " * 2 " + o + " " + x + " - " + y
		}
	}
	return x + " " + o + " " + unit(s.unit)
}

// program draws a condition that compiles: those found never to hold are
// passed over.
func (w writer) program(s *Scope, depth int) *Program {
	text := w.truth(depth)
	p, problems := Compile(s, text, nil)
	for _, f := range problems {
		if f.Check != "never-holds" {
			w.t.Fatalf("Compile(%q): %v", text, problems)
		}
	}
	if p == nil {
		w.t.Skip("never holds")
	}
	return p
}

// figure draws a value in SI that often falls on the limits people write.
func figure(t *rapid.T, n Name) float64 {
	x := float64(rapid.IntRange(-1, 6).Draw(t, n.ID))
	switch n.Dim {
	case quantity.GaugePressure, quantity.Boost, quantity.AbsolutePressure:
		u, _ := quantity.UnitFor("psi", quantity.GaugePressure)
		return u.ToSI(x)
	case quantity.Temperature:
		return x + 273.15
	case quantity.RotationalSpeed, quantity.SpeedChange:
		return x / 60
	}
	return x
}

// drawWorld makes up a world. Every value is known where known is true, else
// about half are; band words follow from the figure by bandOf where known.
func drawWorld(t *rapid.T, s *Scope, moments int, known bool) *World {
	w := s.NewWorld(moments)
	told := func() bool { return known || rapid.Bool().Draw(t, "told") }
	for i := range w.Moments {
		m := &w.Moments[i]
		for _, n := range s.Names(NumberKind) {
			if told() {
				m.Num[n.Slot] = figure(t, n)
			}
			for b := range bandWords {
				switch {
				case known && bandOf(m.Num[n.Slot], b), !known && told():
					m.Word[n.Slot].True |= 1 << b
				case known || told():
					m.Word[n.Slot].False |= 1 << b
				}
			}
		}
		for _, n := range s.Names(TruthKind) {
			if told() {
				m.Truth[n.Slot] = of(rapid.Bool().Draw(t, n.ID))
			}
		}
		for _, n := range s.Names(TextKind) {
			if told() {
				m.Text[n.Slot] = 1 << rapid.IntRange(0, len(n.Values)-1).Draw(t, n.ID)
				if !known && rapid.Bool().Draw(t, "or") {
					m.Text[n.Slot] |= 1 << rapid.IntRange(0, len(n.Values)-1).Draw(t, n.ID)
				}
			}
		}
	}
	for _, n := range s.Names(TruthKind) {
		if n.Span == Throughout && told() {
			w.Whole[n.Slot] = of(rapid.Bool().Draw(t, n.ID))
		}
	}
	wholeOf(w)
	return w
}

// bandOf is a stand-in for gauges' bands that needs only the figure, so that a
// plain function can play low(x) and its like.
func bandOf(x float64, bit int) bool {
	return (math.Float64bits(x)*0x9e3779b97f4a7c15)>>(20+bit)&1 != 0
}
