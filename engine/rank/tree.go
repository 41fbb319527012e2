package rank

import "slices"

// A tree sums the live states as a forest: every state hangs on the strongest of those
// that lead to it. States whose other leads matter most are cut: the sum
// is done once for each way they may be, and what a cut state leads to needs no
// edge. With enough cuts that is exact; with fewer, a lead that is left out is made up
// for by a leak as large as its chance. Observations that several states
// share are coordinates: a state's part of the sum is a vector over the sets of
// coordinates whose N is asked for, so that parts multiply term by term, and
// the factors flat + steep·N are put together at the end.
type tree struct {
	edges []edge
	links []link

	order  []int32 // live states in the order of being cut
	cut    []int32 // by live state: how many are cut when it is, from 1; 0 never
	hangs  []edge  // by live state: the one it hangs on, -1 none
	given  []float64
	up     []float64 // its chance where that one is there
	score  []float64
	pull   []float64 // by live state
	shown  []float64 // vectors, one after another: on, with its links
	on     []float64
	off    []float64
	all    []float64
	total  []float64
	don    []float64
	doff   []float64
	signs  []int32 // coordinates in the order of being kept
	spread []float64
}

// sum sums the scene with so many states cut and so many coordinates kept.
func (t *tree) sum(s *solver, cuts, keep int) float64 {
	k := len(s.live)
	t.choose(s, keep)
	size := 1 << keep
	t.vectors(s, keep)
	t.hangs, t.given, t.up = resized(t.hangs, k), resized(t.given, k), resized(t.up, k)
	t.on, t.off = sized(t.on, k*size), sized(t.off, k*size)
	t.all, t.total = sized(t.all, size), resized(t.total, size)
	for j := range s.live {
		t.hangs[j] = t.strongest(s, j, cuts)
	}
	for z := range 1 << cuts {
		t.prepare(s, z, cuts)
		t.pass(s, z, cuts, size)
		for i, x := range t.all {
			t.total[i] += x
		}
		if s.back {
			t.passBack(s, z, cuts, size)
		}
	}
	return contract(t.total, t.signs[:keep], s.coord)
}

// contract puts the factors of the coordinates together.
func contract(v []float64, signs []int32, coord []factor) float64 {
	for i := len(signs) - 1; i >= 0; i-- {
		f, half := coord[signs[i]], 1<<i
		lo, hi := v[:half], v[half:2*half]
		for j := range lo {
			lo[j] = f.flat*lo[j] + f.steep*hi[j]
		}
	}
	return v[0]
}

// sized returns a slice of length n, whatever is in it.
func sized(old []float64, n int) []float64 {
	if cap(old) < n {
		return make([]float64, n, n+n/2)
	}
	return old[:n]
}

// vectors writes what each state shows. A coordinate not kept goes to the
// one state that bears on it most, at the mean of what the others do.
func (t *tree) vectors(s *solver, keep int) {
	size := 1 << keep
	t.shown = sized(t.shown, len(s.live)*size)
	bit := func(obs int32) int { return slices.Index(t.signs[:keep], obs) }
	for j := range s.live {
		x := &s.live[j]
		h := t.shown[j*size : (j+1)*size]
		for i := range h {
			h[i] = 1
		}
		for _, l := range t.links[x.links:x.stop] {
			at := bit(l.obs)
			if at < 0 {
				continue
			}
			for i := range h {
				if i>>at&1 == 1 {
					h[i] *= l.left
				}
			}
		}
	}
	for _, obs := range t.signs[keep:] {
		t.give(s, obs)
	}
}

// prepare works out each state's chance with and without the one it hangs
// on, for one way the cut states may be.
func (t *tree) prepare(s *solver, z, cuts int) {
	for j := range s.live {
		x := &s.live[j]
		stays := 1 - x.given
		for _, e := range t.edges[x.edges:x.end] {
			switch c := int(t.cut[e.node]); {
			case c > 0 && c <= cuts:
				if z>>(c-1)&1 == 1 {
					stays *= 1 - e.s
				}
			case e.node != t.hangs[j].node:
				stays *= 1 - e.s*s.live[e.node].chance
			}
		}
		t.given[j] = 1 - stays
		t.up[j] = 1 - stays*(1-t.hangs[j].s)
	}
}

// ways returns the four chances that take a state's off and on to what the
// state it hangs on sees: without and with it, off and on.
func (t *tree) ways(j, z, cuts int) (g0, g1, u0, u1 float64) {
	g1, u1 = t.given[j], t.up[j]
	g0, u0 = 1-g1, 1-u1
	if c := int(t.cut[j]); c > 0 && c <= cuts {
		if z>>(c-1)&1 == 1 {
			g0, u0 = 0, 0
		} else {
			g1, u1 = 0, 0
		}
	}
	return g0, g1, u0, u1
}

// pass sums from the last state to the first.
func (t *tree) pass(s *solver, z, cuts, size int) {
	for j := range s.live {
		x := &s.live[j]
		on, off, h := t.on[j*size:(j+1)*size], t.off[j*size:(j+1)*size], t.shown[j*size:(j+1)*size]
		for i := range on {
			on[i] = x.on * h[i]
			off[i] = x.off
		}
	}
	all := t.all
	for i := range all {
		all[i] = 1
	}
	for j := len(s.live) - 1; j >= 0; j-- {
		on, off := t.on[j*size:(j+1)*size], t.off[j*size:(j+1)*size]
		g0, g1, u0, u1 := t.ways(j, z, cuts)
		p := int(t.hangs[j].node)
		if p < 0 {
			for i := range all {
				all[i] *= g0*off[i] + g1*on[i]
			}
			continue
		}
		pon, poff := t.on[p*size:(p+1)*size], t.off[p*size:(p+1)*size]
		for i := range pon {
			a, b := off[i], on[i]
			pon[i] *= u0*a + u1*b
			poff[i] *= g0*a + g1*b
		}
	}
}

// passBack goes from the first state to the last with the derivative of the sum,
// and adds up each state's part of it.
func (t *tree) passBack(s *solver, z, cuts, size int) {
	k := len(s.live)
	t.don, t.doff = sized(t.don, k*size), sized(t.doff, k*size)
	keep := len(t.signs)
	for 1<<keep != size {
		keep--
	}
	for j := range s.live {
		on, off := t.on[j*size:(j+1)*size], t.off[j*size:(j+1)*size]
		don, doff := t.don[j*size:(j+1)*size], t.doff[j*size:(j+1)*size]
		g0, g1, u0, u1 := t.ways(j, z, cuts)
		p := int(t.hangs[j].node)
		for i := range on {
			with, without := 0.0, 0.0
			if p < 0 {
				without = over(t.all[i]*t.coefficient(s, i, keep), g0*off[i]+g1*on[i])
			} else {
				with = over(t.don[p*size+i]*t.on[p*size+i], u0*off[i]+u1*on[i])
				without = over(t.doff[p*size+i]*t.off[p*size+i], g0*off[i]+g1*on[i])
			}
			don[i] = u1*with + g1*without
			doff[i] = u0*with + g0*without
			s.mass[j] += don[i] * on[i]
			s.absent[j] += doff[i] * off[i]
		}
	}
}

func over(a, b float64) float64 {
	if b == 0 {
		return 0
	}
	return a / b
}

// coefficient is the weight of one set of coordinates in the whole sum.
func (t *tree) coefficient(s *solver, set, keep int) float64 {
	w := 1.0
	for i, c := range t.signs[:keep] {
		if set>>i&1 == 1 {
			w *= s.coord[c].steep
		} else {
			w *= s.coord[c].flat
		}
	}
	return w
}
