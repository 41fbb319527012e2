package condition_test

import (
	"fmt"
	"math"

	"snagwise/engine/condition"
	"snagwise/engine/quantity"
)

func Example() {
	scope, err := condition.NewScope([]condition.Name{
		{ID: "pump_fuel_pressure", Kind: condition.NumberKind, Dim: quantity.GaugePressure, Banded: true},
		{ID: "delivery_fuel_pressure", Kind: condition.NumberKind, Dim: quantity.GaugePressure, Banded: true},
		{ID: "at_power", Kind: condition.TruthKind, Span: condition.Momentary},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	_, problems := condition.Compile(scope, "low(delivry_fuel_pressure) and pump_fuel_pressure > 8", nil)
	fmt.Println(problems)

	p, _ := condition.Compile(scope, "at_power and pump_fuel_pressure - delivery_fuel_pressure > psi(1.5)", nil)
	world := scope.NewWorld(1)
	now := world.Moments[0]
	pump, _ := quantity.Parse("14 psi")
	delivery, _ := quantity.Parse("12 psi")

	now.Num[0], now.Num[1] = pump.SI, math.NaN()
	now.Truth[0] = condition.True
	fmt.Println(p.Eval(world, 0), p.Needs(world, 0))

	now.Num[1] = delivery.SI
	fmt.Println(p.Eval(world, 0))
	for _, clause := range p.Explain(world, 0) {
		fmt.Println(clause)
	}
	// Output:
	// :1:5: unknown name "delivry_fuel_pressure" [unknown-name]; did you mean "delivery_fuel_pressure"?
	// :1:53: "8" has no unit, but is compared with a gauge pressure [wrong-dimension]; write psi(8)
	// unknown [delivery_fuel_pressure]
	// true
	// at_power is true at moment 1
	// pump_fuel_pressure - delivery_fuel_pressure > psi(1.5) is true at moment 1 (13789.5 SI)
}
