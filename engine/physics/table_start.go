package physics

// This file describes the computed readings of cranking.

import "snagwise/engine/quantity"

var startTable = []*Computed{
	{
		ID: "starter_duty_left", Means: "How long to wait before cranking again", Dim: quantity.Time, Unit: "s",
		Inputs: []Input{
			number("tries", quantity.Pure, "", "tries one after another so far", told),
			number("rested", quantity.Time, "s", "time since the last try", told).or("0 s"),
			number("last_try", quantity.Time, "s", "how long the last try was", told).optional(),
		},
		Formula: "crank 30 s at most; rest 1 min after the first try, 5 min after the second and each later one, or after one of over 30 s",
		Verdicts: []Verdict{
			{"may crank", "cranking is allowed now, 30 s at most"},
			{"wait", "let the starter cool first"},
		},
		Caution: "The starter's own rule comes first if it is stricter.",
		Source:  "the strictest of FAA-H-8083-32B (2023) page 5-6, FAA-H-8083-30B page 1-13 and FAA-H-8083-3C chapter 2",
		work: func(a *inputs) result {
			tries := a.si("tries")
			if a.has("last_try") && a.si("last_try") > longestCrank && tries < 2 {
				tries = 2
			}
			wait := a.sum(StarterWait(tries, a.si("rested")))
			return result{si: wait, word: first("may crank", wait == 0, "wait")}
		},
	},
	{
		ID: "cranking_resistance", Means: "Resistance between the battery's own volts and the starter, and whether battery or joints make it", Dim: quantity.Ohms, Unit: "mohm",
		Inputs: []Input{
			number("rested_volts", quantity.Volts, "V", "rested volts before the start", reading("bus_volts", "rest"), told),
			number("cranking_volts", quantity.Volts, "V", "volts while cranking", reading("bus_volts", "crank")),
			number("starter_current", quantity.Amps, "A", "starter current while cranking", reading("starter_current", "crank")),
			number("joint_volt_drop", quantity.Volts, "V", "volts lost over cables and joints while cranking", reading("joint_volt_drop", "crank")).optional(),
			batteryVolts,
		},
		Formula: "resistance = (rested_volts - cranking_volts) / starter_current; low below 0.8 * battery_volts",
		Verdicts: []Verdict{
			{"normal", "volts hold up while cranking"},
			{"low", "volts are low while cranking and it is not known where they are lost: measure over cables and joints"},
			{"joints", "volts are low, and half of the loss or more is in cables and joints"},
			{"battery or stiff engine", "volts are low and the loss is not in the joints: a weak battery, or an engine that asks for too much current"},
		},
		Caution: "Measure with the magnetos earthed and the fuel shut, clear of the propeller. A cold battery and cold oil both pull the volts down.",
		Source:  "Ohm's law; 9.6 V of 12 and 19.2 V of 24 common practice, no source",
		work: func(a *inputs) result {
			v0, v, i := a.si("rested_volts"), a.si("cranking_volts"), a.si("starter_current")
			r := result{si: a.sum(SourceResistance(v0, v, i)), word: "normal"}
			low := v < a.sum(LeastCrankingVolts(a.si("battery_volts")))
			if !a.has("joint_volt_drop") {
				r.word = first("low", low, r.word)
				return r
			}
			drop := a.si("joint_volt_drop")
			a.sum(0, within(spanVolts.of(drop)))
			if low {
				r.word = first("joints", drop >= (v0-v)/2, "battery or stiff engine")
			}
			if i > 0 {
				r.also = []Figure{also("of cables and joints", drop/i, quantity.Ohms, "mohm")}
			}
			return r
		},
	},
}
