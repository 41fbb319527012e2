package physics

// This file holds the air bottle.

import "math"

// ActuationsLeft returns how many times a brake or ram can still be worked from an
// air bottle: volumes in m3, pressures in Pa above the air. Each stroke takes the
// swept volume at delivery pressure; at or below the least pressure none is left.
// It holds without leaks and for slow use, so that the bottle keeps its
// temperature.
//
// Source: gas law.
func ActuationsLeft(bottle, pressure, least, swept, delivery float64) (float64, error) {
	if err := within(spanBottle.of(bottle), spanPressure.of(pressure), spanPressure.of(least),
		spanRam.of(swept), spanDelivery.of(delivery)); err != nil {
		return 0, err
	}
	return math.Max(0, whole(bottle*(pressure-least)/(swept*delivery))), nil
}

// PressureAtTemperature returns the pressure in Pa above the air that a shut bottle
// shows at a second temperature in K when it showed pressure at the first; air is
// the air's pressure in Pa.
//
// Source: gas law.
func PressureAtTemperature(pressure, then, now, air float64) (float64, error) {
	if err := within(spanPressure.of(pressure), spanAirT.of(then), spanAirT.of(now), spanAir.of(air)); err != nil {
		return 0, err
	}
	absolute := pressure + air
	if absolute < 0 {
		return 0, &RangeError{Name: "pressure", Value: pressure / 1000, Least: -air / 1000, Most: spanPressure.high / 1000, Unit: "kPa"}
	}
	return absolute*now/then - air, nil
}

// LeakRate returns a leak in m3/s of free air, from the bottle's volume in m3, the
// pressure in Pa it lost over a time in s, and the air's pressure in Pa.
//
// Source: gas law at one temperature.
func LeakRate(bottle, lost, between, air float64) (float64, error) {
	if err := within(spanBottle.of(bottle), spanLost.of(lost), spanBetween.of(between), spanAir.of(air)); err != nil {
		return 0, err
	}
	return bottle * lost / (between * air), nil
}
