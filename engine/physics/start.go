package physics

// This file holds cranking: what the volts say, how long to wait, how to prime.

import "math"

// SourceResistance returns the resistance in ohm between a battery's own volts and
// the starter, from the rested volts, the volts while cranking and the current.
// A healthy 24 V set of 100 Ah shows some 0.010 to 0.015 ohm (from memory). The
// volts while cranking must not pass the rested ones.
//
// Source: Ohm's law.
func SourceResistance(rested, cranking, current float64) (float64, error) {
	if err := within(spanVolts.of(rested), spanVolts.of(cranking), spanStarterAmps.of(current)); err != nil {
		return 0, err
	}
	if cranking > rested {
		return 0, &RangeError{Name: "volts while cranking", Value: cranking, Most: rested, Unit: "V"}
	}
	return (rested - cranking) / current, nil
}

// LeastCrankingVolts returns the volts below which a set of so many rated volts is
// low while cranking, near 20 degC.
//
// Source: common practice, no source: 9.6 V of 12 and 19.2 V of 24.
func LeastCrankingVolts(rated float64) (float64, error) {
	if err := within(spanSupply.of(rated)); err != nil {
		return 0, err
	}
	return 0.8 * rated, nil
}

// Starter duty: the strictest of the three published rules taken together.
//
// Source: FAA-H-8083-32B (2023) page 5-6 (60 s, rest 1 min, 5 min after the second
// and later tries); FAA-H-8083-30B page 1-13 (60 s, rest 3 to 5 min);
// FAA-H-8083-3C ch.2 Engine Starting (30 s, rest 30 to 60 s).
const (
	longestCrank = 30.0 // s
	firstRest    = 60.0
	laterRest    = 300.0
)

// StarterWait returns the seconds still to wait before cranking again, after so
// many tries one after another and a rest in s since the last.
//
// Source: the strictest of three published rules.
func StarterWait(tries, rested float64) (float64, error) {
	if err := within(spanTries.of(tries), spanTime.of(rested)); err != nil {
		return 0, err
	}
	switch {
	case tries < 1:
		return 0, nil
	case tries < 2:
		return math.Max(0, firstRest-rested), nil
	}
	return math.Max(0, laterRest-rested), nil
}

// PrimingStrokes returns how many strokes of the hand primer to begin with, for
// the engine's temperature in K and the most that the rig takes on a cold day: all
// at freezing and below, none from 60 degC on, even steps between, rounded to the
// nearest. A warm engine is not primed.
//
// Source: NAVEDTRA 14076 ch.3 (a warm engine is not primed); FAA-H-8083-30B page
// 1-13 (more the colder it is); the two temperatures common practice, no source.
func PrimingStrokes(temperature, most float64) (float64, error) {
	if err := within(spanEngineT.of(temperature), spanStrokes.of(most)); err != nil {
		return 0, err
	}
	share := 1 - (temperature-zeroCelsius)/60
	return math.Round(most * math.Min(1, math.Max(0, share))), nil
}
