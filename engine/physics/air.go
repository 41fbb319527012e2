package physics

// This file holds the air: the standard atmosphere, density, moisture.

import "math"

// Constants of the U.S. Standard Atmosphere, 1976.
const (
	seaLevelT   = 288.15                                  // K
	lapse       = 0.0065                                  // K/m
	earthRadius = 6356766.0                               // m, for geopotential height
	gasConstant = 8.31432 / 0.0289644                     // J/(kg K), dry air
	lapsePower  = gravity * 0.0289644 / (8.31432 * lapse) // 5.25588
)

// StandardTemperature returns the temperature in K of the standard atmosphere at
// a height in metres above the sea.
//
// Source: U.S. Standard Atmosphere, 1976.
func StandardTemperature(height float64) (float64, error) {
	if err := within(spanHeight.of(height)); err != nil {
		return 0, err
	}
	return seaLevelT - lapse*geopotential(height), nil
}

// StandardPressure returns the pressure in Pa of the standard atmosphere at a
// height in metres above the sea. A gauge at rest shows the air of the place, not
// the sea-level figure of a weather chart.
//
// Source: U.S. Standard Atmosphere, 1976.
func StandardPressure(height float64) (float64, error) {
	t, err := StandardTemperature(height)
	if err != nil {
		return 0, err
	}
	return standardAir * math.Pow(t/seaLevelT, lapsePower), nil
}

// StandardHeight returns the height in metres at which the standard atmosphere
// has a pressure in Pa: the inverse of [StandardPressure].
func StandardHeight(pressure float64) (float64, error) {
	if err := within(spanAir.of(pressure)); err != nil {
		return 0, err
	}
	h := seaLevelT / lapse * (1 - math.Pow(pressure/standardAir, 1/lapsePower))
	z := earthRadius * h / (earthRadius - h)
	if err := within(spanHeight.of(z)); err != nil {
		return 0, err
	}
	return z, nil
}

func geopotential(height float64) float64 { return earthRadius * height / (earthRadius + height) }

// AirDensity returns the density in kg/m3 of dry air at a pressure in Pa and a
// temperature in K. Moist air is lighter, by under 1 percent up to a dew point of
// 13 degC.
//
// Source: gas law with the constants of the U.S. Standard Atmosphere, 1976.
func AirDensity(pressure, temperature float64) (float64, error) {
	if err := within(spanAir.of(pressure), spanAirT.of(temperature)); err != nil {
		return 0, err
	}
	return pressure / (gasConstant * temperature), nil
}

// vapourPressure returns the pressure in Pa of water vapour over water at a
// temperature in K, by the Magnus form.
//
// Source: WMO-No. 8, Guide to Meteorological Instruments and Methods of
// Observation, annex on formulae for humidity: 611.2 Pa, 17.62, 243.12 degC (from
// memory).
func vapourPressure(temperature float64) float64 {
	return 611.2 * math.Exp(magnus(temperature))
}

func magnus(temperature float64) float64 {
	c := temperature - zeroCelsius
	return 17.62 * c / (243.12 + c)
}

// RelativeHumidity returns the relative humidity, a share of one, of air at a
// temperature in K with a dew point in K. A dew point above the temperature is
// out of range.
//
// Source: as vapourPressure, over water also below freezing.
func RelativeHumidity(temperature, dewPoint float64) (float64, error) {
	if err := within(spanAirT.of(temperature), spanDew.of(dewPoint)); err != nil {
		return 0, err
	}
	if dewPoint > temperature {
		return 0, &RangeError{Name: "dew point", Value: dewPoint - zeroCelsius, Least: spanDew.least, Most: temperature - zeroCelsius, Unit: "degC"}
	}
	return math.Exp(magnus(dewPoint) - magnus(temperature)), nil
}

// DewPoint returns the dew point in K of air at a temperature in K with a relative
// humidity, a share of one: the inverse of [RelativeHumidity].
func DewPoint(temperature, humidity float64) (float64, error) {
	if err := within(spanAirT.of(temperature), spanHumidity.of(humidity)); err != nil {
		return 0, err
	}
	g := math.Log(math.Min(humidity, 1)) + magnus(temperature)
	return zeroCelsius + 243.12*g/(17.62-g), nil
}
