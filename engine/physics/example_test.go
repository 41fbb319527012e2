package physics_test

import (
	"fmt"

	"snagwise/engine/physics"
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
