package physics

// This file describes the computed readings of speed, power, boost and ignition.

import (
	"math"

	"snagwise/engine/quantity"
)

var speedTable = []*Computed{
	{
		ID: "propeller_speed", Means: "Propeller speed from crank speed", Dim: quantity.RotationalSpeed, Unit: "rpm",
		Inputs: []Input{
			engineRPM,
			number("reduction", quantity.Pure, "", "propeller turns per crank turn", ratio("reduction")),
			number("propeller_rpm", quantity.RotationalSpeed, "rpm", "propeller speed by hand-held counter", reading("propeller_rpm")).optional(),
		},
		Formula: "propeller_speed = engine_rpm * reduction",
		Verdicts: []Verdict{
			{"agrees", "the counter and the rpm gauge agree within 3 percent"},
			{"apart", "the counter and the rpm gauge are more than 3 percent apart: one of them is wrong"},
		},
		Source: "exact; 3 percent common practice, no source",
		work: func(a *inputs) result {
			r := result{si: a.sum(PropellerSpeed(a.si("engine_rpm"), a.si("reduction")))}
			if a.has("propeller_rpm") && r.si > 0 {
				share := a.si("propeller_rpm")/r.si - 1
				r.word = first("apart", math.Abs(share) > 0.03, "agrees")
				r.also = []Figure{also("counter above gauge", share, quantity.Ratio, "percent")}
			}
			return r
		},
	},
	{
		ID: "blade_tip_speed", Means: "Blade tip speed, for noise and stone throwing", Dim: quantity.Speed, Unit: "m/s",
		Inputs: []Input{
			number("propeller_rpm", quantity.RotationalSpeed, "rpm", "propeller speed", reading("propeller_rpm")).optional(),
			engineRPM.optional(),
			number("reduction", quantity.Pure, "", "propeller turns per crank turn", ratio("reduction")).optional(),
			number("propeller_diameter", quantity.Length, "m", "propeller diameter", figure("propeller_diameter")),
		},
		Formula: "tip = pi * propeller_diameter * propeller_rpm / 60; without propeller_rpm, engine_rpm * reduction",
		Source:  "exact",
		work: func(a *inputs) result {
			if a.has("propeller_rpm") {
				return result{si: a.sum(TipSpeed(a.si("propeller_rpm"), a.si("propeller_diameter")))}
			}
			n := a.sum(PropellerSpeed(a.si("engine_rpm"), a.si("reduction")))
			return result{si: a.sum(TipSpeed(n, a.si("propeller_diameter")))}
		},
	},
	{
		ID: "magneto_speed", Means: "Magneto speed from crank speed", Dim: quantity.RotationalSpeed, Unit: "rpm",
		Inputs: []Input{
			engineRPM,
			number("cylinders", quantity.Pure, "", "number of cylinders", figure("cylinders")),
			number("sparks_per_turn", quantity.Pure, "", "sparks per magneto turn", figure("magneto_sparks_per_turn")),
		},
		Formula: "magneto_speed = engine_rpm * cylinders / (2 * sparks_per_turn)",
		Caution: "At cranking speed a magneto gives little spark: that is why there are starting coils.",
		Source:  "exact for a four-stroke; FAA text on auxiliary ignition for the weak spark",
		work: func(a *inputs) result {
			return result{si: a.sum(MagnetoSpeed(a.si("engine_rpm"), a.si("cylinders"), a.si("sparks_per_turn")))}
		},
	},
	{
		ID: "absolute_manifold_pressure", Means: "Absolute pressure in the trunk from a boost gauge", Dim: quantity.AbsolutePressure, Unit: "inHg",
		Inputs: []Input{
			number("boost", quantity.Boost, "lb", "boost as the gauge shows it", reading("boost")),
			boostKind, ambient.optional(),
		},
		Formula: "absolute capsule: boost + 14.696 psi; differential: boost + ambient_pressure",
		Caution: "The same needle on the two kinds of gauge differs by the air of the day less standard air.",
		Source:  "exact; the two kinds of gauge from memory",
		work: func(a *inputs) result {
			p := a.sum(AbsoluteManifoldPressure(a.si("boost"), a.zero(func() float64 { return a.si("ambient_pressure") })))
			return result{si: p, also: []Figure{also("in psi", p, quantity.AbsolutePressure, "psi absolute")}}
		},
	},
	{
		ID: "boost_at_rest_expected", Means: "What the boost gauge should show with the engine still", Dim: quantity.Boost, Unit: "lb",
		Inputs: []Input{
			ambient.optional(), boostKind,
			number("boost", quantity.Boost, "lb", "boost as the gauge shows it with the engine still", reading("boost", "rest")).optional(),
		},
		Formula: "absolute capsule: ambient_pressure - 14.696 psi; differential: 0",
		Verdicts: []Verdict{
			{"agrees", "the gauge shows what it should within a quarter pound"},
			{"gauge off", "off by more than a quarter pound (0.5 inHg): suspect the gauge or its pipe"},
		},
		Caution: "Take the air pressure at the stand, not the sea-level figure of a weather chart.",
		Source:  "FAA-H-8083-32B (2023) page 10-25 for the principle; 0.5 inHg common practice, no source",
		work: func(a *inputs) result {
			var r result
			if a.word("boost_gauge_kind") != differential {
				r.si = a.sum(BoostAtRest(a.si("ambient_pressure"), standardAir))
			}
			if a.has("boost") {
				off := a.si("boost") - r.si
				r.word = first("gauge off", math.Abs(off) > quarterPound, "agrees")
				r.also = []Figure{also("gauge above expected", off, quantity.PressureDifference, "psi")}
			}
			return r
		},
	},
	{
		ID: "expected_boost_for_rpm", Means: "Boost that a sound engine needs for its speed on the fine stop, for the air of the day", Dim: quantity.Boost, Unit: "lb",
		Inputs: []Input{
			number("record_boost", quantity.Boost, "lb", "boost at this speed in this engine's own record",
				Place{Kind: RigTable, Name: "boost_for_rpm", At: "engine_rpm", AtUnit: "rpm"}),
			number("record_air", quantity.AbsolutePressure, "hPa", "air pressure of the record", figure("boost_record_air")).or("1013.25 hPa"),
			ambient, boostKind,
			number("boost", quantity.Boost, "lb", "boost as the gauge shows it", reading("boost", "idle", "warm_up", "run_up", "display", "cool_down")).optional(),
		},
		Formula: "expected = (record_boost + zero) * ambient_pressure / record_air - zero; zero 14.696 psi, or the air for a differential gauge",
		Verdicts: []Verdict{
			{"as expected", "boost is within half a pound of the record or below it"},
			{"works harder", "boost is over half a pound (1 inHg) above the record for the speed: the engine works harder for its power"},
		},
		Caution: "Holds on the fine stop in low gear, in under 5 mph of wind. A dead or weak cylinder, late spark, wrong mixture, blades off the stop and wind all raise it.",
		Source:  "FAA-H-8083-32B (2023) pages 10-28 and 10-38; the record must be this engine's own",
		work: func(a *inputs) result {
			air, was := a.si("ambient_pressure"), a.si("record_air")
			zero := a.zero(func() float64 { return air })
			wasZero := a.zero(func() float64 { return was })
			r := result{si: a.sum(ExpectedBoost(a.si("record_boost"), was, wasZero, air, zero))}
			if a.has("boost") {
				over := a.si("boost") - r.si
				r.word = first("works harder", over > 2*quarterPound, "as expected")
				r.also = []Figure{also("above expected", over, quantity.PressureDifference, "psi")}
			}
			return r
		},
	},
}

const quarterPound = 0.25 * 6894.757293168 // Pa
