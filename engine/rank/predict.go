package rank

import (
	"math"
	"slices"
	"sync"
)

// A forecast holds what is needed to predict signs: how likely each state is
// in each kept set, worked out when first asked for.
type forecast struct {
	once   sync.Once
	states [][]float64 // by set and place
	causes [][]int32   // by set
}

// Predict returns, for each set in [Result.Sets], the chance that the sign is
// there given the set and all that is known. A known sign has chance 1 or 0.
//
// With at most 60 causes in the net the chance is exact. Beyond, every state has its chance
// given all that is known, and the states that show the sign are taken as
// independent of each other then: off by up to .08 in trials. A sign known with a weight below 1 is
// predicted like one not known.
func (r *Result) Predict(sign int) []float64 {
	out := make([]float64, len(r.Sets))
	if sign < 0 || sign >= len(r.view.net.leak) {
		return out
	}
	if truth, known := r.settles(int32(sign)); known {
		for i := range out {
			out[i] = float64(b2i(truth))
		}
		return out
	}
	if _, soft := r.view.find(int32(sign)); len(r.singles) <= 60 && !soft {
		r.predictExactly(sign, out)
		return out
	}
	r.forecast.once.Do(r.foresee)
	members := r.members(int32(sign))
	for i := range out {
		out[i] = r.view.shows(int32(sign), members, r.forecast.causes[i], r.forecast.states[i])
	}
	return out
}

// settles says whether what is known settles the sign.
func (r *Result) settles(sign int32) (truth, known bool) {
	if k, ok := r.view.find(sign); ok && k.Weight == 1 {
		return k.True, true
	}
	under := r.view.net.under[sign]
	if slices.ContainsFunc(under, func(f int32) bool { return r.view.knownTrue(f) }) {
		return true, true
	}
	for _, k := range r.view.told { // a vague sign that is not there denies what it covers
		if !k.True && k.Weight == 1 && slices.Contains(r.view.net.under[k.Sign], sign) {
			return false, true
		}
	}
	return false, false
}

// members are the plain signs that stand behind a sign and are not known to
// be false.
func (r *Result) members(sign int32) []int32 {
	covers := r.view.net.covers[sign]
	if len(covers) == 0 {
		return []int32{sign}
	}
	var out []int32
	for _, f := range covers {
		if truth, known := r.settles(f); !known || truth {
			out = append(out, f)
		}
	}
	return out
}

// predictExactly takes the ratio of likelihoods with and without the sign.
func (r *Result) predictExactly(sign int, out []float64) {
	e := r.evidence
	e.Signs = append(slices.Clip(e.Signs), Known{Sign: sign, True: true})
	more := r.view.net.viewOf(e)
	scale := math.Exp(more.logBase() - r.view.logBase())
	w, u := newWorker(r.view), newWorker(more)
	for i, s := range r.Sets {
		set := s.members()
		_, gone, _ := r.view.combined(w, set, r.view.likelihood(w, set, nil))
		var still []int32
		for _, g := range gone {
			if at, ok := more.obsOf(r.view.obs[g].sign); ok {
				still = append(still, at)
			}
		}
		out[i] = min(1, scale*over(more.likelihood(u, set, still), r.view.likelihood(w, set, gone)))
	}
}

// logBase is the natural logarithm of what likelihoods are relative to.
func (v *view) logBase() float64 {
	sum := 0.0
	for _, o := range v.obs {
		if o.base > 0 {
			sum += math.Log(o.base)
		}
	}
	return sum
}

func (s Set) members() []int32 {
	out := make([]int32, len(s.Causes))
	for i, c := range s.Causes {
		out[i] = int32(c)
	}
	return out
}

// foresee works out the chance of every state in every kept set.
func (r *Result) foresee() {
	v := r.view
	f := r.forecast
	f.states, f.causes = make([][]float64, len(r.Sets)), make([][]int32, len(r.Sets))
	v.each(len(r.Sets), func(w *worker, i int) {
		f.causes[i] = r.Sets[i].members()
		f.states[i] = v.present(w, f.causes[i])
	})
}

// present returns the chance of every state, by place, given a set and all that is known.
func (v *view) present(w *worker, set []int32) []float64 {
	n := v.net
	var gone []int32
	if len(v.holding) > 0 {
		_, gone, _ = v.combined(w, set, v.likelihood(w, set, nil))
	}
	s := w.solver
	s.back = true
	s.set(v, set, gone)
	if s.sum() > 0 {
		w.nodes = s.present(w.nodes)
	} else {
		w.nodes = resized(w.nodes, len(s.node))
		for i := range s.node {
			w.nodes[i] = s.node[i].chance
		}
	}
	s.back = false
	out := make([]float64, len(n.state))
	given := make([]float64, len(n.state))
	for _, c := range set {
		for _, g := range n.gives[c] {
			given[g.to] = 1 - (1-given[g.to])*(1-g.s)
		}
	}
	for at := range out {
		if k := s.at[at]; k > 0 {
			out[at] = w.nodes[k-1]
			continue
		}
		stays := (1 - given[at]) * (1 - n.sleak[at])
		for _, p := range n.parents[at] {
			if q := out[p.to]; q > 0 {
				stays *= 1 - p.s*q
			}
		}
		out[at] = 1 - stays
	}
	s.clear()
	return out
}

// shows returns the chance of a sign from the chances of the states.
func (v *view) shows(sign int32, members, set []int32, states []float64) float64 {
	n := v.net
	leak := n.leak[sign]
	var k coin
	for _, c := range set {
		for _, h := range n.held[c] {
			if h.to == sign {
				leak = min(leak, n.leak[sign]*(1-(1-n.opts.LeakFraction)*h.s))
			}
		}
		for _, x := range n.coins[c] {
			if x.sign == sign && (x.share > k.share || x.share == k.share && x.p > k.p) {
				k = x
			}
		}
	}
	q := 1 - leak
	for _, f := range members {
		for _, c := range set {
			if n.hasWord[c].has(f) {
				q *= 1 - n.wordOf(c, f)
			}
		}
		for _, t := range n.shownBy[f] {
			if p := states[t.to]; p > 0 {
				q *= 1 - p*t.s*n.others(set, t.to, f)
			}
		}
	}
	return k.share*k.p + (1-k.share)*(1-q)
}

// leakReaches says whether the state may be there by itself.
func (n *Net) leakReaches(at int32) bool { return n.selfMade.has(at) }

func (n *Net) wordOf(c, sign int32) float64 {
	i, _ := slices.BinarySearchFunc(n.words[c], sign, func(w word, s int32) int { return int(w.sign) - int(s) })
	return n.words[c][i].s
}
