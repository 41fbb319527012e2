package physics

// This file holds fuel: the drop along the line, vapour, how much a slot takes.

import "math"

// FuelDrop returns the pressure in Pa lost between pump outlet and carburettor,
// from the two pressures in Pa. A delivery above the outlet gives a negative drop,
// which cannot be: the gauges are then swapped or one is wrong.
func FuelDrop(pump, delivery float64) (float64, error) {
	if err := within(spanFuelP.of(pump), spanFuelP.of(delivery)); err != nil {
		return 0, err
	}
	return pump - delivery, nil
}

// Kinds of fuel, as their distillation slope at 10 percent evaporated, in degF per
// percent.
//
// Source: US EPA, AP-42, chapter 7.1, note to the true vapour pressure of refined
// petroleum stocks: aviation gasoline 2, motor gasoline 3 (from memory).
const (
	SlopeAviation = 2.0
	SlopeMotor    = 3.0
)

// FuelVapourPressure returns the true vapour pressure in Pa of petrol at a
// temperature in K, for its Reid vapour pressure in Pa and its slope, [SlopeAviation]
// or [SlopeMotor].
//
// Source: US EPA, AP-42, chapter 7.1, refined petroleum stocks with a Reid vapour
// pressure: ln p = A - B/T, in psi and degrees Rankine (from memory; agrees with
// its table of motor gasolines).
func FuelVapourPressure(temperature, reid, slope float64) (float64, error) {
	if err := within(spanFuelT.of(temperature), spanReid.of(reid)); err != nil {
		return 0, err
	}
	if !(slope >= 1 && slope <= 4) {
		return 0, &RangeError{Name: "distillation slope", Value: slope, Least: 1, Most: 4}
	}
	const psi = 6894.757293168
	r, s := math.Log(reid/psi), math.Sqrt(slope)
	a := 15.64 - 1.854*s - (0.8742-0.3280*s)*r
	b := 8742 - 1042*s - (1049-179.4*s)*r
	return psi * math.Exp(a-b/(temperature*1.8)), nil
}

// VapourMargin returns by how many Pa the pressure at the fuel pump's inlet stays
// above the fuel's vapour pressure: the inlet's pressure above the air, the air's
// and the fuel's vapour pressure in Pa. At nothing and below the fuel boils in the
// line; turbulence and bubbles of air bring that on before.
//
// Source: FAA-H-8083-32B (2023) page 2-1: low pressure, hot fuel and turbulence.
func VapourMargin(inlet, air, vapour float64) (float64, error) {
	if err := within(spanInlet.of(inlet), spanAir.of(air)); err != nil {
		return 0, err
	}
	if !(vapour >= 0 && vapour <= 1e6) {
		return 0, &RangeError{Name: "vapour pressure", Value: vapour / 1000, Least: 0, Most: 1000, Unit: "kPa"}
	}
	return inlet + air - vapour, nil
}

// A Burn is a flow of fuel in m3/s for a time in s.
type Burn struct{ Flow, Time float64 }

// FuelNeeded returns the fuel in m3 that a slot takes: an allowance for the start
// and a burn for each phase. Exact.
func FuelNeeded(start float64, burns ...Burn) (float64, error) {
	if err := within(spanVolume.of(start)); err != nil {
		return 0, err
	}
	sum := start
	for _, b := range burns {
		if err := within(spanFlow.of(b.Flow), spanTime.of(b.Time)); err != nil {
			return 0, err
		}
		sum += b.Flow * b.Time
	}
	return sum, nil
}
