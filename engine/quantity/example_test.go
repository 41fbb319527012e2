package quantity_test

import (
	"fmt"

	"snagwise/engine/quantity"
)

func ExampleParseAs() {
	q, err := quantity.ParseAs("0.58 bar", quantity.GaugePressure, "psi")
	if err != nil {
		fmt.Println(err)
		return
	}
	on, _ := q.Convert("psi")
	fmt.Println(q, "is", on.Shown())

	_, err = quantity.ParseAs("8.5 pis", quantity.GaugePressure, "psi")
	fmt.Println(err)
	_, err = quantity.ParseAs("85 degC", quantity.GaugePressure, "psi")
	fmt.Println(err)
	// Output:
	// 0.58 bar is 8.4 psi
	// "8.5 pis": unknown unit "pis"; did you mean "psi"? gauge pressure is told in psi, bar, kPa or inH2O
	// "85 degC": degC is a unit of temperature, not of gauge pressure; gauge pressure is told in psi, bar, kPa or inH2O
}

func ExampleParseTold() {
	for _, text := range []string{"2400 -> 1950 rpm", "150-175 rpm", ">1900 rpm"} {
		told, _ := quantity.ParseTold(text, quantity.RotationalSpeed, "rpm")
		fmt.Println(told)
	}
	// Output:
	// 2400 rpm -> 1950 rpm
	// 150 rpm to 175 rpm
	// > 1900 rpm
}
