package physics

// This file holds the ranges within which the functions answer.

import (
	"fmt"
	"math"

	"snagwise/engine/quantity"
)

const (
	zeroCelsius = 273.15   // K
	standardAir = 101325.0 // Pa
	gravity     = 9.80665  // m/s2, standard
	minute      = 60.0     // s
	litre       = 1e-3     // m3
)

// A RangeError says that an input lies outside the range for which a formula
// holds, or is no number.
type RangeError struct {
	Name               string  // what it is, such as "air temperature"
	Value, Least, Most float64 // in Unit
	Unit               string  // empty for a plain number
}

// Error returns what was given and the range in one line.
func (e *RangeError) Error() string {
	unit := e.Unit
	if unit != "" {
		unit = " " + unit
	}
	if math.IsNaN(e.Value) {
		return fmt.Sprintf("%s is not a number; wanted %.6g to %.6g%s", e.Name, e.Least, e.Most, unit)
	}
	return fmt.Sprintf("%s %.6g%s is out of range; wanted %.6g to %.6g%s", e.Name, e.Value, unit, e.Least, e.Most, unit)
}

// A span is the range of one input. least and most are numbers in unit.
type span struct {
	name        string
	unit        *quantity.Unit
	least, most float64
	low, high   float64 // the same in SI
}

func newSpan(name string, dim quantity.Dimension, unit string, least, most float64) *span {
	s := &span{name: name, least: least, most: most, low: least, high: most}
	if unit == "" {
		return s
	}
	u, ok := quantity.UnitFor(unit, dim)
	if !ok {
		panic("physics: no unit " + unit)
	}
	// A hair of slack, so that an end told in its own unit is inside.
	slack := 1e-12 * math.Abs(u.ToSI(most)-u.ToSI(least))
	s.unit, s.low, s.high = u, u.ToSI(least)-slack, u.ToSI(most)+slack
	return s
}

// A measured is a span with the SI value to be held against it.
type measured struct {
	span *span
	si   float64
}

func (s *span) of(si float64) measured { return measured{s, si} }

// within returns a RangeError for the first value that lies outside its span.
func within(all ...measured) error {
	for _, m := range all {
		if m.si >= m.span.low && m.si <= m.span.high {
			continue
		}
		e := &RangeError{Name: m.span.name, Value: m.si, Least: m.span.least, Most: m.span.most}
		if u := m.span.unit; u != nil {
			e.Value, e.Unit = u.FromSI(m.si), u.Name
		}
		return e
	}
	return nil
}

// The ranges: wide enough for any stand, narrow enough to catch a slip of unit.
// Common practice, no source, but where a formula sets them, which is said.
var (
	spanHeight      = newSpan("height", quantity.Length, "m", -500, 11000) // troposphere of the 1976 atmosphere
	spanAir         = newSpan("air pressure", quantity.AbsolutePressure, "hPa", 200, 1100)
	spanAirT        = newSpan("air temperature", quantity.Temperature, "degC", -60, 60) // Magnus form over water
	spanDew         = newSpan("dew point", quantity.Temperature, "degC", -80, 60)
	spanHumidity    = newSpan("relative humidity", quantity.Ratio, "percent", 0.1, 100)
	spanCooling     = newSpan("cooling in the throat", quantity.TemperatureDifference, "K", 0, 40) // most: DOI SA 11-01
	spanBoost       = newSpan("boost", quantity.Boost, "psi", -14.6959, 40)
	spanGaugeZero   = newSpan("pressure at which the boost gauge shows nothing", quantity.AbsolutePressure, "hPa", 600, 1100)
	spanSpeed       = newSpan("engine speed", quantity.RotationalSpeed, "rpm", 0, 6000)
	spanRefSpeed    = newSpan("speed of the reference", quantity.RotationalSpeed, "rpm", 100, 6000)
	spanRefPower    = newSpan("power of the reference", quantity.Power, "hp", 1, 10000)
	spanDrop        = newSpan("drop", quantity.SpeedChange, "rpm", -500, 6000)
	spanReduction   = newSpan("reduction ratio", quantity.Pure, "", 0.2, 1.5)
	spanDiameter    = newSpan("propeller diameter", quantity.Length, "m", 0.3, 8)
	spanCylinders   = newSpan("number of cylinders", quantity.Pure, "", 1, 36)
	spanSparks      = newSpan("sparks per magneto turn", quantity.Pure, "", 1, 36)
	spanDensity     = newSpan("air density", quantity.Density, "kg/m3", 0.3, 2)
	spanPressure    = newSpan("pressure", quantity.GaugePressure, "psi", -14.6, 5000)
	spanCellVolts   = newSpan("volts per cell", quantity.Volts, "V", 1.5, 2.45) // above: on charge, not rested
	spanCells       = newSpan("number of cells", quantity.Pure, "", 1, 60)
	spanAcidT       = newSpan("battery temperature", quantity.Temperature, "degC", -40, 60)
	spanGravity     = newSpan("gravity of the acid", quantity.Pure, "", 1.0, 1.35)
	spanFullGravity = newSpan("gravity when full", quantity.Pure, "", 1.2, 1.32)
	spanCurrent     = newSpan("current", quantity.Amps, "A", 0, 5000)
	spanMeanCharge  = newSpan("mean charging current", quantity.Amps, "A", 0.5, 1000)
	spanTime        = newSpan("time", quantity.Time, "h", 0, 100)
	spanShare       = newSpan("share", quantity.Ratio, "percent", 0, 100)
	spanReturned    = newSpan("share of the charge that stays", quantity.Ratio, "percent", 30, 100)
	spanCharge      = newSpan("charge", quantity.Charge, "Ah", 0, 2000)
	spanOneStart    = newSpan("charge taken by one start", quantity.Charge, "A min", 1, 6000)
	spanCapacity    = newSpan("battery capacity", quantity.Charge, "Ah", 1, 2000)
	spanVolts       = newSpan("volts", quantity.Volts, "V", 0, 60)
	spanSupply      = newSpan("rated volts", quantity.Volts, "V", 6, 48)
	spanStarterAmps = newSpan("starter current", quantity.Amps, "A", 10, 5000)
	spanTries       = newSpan("number of tries", quantity.Pure, "", 0, 100)
	spanOilT        = newSpan("oil temperature", quantity.Temperature, "degC", -40, 160)
	spanViscosity   = newSpan("viscosity", quantity.Viscosity, "cSt", 2, 2e7) // the short form of ASTM D341
	spanThicker     = newSpan("ratio of viscosity", quantity.Pure, "", 1e-6, 1e9)
	spanSaybolt     = newSpan("Saybolt viscosity", quantity.Time, "s", 100, 5000)
	spanWaterT      = newSpan("water temperature", quantity.Temperature, "degC", 0, 370)
	spanWaterP      = newSpan("water pressure", quantity.AbsolutePressure, "kPa", 1, 20000)
	spanGlycol      = newSpan("glycol share", quantity.Ratio, "percent", 0, 70)
	spanHeader      = newSpan("header pressure", quantity.GaugePressure, "psi", -7, 60)
	spanCoolantT    = newSpan("coolant temperature", quantity.Temperature, "degC", -40, 250)
	spanFuelT       = newSpan("fuel temperature", quantity.Temperature, "degC", -40, 80)
	spanReid        = newSpan("Reid vapour pressure", quantity.AbsolutePressure, "kPa", 13, 110)
	spanInlet       = newSpan("pressure at the pump inlet", quantity.GaugePressure, "psi", -12, 100)
	spanFuelP       = newSpan("fuel pressure", quantity.GaugePressure, "psi", -12, 1000)
	spanFlow        = newSpan("flow", quantity.Flow, "L/h", 0, 5000)
	spanPumpFlow    = newSpan("pump flow", quantity.Flow, "L/min", 0.1, 500)
	spanVolume      = newSpan("volume", quantity.Volume, "L", 0, 10000)
	spanBottle      = newSpan("bottle volume", quantity.Volume, "L", 0.1, 1000)
	spanRam         = newSpan("swept volume", quantity.Volume, "L", 0.001, 100)
	spanDelivery    = newSpan("delivery pressure", quantity.GaugePressure, "psi", 5, 5000)
	spanSlip        = newSpan("share of the flow left by cold oil", quantity.Ratio, "percent", 10, 100)
	spanEngineT     = newSpan("engine temperature", quantity.Temperature, "degC", -60, 300)
	spanStrokes     = newSpan("most priming strokes", quantity.Pure, "", 0, 50)
	spanBetween     = newSpan("time between the two", quantity.Time, "min", 0.1, 600)
	spanTemperature = newSpan("temperature", quantity.Temperature, "degC", -60, 1000)
	spanHours       = newSpan("hours", quantity.Time, "h", 0, 100000)
	spanLost        = newSpan("pressure lost", quantity.PressureDifference, "psi", 0, 5000)
)
