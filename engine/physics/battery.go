package physics

// This file holds the lead-acid battery at rest and what a start takes from it.

import "math"

// restedCell holds rested volts of one cell against state of charge for acid of
// gravity 1.265 when full at 26.7 degC, and restedGravity the acid's gravity.
//
// Source: usual rule table for a 12 V battery (12.65, 12.45, 12.24, 12.06, 11.89 V;
// 1.265, 1.225, 1.190, 1.155, 1.120), as battery suppliers give it.
var (
	restedCell = [][2]float64{{11.89 / 6, 0}, {12.06 / 6, 0.25}, {12.24 / 6, 0.5}, {12.45 / 6, 0.75}, {12.65 / 6, 1}}
	restedAcid = [][2]float64{{1.120, 0}, {1.155, 0.25}, {1.190, 0.5}, {1.225, 0.75}, {1.265, 1}}
)

const (
	tableGravity = 1.265                     // when full
	tableT       = zeroCelsius + (80-32)/1.8 // K, 80 degF
	cellSlope    = 0.0002                    // V per K and cell, from memory
)

// RestedCharge returns the state of charge, a share of one, from the rested volts
// of a lead-acid battery of so many cells, its temperature in K and the gravity of
// its acid when full, 1.265 for common and 1.285 for aircraft cells. Beyond the
// ends of the table it stays at 0 or 1. It holds after 30 minutes of rest at
// least, 6 hours better, with nothing switched on.
//
// Source: straight lines through the usual rule table; a cell rests about its
// gravity plus 0.845 V and 0.2 mV higher per K (both from memory).
func RestedCharge(volts, cells, temperature, fullGravity float64) (float64, error) {
	if err := within(spanCells.of(cells)); err != nil {
		return 0, err
	}
	cell := volts / cells
	if err := within(spanCellVolts.of(cell), spanAcidT.of(temperature), spanFullGravity.of(fullGravity)); err != nil {
		return 0, err
	}
	return along(restedCell, cell-cellSlope*(temperature-tableT)-(fullGravity-tableGravity)), nil
}

// GravityCharge returns the state of charge, a share of one, from the gravity of
// the acid read at a temperature in K, for acid of fullGravity when full.
//
// Source: as [RestedCharge]; 0.004 off per 10 degF below 80 degF: usual hydrometer
// rule. FAA-H-8083-30B page 12-90 wants none between 70 and 90 degF, which is
// within reading error of it.
func GravityCharge(gravity, temperature, fullGravity float64) (float64, error) {
	if err := within(spanGravity.of(gravity), spanAcidT.of(temperature), spanFullGravity.of(fullGravity)); err != nil {
		return 0, err
	}
	at80 := gravity + 0.004*(temperature-tableT)*1.8/10
	return along(restedAcid, at80-(fullGravity-tableGravity)), nil
}

// A Load is a current in A that flows for a time in s.
type Load struct{ Current, Time float64 }

// ChargeUsed returns the charge in A s that loads take together. Exact.
func ChargeUsed(loads ...Load) (float64, error) {
	sum := 0.0
	for _, l := range loads {
		if err := within(spanCurrent.of(l.Current), spanTime.of(l.Time)); err != nil {
			return 0, err
		}
		sum += l.Current * l.Time
	}
	return sum, nil
}

// RecoveryTime returns the seconds above cut-in speed that put a charge in A s
// back at a mean current in A, of which a share stays. Above about 80 percent
// charge the battery takes less and less, and the last part far longer.
//
// Source: exact sum; the usual share of 0.85 for lead-acid from memory.
func RecoveryTime(used, current, share float64) (float64, error) {
	if err := within(spanCharge.of(used), spanMeanCharge.of(current), spanReturned.of(share)); err != nil {
		return 0, err
	}
	return used / (current * share), nil
}

// StartsLeft returns how many starts a battery holds before it falls to the least
// charge: charge and least are shares of one, the capacity and what one start
// takes in A s. At or below the least there is none.
//
// Source: own rule.
func StartsLeft(charge, least, capacity, used float64) (float64, error) {
	if err := within(spanShare.of(charge), spanShare.of(least), spanCapacity.of(capacity), spanOneStart.of(used)); err != nil {
		return 0, err
	}
	return math.Max(0, whole((charge-least)*capacity/used)), nil
}

// whole rounds down, but takes what lies a rounding error below for whole.
func whole(x float64) float64 { return math.Floor(x + 1e-9) }

// along returns the straight-line value of a rising table at x, the end values
// beyond its ends.
func along(table [][2]float64, x float64) float64 {
	if x <= table[0][0] {
		return table[0][1]
	}
	for i := 1; i < len(table); i++ {
		a, b := table[i-1], table[i]
		if x <= b[0] {
			return a[1] + (b[1]-a[1])*(x-a[0])/(b[0]-a[0])
		}
	}
	return table[len(table)-1][1]
}

// Between returns the straight-line value of a table of pairs at x, the first ones
// rising. It fails with a *RangeError outside the table: a record says nothing of
// speeds that were not run.
func Between(table [][2]float64, x float64) (float64, error) {
	if len(table) == 0 {
		return 0, &RangeError{Name: "place in an empty table", Value: x}
	}
	least, most := table[0][0], table[len(table)-1][0]
	slack := 1e-9 * (most - least) // 2000 rpm told in turns per second is 2000 within a hair
	if !(x >= least-slack && x <= most+slack) {
		return 0, &RangeError{Name: "place in the table", Value: x, Least: least, Most: most}
	}
	return along(table, x), nil
}
