package rank

import "slices"

// Evidence is what is known on one sheet. What is not in it is unknown and
// has no weight at all. The order of its lists does not matter.
type Evidence struct {
	Signs    []Known
	Patterns []int // patterns that hold
	Adjust   []Adjustment
	Tellings []Telling
}

// Known is a sign known to be there or not to be there.
type Known struct {
	Sign int
	True bool
	// Weight tempers what is only half known: the likelihood is raised to
	// it. 0 is taken as 1; a thing merely said to be normal may have .5.
	Weight float64
	// Without are signs that a vague one covers and cannot mean here, such as
	// what is met in another phase. They stay open to all others.
	Without []int
}

// An Adjustment moves the log-odds of one cause before any sign is looked at.
// Label is the caller's, to tell the ledger's lines apart.
type Adjustment struct {
	Label, Cause int
	Log          float64 // natural logarithm of the ratio
}

// A Telling is the outcome of a trial, or a course: how much likelier it is
// told of some causes and states than of all that are not named. A cause takes
// its own word; else the strongest of those of the states it reaches, taken at
// how surely it reaches them. A word against a state counts only for causes that
// give it or reach it at [Options.Sure], and not where another of their states is
// spoken for.
type Telling struct {
	Label  int
	Causes []Ratio
	States []Ratio
}

// A Ratio is the natural logarithm of a likelihood ratio for a cause or
// state.
type Ratio struct {
	ID  int
	Log float64
}

// maxAdjust is the most that all adjustments together may move the log-odds
// of one cause.
const maxAdjust = 5

// An obs is one sign known, ready for summing: it is false with chance
// (1-leak) times one minus each strength that bears on it.
type obs struct {
	sign    int32
	truth   bool
	weight  float64
	members []int32 // plain signs that stand behind it, itself unless vague
	leak    float64
	base    float64 // its chance when nothing bears on it
}

// A view is a net with one sheet's evidence laid over it.
type view struct {
	net     *Net
	obs     []obs
	byState [][]tie    // observations that a state shows, by place
	bearing []bool     // states that bear on an observation, by place
	leaky   []int32    // states that bear on one and are there by themselves
	over    [][]ownSay // by cause: observations it has a word on
	held    [][]tie
	coins   [][]coin // sign is the observation here
	zero    []int32  // observations impossible unless something bears on them
	holding []holding
	adjust  []float64 // by cause: all adjustments, held within bounds
	odds    []float64 // by cause: prior odds, adjusted
	lines   [][]Line  // by cause: the adjustments one by one
	told    []Known   // signs as counted, sorted
	dropped []Known   // signs told twice
}

// ownSay is a cause's own word on an observation: false is the chance that
// its words leave it false.
type ownSay struct {
	obs   int32
	false float64
}

// viewOf lays the evidence over the net.
func (n *Net) viewOf(e Evidence) *view {
	v := &view{net: n}
	v.setKnown(e.Signs)
	v.setObs()
	v.setBearing()
	v.setCauses()
	v.setHolding(e.Patterns)
	v.setAdjust(e)
	return v
}

// setKnown sorts the signs, joins doubles and drops what is told twice. Of a
// sign told both ways the two cancel out.
func (v *view) setKnown(signs []Known) {
	list := make([]Known, 0, len(signs))
	for _, k := range signs {
		if k.Sign < 0 || k.Sign >= len(v.net.leak) {
			continue
		}
		if k.Weight <= 0 {
			k.Weight = 1
		}
		list = append(list, k)
	}
	slices.SortFunc(list, func(a, b Known) int {
		if a.Sign != b.Sign {
			return a.Sign - b.Sign
		}
		switch {
		case a.Weight > b.Weight:
			return -1
		case a.Weight < b.Weight:
			return 1
		}
		return 0
	})
	told := map[int]int{} // 1 true, 2 false, 3 both
	for _, k := range list {
		told[k.Sign] |= 2 - b2i(k.True)
	}
	for i, k := range list {
		if told[k.Sign] == 3 || i > 0 && list[i-1].Sign == k.Sign {
			v.dropped = append(v.dropped, k)
			continue
		}
		if k.True && slices.ContainsFunc(v.net.under[k.Sign], func(f int32) bool { return told[int(f)] == 1 }) {
			v.dropped = append(v.dropped, k) // a covered sign tells it more exactly
			continue
		}
		v.told = append(v.told, k)
	}
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// setObs turns signs into observations. What is known false, by itself or
// through a vague sign, is taken out of every other cover.
func (v *view) setObs() {
	n := v.net
	denied := newBits(len(n.leak))
	for _, k := range v.told {
		if !k.True {
			denied.set(int32(k.Sign))
		}
	}
	for _, k := range v.told { // what a vague sign denies, it denies for the true ones
		if !k.True && len(n.under[k.Sign]) > 0 {
			for _, f := range n.under[k.Sign] {
				if !v.knownTrue(f) {
					denied.set(f)
				}
			}
		}
	}
	claimed := newBits(len(n.leak)) // members already denied by an earlier vague sign
	for _, k := range v.told {
		o := obs{sign: int32(k.Sign), truth: k.True, weight: k.Weight, leak: n.leak[k.Sign], members: []int32{int32(k.Sign)}}
		if len(n.covers[k.Sign]) > 0 {
			o.members = nil
			for _, f := range n.covers[k.Sign] {
				if k.True && (denied.has(f) || slices.Contains(k.Without, int(f))) || !k.True && (v.isTold(f) || claimed.has(f)) {
					continue
				}
				if !k.True {
					claimed.set(f)
				}
				o.members = append(o.members, f)
			}
		}
		o.base = temper(o.truth, 1-o.leak, o.weight)
		if o.base == 0 {
			v.zero = append(v.zero, int32(len(v.obs)))
		}
		v.obs = append(v.obs, o)
	}
}

func (v *view) find(sign int32) (Known, bool) {
	i, ok := slices.BinarySearchFunc(v.told, int(sign), func(k Known, s int) int { return k.Sign - s })
	if !ok {
		return Known{}, false
	}
	return v.told[i], true
}

func (v *view) knownTrue(sign int32) bool {
	k, ok := v.find(sign)
	return ok && k.True
}

func (v *view) isTold(sign int32) bool {
	_, ok := v.find(sign)
	return ok
}

// setHolding notes the patterns that hold and their parts among the
// observations.
func (v *view) setHolding(patterns []int) {
	sorted := slices.Clone(patterns)
	slices.Sort(sorted)
	for _, p := range slices.Compact(sorted) {
		if p < 0 || p >= len(v.net.patterns) {
			continue
		}
		h := holding{pattern: p}
		for i, o := range v.obs {
			if slices.Contains(v.net.patterns[p].Parts, int(o.sign)) {
				h.parts = append(h.parts, int32(i))
			}
		}
		v.holding = append(v.holding, h)
	}
}
