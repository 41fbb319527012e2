package condition

import (
	"sync"

	"snagwise/engine/quantity"
)

// A maker is a unit as it is written in a condition: psi(8) is a quantity.
type maker struct{ word, unit string }

// makers lists the unit makers. Their places are part of the compiled form:
// add at the end.
var makers = []maker{
	{"psi", "psi"}, {"psi_absolute", "psi absolute"}, {"psi_gauge", "psi gauge"}, {"psi_difference", "psi difference"},
	{"bar", "bar"}, {"bar_absolute", "bar absolute"}, {"bar_gauge", "bar gauge"}, {"bar_difference", "bar difference"},
	{"kPa", "kPa"}, {"kPa_absolute", "kPa absolute"}, {"kPa_difference", "kPa difference"},
	{"hPa", "hPa"}, {"mbar", "mbar"}, {"Pa", "Pa"},
	{"inHg", "inHg"}, {"inHg_gauge", "inHg gauge"}, {"inHg_difference", "inHg difference"}, {"inHg_absolute", "inHg absolute"},
	{"mmHg", "mmHg"}, {"inH2O", "inH2O"}, {"lb_boost", "lb boost"},
	{"degC", "degC"}, {"degC_difference", "degC difference"}, {"degF", "degF"}, {"degF_difference", "degF difference"}, {"K", "K"},
	{"rpm", "rpm"}, {"rev_per_s", "rev/s"},
	{"V", "V"}, {"mV", "mV"}, {"kV", "kV"}, {"A", "A"}, {"mA", "mA"}, {"A_min", "A min"}, {"Ah", "Ah"},
	{"ohm", "ohm"}, {"ohms", "ohm"}, {"kohm", "kohm"}, {"Mohm", "Mohm"},
	{"L", "L"}, {"mL", "mL"}, {"imperial_gal", "imperial gal"}, {"US_gal", "US gal"},
	{"imperial_pt", "imperial pt"}, {"US_qt", "US qt"},
	{"L_per_h", "L/h"}, {"L_per_min", "L/min"}, {"imperial_gal_per_h", "imperial gal/h"}, {"US_gal_per_h", "US gal/h"}, {"m3_per_s", "m3/s"},
	{"seconds", "s"}, {"minutes", "min"}, {"hours", "h"}, {"days", "days"}, {"weeks", "weeks"}, {"milliseconds", "ms"},
	{"mm", "mm"}, {"inches", "in"}, {"thou", "thou"}, {"cm", "cm"}, {"metres", "m"}, {"feet", "ft"},
	{"percent", "percent"}, {"degrees", "deg"}, {"turns", "turns"},
	{"kg", "kg"}, {"grams", "g"}, {"lb", "lb"}, {"kg_per_L", "kg/L"}, {"kg_per_m3", "kg/m3"},
	{"knots", "knots"}, {"mph", "mph"}, {"m_per_s", "m/s"}, {"cSt", "cSt"}, {"N_m", "N m"}, {"lb_ft", "lb ft"},
	{"kW", "kW"}, {"hp", "hp"}, {"W", "W"}, {"J", "J"}, {"kJ", "kJ"},
}

// dimCount is one more than the highest dimension.
var dimCount = len(quantity.Dimensions())

// makerIndex gives a maker's place, from 1.
var makerIndex = func() map[string]uint8 {
	index := make(map[string]uint8, len(makers))
	for i, m := range makers {
		index[m.word] = uint8(i + 1)
	}
	return index
}()

// made is what a maker can make: its unit for each dimension it serves, the
// usual dimension first.
type made struct {
	dims  []quantity.Dimension
	units []*quantity.Unit
}

// makerUnits is indexed by a maker's place, from 1. It is looked up once, when
// first needed: a program that loads compact conditions need not.
var makerUnits = sync.OnceValue(func() []made {
	all := make([]made, len(makers)+1)
	for i, m := range makers {
		for _, d := range quantity.Serves(m.unit) {
			if u, ok := quantity.UnitFor(m.unit, d); ok {
				all[i+1].dims = append(all[i+1].dims, d)
				all[i+1].units = append(all[i+1].units, u)
			}
		}
	}
	return all
})

// unitOf returns the unit that a maker stands for in a dimension, or nil.
func unitOf(m uint8, d quantity.Dimension) *quantity.Unit {
	all := makerUnits()[m]
	for i, has := range all.dims {
		if has == d {
			return all.units[i]
		}
	}
	return nil
}

// makerFor returns a maker that serves a dimension, first the one given.
func makerFor(d quantity.Dimension, first uint8) uint8 {
	if unitOf(first, d) != nil {
		return first
	}
	for i := range makers {
		if dims := makerUnits()[i+1].dims; len(dims) > 0 && dims[0] == d {
			return uint8(i + 1)
		}
	}
	for i := range makers {
		if unitOf(uint8(i+1), d) != nil {
			return uint8(i + 1)
		}
	}
	return 0
}

// A dims is a set of dimensions that a number may have: a reading has one, but
// psi(8) may be a gauge pressure, an absolute one or a difference, until what
// it is compared with decides.
type dims uint64

func only(d quantity.Dimension) dims { return 1 << d }

func (s dims) has(d quantity.Dimension) bool { return s&only(d) != 0 }

// one returns the dimension when there is just one.
func (s dims) one() (quantity.Dimension, bool) {
	return s.first(), s != 0 && s&(s-1) == 0
}

func (s dims) first() quantity.Dimension {
	for d := range dimCount {
		if s.has(quantity.Dimension(d)) {
			return quantity.Dimension(d)
		}
	}
	return quantity.Pure
}

// String names the dimensions of the set.
func (s dims) String() string {
	text := ""
	for d := range dimCount {
		if s.has(quantity.Dimension(d)) {
			if text != "" {
				text += " or "
			}
			text += quantity.Dimension(d).String()
		}
	}
	return text
}

// combine returns what a and b may be together under a rule such as
// quantity.Add, and which dimensions of each take part.
func combine(a, b dims, rule func(a, b quantity.Dimension) (quantity.Dimension, bool)) (result, fromA, fromB dims) {
	for x := range dimCount {
		for y := range dimCount {
			dx, dy := quantity.Dimension(x), quantity.Dimension(y)
			if !a.has(dx) || !b.has(dy) {
				continue
			}
			if d, ok := rule(dx, dy); ok {
				result |= only(d)
				fromA |= only(dx)
				fromB |= only(dy)
			}
		}
	}
	return result, fromA, fromB
}
