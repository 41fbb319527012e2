package quantity

import "testing"

func TestDimensionNamed(t *testing.T) {
	for name, want := range map[string]Dimension{
		"gauge pressure": GaugePressure, "Gauge_Pressure": GaugePressure, "absolute-pressure": AbsolutePressure,
		"temperature": Temperature, "speed change": SpeedChange, "voltage": Volts, "current": Amps,
		"resistance": Ohms, "volume per time": Flow, "count": Pure, "specific gravity": Pure, "share of travel": Ratio,
	} {
		if got, ok := DimensionNamed(name); !ok || got != want {
			t.Errorf("DimensionNamed(%q) = %v, %v, want %v", name, got, ok, want)
		}
	}
	if got, ok := DimensionNamed("presure"); ok {
		t.Errorf("DimensionNamed(presure) = %v, want none", got)
	}
	for _, d := range Dimensions() {
		if got, ok := DimensionNamed(d.String()); !ok || got != d {
			t.Errorf("DimensionNamed(%q) = %v, %v, want itself", d.String(), got, ok)
		}
		if d != Pure && len(Units(d)) == 0 {
			t.Errorf("%v has no unit", d)
		}
		if DimensionNames()[d] != d.String() {
			t.Errorf("DimensionNames()[%d] = %q, want %q", d, DimensionNames()[d], d)
		}
	}
	if got := dimensions.String(); got != "unknown dimension" {
		t.Errorf("String of no dimension = %q", got)
	}
}

func TestArithmetic(t *testing.T) {
	type op func(a, b Dimension) (Dimension, bool)
	const none = dimensions
	for _, tt := range []struct {
		name       string
		do         op
		a, b, want Dimension
	}{
		{"add", Add, Temperature, TemperatureDifference, Temperature},
		{"add", Add, TemperatureDifference, Temperature, Temperature},
		{"add", Add, Temperature, Temperature, none},
		{"add", Add, GaugePressure, AbsolutePressure, none},
		{"add", Add, GaugePressure, RotationalSpeed, none},
		{"add", Add, Volume, Volume, Volume},
		{"sub", Sub, Temperature, Temperature, TemperatureDifference},
		{"sub", Sub, GaugePressure, GaugePressure, PressureDifference},
		{"sub", Sub, AbsolutePressure, GaugePressure, none},
		{"sub", Sub, RotationalSpeed, RotationalSpeed, SpeedChange},
		{"sub", Sub, RotationalSpeed, SpeedChange, RotationalSpeed},
		{"sub", Sub, SpeedChange, RotationalSpeed, none},
		{"mul", Mul, Volts, Amps, Power},
		{"mul", Mul, Time, Amps, Charge},
		{"mul", Mul, Pure, RotationalSpeed, RotationalSpeed},
		{"mul", Mul, Temperature, Pure, none},
		{"mul", Mul, Ratio, Ratio, Ratio},
		{"mul", Mul, Volts, Volts, none},
		{"div", Div, Volume, Time, Flow},
		{"div", Div, Volume, Flow, Time},
		{"div", Div, Volts, Amps, Ohms},
		{"div", Div, RotationalSpeed, RotationalSpeed, Pure},
		{"div", Div, SpeedChange, RotationalSpeed, Pure},
		{"div", Div, Temperature, Temperature, none},
		{"div", Div, Boost, Pure, none},
		{"div", Div, GaugePressure, Pure, GaugePressure},
		{"div", Div, Time, Volts, none},
	} {
		got, ok := tt.do(tt.a, tt.b)
		if !ok {
			got = none
		}
		if got != tt.want {
			t.Errorf("%s of %v and %v = %v, want %v", tt.name, tt.a, tt.b, got, tt.want)
		}
	}
}
