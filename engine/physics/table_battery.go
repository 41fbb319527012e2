package physics

// This file describes the computed readings of the battery.

import "snagwise/engine/quantity"

var (
	batteryVolts = number("battery_volts", quantity.Volts, "V", "rated volts of the set", figure("battery_volts"))
	batteryT     = number("battery_temperature", quantity.Temperature, "degC", "temperature of the battery", told).or("26.7 degC")
	fullAcid     = number("full_gravity", quantity.Pure, "", "gravity of the acid when full: 1.265 common, 1.285 aircraft cells", figure("full_gravity"), told).or("1.265")
	oneStart     = number("used_per_start", quantity.Charge, "A min", "charge taken by one start", told)
)

var batteryTable = []*Computed{
	{
		ID: "battery_charge_from_rest_volts", Means: "State of charge from rested volts", Dim: quantity.Ratio, Unit: "percent",
		Inputs: []Input{
			number("bus_volts", quantity.Volts, "V", "rested volts, nothing switched on", reading("bus_volts", "rest")),
			batteryVolts, batteryT, fullAcid,
			number("least_charge", quantity.Ratio, "percent", "least charge for a start", figure("battery_least_charge")).or("60 percent"),
		},
		Formula: "straight lines through 25.3 V = 100, 24.9 = 75, 24.48 = 50, 24.12 = 25, 23.78 = 0 percent (24 V set, acid 1.265, 26.7 degC)",
		Verdicts: []Verdict{
			{"go", "charge enough for a start"},
			{"charge first", "below the least charge: charge it first"},
		},
		Caution: "Rested 30 minutes at least, better 6 hours, with nothing switched on. A surface charge reads too high.",
		Source:  "usual rule table of battery suppliers; temperature and gravity from memory",
		work: func(a *inputs) result {
			c := a.sum(RestedCharge(a.si("bus_volts"), a.si("battery_volts")/2, a.si("battery_temperature"), a.si("full_gravity")))
			return result{si: c, word: first("go", c >= a.si("least_charge"), "charge first")}
		},
	},
	{
		ID: "battery_charge_from_gravity", Means: "State of charge from the gravity of the acid", Dim: quantity.Ratio, Unit: "percent",
		Inputs: []Input{
			number("electrolyte_gravity", quantity.Pure, "", "gravity by hydrometer", reading("electrolyte_gravity")),
			batteryT, fullAcid,
		},
		Formula: "straight lines through 1.265 = 100, 1.225 = 75, 1.190 = 50, 1.155 = 25, 1.120 = 0 percent; 0.004 off per 10 degF below 80 degF",
		Caution: "Acid burns: goggles and gloves. Cells that differ by 0.05 are near their end. Not right after topping up.",
		Source:  "usual rule table of battery suppliers; FAA-H-8083-30B page 12-90; TM 5-3740-214-14",
		work: func(a *inputs) result {
			return result{si: a.sum(GravityCharge(a.si("electrolyte_gravity"), a.si("battery_temperature"), a.si("full_gravity")))}
		},
	},
	{
		ID: "charge_used_by_start", Means: "Charge taken from the battery by getting it running", Dim: quantity.Charge, Unit: "A min",
		Inputs: []Input{
			number("time_cranking", quantity.Time, "s", "time on the starter, all tries together", told),
			number("time_pre_oil", quantity.Time, "s", "time on the circulation pump", reading("pre_oil_time"), told).or("0 s"),
			number("time_coils", quantity.Time, "s", "time on the starting coils; as cranking where not told", told).optional(),
			number("time_booster", quantity.Time, "s", "time on the booster pump, generator not charging", told).or("0 s"),
			number("time_instruments", quantity.Time, "s", "time with master on, generator not charging", told).or("0 s"),
			number("starter_current", quantity.Amps, "A", "mean starter current", reading("starter_current", "crank"), figure("load_starter")),
			number("pre_oil_current", quantity.Amps, "A", "current of the circulation pump", figure("load_pre_oil_pump")).optional(),
			number("coils_current", quantity.Amps, "A", "current of the starting coils", figure("load_starting_coils")).optional(),
			number("booster_current", quantity.Amps, "A", "current of the booster pump", figure("load_booster_pump")).optional(),
			number("instruments_current", quantity.Amps, "A", "current of instruments and lamps", figure("load_instruments")).optional(),
		},
		Formula: "used = sum of current * time",
		Source:  "exact; the currents are the rig's",
		work: func(a *inputs) result {
			cranking := a.si("time_cranking")
			loads := []Load{{a.si("starter_current"), cranking}}
			switch {
			case a.has("time_coils"):
				loads = append(loads, Load{a.si("coils_current"), a.si("time_coils")})
			case a.has("coils_current"):
				loads = append(loads, Load{a.si("coils_current"), cranking})
			}
			for _, of := range []string{"pre_oil", "booster", "instruments"} {
				if t := a.si("time_" + of); t != 0 {
					loads = append(loads, Load{a.si(of + "_current"), t})
				}
			}
			return result{si: a.sum(ChargeUsed(loads...))}
		},
	},
	{
		ID: "charge_recovery_time", Means: "Running time above cut-in speed to put the charge of a start back", Dim: quantity.Time, Unit: "min",
		Inputs: []Input{
			number("used", quantity.Charge, "A min", "charge taken", told),
			number("mean_charge", quantity.Amps, "A", "mean charging current", reading("battery_current", "warm_up", "run_up", "display", "cool_down"), told),
			number("charge_share", quantity.Ratio, "percent", "share of the charge that stays", told).or("85 percent"),
		},
		Formula: "time = used / (mean_charge * charge_share)",
		Caution: "Above about 80 percent the battery takes less and less, and the last part takes far longer.",
		Source:  "exact sum; 85 percent for lead-acid from memory",
		work: func(a *inputs) result {
			return result{si: a.sum(RecoveryTime(a.si("used"), a.si("mean_charge"), a.si("charge_share")))}
		},
	},
	{
		ID: "starts_left", Means: "Starts left in the battery before it falls to its least charge", Dim: quantity.Pure,
		Inputs: []Input{
			number("charge", quantity.Ratio, "percent", "state of charge now", told),
			number("least_charge", quantity.Ratio, "percent", "least charge for a start", figure("battery_least_charge")).or("60 percent"),
			number("battery", quantity.Charge, "Ah", "capacity of the battery", capacity("battery")),
			oneStart,
		},
		Formula: "starts = whole part of (charge - least_charge) * battery / used_per_start",
		Verdicts: []Verdict{
			{"none", "no start left: charge first"},
			{"some", "starts left"},
		},
		Caution: "Failed tries take as much as good ones. Cold and age take capacity away.",
		Source:  "own rule",
		work: func(a *inputs) result {
			n := a.sum(StartsLeft(a.si("charge"), a.si("least_charge"), a.si("battery"), a.si("used_per_start")))
			return result{si: n, word: first("none", n == 0, "some")}
		},
	},
}
