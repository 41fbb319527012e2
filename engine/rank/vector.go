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
	noise  float64 // below this a product is rounding
	rows   []float64
	plain  []float64
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

// vectors fills in the vectors of every cause, and how far off they are.
func (s *sums) vectors() *axes {
	x := &axes{}
	x.choose(s)
	size := len(x.coef)
	k := len(s.single)
	x.rows, x.plain, x.right = make([]float64, k*size), make([]float64, k*size), make([]float64, k)
	w := newWorker(s.v)
	none := make([]float64, size)
	x.vector(s.v, w, nil, none)
	s.v.each(k, quick, func(w *worker, c int) {
		row, plain := x.rows[c*size:(c+1)*size], x.plain[c*size:(c+1)*size]
		set := [1]int32{int32(c)}
		x.vector(s.v, w, set[:], plain)
		sum := 0.0
		for t, q := range plain {
			row[t] = over(x.coef[t]*q, none[t])
			sum += x.coef[t] * q
		}
		for _, j := range x.otherJ {
			sum *= s.single[c].seen[j]
		}
		x.right[c] = 1
		if sum > x.noise && s.single[c].with > 0 {
			x.right[c] = s.single[c].with / sum
		}
	})
	return x
}

// vector writes the vector of a set.
func (x *axes) vector(v *view, w *worker, set []int32, out []float64) {
	s := w.solver
	s.axis = x.of
	s.set(v, set, x.others)
	s.live, s.folded, s.coord = s.live[:0], s.folded[:0], s.coord[:0]
	scale := s.scale * s.fold()
	s.coordinates()
	copyTo(out, scale, s.tree.vector(s, len(x.obs)))
	for k := range s.touched {
		t := &s.touched[k]
		if a := x.of[t.obs]; a > 0 {
			x.own(v, t, out, int(a)-1)
		}
	}
	s.clear()
	s.axis = nil
}

func copyTo(out []float64, scale float64, v []float64) {
	for i := range out {
		out[i] = scale * v[i]
	}
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

// dot4 returns four products of vectors with q.
func dot4(a, b, c, d, q []float64) (w, x, y, z float64) {
	a, b, c, d = a[:len(q)], b[:len(q)], c[:len(q)], d[:len(q)]
	for i, v := range q {
		w += a[i] * v
		x += b[i] * v
		y += c[i] * v
		z += d[i] * v
	}
	return w, x, y, z
}
