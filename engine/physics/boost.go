package physics

// This file holds boost and manifold pressure.

// AbsoluteManifoldPressure returns the absolute pressure in Pa in the trunk, for a
// boost in Pa as the gauge shows it and the pressure in Pa at which that gauge
// shows nothing: 101325 for an absolute capsule, the air of the day for a
// differential gauge.
//
// Source: exact; the two kinds of gauge from memory.
func AbsoluteManifoldPressure(boost, zero float64) (float64, error) {
	if err := within(spanBoost.of(boost), spanGaugeZero.of(zero)); err != nil {
		return 0, err
	}
	p := boost + zero
	if p < 0 {
		return 0, &RangeError{Name: "boost", Value: boost / 1000, Least: -zero / 1000, Most: spanBoost.high / 1000, Unit: "kPa"}
	}
	return p, nil
}

// BoostAtRest returns the boost in Pa that the gauge should show with the engine
// still, for the air of the day and the pressure at which the gauge shows nothing,
// both in Pa.
//
// Source: FAA-H-8083-32B (2023) page 10-25 for the principle; exact.
func BoostAtRest(air, zero float64) (float64, error) {
	if err := within(spanAir.of(air), spanGaugeZero.of(zero)); err != nil {
		return 0, err
	}
	return air - zero, nil
}

// ExpectedBoost returns the boost in Pa that a sound engine needs for a speed on
// the fine stop, for the boost of its own record at that speed, the air of the
// record and of the day, and the pressures at which the gauge showed and shows
// nothing, all in Pa. Power goes with the density of the charge, so the absolute
// pressure goes with the air's.
//
// Source: principle of FAA-H-8083-32B (2023) pages 10-28 and 10-38; the reference
// must be this engine's own record.
func ExpectedBoost(record, recordAir, recordZero, air, zero float64) (float64, error) {
	if err := within(spanAir.of(recordAir), spanAir.of(air), spanGaugeZero.of(zero)); err != nil {
		return 0, err
	}
	p, err := AbsoluteManifoldPressure(record, recordZero)
	if err != nil {
		return 0, err
	}
	return p*air/recordAir - zero, nil
}
