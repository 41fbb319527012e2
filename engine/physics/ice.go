package physics

// This file holds the carburettor's nearness to icing.

import "math"

// Icing words, worst first.
const (
	IcingSerious  = "serious"
	IcingModerate = "moderate"
	IcingLight    = "light"
	IcingPossible = "possible"
	IcingUnlikely = "unlikely"
)

// ThroatMargin returns by how many K the carburettor's throat stays clear of ice,
// for the air's temperature and dew point and the cooling in the throat, all in K.
// Ice needs a throat below freezing and below the dew point: a negative margin is
// the depth into that region. The dew point must not be above the temperature.
//
// Source: FAA-H-8083-32B (2023) page 2-9 for the kinds of ice; most cooling 39 K:
// US Department of the Interior Safety Alert SA 11-01. Usual cooling: float
// carburettor 15 to 25 K, fuel sprayed after the throttle 10 to 15 K (common
// practice, no source).
func ThroatMargin(air, dewPoint, cooling float64) (float64, error) {
	if err := within(spanCooling.of(cooling)); err != nil {
		return 0, err
	}
	if _, err := RelativeHumidity(air, dewPoint); err != nil {
		return 0, err
	}
	throat := air - cooling
	return math.Max(throat-zeroCelsius, throat-dewPoint), nil
}

// UsualThroatCooling returns the worst usual cooling in K of a carburettor:
// 25 for a float carburettor, 15 where fuel is sprayed after the throttle.
//
// Source: common practice, no source.
func UsualThroatCooling(float bool) float64 {
	if float {
		return 25
	}
	return 15
}

// IcingRisk returns how serious carburettor icing is to be taken, one of the icing
// words, for the air's temperature and dew point in K and the margin of
// [ThroatMargin] in K. At low power, idle and warm-up, ice is worst.
//
// Source: the worst of: bands of temperature and spread, a rough reading of
// published charts from memory; US Department of the Interior Safety Alert SA
// 11-01 (severe at 50 to 70 degF above 60 percent humidity, possible to 100 degF
// from 50 percent, rare below 25 percent); at low power serious wherever the
// throat can freeze in air above freezing, which agrees with the one chart point
// at hand (22 degC, dew point 5 degC).
func IcingRisk(air, dewPoint, margin float64, lowPower bool) (string, error) {
	humidity, err := RelativeHumidity(air, dewPoint)
	if err != nil {
		return "", err
	}
	c, spread := air-zeroCelsius, air-dewPoint
	fahrenheit := c*1.8 + 32
	between := func(least, most, widest float64) bool { return c >= least && c <= most && spread <= widest }
	switch {
	case between(0, 13, 8), // the charts' band of 5 K to 17 degC lies within the next one
		fahrenheit >= 50 && fahrenheit <= 70 && humidity > 0.60,
		lowPower && margin < 0 && c > 0 && humidity >= 0.25:
		return IcingSerious, nil
	case between(-5, 25, 10):
		return IcingModerate, nil
	case between(-10, 30, 15):
		return IcingLight, nil
	case margin < 0, fahrenheit <= 100 && c > 0 && humidity >= 0.50:
		return IcingPossible, nil
	}
	return IcingUnlikely, nil
}
