package physics_test

import (
	"fmt"

	"snagwise/engine/physics"
	"snagwise/engine/quantity"
)

func ExampleCompute() {
	c, err := physics.Find("coolant_boiling_margin")
	if err != nil {
		fmt.Println(err)
		return
	}
	given, faults := c.Read([]string{"coolant_temperature=100 degC", "glycol_share=30 percent", "header_pressure=15 psi"})
	if faults != nil {
		fmt.Println(faults)
		return
	}
	v, err := physics.Compute(c.ID, given)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(v.Quantity.Shown(), "in hand:", v.Word)
	for _, f := range v.Also {
		fmt.Println(f.Name, f.Quantity.Shown())
	}
	for _, a := range v.Assumed {
		fmt.Println("assumed", a.Name, a.Value)
	}

	_, err = physics.Compute("propeller_speed", physics.Given{})
	fmt.Println(err)
	// Output:
	// 25 degrees C in hand: enough
	// boils at 125 degC
	// margin with no pressure 4 degrees C
	// assumed ambient_pressure 1013.25 hPa
	// propeller_speed wants engine_rpm, reduction
}

func ExampleLoadPower() {
	const hp, rpm = 745.7, 1.0 / 60
	p, err := physics.LoadPower(660*hp, 2400*rpm, 1.225, 1800*rpm, 1.225)
	fmt.Printf("%.0f hp %v\n", p/hp, err)
	// Output: 278 hp <nil>
}

// A rig gives its figures and its record, a moment its readings; what is not known
// is left out.
func ExampleComputed_Work() {
	at := func(number float64, unit string, dim quantity.Dimension) physics.Term {
		q, err := quantity.New(number, unit, dim)
		if err != nil {
			panic(err)
		}
		return physics.Term{Quantity: q}
	}
	readings := map[string]physics.Term{
		"engine_rpm": at(1800, "rpm", quantity.RotationalSpeed),
		"boost":      at(-3.9, "lb", quantity.Boost),
	}
	weather := map[string]physics.Term{"ambient_pressure": at(985, "hPa", quantity.AbsolutePressure)}
	facts := map[string]physics.Term{"boost_gauge_kind": {Word: "absolute capsule"}}
	record := [][2]float64{{1500, -6.5}, {1800, -4.6}, {2000, -2.4}} // psi by rpm

	c, err := physics.Find("expected_boost_for_rpm")
	if err != nil {
		fmt.Println(err)
		return
	}
	v, err := c.Work(func(in *physics.Input) (physics.Term, bool) {
		return in.Seek("run_up", func(p physics.Place) (physics.Term, bool) {
			switch p.Kind {
			case physics.Reading:
				t, ok := readings[p.Name]
				return t, ok
			case physics.Weather:
				t, ok := weather[p.Name]
				return t, ok
			case physics.RigFact:
				t, ok := facts[p.Name]
				return t, ok
			case physics.RigTable:
				n, ok := readings[p.At]
				if !ok {
					return physics.Term{}, false
				}
				t, err := in.FromTable(record, n.Quantity)
				return t, err == nil
			}
			return physics.Term{}, false
		})
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(v.Quantity.Shown(), v.Word, v.Also[0].Quantity.Shown(), v.Assumed)
	// Output: -4.9 lb works harder 1 psi [{record_air 1013.25 hPa}]
}
