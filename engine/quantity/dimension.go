package quantity

// This file holds the dimensions and what comes of adding, subtracting,
// multiplying and dividing them.

// A Dimension is a kind of quantity. Two quantities can be compared only when
// their dimensions are the same; pressures and temperatures are told apart
// finer than physics does, because mixing them up is a common mistake.
type Dimension uint8

// The dimensions. Each comment gives the SI unit its values are kept in.
const (
	Pure                  Dimension = iota // plain number: a count, a ratio, a specific gravity
	GaugePressure                          // Pa above the air of the day
	AbsolutePressure                       // Pa above vacuum
	PressureDifference                     // Pa between two points
	Boost                                  // Pa above standard air, 101325 Pa absolute
	Temperature                            // K above absolute zero
	TemperatureDifference                  // K between two temperatures
	RotationalSpeed                        // turns per second
	SpeedChange                            // turns per second between two speeds
	Volts                                  // V
	Amps                                   // A
	Charge                                 // A s
	Volume                                 // m3
	Time                                   // s
	Length                                 // m
	Ratio                                  // share of one; 1 is 100 percent
	Flow                                   // m3/s
	Ohms                                   // ohm
	Angle                                  // rad
	Mass                                   // kg
	Energy                                 // J
	Power                                  // W
	Density                                // kg/m3
	Speed                                  // m/s
	Viscosity                              // m2/s, kinematic
	Torque                                 // N m
	dimensions                             // how many there are
)

// dimensionInfo is what is known of one dimension. least is the lowest value
// in SI that can be, where there is one.
type dimensionInfo struct {
	name     string
	words    []string // other names
	bounded  bool
	least    float64
	tooLow   string // what to say of a value under least
	point    bool   // a place on a scale: sums and multiples mean nothing
	interval Dimension
}

// standardAir is the standard atmosphere in Pa, the zero of a boost gauge.
//
// Source: nist-sp-811 appendix B.8 (atmosphere, standard: 1.013 25 E+05 Pa).
const standardAir = 101325

var infos = [dimensions]dimensionInfo{
	Pure: {name: "number", words: []string{"count", "plain number", "specific gravity", "pure"}},
	// The highest air pressure ever noted at sea level is under 1090 hPa, so no
	// gauge can stand lower than this (from memory).
	GaugePressure:         {name: "gauge pressure", words: []string{"pressure"}, bounded: true, least: -109000, tooLow: "is below a full vacuum", point: true, interval: PressureDifference},
	AbsolutePressure:      {name: "absolute pressure", bounded: true, tooLow: "is below a full vacuum", point: true, interval: PressureDifference},
	PressureDifference:    {name: "pressure difference", words: []string{"differential pressure", "pressure drop"}},
	Boost:                 {name: "boost", words: []string{"boost pressure"}, bounded: true, least: -standardAir, tooLow: "is below a full vacuum", point: true, interval: PressureDifference},
	Temperature:           {name: "temperature", bounded: true, tooLow: "is below absolute zero", point: true, interval: TemperatureDifference},
	TemperatureDifference: {name: "temperature difference", words: []string{"temperature rise"}},
	RotationalSpeed:       {name: "rotational speed", bounded: true, tooLow: "is negative, which this speed cannot be", point: true, interval: SpeedChange},
	SpeedChange:           {name: "speed change", words: []string{"change of rotational speed"}},
	Volts:                 {name: "voltage", words: []string{"volts"}},
	Amps:                  {name: "current", words: []string{"amps"}},
	Charge:                {name: "charge", words: []string{"electric charge"}},
	Volume:                {name: "volume", bounded: true, tooLow: "is negative, which a volume cannot be"},
	Time:                  {name: "time", words: []string{"duration"}, bounded: true, tooLow: "is negative, which a time cannot be"},
	Length:                {name: "length", words: []string{"distance", "gap", "clearance"}},
	Ratio:                 {name: "share", words: []string{"percentage", "percent", "ratio", "share of travel"}},
	Flow:                  {name: "flow", words: []string{"volume per time", "volume flow"}, bounded: true, tooLow: "is negative, which a flow cannot be"},
	Ohms:                  {name: "resistance", words: []string{"ohms"}, bounded: true, tooLow: "is negative, which a resistance cannot be"},
	Angle:                 {name: "angle"},
	Mass:                  {name: "mass", words: []string{"weight"}, bounded: true, tooLow: "is negative, which a mass cannot be"},
	Energy:                {name: "energy"},
	Power:                 {name: "power"},
	Density:               {name: "density", bounded: true, tooLow: "is negative, which a density cannot be"},
	Speed:                 {name: "speed", words: []string{"wind speed"}, bounded: true, tooLow: "is negative, which a speed cannot be"},
	Viscosity:             {name: "viscosity", words: []string{"kinematic viscosity"}, bounded: true, tooLow: "is negative, which a viscosity cannot be"},
	Torque:                {name: "torque"},
}

// String returns the dimension in words, such as "gauge pressure".
func (d Dimension) String() string {
	if d >= dimensions {
		return "unknown dimension"
	}
	return infos[d].name
}

// Dimensions returns every dimension, in a fixed order.
func Dimensions() []Dimension {
	all := make([]Dimension, dimensions)
	for i := range all {
		all[i] = Dimension(i)
	}
	return all
}

// DimensionNames returns the name of every dimension in words, in a fixed order.
func DimensionNames() []string {
	names := make([]string, dimensions)
	for i := range infos {
		names[i] = infos[i].name
	}
	return names
}

// DimensionNamed returns the dimension with this name in words, such as
// "gauge pressure" or "voltage"; case, hyphens and underscores do not matter.
func DimensionNamed(name string) (Dimension, bool) {
	key := foldWords(name)
	for d, info := range infos {
		if foldWords(info.name) == key {
			return Dimension(d), true
		}
		for _, w := range info.words {
			if foldWords(w) == key {
				return Dimension(d), true
			}
		}
	}
	return 0, false
}

// Difference returns the dimension of the difference of two values of d: the
// difference of two temperatures is a temperature difference, of two volumes
// a volume.
func (d Dimension) Difference() Dimension {
	if d < dimensions && infos[d].point {
		return infos[d].interval
	}
	return d
}

// IsPoint reports whether values of d are places on a scale, such as
// temperatures, so that a difference of two has another dimension and a sum
// of two means nothing.
func (d Dimension) IsPoint() bool { return d < dimensions && infos[d].point }

// Add returns the dimension of a + b, and false where the sum means nothing.
func Add(a, b Dimension) (Dimension, bool) {
	switch {
	case a.IsPoint() && b == a.Difference():
		return a, true
	case b.IsPoint() && a == b.Difference():
		return b, true
	case a == b && !a.IsPoint():
		return a, true
	}
	return 0, false
}

// Sub returns the dimension of a - b, and false where the difference means
// nothing. Absolute less gauge pressure is refused: it is not a drop along a
// line but the air of the day, which is another question.
func Sub(a, b Dimension) (Dimension, bool) {
	switch {
	case a == b:
		return a.Difference(), true
	case a.IsPoint() && b == a.Difference():
		return a, true
	}
	return 0, false
}

// products lists a * b = product for dimensions met in this trade.
var products = []struct{ a, b, product Dimension }{
	{Volts, Amps, Power},
	{Amps, Ohms, Volts},
	{Amps, Time, Charge},
	{Charge, Volts, Energy},
	{Power, Time, Energy},
	{Flow, Time, Volume},
	{Density, Volume, Mass},
	{Speed, Time, Length},
}

// Mul returns the dimension of a * b, and false where the product is none of
// ours. A place on a scale may be multiplied by a plain number only when its
// zero is a true nothing, as for a speed or an absolute pressure.
func Mul(a, b Dimension) (Dimension, bool) {
	if scalar(a) && scalar(b) {
		if a == Ratio && b == Ratio {
			return Ratio, true
		}
		return Pure, true
	}
	if scalar(b) {
		return a, a.trueZero()
	}
	if scalar(a) {
		return b, b.trueZero()
	}
	for _, p := range products {
		if (p.a == a && p.b == b) || (p.a == b && p.b == a) {
			return p.product, true
		}
	}
	return 0, false
}

// Div returns the dimension of a / b, and false where the quotient is none of
// ours. Two of the same give a plain number; so does a change by its whole.
func Div(a, b Dimension) (Dimension, bool) {
	switch {
	case scalar(a) && scalar(b):
		return Pure, true
	case scalar(b):
		return a, a.trueZero()
	case a == b && a.trueZero(), b.trueZero() && b.IsPoint() && a == b.Difference():
		return Pure, true
	}
	for _, p := range products {
		if p.product == a && p.a == b {
			return p.b, true
		}
		if p.product == a && p.b == b {
			return p.a, true
		}
	}
	return 0, false
}

func scalar(d Dimension) bool { return d == Pure || d == Ratio }

// trueZero reports whether zero of d is nothing at all, so that twice a value
// means something.
func (d Dimension) trueZero() bool {
	return !d.IsPoint() || d == RotationalSpeed || d == AbsolutePressure || d == GaugePressure
}
