package rank

import (
	"cmp"
	"math"
	"slices"
)

// A Result is what follows from one sheet. It is immutable, and safe for use
// by several goroutines.
type Result struct {
	Causes []Cause // every cause, likeliest first; equal ones by number
	None   float64 // chance that none of those listed is there
	Sets   []Set   // sets of causes with more than a ten-thousandth of the weight, heaviest first, at most 200
	Kept   float64 // share of the weight that Sets holds
	Size   int     // most causes in one set that was weighed
	// Estimated is the share of the weight in sets of which only an estimate
	// was made though their causes meet in a state or a sign.
	Estimated float64
	// Rough is the share of the weight in sets whose states were too many
	// to sum exactly within the budget.
	Rough float64
	// LogEvidence is the natural logarithm of the chance of everything known
	// (patterns aside), given the priors as scaled and sets of up to Size.
	LogEvidence float64
	// Dropped are signs that add nothing: told twice, both ways, or vaguely beside
	// a more exact one.
	Dropped []Known

	view     *view
	evidence Evidence
	singles  []single
	odd      []int32 // observations by the place in seen
	empty    single
	forecast *forecast
}

// A Cause is one cause with its chance of being there: the share of the
// weight in sets that contain it. Chances may add to more than 1, for two may be there.
type Cause struct {
	ID     int
	Chance float64
	Points float64 // of this cause alone against none: the total of its ledger, or near it where that is rough
}

// A Set is a set of causes, in order of number, with its share of the
// weight; none at all is the empty set.
type Set struct {
	Causes []int
	Weight float64
}

// Posterior weighs every set of causes before the evidence.
func (n *Net) Posterior(e Evidence) *Result {
	v := n.viewOf(e)
	s := newSums(v)
	s.weighSingles()
	s.weighPairs()
	s.weighLarger()
	r := s.result()
	r.evidence = e
	return r
}

// sums is the weighing of one sheet.
type sums struct {
	v       *view
	single  []single
	kin     kin
	empty   single
	axes    *axes
	odd     []int32 // observations that are true, or a coin to some cause
	touched []int32 // causes that bear on anything known
	sets    []weighed
	chance  []float64 // by cause: weight of the sets that contain it
	total   float64
	rest    float64 // weight that was only estimated
	rough   float64
	size    int
}

// A weighed is a set of causes with its weight.
type weighed struct {
	set    []int32
	weight float64
	rough  bool
}

func newSums(v *view) *sums {
	s := &sums{v: v, single: make([]single, len(v.net.odds)), chance: make([]float64, len(v.net.odds)), size: 1}
	tossed := newBits(len(v.obs))
	for _, list := range v.coins {
		for _, k := range list {
			tossed.set(k.sign)
		}
	}
	for i, o := range v.obs {
		if o.truth || tossed.has(int32(i)) {
			s.odd = append(s.odd, int32(i))
		}
	}
	return s
}

// add counts a set in.
func (s *sums) add(x weighed) {
	for _, c := range x.set {
		s.chance[c] += x.weight
	}
	s.gather(x.weight, x.rough)
	s.sets = append(s.sets, x)
}

func (s *sums) gather(weight float64, rough bool) {
	s.total += weight
	if rough {
		s.rough += weight
	}
}

// result puts everything in order.
func (s *sums) result() *Result {
	v := s.v
	r := &Result{view: v, singles: s.single, empty: s.empty, odd: s.odd, forecast: new(forecast), Size: s.size, Dropped: v.dropped}
	if s.total > 0 {
		r.None = s.empty.weight / s.total
		r.Estimated, r.Rough = s.rest/s.total, s.rough/s.total
	}
	r.Causes = make([]Cause, len(s.single))
	for c := range r.Causes {
		r.Causes[c] = Cause{ID: c, Points: s.single[c].points}
		if s.total > 0 {
			r.Causes[c].Chance = s.chance[c] / s.total
		}
	}
	slices.SortFunc(r.Causes, func(a, b Cause) int { return cmp.Or(cmp.Compare(b.Chance, a.Chance), cmp.Compare(a.ID, b.ID)) })
	slices.SortStableFunc(s.sets, func(a, b weighed) int {
		return cmp.Or(cmp.Compare(b.weight, a.weight), slices.Compare(a.set, b.set))
	})
	for _, x := range s.sets {
		if len(r.Sets) == maxSets || !(x.weight > keep*s.total) {
			break
		}
		set := Set{Causes: make([]int, len(x.set)), Weight: x.weight / s.total}
		for i, c := range x.set {
			set.Causes[i] = int(c)
		}
		r.Sets = append(r.Sets, set)
		r.Kept += set.Weight
	}
	r.LogEvidence = math.Log(s.total/s.prior()) + v.logBase()
	return r
}

// prior is the weight of all sets weighed, before any sign.
func (s *sums) prior() float64 {
	of := make([]float64, s.size+1) // by size of set
	of[0] = 1
	for c := range s.single {
		for k := s.size; k > 0; k-- {
			of[k] += of[k-1] * s.v.odds[c]
		}
	}
	t := s.v.net.empty
	for _, x := range of[1:] {
		t += x
	}
	return t
}

// keep is the share of the weight that a set must have to be kept.
const keep = 1e-4

// maxSets is the most sets that a result keeps.
const maxSets = 200
