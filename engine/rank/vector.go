package rank

import (
	"cmp"
	"slices"
)

// Vectors: for a first look at sets of two, each cause alone is summed once as a vector
// over the sets of axes, an axis being a true sign. Entry T is the chance,
// relative to that of the empty set, of all that is known but the axes, and that what
// the axes of T want of each state is not there. The likelihood of two causes
// together is then one product of two vectors: exact where the causes share no
// state and each one's states form a tree, near enough elsewhere.

// maxAxes is the most axes: a further one doubles the work.
const maxAxes = 8

// axes are the true signs chosen, with what is needed to put vectors together.
type axes struct {
	obs    []int32
	others []int32 // true signs, and coins, that are no axis: taken sign by sign
	otherJ []int   // the same as places in sums.odd
	of     []int32 // by observation: axis + 1
	coef   []float64
	noise  float64   // below this a product is rounding
	rows   []float64 // by cause: its vector times the coefficients, over the empty set's
	plain  []float64 // by cause: its vector
	none   []float64 // the empty set's
	right  []float64 // by cause: what the sum of the cause alone makes of its vector
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
		x.of[i] = -1
	}
	x.coef = make([]float64, 1<<len(x.obs))
	x.coef[0], x.noise = 1, 1e-14
	for a, i := range x.obs {
		f := v.obs[i].untouched()
		for t := range 1 << a {
			x.coef[t|1<<a] = x.coef[t] * f.steep
			x.coef[t] *= f.flat
		}
		x.noise *= f.flat - f.steep
	}
}

// untouched is the factor of a true sign that nothing bears on, its N being 1.
func (o *obs) untouched() factor {
	f, _ := o.factor(1-o.leak, coin{})
	return f
}

// newAxes chooses the axes and makes room for every cause's vector.
func (s *sums) newAxes() {
	x := &axes{}
	x.choose(s)
	size, k := len(x.coef), len(s.single)
	x.rows, x.plain, x.right = make([]float64, k*size), make([]float64, k*size), make([]float64, k)
	x.none = make([]float64, size)
	s.axes = x
}

// row returns a cause's vector, and the same weighed by the coefficients.
func (x *axes) row(c int) (plain, row []float64) {
	size := len(x.coef)
	return x.plain[c*size : (c+1)*size], x.rows[c*size : (c+1)*size]
}

// vector writes the vector of the scene that is set, and says whether some
// dependence between its states was left out.
func (x *axes) vector(v *view, s *solver, out []float64) (rough bool) {
	s.live, s.folded, s.coord = s.live[:0], s.folded[:0], s.coord[:0]
	scale := s.scale * s.fold()
	s.coordinates()
	for i, q := range s.tree.vector(s, len(x.obs)) {
		out[i] = scale * q
	}
	for k := range s.touched {
		t := &s.touched[k]
		if a := x.of[t.obs]; a > 0 {
			x.own(v, t, out, int(a)-1)
		}
	}
	for _, l := range s.live {
		rough = rough || l.end-l.edges > 1
	}
	return rough
}

// value puts the factors of the axes to a vector, and the weighed vector into row; none is
// the vector of the empty set, by which one of two is divided. It is 0 where it
// would be lost in rounding.
func (x *axes) value(plain, row []float64) float64 {
	sum := 0.0
	for t, q := range plain {
		row[t] = over(x.coef[t]*q, x.none[t])
		sum += x.coef[t] * q
	}
	if sum <= x.noise {
		return 0
	}
	return sum
}

// own multiplies in what the set's own words, nevers and coins make of an
// axis beside its states.
func (x *axes) own(v *view, t *touch, out []float64, axis int) {
	f := v.obs[t.obs].untouched()
	flat, steep := over(t.flat, f.flat), over(t.steep, f.steep)
	if flat == 1 && steep == 1 {
		return
	}
	for i := range out {
		if i>>axis&1 == 1 {
			out[i] *= steep
		} else {
			out[i] *= flat
		}
	}
}

// vector sums the live states without cutting any, as a vector over all axes.
func (t *tree) vector(s *solver, axes int) []float64 {
	k, size := len(s.live), 1<<axes
	t.signs = t.signs[:0]
	for i := range axes {
		t.signs = append(t.signs, int32(i))
	}
	t.cut = resized(t.cut, k)
	t.vectors(s, axes)
	t.hangs, t.given, t.up = resized(t.hangs, k), resized(t.given, k), resized(t.up, k)
	t.on, t.off, t.all = sized(t.on, k*size), sized(t.off, k*size), sized(t.all, size)
	for j := range s.live {
		t.hangs[j] = t.strongest(s, j, 0)
	}
	t.prepare(s, 0, 0)
	t.pass(s, 0, 0, size)
	return t.all
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
