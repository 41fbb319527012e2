package rank

import (
	"cmp"
	"math"
	"slices"
)

// setBearing notes which state bears on which observation, and which states
// lead to one that does.
func (v *view) setBearing() {
	n := v.net
	v.byState = make([][]tie, len(n.state))
	v.bearing = make([]bool, len(n.state))
	for i := range v.obs {
		for _, f := range v.obs[i].members {
			for _, t := range n.shownBy[f] {
				at := t.to
				if k := len(v.byState[at]); k > 0 && v.byState[at][k-1].to == int32(i) {
					last := &v.byState[at][k-1]
					last.s = 1 - (1-last.s)*(1-t.s)
				} else {
					v.byState[at] = append(v.byState[at], tie{int32(i), t.s})
				}
				v.bearing[at] = true
			}
		}
	}
	for at := range v.byState {
		for i := range v.byState[at] {
			t := &v.byState[at][i]
			t.s = 1 - v.obs[t.to].tempered(1-t.s)
		}
	}
	for at := len(n.state) - 1; at >= 0; at-- {
		if !v.bearing[at] {
			continue
		}
		for _, p := range n.parents[at] {
			v.bearing[p.to] = true
		}
	}
	for _, at := range n.leaky {
		if v.bearing[at] {
			v.leaky = append(v.leaky, at)
		}
	}
}

// setCauses picks, for each cause, its own words, its nevers and its coins on what
// is known.
func (v *view) setCauses() {
	n := v.net
	k := len(n.odds)
	v.over, v.held, v.coins = make([][]ownSay, k), make([][]tie, k), make([][]coin, k)
	about := v.index()
	for c := range k {
		for _, w := range n.words[c] {
			for _, i := range about.of(w.sign) {
				v.over[c] = append(v.over[c], ownSay{i, 1 - w.s})
			}
		}
		for _, h := range n.held[c] {
			if i, ok := v.obsOf(h.to); ok {
				v.held[c] = append(v.held[c], tie{i, h.s})
			}
		}
		for _, t := range n.coins[c] {
			if i, ok := v.obsOf(t.sign); ok {
				v.coins[c] = append(v.coins[c], coin{i, t.p, t.share})
			}
			for _, i := range about.of(t.sign) {
				if v.obs[i].sign != t.sign {
					v.over[c] = append(v.over[c], ownSay{i, 1 - t.p*t.share})
				}
			}
		}
		v.over[c] = joined(v.over[c])
		for i := range v.over[c] {
			o := &v.over[c][i]
			o.false = v.obs[o.obs].tempered(o.false)
		}
	}
}

// joined multiplies the words of one cause on one observation.
func joined(list []ownSay) []ownSay {
	if len(list) < 2 {
		return list
	}
	slices.SortStableFunc(list, func(a, b ownSay) int { return cmp.Compare(a.obs, b.obs) })
	out := list[:1]
	for _, o := range list[1:] {
		if last := &out[len(out)-1]; last.obs == o.obs {
			last.false *= o.false
		} else {
			out = append(out, o)
		}
	}
	return out
}

// obsOf returns the observation that is the sign itself.
func (v *view) obsOf(sign int32) (int32, bool) {
	i, ok := slices.BinarySearchFunc(v.obs, sign, func(o obs, s int32) int { return cmp.Compare(o.sign, s) })
	return int32(i), ok
}

// An index finds the observations a sign stands behind.
type index struct {
	start []int32
	list  []int32
}

func (x index) of(sign int32) []int32 { return x.list[x.start[sign]:x.start[sign+1]] }

func (v *view) index() index {
	x := index{start: make([]int32, len(v.net.leak)+2)}
	for _, o := range v.obs {
		for _, f := range o.members {
			x.start[f+2]++
		}
	}
	for i := 2; i < len(x.start); i++ {
		x.start[i] += x.start[i-1]
	}
	x.list = make([]int32, x.start[len(x.start)-1])
	for i, o := range v.obs {
		for _, f := range o.members {
			x.list[x.start[f+1]] = int32(i)
			x.start[f+1]++
		}
	}
	return x
}

// setAdjust adds up what moves the odds of each cause before any sign.
func (v *view) setAdjust(e Evidence) {
	n := v.net
	k := len(n.odds)
	v.adjust, v.odds, v.lines = make([]float64, k), make([]float64, k), make([][]Line, k)
	add := func(c, label int, log float64) {
		if log != 0 {
			v.lines[c] = append(v.lines[c], Line{Kind: Adjusted, ID: label, Points: log})
		}
	}
	for _, a := range e.Adjust {
		if a.Cause >= 0 && a.Cause < k {
			add(a.Cause, a.Label, a.Log)
		}
	}
	for _, t := range e.Tellings {
		n.spread(t, func(c int, log float64) { add(c, t.Label, log) })
	}
	for c := range k {
		sum := 0.0
		slices.SortFunc(v.lines[c], func(a, b Line) int { return cmp.Or(cmp.Compare(a.ID, b.ID), cmp.Compare(a.Points, b.Points)) })
		for _, l := range v.lines[c] {
			sum += l.Points
		}
		v.adjust[c] = max(-maxAdjust, min(maxAdjust, sum))
		v.odds[c] = n.odds[c] * math.Exp(v.adjust[c])
		for i := range v.lines[c] { // lines shrink alike where the bound bites
			if v.lines[c][i].Points *= points; v.adjust[c] != sum {
				v.lines[c][i].Points *= v.adjust[c] / sum
			}
		}
	}
}

// points turns a natural logarithm of a ratio into points: ten for ten times.
const points = 10 / math.Ln10

// spread carries a telling from the causes and states it names to every cause.
func (n *Net) spread(t Telling, add func(c int, log float64)) {
	if len(t.States) == 0 {
		for _, r := range t.Causes {
			if r.ID >= 0 && r.ID < len(n.odds) {
				add(r.ID, r.Log)
			}
		}
		return
	}
	own := make(map[int]float64, len(t.Causes))
	for _, r := range t.Causes {
		own[r.ID] = r.Log
	}
	said := make([]float64, len(n.state))
	for _, r := range t.States {
		if r.ID >= 0 && r.ID < len(said) {
			said[n.place[r.ID]] = r.Log
		}
	}
	for c := range n.odds {
		if log, ok := own[c]; ok {
			add(c, log)
			continue
		}
		best := 0.0
		for _, r := range n.reach[c] {
			log := said[r.to]
			if log == 0 || log < 0 && r.s < n.opts.Sure && !hasTie(n.gives[c], r.to) {
				continue
			}
			// What one of its states makes likely is not undone by another of
			// them: a cause shows itself now in one way, now in another.
			log = math.Log1p(r.s * math.Expm1(log))
			switch {
			case log > 0:
				best = max(best, log)
			case best <= 0:
				best = min(best, log)
			}
		}
		add(c, best)
	}
}
