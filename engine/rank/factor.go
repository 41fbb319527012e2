package rank

import (
	"math"
	"slices"
)

// leftAfterWords is what a state leaves of an observation when a member that reaches
// it has a word on some sign behind the observation.
func (v *view) leftAfterWords(o *obs, x *node, set []int32) float64 {
	left := 1.0
	for _, t := range v.net.shows[x.state] {
		if slices.Contains(o.members, t.to) {
			left *= 1 - t.s*v.net.others(set, x.state, t.to)
		}
	}
	return o.tempered(left)
}

// others is the part in which a state shows a sign for a set: a member's own word takes
// the place of what comes through its states, so that a state shows the sign in the part in
// which the other members bring it about, by how strongly each reaches it. What no
// member reaches, or a leak may, shows it altogether.
func (n *Net) others(set []int32, at, sign int32) float64 {
	stays, spoken := 1.0, 1.0 // not by the others, not by those with a word
	for _, c := range set {
		if !n.reached[c].has(at) {
			continue
		}
		if s := n.reachOf(c, at); n.hasWord[c].has(sign) {
			spoken *= 1 - s
		} else {
			stays *= 1 - s
		}
	}
	if spoken == 1 || n.leakReaches(at) {
		return 1
	}
	return (1 - stays) / (1 - stays*spoken)
}

func (n *Net) reachOf(c, at int32) float64 {
	i, _ := slices.BinarySearchFunc(n.reach[c], at, func(t tie, to int32) int { return int(t.to) - int(to) })
	return n.reach[c][i].s
}

// settle works out the factor of each observation, relative to that of the
// empty set, and hands those that one state alone decides to that state.
func (s *scene) settle(v *view) {
	for _, i := range v.zero {
		if s.seen[i] == 0 && !s.gone[i] && !s.onAxis(i) {
			s.scale = 0
		}
	}
	for k := range s.touched {
		t := &s.touched[k]
		o := &v.obs[t.obs]
		leak := o.leak
		if t.held > 0 {
			leak *= 1 - (1-v.net.opts.LeakFraction)*t.held
		}
		if stays := 1 - leak; o.truth {
			t.false *= stays
		} else if t.held > 0 {
			t.false *= temper(false, stays, o.weight)
		} else {
			t.false *= o.base
		}
		t.factor = o.factor(t.false, t.coin)
		if t.times == 0 && !s.onAxis(t.obs) {
			s.scale *= t.flat + t.steep
		}
	}
	for i := range s.node {
		x := &s.node[i]
		for j := x.links; j < x.stop; j++ {
			l := &s.links[j]
			t := &s.touched[s.seen[l.obs]-1]
			o := &v.obs[l.obs]
			if o.truth && o.weight != 1 {
				l.left = o.soften(l.left, t.false)
			}
			switch {
			case s.onAxis(l.obs):
			case t.flat == 0:
				x.on *= l.left
			case t.times == 1:
				x.off *= t.flat + t.steep
				x.on *= t.flat + t.steep*l.left
			}
		}
	}
	for k := range s.touched {
		if t := &s.touched[k]; t.times > 0 && t.flat == 0 && !s.onAxis(t.obs) {
			s.scale *= t.steep
		}
	}
}

// onAxis says whether an observation is an axis, or left to others, so that no
// factor of it belongs to this sum.
func (s *scene) onAxis(obs int32) bool {
	if s.axis == nil || s.axis[obs] == 0 {
		return false
	}
	return s.axis[obs] != tossed || s.seen[obs] > 0 && s.touched[s.seen[obs]-1].coin.share > 0
}

// temper returns the chance that a sign whose chance of being false is f is
// as told, raised to the weight.
func temper(truth bool, f, weight float64) float64 {
	if truth {
		f = 1 - f
	}
	if weight == 1 {
		return f
	}
	return math.Pow(f, weight)
}

// soften returns what a state leaves of N for a true sign of less than full
// weight: exact where one state shows the sign, a noisy-OR of such beyond.
func (o *obs) soften(left, f float64) float64 {
	none := 1 - temper(true, f, o.weight)
	if none == 0 {
		return 1
	}
	return (1 - temper(true, f*left, o.weight)) / none
}

// tempered returns a factor of the chance that a sign is false, raised to the
// weight if it was told to be false: all such factors can be raised one by one.
func (o *obs) tempered(f float64) float64 {
	if o.truth {
		return f
	}
	return temper(false, f, o.weight)
}

func over(a, b float64) float64 {
	if b == 0 {
		return 0
	}
	return a / b
}
