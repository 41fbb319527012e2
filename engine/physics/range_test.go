package physics

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// calls holds each formula with inputs that are in range, and the places of those
// that may be put out of range one at a time.
var calls = []struct {
	name   string
	call   func(x []float64) (float64, error)
	inside []float64
}{
	{"StandardTemperature", func(x []float64) (float64, error) { return StandardTemperature(x[0]) }, []float64{100}},
	{"StandardPressure", func(x []float64) (float64, error) { return StandardPressure(x[0]) }, []float64{100}},
	{"StandardHeight", func(x []float64) (float64, error) { return StandardHeight(x[0]) }, []float64{1e5}},
	{"AirDensity", func(x []float64) (float64, error) { return AirDensity(x[0], x[1]) }, []float64{1e5, 290}},
	{"RelativeHumidity", func(x []float64) (float64, error) { return RelativeHumidity(x[0], x[1]) }, []float64{290, 280}},
	{"DewPoint", func(x []float64) (float64, error) { return DewPoint(x[0], x[1]) }, []float64{290, 0.5}},
	{"ThroatMargin", func(x []float64) (float64, error) { return ThroatMargin(x[0], x[1], x[2]) }, []float64{290, 280, 25}},
	{"AbsoluteManifoldPressure", func(x []float64) (float64, error) { return AbsoluteManifoldPressure(x[0], x[1]) }, []float64{-2e4, 1e5}},
	{"BoostAtRest", func(x []float64) (float64, error) { return BoostAtRest(x[0], x[1]) }, []float64{1e5, 1e5}},
	{"ExpectedBoost", func(x []float64) (float64, error) { return ExpectedBoost(x[0], x[1], x[2], x[3], x[4]) }, []float64{-2e4, 1e5, 1e5, 1e5, 1e5}},
	{"PropellerSpeed", func(x []float64) (float64, error) { return PropellerSpeed(x[0], x[1]) }, []float64{30, 0.5}},
	{"TipSpeed", func(x []float64) (float64, error) { return TipSpeed(x[0], x[1]) }, []float64{15, 3}},
	{"MagnetoSpeed", func(x []float64) (float64, error) { return MagnetoSpeed(x[0], x[1], x[2]) }, []float64{30, 12, 4}},
	{"LoadPower", func(x []float64) (float64, error) { return LoadPower(x[0], x[1], x[2], x[3], x[4]) }, []float64{5e5, 40, 1.2, 30, 1.2}},
	{"PowerLost", func(x []float64) (float64, error) { return PowerLost(x[0], x[1]) }, []float64{30, 1}},
	{"FeatherTime", func(x []float64) (float64, error) { return FeatherTime(x[0], x[1], x[2], x[3], x[4]) }, []float64{4e-3, 3e-4, 22, 24, 0.8}},
	{"FeatherSpare", func(x []float64) (float64, error) { return FeatherSpare(x[0], x[1]) }, []float64{9e-3, 4e-3}},
	{"RestedCharge", func(x []float64) (float64, error) { return RestedCharge(x[0], x[1], x[2], x[3]) }, []float64{25, 12, 290, 1.265}},
	{"GravityCharge", func(x []float64) (float64, error) { return GravityCharge(x[0], x[1], x[2]) }, []float64{1.25, 290, 1.265}},
	{"ChargeUsed", func(x []float64) (float64, error) { return ChargeUsed(Load{x[0], x[1]}) }, []float64{350, 12}},
	{"RecoveryTime", func(x []float64) (float64, error) { return RecoveryTime(x[0], x[1], x[2]) }, []float64{9000, 20, 0.85}},
	{"StartsLeft", func(x []float64) (float64, error) { return StartsLeft(x[0], x[1], x[2], x[3]) }, []float64{0.8, 0.6, 3.6e5, 9000}},
	{"SourceResistance", func(x []float64) (float64, error) { return SourceResistance(x[0], x[1], x[2]) }, []float64{25, 21, 350}},
	{"LeastCrankingVolts", func(x []float64) (float64, error) { return LeastCrankingVolts(x[0]) }, []float64{24}},
	{"StarterWait", func(x []float64) (float64, error) { return StarterWait(x[0], x[1]) }, []float64{1, 30}},
	{"PrimingStrokes", func(x []float64) (float64, error) { return PrimingStrokes(x[0], x[1]) }, []float64{290, 7}},
	{"NewOil and Viscosity", func(x []float64) (float64, error) {
		o, err := NewOil(x[0], x[1], x[2], x[3])
		if err != nil {
			return 0, err
		}
		return o.Viscosity(x[4])
	}, []float64{313.15, 2e-4, 373.15, 1.9e-5, 290}},
	{"Temperature", func(x []float64) (float64, error) {
		o, _ := UsualOil(OilSAE50)
		return o.Temperature(x[0])
	}, []float64{1e-4}},
	{"Ratio", func(x []float64) (float64, error) {
		o, _ := UsualOil(OilSAE50)
		return o.Ratio(x[0], x[1])
	}, []float64{280, 350}},
	{"SayboltViscosity", func(x []float64) (float64, error) { return SayboltViscosity(x[0]) }, []float64{100}},
	{"ColdOilPressure", func(x []float64) (float64, error) { return ColdOilPressure(x[0], x[1], x[2]) }, []float64{4e5, 6e5, 2}},
	{"WaterSaturation", func(x []float64) (float64, error) { return WaterSaturation(x[0]) }, []float64{373}},
	{"WaterBoils", func(x []float64) (float64, error) { return WaterBoils(x[0]) }, []float64{1e5}},
	{"CoolantBoils", func(x []float64) (float64, error) { return CoolantBoils(x[0], x[1]) }, []float64{0.3, 1e5}},
	{"BoilingMargin", func(x []float64) (float64, error) { return BoilingMargin(x[0], x[1], x[2], x[3]) }, []float64{370, 0.3, 1e5, 1e5}},
	{"WarmUpRate", func(x []float64) (float64, error) { return WarmUpRate(x[0], x[1], x[2]) }, []float64{290, 310, 240}},
	{"FuelDrop", func(x []float64) (float64, error) { return FuelDrop(x[0], x[1]) }, []float64{1e5, 7e4}},
	{"FuelVapourPressure", func(x []float64) (float64, error) { return FuelVapourPressure(x[0], x[1], x[2]) }, []float64{290, 49e3, 2}},
	{"VapourMargin", func(x []float64) (float64, error) { return VapourMargin(x[0], x[1], x[2]) }, []float64{0, 1e5, 4e4}},
	{"FuelNeeded", func(x []float64) (float64, error) { return FuelNeeded(x[0], Burn{x[1], x[2]}) }, []float64{1e-3, 1e-5, 600}},
	{"ActuationsLeft", func(x []float64) (float64, error) { return ActuationsLeft(x[0], x[1], x[2], x[3], x[4]) }, []float64{7e-3, 3e6, 1e6, 3e-4, 6e5}},
	{"PressureAtTemperature", func(x []float64) (float64, error) { return PressureAtTemperature(x[0], x[1], x[2], x[3]) }, []float64{3e6, 290, 280, 1e5}},
	{"LeakRate", func(x []float64) (float64, error) { return LeakRate(x[0], x[1], x[2], x[3]) }, []float64{7e-3, 2e4, 60, 1e5}},
	{"Between", func(x []float64) (float64, error) { return Between([][2]float64{{1, 2}, {3, 5}}, x[0]) }, []float64{2}},
}

// Each input of each formula, put far out on both sides and to NaN one at a time,
// gives a RangeError that says the range.
func TestOutOfRange(t *testing.T) {
	for _, tt := range calls {
		if v, err := tt.call(tt.inside); err != nil || math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("%s%v = %v, %v, want a number", tt.name, tt.inside, v, err)
		}
		for i := range tt.inside {
			for _, out := range []float64{math.Inf(-1), -1e12, 1e12, math.Inf(1), math.NaN()} {
				x := append([]float64(nil), tt.inside...)
				x[i] = out
				v, err := tt.call(x)
				var e *RangeError
				if !errors.As(err, &e) {
					t.Errorf("%s%v = %v, %v, want a RangeError", tt.name, x, v, err)
					continue
				}
				if e.Name == "" || !strings.Contains(e.Error(), "wanted") || !(e.Least <= e.Most) {
					t.Errorf("%s%v: %q names no range", tt.name, x, e)
				}
			}
		}
	}
}

func TestRangeErrorText(t *testing.T) {
	for _, tt := range []struct {
		call func() error
		want string
	}{
		{func() error { _, err := AirDensity(1e5, 400); return err },
			"air temperature 126.85 degC is out of range; wanted -60 to 60 degC"},
		{func() error { _, err := RelativeHumidity(kelvin(5), kelvin(9)); return err },
			"dew point 9 degC is out of range; wanted -80 to 5 degC"},
		{func() error { _, err := PropellerSpeed(math.NaN(), 0.5); return err },
			"engine speed is not a number; wanted 0 to 6000 rpm"},
		{func() error { _, err := MagnetoSpeed(30, 12, 0); return err },
			"sparks per magneto turn 0 is out of range; wanted 1 to 36"},
		{func() error { _, err := ColdOilPressure(7e5, 6e5, 2); return err },
			"hot oil pressure 700 kPa is out of range; wanted 0 to 600 kPa"},
		{func() error { _, err := SourceResistance(24, 25, 300); return err },
			"volts while cranking 25 V is out of range; wanted 0 to 24 V"},
		{func() error { _, err := NewOil(313, 2e-5, 373, 2e-4); return err },
			"viscosity at the warmer point 200 cSt is out of range; wanted 2 to 20 cSt"},
		{func() error { _, err := NewOil(313, 2e-4, 314, 1.9e-4); return err },
			"temperature between the two points 1 K is out of range; wanted 5 to 200 K"},
		{func() error { _, err := PowerLost(20, 25); return err },
			"drop 1500 rpm is out of range; wanted -500 to 1200 rpm"},
	} {
		err := tt.call()
		if err == nil || err.Error() != tt.want {
			t.Errorf("got %v, want %q", err, tt.want)
		}
	}
}

// The ends of a range, told in its own unit, are inside.
func TestEndsAreInside(t *testing.T) {
	for _, s := range []*span{spanAirT, spanSpeed, spanBoost, spanGlycol, spanFlow, spanHeader} {
		for _, end := range []float64{s.least, s.most} {
			if err := within(s.of(s.unit.ToSI(end))); err != nil {
				t.Errorf("%v", err)
			}
		}
	}
}
