package rank

import (
	"cmp"
	"slices"
)

// Vectors: for a first look at sets of two, each cause alone is summed once as a
// vector over the sets of axes, an axis being a true sign. Summed, entry T is the
// chance, relative to that of the empty set, of all that is known but the axes, and that
// what the axes of T want of each state is not there. From it come two
// vectors without a number below zero, which loses less in rounding: how
// likely the cause lights just the axes of T itself, and how likely it or a
// leak lights at least all the others. The likelihood of two causes together is then the
// product of the one vector of the first with the other of the second: exact
// where the causes share no state, near enough elsewhere.

// maxAxes is the most axes: a further one doubles the work.
const maxAxes = 8

// What is no axis: true signs beyond the most that are taken, and false ones that a
// broken instrument may have tossed, which are apart for the causes that break it alone.
const (
	apart  = -1
	tossed = -2
)

// axes are the true signs chosen, with what is needed to put vectors together.
type axes struct {
	obs    []int32
	others []int32   // what is no axis: taken sign by sign
	otherJ []int     // the same as places in sums.odd
	of     []int32   // by observation: axis + 1
	factor []factor  // of each axis that nothing bears on
	noise  float64   // below this a product is rounding
	lights []float64 // by cause: its vector of axes lit by itself
	leaves []float64 // by cause: its vector of the others lit by it or a leak
	none   []float64 // the empty set's vector as summed
	alone  []float64 // the empty set's of axes lit by itself
}

// choose picks the true signs that tell most: those with the smallest leaks.
func (x *axes) choose(s *sums) {
	v := s.v
	for j, i := range s.odd {
		if o := &v.obs[i]; o.truth && o.leak < 1 {
			x.obs = append(x.obs, i)
		} else {
			x.others, x.otherJ = append(x.others, i), append(x.otherJ, j)
		}
	}
	slices.SortStableFunc(x.obs, func(a, b int32) int { return cmp.Compare(v.obs[a].base, v.obs[b].base) })
	if len(x.obs) > maxAxes {
		for _, i := range x.obs[maxAxes:] {
			x.others = append(x.others, i)
			x.otherJ = append(x.otherJ, slices.Index(s.odd, i))
		}
		x.obs = x.obs[:maxAxes]
	}
	x.of = make([]int32, len(v.obs))
	for a, i := range x.obs {
		x.of[i] = int32(a) + 1
	}
	for _, i := range x.others {
		if x.of[i] = apart; !v.obs[i].truth {
			x.of[i] = tossed
		}
	}
	x.noise = 1e-14
	for _, i := range x.obs {
		f := v.obs[i].untouched()
		x.factor = append(x.factor, f)
		x.noise *= f.flat
	}
}

// untouched is the factor of a true sign that nothing bears on, its N being 1.
func (o *obs) untouched() factor {
	return o.factor(1-o.leak, coin{})
}

// newAxes chooses the axes and makes room for every cause's vector.
func (s *sums) newAxes() {
	x := &axes{}
	x.choose(s)
	size, k := 1<<len(x.obs), len(s.single)
	x.lights, x.leaves = make([]float64, k*size), make([]float64, k*size)
	x.none, x.alone = make([]float64, size), make([]float64, size)
	s.axes = x
}

// row returns a cause's two vectors.
func (x *axes) row(c int) (lights, leaves []float64) {
	size := len(x.none)
	return x.lights[c*size : (c+1)*size], x.leaves[c*size : (c+1)*size]
}

// vector writes the vector of the scene that is set, and says whether some
// dependence between its states was left out.
// Into held goes, by axis, how much likelier a sign that is spoken against is to
// want a cause.
func (x *axes) vector(v *view, s *solver, out []float64, held *[maxAxes]float64) (rough bool) {
	s.vector(len(x.obs), out)
	for a := range held {
		held[a] = 1
	}
	for k := range s.touched {
		t := &s.touched[k]
		if a := x.of[t.obs]; a > 0 {
			held[a-1] = x.own(v, t, out, int(a)-1)
		}
	}
	return s.rough
}

// split takes a vector as summed and makes the two vectors of it: the second
// into leaves, the first in its own place. The empty set's, by which one of two is divided, must
// stand.
func (x *axes) split(lights, leaves []float64, held *[maxAxes]float64) {
	for t, q := range lights {
		leaves[t] = over(q, x.none[t])
	}
	for a, f := range x.factor {
		each(lights, leaves, 1<<a, factor{f.flat, f.steep * held[a]})
	}
}

// each turns one axis of the two vectors: where it was not asked for and asked
// for stand not lit and lit by the cause itself; and lit by it or a leak, and no matter.
func each(lights, leaves []float64, half int, f factor) {
	for from := 0; from < len(lights); from += 2 * half {
		for t := from; t < from+half; t++ {
			free, asked := lights[t], lights[t+half]
			lights[t], lights[t+half] = asked, f.flat*(free-asked)
			free, asked = leaves[t], leaves[t+half]
			leaves[t], leaves[t+half] = f.flat*free+f.steep*asked, free
		}
	}
}

// value is the likelihood of a cause alone from its vector, and 0 where it would be
// lost in rounding.
func (x *axes) value(leaves []float64) float64 {
	sum := 0.0
	for t, p := range x.alone {
		sum += p * leaves[t]
	}
	if sum <= 1e8*x.noise {
		return 0
	}
	return sum
}

// own multiplies in what the set's own words and coins make of an axis beside
// its states. It returns what is left for the leak: how its being held back multiplies the
// factor of the axis.
func (x *axes) own(v *view, t *touch, out []float64, axis int) float64 {
	o := &v.obs[t.obs]
	f, held := o.untouched(), 1.0
	own := t.factor
	if t.held > 0 {
		leak := o.leak * (1 - (1-v.net.opts.LeakFraction)*t.held)
		own = o.factor(over(t.false, 1-leak)*(1-o.leak), t.coin)
		held = over(t.steep, own.steep)
	}
	flat, steep := over(own.flat, f.flat), over(own.steep, f.steep)
	if flat == 1 && steep == 1 {
		return held
	}
	for i := range out {
		if i>>axis&1 == 1 {
			out[i] *= steep
		} else {
			out[i] *= flat
		}
	}
	return held
}

// dots writes the products of four vectors with each of two.
func dots(a [4][]float64, p, q []float64) (x, y [4]float64) {
	a0, a1, a2, a3, q := a[0][:len(p)], a[1][:len(p)], a[2][:len(p)], a[3][:len(p)], q[:len(p)]
	var x0, x1, x2, x3, y0, y1, y2, y3 float64
	for i, u := range p {
		v, b0, b1, b2, b3 := q[i], a0[i], a1[i], a2[i], a3[i]
		x0 += b0 * u
		y0 += b0 * v
		x1 += b1 * u
		y1 += b1 * v
		x2 += b2 * u
		y2 += b2 * v
		x3 += b3 * u
		y3 += b3 * v
	}
	return [4]float64{x0, x1, x2, x3}, [4]float64{y0, y1, y2, y3}
}
