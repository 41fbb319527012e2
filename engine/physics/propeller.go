package physics

// This file holds speeds, the propeller-load law and feathering.

import "math"

// PropellerSpeed returns the propeller's speed in turns per second, for the
// crank's speed and the reduction ratio, propeller turns per crank turn. Exact.
func PropellerSpeed(crank, ratio float64) (float64, error) {
	if err := within(spanSpeed.of(crank), spanReduction.of(ratio)); err != nil {
		return 0, err
	}
	return crank * ratio, nil
}

// TipSpeed returns the speed in m/s of a blade tip, for the propeller's speed in
// turns per second and its diameter in metres. Exact for a propeller on a stand.
func TipSpeed(speed, diameter float64) (float64, error) {
	if err := within(spanSpeed.of(speed), spanDiameter.of(diameter)); err != nil {
		return 0, err
	}
	return math.Pi * diameter * speed, nil
}

// MagnetoSpeed returns a magneto's speed in turns per second, for the crank's
// speed, the number of cylinders and the sparks per magneto turn of a four-stroke.
//
// Source: each cylinder fires once in two crank turns; exact.
func MagnetoSpeed(crank, cylinders, sparks float64) (float64, error) {
	if err := within(spanSpeed.of(crank), spanCylinders.of(cylinders), spanSparks.of(sparks)); err != nil {
		return 0, err
	}
	return crank * cylinders / (2 * sparks), nil
}

// LoadPower returns the power in W that a propeller takes on its fine stop at a
// crank speed in turns per second in air of a density in kg/m3, from the power it
// takes at a reference speed and density. It holds for a standing propeller below
// governed speed.
//
// Source: FAA-H-8083-32B (2023) pages 10-27, 10-28 and 10-38 for the principle;
// power goes as speed cubed and as density.
func LoadPower(refPower, refSpeed, refDensity, speed, density float64) (float64, error) {
	if err := within(spanRefPower.of(refPower), spanRefSpeed.of(refSpeed), spanDensity.of(refDensity),
		spanSpeed.of(speed), spanDensity.of(density)); err != nil {
		return 0, err
	}
	n := speed / refSpeed
	return refPower * n * n * n * density / refDensity, nil
}

// PowerLost returns the share of its power that an engine has lost when its speed
// on the fine stop falls by drop, both in turns per second. A rise gives a
// negative share. The drop must not pass the speed.
//
// Source: propeller-load law; FAA-H-8083-32B (2023) page 10-27 gives 10 percent of
// torque as the ceiling on one magneto where torque is measured.
func PowerLost(speed, drop float64) (float64, error) {
	if err := within(spanRefSpeed.of(speed), spanDrop.of(drop)); err != nil {
		return 0, err
	}
	if drop > speed {
		return 0, &RangeError{Name: "drop", Value: drop * minute, Least: spanDrop.least, Most: speed * minute, Unit: "rpm"}
	}
	left := 1 - drop/speed
	return 1 - left*left*left, nil
}

// FeatherTime returns the seconds that feathering should take, for the oil it needs
// in m3, the pump's rated flow in m3/s at its rated volts, the volts it gets, and
// the share of the flow that cold oil leaves. The pump's speed goes as its volts.
//
// Source: own; the volts law is that of a lightly loaded motor.
func FeatherTime(charge, flow, volts, rated, slip float64) (float64, error) {
	if err := within(spanVolume.of(charge), spanPumpFlow.of(flow), spanSupply.of(rated), spanSlip.of(slip)); err != nil {
		return 0, err
	}
	if volts < rated/3 || volts > 1.5*rated || math.IsNaN(volts) {
		return 0, &RangeError{Name: "volts", Value: volts, Least: rated / 3, Most: 1.5 * rated, Unit: "V"}
	}
	return charge / (flow * volts / rated * slip), nil
}

// ColdOilSlip returns the share of a pump's flow that oil leaves which is ratio
// times thicker than at working temperature: 1 warm, 0.7 from 50 times on, even
// steps of thickness between. A guess, no source.
func ColdOilSlip(ratio float64) float64 {
	if ratio <= 1 {
		return 1
	}
	return 1 - 0.3*math.Min(1, math.Log(ratio)/math.Log(50))
}

// FeatherSpare returns the oil in m3 that the reserve below the standpipe holds
// beyond what feathering and unfeathering take with half a litre in hand; negative
// when it is short. All in m3.
//
// Source: reserve below the standpipe: FAA-H-8083-32B (2023) page 6-6; the factor
// of two and the half litre are our own.
func FeatherSpare(reserve, charge float64) (float64, error) {
	if err := within(spanVolume.of(reserve), spanVolume.of(charge)); err != nil {
		return 0, err
	}
	return reserve - (2*charge + 0.5*litre), nil
}
