package physics

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// near fails unless got is within a tolerance of want.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %v, want %v within %v", what, got, want, tolerance)
	}
}

// must returns the value of a formula that has to answer.
func must(t interface {
	Helper()
	Fatal(...any)
}, v float64, err error) float64 {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func kelvin(c float64) float64 { return c + 273.15 }

// The figures are those of the tables of the U.S. Standard Atmosphere, 1976, by
// geometric height, as python3-fluids 1.0.22 gives them.
func TestStandardAtmosphere(t *testing.T) {
	for _, tt := range []struct{ height, temperature, pressure, density float64 }{
		{-300, 290.10009203, 104981.397308, 1.26067251},
		{0, 288.15, 101325, 1.22499916},
		{500, 284.90025561, 95461.289497, 1.16727251},
		{1000, 281.65102237, 89876.285187, 1.11165899},
		{1500, 278.40230016, 84559.676693, 1.05810385},
		{3000, 268.65919846, 70121.162236, 0.90925394},
		{8000, 236.21535983, 35651.628336, 0.52578602},
	} {
		temperature, err := StandardTemperature(tt.height)
		if err != nil {
			t.Fatal(err)
		}
		pressure, err := StandardPressure(tt.height)
		if err != nil {
			t.Fatal(err)
		}
		density, err := AirDensity(pressure, temperature)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "temperature", temperature, tt.temperature, 1e-6)
		near(t, "pressure", pressure, tt.pressure, 0.2)
		near(t, "density", density, tt.density, 5e-6)
	}
}

// Standard atmosphere by feet as in FAA-H-8083-25C, from memory: 28.86 inHg and
// 13.0 degC at 1,000 ft, 24.90 inHg and 5.1 degC at 5,000 ft.
func TestStandardAtmosphereInFeet(t *testing.T) {
	const foot, inHg = 0.3048, 3386.389
	for _, tt := range []struct{ feet, inHg, degC float64 }{
		{0, 29.92, 15.0}, {1000, 28.86, 13.0}, {2000, 27.82, 11.0}, {3000, 26.82, 9.1}, {5000, 24.90, 5.1},
	} {
		p, err := StandardPressure(tt.feet * foot)
		near(t, "pressure", must(t, p, err)/inHg, tt.inHg, 0.006)
		c, err := StandardTemperature(tt.feet * foot)
		near(t, "temperature", must(t, c, err)-273.15, tt.degC, 0.06)
	}
}

// Dry air by npm psychrolib 1.1.1, GetDryAirDensity; its gas constant is that of
// the ASHRAE handbook.
func TestAirDensity(t *testing.T) {
	for _, tt := range []struct{ degC, pascal, want float64 }{
		{15, 101325, 1.2250464076777228},
		{25, 99000, 1.156791086438126},
	} {
		d, err := AirDensity(tt.pascal, kelvin(tt.degC))
		near(t, "density", must(t, d, err), tt.want, 1e-4)
	}
}

// Humidity and dew point by npm psychrolib 1.1.1 (ASHRAE formulae over water);
// below freezing psychrolib goes over ice, so those are left out.
func TestHumidity(t *testing.T) {
	for _, tt := range []struct{ degC, dew, humidity float64 }{
		{9, 7, 0.8727043217680267},
		{22, 5, 0.3298934126981395},
		{15, 15, 1},
		{30, 10, 0.28921020458906616},
		{20, 9.272392288187499, 0.5},
		{30, 10.547898701393413, 0.3},
	} {
		rh, err := RelativeHumidity(kelvin(tt.degC), kelvin(tt.dew))
		near(t, "humidity", must(t, rh, err), tt.humidity, 1e-3)
		td, err := DewPoint(kelvin(tt.degC), tt.humidity)
		near(t, "dew point", must(t, td, err), kelvin(tt.dew), 0.03)
	}
	for _, tt := range []struct{ degC, pascal float64 }{ // GetSatVapPres
		{10, 1227.9952754407796}, {20, 2338.8037000739814}, {40, 7383.46000898612},
	} {
		near(t, "vapour pressure", vapourPressure(kelvin(tt.degC)), tt.pascal, 0.003*tt.pascal)
	}
}

func TestAirLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.Float64Range(-400, 10900).Draw(t, "height")
		p, err := StandardPressure(h)
		back, err2 := StandardHeight(must(t, p, err))
		if math.Abs(must(t, back, err2)-h) > 1e-6 {
			t.Fatalf("height %v comes back as %v", h, back)
		}
		higher, err := StandardPressure(h + 10)
		if must(t, higher, err) >= p {
			t.Fatalf("pressure does not fall above %v m", h)
		}
		c := rapid.Float64Range(220, 330).Draw(t, "temperature")
		rh := rapid.Float64Range(0.05, 1).Draw(t, "humidity")
		td, err := DewPoint(c, rh)
		if must(t, td, err) > c+1e-9 {
			t.Fatalf("dew point %v above %v", td, c)
		}
		again, err := RelativeHumidity(c, math.Min(td, c))
		if math.Abs(must(t, again, err)-rh) > 1e-9 {
			t.Fatalf("humidity %v comes back as %v", rh, again)
		}
		warm, err := AirDensity(95000, c+1)
		cold, err2 := AirDensity(95000, c)
		if must(t, warm, err) >= must(t, cold, err2) {
			t.Fatalf("air does not thin when warmed from %v K", c)
		}
	})
}
