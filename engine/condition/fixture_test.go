package condition

import (
	"slices"
	"strings"
	"testing"

	"snagwise/engine/quantity"
)

// The readings and signs of an invented engine, for all tests.
func testNames() []Name {
	var names []Name
	num := func(d quantity.Dimension, banded bool, ids string) {
		for _, id := range strings.Fields(ids) {
			names = append(names, Name{ID: id, Kind: NumberKind, Dim: d, Banded: banded})
		}
	}
	truth := func(s Span, ids string) {
		for _, id := range strings.Fields(ids) {
			names = append(names, Name{ID: id, Kind: TruthKind, Span: s})
		}
	}
	num(quantity.GaugePressure, true, "pump_fuel_pressure delivery_fuel_pressure oil_pressure air_pressure")
	num(quantity.Temperature, true, "oil_temperature coolant_temperature")
	num(quantity.Temperature, false, "air_temperature dew_point")
	num(quantity.RotationalSpeed, true, "engine_rpm propeller_rpm")
	num(quantity.SpeedChange, true, "drop_on_left drop_on_right")
	num(quantity.AbsolutePressure, false, "ambient_pressure")
	num(quantity.Boost, true, "boost")
	num(quantity.Volts, true, "bus_volts battery_volts")
	num(quantity.Amps, true, "charge_current")
	num(quantity.Volume, false, "fuel_in_can fuel_in_tank")
	num(quantity.Time, false, "filling_time run_down_time")
	num(quantity.Ratio, false, "throttle_travel")
	num(quantity.Pure, false, "a b blade_count")
	truth(Sometimes, "p q r s fuel_smell rough_idle rough_hot surges black_smoke plugs_wet pump_pressure_low one_gauge_only")
	truth(Throughout, "hot_day stood_weeks new_fuel just_refuelled")
	truth(Momentary, "at_idle at_power at_rest running")
	names = append(names,
		Name{ID: "phase", Kind: TextKind, Values: []string{"rest", "crank", "idle", "warm_up", "run_up", "display", "stopped"}},
		Name{ID: "booster", Kind: TextKind, Values: []string{"off", "on"}},
		Name{ID: "magnetos", Kind: TextKind, Values: []string{"off", "left", "right", "both"}},
		Name{ID: "dead_cut", Kind: TextKind, Values: []string{"cuts", "cuts on one side only", "does not cut"}},
	)
	return names
}

func testScope(t testing.TB) *Scope {
	t.Helper()
	s, err := NewScope(testNames())
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func compiled(t testing.TB, s *Scope, text string) *Program {
	t.Helper()
	p, problems := Compile(s, text, nil)
	if len(problems) > 0 {
		t.Fatalf("Compile(%q): %v", text, problems)
	}
	return p
}

// A setter fills worlds by name and in units, so that tests read as sheets do.
type setter struct {
	t testing.TB
	s *Scope
	w *World
}

// tell sets names of a moment: told as "name value" pairs separated by
// commas, such as "oil_pressure 60 psi, booster on, p true, low oil_pressure".
// A moment of -1 sets truths of the whole.
func (s setter) tell(now int, told string) {
	s.t.Helper()
	for pair := range strings.SplitSeq(told, ",") {
		id, value, _ := strings.Cut(strings.TrimSpace(pair), " ")
		if f, ok := functions[strings.TrimPrefix(id, "not_")]; ok && f.band != 0 {
			n, _ := s.s.Lookup(value)
			word := &s.w.Moments[now].Word[n.Slot]
			if strings.HasPrefix(id, "not_") {
				word.False |= f.band
			} else {
				word.True |= f.band
			}
			continue
		}
		n, ok := s.s.Lookup(id)
		if !ok {
			s.t.Fatalf("told of unknown %q", id)
		}
		switch n.Kind {
		case NumberKind:
			q, err := quantity.ParseAs(value, n.Dim, "")
			if err != nil {
				s.t.Fatal(err)
			}
			s.w.Moments[now].Num[n.Slot] = q.SI
		case TruthKind:
			v := map[string]Truth{"true": True, "false": False, "unknown": Unknown}[value]
			if now < 0 {
				s.w.Whole[n.Slot] = v
			} else {
				s.w.Moments[now].Truth[n.Slot] = v
			}
		case TextKind:
			s.w.Moments[now].Text[n.Slot] = 0
			for i, v := range n.Values {
				if slices.Contains(strings.Split(value, " or "), v) {
					s.w.Moments[now].Text[n.Slot] |= 1 << i
				}
			}
		}
	}
}

// world makes a world from what is told at each moment.
func world(t testing.TB, s *Scope, moments ...string) *World {
	t.Helper()
	w := s.NewWorld(len(moments))
	for i, told := range moments {
		if told != "" {
			setter{t, s, w}.tell(i, told)
		}
	}
	wholeOf(w)
	return w
}

// wholeOf fills Whole from the moments where it is unknown.
func wholeOf(w *World) {
	for slot := range w.Whole {
		for i := range w.Moments {
			switch v := w.Moments[i].Truth[slot]; {
			case v == True:
				w.Whole[slot] = True
			case v == False && w.Whole[slot] == Unknown:
				w.Whole[slot] = False
			}
		}
	}
}
