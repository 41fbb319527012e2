package physics

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"snagwise/engine/quantity"
)

func TestReadFaults(t *testing.T) {
	for _, tt := range []struct{ id, argument, want string }{
		{"propeller_speed", "engine_rmp=1800 rpm", `argument "engine_rmp=1800 rpm": unknown input "engine_rmp"; wanted engine_rpm, reduction, propeller_rpm`},
		{"propeller_speed", "engine_rpm", `argument "engine_rpm": wanted name=value`},
		{"fuel_drop", "fuel_pump_pressure=16.5 V", "fuel_pump_pressure"},
		{"fuel_drop", "fuel_pump_pressure=16.5", "psi"},
		{"oil_viscosity", "oil_grade=SAE 90", `oil_grade is "SAE 90"; wanted SAE 50, SAE 60, 20W-50`},
		{"absolute_manifold_pressure", "boost_gauge_kind=none", `wanted absolute capsule, differential`},
	} {
		c, err := Find(tt.id)
		if err != nil {
			t.Fatal(err)
		}
		given, faults := c.Read([]string{tt.argument})
		if len(faults) != 1 || !strings.Contains(faults[0].Error(), tt.want) || len(given) != 0 {
			t.Errorf("%s %s: got %v, %v, want %q", tt.id, tt.argument, given, faults, tt.want)
		}
	}
	c, _ := Find("propeller_speed")
	given, faults := c.Read([]string{"engine_rpm=1800 rpm", "engine_rpm=1700 rpm", "x=1", "reduction=0.48"})
	var second, third *ArgumentError
	if len(faults) != 2 || !errors.As(faults[0], &second) || !errors.As(faults[1], &third) || second.At != 1 || third.At != 2 || len(given) != 2 {
		t.Errorf("got %v, %v, want faults in the second and third", given, faults)
	}
}

func TestFindUnknown(t *testing.T) {
	_, err := Find("coolant_boiling_margn")
	var e *NameError
	if !errors.As(err, &e) || e.Name != "coolant_boiling_margn" || !slices.Contains(e.Known, "coolant_boiling_margin") {
		t.Errorf("got %v, want a NameError with the names there are", err)
	}
	if _, err := Compute("no_such_thing_at_all", nil); !errors.As(err, &e) {
		t.Errorf("got %v, want a NameError", err)
	}
}

func TestTermOfAnotherKind(t *testing.T) {
	for _, tt := range []struct {
		id    string
		given Given
		want  string
	}{
		{"fuel_drop", Given{"fuel_pump_pressure": {Quantity: quantity.Quantity{SI: 24, Dim: quantity.Volts}}},
			"fuel_pump_pressure is a voltage; wanted a gauge pressure"},
		{"oil_viscosity", Given{"oil_grade": {Word: "straight SAE 60 in summer or SAE 50 in winter"}}, "wanted SAE 50"},
	} {
		_, err := Compute(tt.id, tt.given)
		var e *TermError
		if !errors.As(err, &e) || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got %v, want %q", tt.id, err, tt.want)
		}
	}
}

func TestFromTable(t *testing.T) {
	c, _ := Find("expected_boost_for_rpm")
	in, _ := c.Input("record_boost")
	rows := [][2]float64{{1000, -8.5}, {1200, -7.8}, {1500, -6.5}, {1800, -4.6}, {2000, -2.4}}
	at := func(n float64) quantity.Quantity {
		q, err := quantity.New(n, "rpm", quantity.RotationalSpeed)
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	for _, tt := range []struct{ rpm, want float64 }{{1000, -8.5}, {1100, -8.15}, {1800, -4.6}, {1900, -3.5}, {2000, -2.4}} {
		term, err := in.FromTable(rows, at(tt.rpm))
		if err != nil {
			t.Fatal(err)
		}
		lb, err := term.Quantity.In("lb")
		near(t, "record", must(t, lb, err), tt.want, 1e-9)
	}
	var r *RangeError
	if _, err := in.FromTable(rows, at(2100)); !errors.As(err, &r) {
		t.Errorf("beyond the record got %v, want a RangeError", err)
	}
	var e *TermError
	if _, err := in.FromTable(rows, quantity.Quantity{SI: 24, Dim: quantity.Volts}); !errors.As(err, &e) {
		t.Errorf("read at volts got %v, want a TermError", err)
	}
}

func TestSeek(t *testing.T) {
	c, _ := Find("coolant_boiling_margin")
	header, _ := c.Input("header_pressure")
	bar := func(x float64) Term {
		return Term{Quantity: quantity.Quantity{SI: x * 1e5, Dim: quantity.GaugePressure}}
	}
	known := map[string]Term{"coolant_pressure": bar(0.7), "header_relief": bar(1)}
	find := func(p Place) (Term, bool) {
		v, ok := known[p.Name]
		return v, ok
	}
	if got, ok := header.Seek("run_up", find); !ok || got != bar(0.7) {
		t.Errorf("got %v, %v, want the reading", got, ok)
	}
	delete(known, "coolant_pressure")
	if got, ok := header.Seek("run_up", find); !ok || got != bar(1) {
		t.Errorf("got %v, %v, want the rig's figure", got, ok)
	}
	known["header_relief"] = Term{Quantity: quantity.Quantity{SI: 24, Dim: quantity.Volts}}
	if got, ok := header.Seek("run_up", find); ok {
		t.Errorf("got %v from volts, want nothing", got)
	}

	c, _ = Find("battery_charge_from_rest_volts")
	volts, _ := c.Input("bus_volts")
	known["bus_volts"] = Term{Quantity: quantity.Quantity{SI: 25, Dim: quantity.Volts}}
	if _, ok := volts.Seek("rest", find); !ok {
		t.Error("volts at rest are not found")
	}
	if got, ok := volts.Seek("crank", find); ok {
		t.Errorf("got %v while cranking for rested volts", got)
	}

	c, _ = Find("oil_viscosity")
	grade, _ := c.Input("oil_grade")
	for text, want := range map[string]string{"straight SAE 50": OilSAE50, "straight SAE 60 in summer or SAE 50 in winter": ""} {
		known["oil_grade"] = Term{Word: text}
		if got, ok := grade.Seek("idle", find); got.Word != want || ok != (want != "") {
			t.Errorf("%q gives %v, %v, want %q", text, got, ok, want)
		}
	}
}

func FuzzRead(f *testing.F) {
	seeds := 0
	for i, tt := range worked {
		for _, argument := range strings.Split(tt.given, "|") {
			f.Add(i, argument)
			seeds++
		}
	}
	if seeds == 0 {
		f.Fatal("no seeds")
	}
	f.Fuzz(func(t *testing.T, i int, argument string) {
		c := table[uint(i)%uint(len(table))]
		given, faults := c.Read([]string{argument})
		if len(given)+len(faults) != 1 {
			t.Fatalf("%q gives %v and %v", argument, given, faults)
		}
		if _, err := c.Work(given.Look); err != nil && strings.ContainsRune(err.Error(), '\n') {
			t.Fatalf("%q: the error has more than one line: %q", argument, err)
		}
	})
}

func BenchmarkWork(b *testing.B) {
	c, _ := Find("coolant_boiling_margin")
	given, _ := c.Read([]string{"coolant_temperature=100 degC", "glycol_share=30 percent", "header_pressure=15 psi", "ambient_pressure=1013.25 hPa"})
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Work(given.Look); err != nil {
			b.Fatal(err)
		}
	}
}
