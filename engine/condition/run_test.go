package condition

import (
	"testing"
)

// meanings lists conditions with what they say at a moment of a sheet.
var meanings = []struct {
	text    string
	moments []string
	now     int
	want    Truth
}{
	// figures and units; 8 psi is 55,158 Pa and 0.5516 bar
	{"delivery_fuel_pressure < psi(8)", []string{"delivery_fuel_pressure 7.9 psi"}, 0, True},
	{"delivery_fuel_pressure < psi(8)", []string{"delivery_fuel_pressure 0.552 bar"}, 0, False},
	{"delivery_fuel_pressure < psi(8)", []string{""}, 0, Unknown},
	{"psi(8) > delivery_fuel_pressure", []string{"delivery_fuel_pressure 7.9 psi"}, 0, True},
	{"psi(8) <= delivery_fuel_pressure", []string{"delivery_fuel_pressure 7.9 psi"}, 0, False},
	{"psi(3) < delivery_fuel_pressure < psi(8)", []string{"delivery_fuel_pressure 7.9 psi"}, 0, True},
	{"degF(185) < coolant_temperature", []string{"coolant_temperature 86 degC"}, 0, True}, // 185 degF is 85 degC
	{"coolant_temperature > degC(85)", []string{"coolant_temperature 184 degF"}, 0, False},
	{"coolant_temperature - oil_temperature > degC(5)", []string{"coolant_temperature 90 degC, oil_temperature 86 degC"}, 0, False},
	{"coolant_temperature - oil_temperature > degC_difference(5)", []string{"coolant_temperature 90 degC, oil_temperature 84 degC"}, 0, True},
	{"coolant_temperature > oil_temperature + degC(5)", []string{"coolant_temperature 90 degC, oil_temperature 84 degC"}, 0, True},
	{"air_temperature - dew_point <= degF_difference(9)", []string{"air_temperature 10 degC, dew_point 5.1 degC"}, 0, True},
	{"pump_fuel_pressure - delivery_fuel_pressure > psi(1.5)", []string{"pump_fuel_pressure 14 psi, delivery_fuel_pressure 12.4 psi"}, 0, True},
	{"abs(drop_on_left - drop_on_right) > rpm(40)", []string{"drop_on_left 60 rpm, drop_on_right 110 rpm"}, 0, True},
	{"propeller_rpm / engine_rpm < 0.4", []string{"propeller_rpm 900 rpm, engine_rpm 2000 rpm"}, 0, False},
	{"propeller_rpm / engine_rpm < percent(46)", []string{"propeller_rpm 900 rpm, engine_rpm 2000 rpm"}, 0, True},
	{"propeller_rpm / engine_rpm < 0.4", []string{"propeller_rpm 0 rpm, engine_rpm 0 rpm"}, 0, Unknown},
	{"not (propeller_rpm / engine_rpm < 0.4)", []string{"propeller_rpm 9 rpm, engine_rpm 0 rpm"}, 0, Unknown},
	{"engine_rpm * 0.44 <= propeller_rpm", []string{"propeller_rpm 900 rpm, engine_rpm 2000 rpm"}, 0, True},
	{"fuel_in_can / filling_time < L_per_min(2)", []string{"fuel_in_can 3 L, filling_time 2 min"}, 0, True},
	{"min(pump_fuel_pressure, delivery_fuel_pressure) < psi(5)", []string{"pump_fuel_pressure 14 psi, delivery_fuel_pressure 4 psi"}, 0, True},
	{"max(a, b, 3) > 4", []string{"a 1, b 2"}, 0, False},
	{"a in [1, 2]", []string{"a 2"}, 0, True},
	{"a not in [1, 2]", []string{"a 2"}, 0, False},
	{"a in [1, 2]", []string{""}, 0, Unknown},
	{"a == 2 and b != 2", []string{"a 2, b 3"}, 0, True},
	{"-a < -1", []string{"a 2"}, 0, True},
	{"degC(-5) < air_temperature", []string{"air_temperature 0 degC"}, 0, True},
	{"p and not false", []string{"p true"}, 0, True},
	{"p or not true", []string{"p false"}, 0, False},
	// band words
	{"low(oil_pressure)", []string{"low oil_pressure"}, 0, True},
	{"low(oil_pressure)", []string{"not_low oil_pressure"}, 0, False},
	{"not low(oil_pressure)", []string{"high oil_pressure"}, 0, Unknown},
	{"normal(at(at_idle, oil_pressure))", []string{"at_idle true, normal oil_pressure", "at_idle false, low oil_pressure"}, 1, True},
	{"low(at(at_idle, oil_pressure))", []string{"at_idle true, normal oil_pressure"}, 0, Unknown},
	// controls and the phase
	{`booster == "on"`, []string{"booster on"}, 0, True},
	{`booster != "on"`, []string{"booster off"}, 0, True},
	{`"on" == booster`, []string{""}, 0, Unknown},
	{`phase in ["run_up", "display"]`, []string{"phase idle", "phase display"}, 0, False},
	{`phase in ["run_up", "display"]`, []string{"phase idle", "phase display"}, 1, True},
	{`phase not in ["run_up"]`, []string{""}, 0, Unknown},
	{`phase in ["run_up", "display"]`, []string{"phase run_up or display"}, 0, True}, // which of them does not matter
	{`phase == "idle"`, []string{"phase run_up or display"}, 0, False},
	{`phase == "run_up"`, []string{"phase run_up or display"}, 0, Unknown},
	// a truth told at a moment is read over the whole, a phase word now
	{"p", []string{"p true", "p false"}, 1, True},
	{"p", []string{"p false", ""}, 1, False},
	{"at_idle", []string{"at_idle true", "at_idle false"}, 1, False},
	{"at_idle and low(oil_pressure)", []string{"at_idle true", "low oil_pressure"}, 1, Unknown},
	// at: figures
	{`at(booster == "on", delivery_fuel_pressure) > psi(8)`, []string{"booster on, delivery_fuel_pressure 9 psi", "booster off, delivery_fuel_pressure 7 psi"}, 1, True},
	{`at(booster == "on", delivery_fuel_pressure) > psi(8)`, []string{"booster on, delivery_fuel_pressure 9 psi", "booster on, delivery_fuel_pressure 7 psi", "booster on"}, 0, False},
	{`at(booster == "on", delivery_fuel_pressure) > psi(8)`, []string{"delivery_fuel_pressure 9 psi"}, 0, Unknown},
	{`at(engine_rpm >= rpm(1300), pump_fuel_pressure - delivery_fuel_pressure) > psi(1)`, []string{"engine_rpm 1400 rpm, pump_fuel_pressure 14 psi, delivery_fuel_pressure 10 psi", "engine_rpm 600 rpm"}, 1, True},
	// at: truths
	{"at(at_idle, rough_idle)", []string{"at_idle true, rough_idle false", "at_idle true, rough_idle true"}, 0, True},
	{"at(at_idle, rough_idle)", []string{"at_idle true, rough_idle false", "at_idle false, rough_idle true"}, 0, False},
	{"at(at_idle, rough_idle)", []string{"rough_idle true"}, 0, Unknown},
	{"at(at_idle, rough_idle and low(oil_pressure))", []string{"at_idle true, rough_idle true", "at_idle true, low oil_pressure"}, 0, Unknown},
	{"at(hot_day, rough_idle)", []string{"rough_idle true"}, 0, Unknown},
	// seen
	{"seen(oil_pressure)", []string{"", "oil_pressure 60 psi"}, 0, True},
	{"seen(oil_pressure)", []string{"", "low oil_pressure"}, 0, True},
	{"seen(oil_pressure)", []string{"", ""}, 0, False},
	{"at(at_idle, seen(oil_pressure))", []string{"at_idle true", "oil_pressure 60 psi"}, 0, False},
	{"seen(p)", []string{"p false"}, 0, True},
	{"seen(booster)", []string{"", "booster off"}, 0, True},
	{"seen(at_idle)", []string{"", "at_idle true"}, 0, False},
	// highest and lowest of what was taken
	{"highest(coolant_temperature) > degC(100)", []string{"coolant_temperature 90 degC", "coolant_temperature 101 degC", "coolant_temperature 95 degC"}, 0, True},
	{"lowest(bus_volts) < V(24)", []string{"", "bus_volts 25 V", "bus_volts 24.5 V"}, 0, False},
	{"lowest(bus_volts) < V(24)", []string{""}, 0, Unknown},
	{"highest(pump_fuel_pressure - delivery_fuel_pressure) > psi(2)", []string{"pump_fuel_pressure 14 psi, delivery_fuel_pressure 11 psi", ""}, 1, True},
	// order
	{"before(p, q)", []string{"p true, q false", "q true"}, 0, True},
	{"before(p, q)", []string{"p true, q true"}, 0, Unknown},
	{"before(p, q)", []string{"p false, q true", "q false"}, 0, False},
	{"before(p, q)", []string{"p false, q true", "p true, q false"}, 0, False},
	{"before(p, q)", []string{"p true", ""}, 0, Unknown},
	{"before(falling(delivery_fuel_pressure), falling(engine_rpm))", []string{"falling delivery_fuel_pressure", "falling engine_rpm"}, 0, True},
	{"after(p, q)", []string{"p true, q true"}, 0, True},
	{"after(p, q)", []string{"q true, p false", "p true, q false"}, 0, False},
	{"after(p, q)", []string{"p true, q false", "", "q true"}, 0, True},
	{"after(hot_day and running, q)", []string{"q true, running true"}, 0, Unknown},
	{"together(p, q)", []string{"p true, q false", "p false, q true"}, 0, False},
	{"together(p, q)", []string{"p true, q false", "p true, q true"}, 0, True},
	{"together(p, q)", []string{"p true, q false", "p true"}, 0, Unknown},
	// a number of
	{"n_of(2, p, q, r)", []string{"p true, r true"}, 0, True},
	{"n_of(2, p, q, r)", []string{"p false, r false"}, 0, False},
	{"n_of(2, p, q, r)", []string{"p true, r false"}, 0, Unknown},
	{"n_of(1, p, q, r)", []string{"r true"}, 0, True},
	{"n_of(3, p, q, r)", []string{"r false"}, 0, False},
	{"n_of(2, low(oil_pressure), oil_pressure < psi(30), at(at_idle, p))", []string{"oil_pressure 20 psi, at_idle true, p true"}, 0, True},
}

func TestWordsOverMoments(t *testing.T) {
	s := testScope(t)
	for _, tt := range meanings {
		p, problems := Compile(s, tt.text, nil)
		if len(problems) > 0 {
			t.Errorf("Compile(%q): %v", tt.text, problems)
			continue
		}
		w := world(t, s, tt.moments...)
		if got := p.Eval(w, tt.now); got != tt.want {
			t.Errorf("%q at moment %d of %q = %v, want %v", tt.text, tt.now, tt.moments, got, tt.want)
		}
		if got := p.tree(w, tt.now, p.root); got != tt.want {
			t.Errorf("tree of %q at moment %d of %q = %v, want %v", tt.text, tt.now, tt.moments, got, tt.want)
		}
	}
}

func TestThroughoutIsReadFromTheWhole(t *testing.T) {
	s := testScope(t)
	for _, tt := range []struct {
		text   string
		whole  string
		moment string
		want   Truth
	}{
		{"hot_day", "hot_day true", "", True},
		{"at(at_idle, hot_day)", "hot_day true", "at_idle true", True},
		{"after(just_refuelled, surges)", "just_refuelled true, surges true", "", True}, // told of the whole, at no moment
		{"after(just_refuelled, surges)", "just_refuelled false, surges true", "", False},
		{"after(just_refuelled, low(oil_pressure))", "just_refuelled true", "low oil_pressure", True},
		{"together(hot_day, p)", "hot_day true", "p true", True},
	} {
		w := world(t, s, tt.moment)
		setter{t, s, w}.tell(-1, tt.whole)
		if got := compiled(t, s, tt.text).Eval(w, 0); got != tt.want {
			t.Errorf("%q with %q of the whole, %q of the moment = %v, want %v", tt.text, tt.whole, tt.moment, got, tt.want)
		}
	}
}

func TestEvalWhole(t *testing.T) {
	s := testScope(t)
	for _, tt := range []struct {
		text    string
		moments []string
		want    Truth
		steady  bool
	}{
		{"low(oil_pressure)", []string{"not_low oil_pressure", "", "low oil_pressure"}, True, false},
		{"low(oil_pressure)", []string{"not_low oil_pressure", ""}, False, false},
		{"low(oil_pressure)", []string{"", ""}, Unknown, false},
		{"low(oil_pressure)", nil, Unknown, false},
		{"at_idle and p", []string{"at_idle true", "p true"}, True, false},
		{"p and not q", []string{"p true", "q false"}, True, true},
		{"highest(a) > 3", []string{"a 1", "a 4"}, True, true},
		{"at(at_idle, low(oil_pressure))", []string{"at_idle true, low oil_pressure", ""}, True, true},
		{"seen(oil_pressure)", nil, False, true},
		{"together(hot_day, p)", nil, Unknown, true},
	} {
		p, w := compiled(t, s, tt.text), world(t, s, tt.moments...)
		if got := p.EvalWhole(w); got != tt.want {
			t.Errorf("EvalWhole of %q over %q = %v, want %v", tt.text, tt.moments, got, tt.want)
		}
		if got := p.Steady(); got != tt.steady {
			t.Errorf("Steady of %q = %v, want %v", tt.text, got, tt.steady)
		}
	}
}

// A world may be shorter than its scope, and an index may lie outside it.
func TestShortWorldsAreUnknown(t *testing.T) {
	s := testScope(t)
	for _, text := range []string{
		"p", "at_idle", "low(oil_pressure)", "oil_pressure < psi(3)", "oil_pressure <= psi(3)", "a == 1", "a < b",
		"pump_fuel_pressure - delivery_fuel_pressure < psi(1)", "pump_fuel_pressure - delivery_fuel_pressure <= psi(1)",
		`booster == "on"`, "at(p, q)", "at(p, a) > 1", "low(at(p, oil_pressure))", "before(p, q)", "after(p, q)", "together(p, q)",
		"highest(a) > 1", "n_of(2, p, q, r)", "abs(a) > 1", "-a > b", "a + b > 1", "a * b > 1", "a / b > 1", "min(a, b) > 1",
	} {
		p := compiled(t, s, text)
		for _, w := range []*World{{}, {Moments: []Moment{{}, {}}}} {
			for _, now := range []int{-1, 0, 7} {
				if got := p.Eval(w, now); got != Unknown {
					t.Errorf("%q at %d of %d bare moments = %v, want unknown", text, now, len(w.Moments), got)
				}
			}
		}
	}
}
