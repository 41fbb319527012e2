package diagnose

import (
	"cmp"
	"slices"

	"snagwise/engine/rank"
)

// weigh ranks the causes before the evidence. The knowledge is read in two
// ways: through states, where two signs of one state are one witness, and cause
// by cause, each sign by itself. The chance of a cause is the mean of the two,
// the second at its share; sets of causes, ledger and advice are those of the
// first. Either alone did worse on kept snags than the two together.
func (e *Engine) weigh(ev rank.Evidence) *rank.Result {
	if e.lists == nil {
		return e.net.Posterior(ev)
	}
	second := make(chan *rank.Result)
	go func() { second <- e.lists.Posterior(ev) }()
	r := e.net.Posterior(ev)
	blend(r, <-second, e.set.ListShare)
	return r
}

// blend takes the chances of another ranking into r, at its share.
func blend(r, other *rank.Result, share float64) {
	chance := make([]float64, len(r.Causes))
	for _, c := range other.Causes {
		chance[c.ID] = c.Chance
	}
	for i := range r.Causes {
		c := &r.Causes[i]
		c.Chance = (1-share)*c.Chance + share*chance[c.ID]
	}
	r.None = (1-share)*r.None + share*other.None
	slices.SortStableFunc(r.Causes, func(a, b rank.Cause) int {
		return cmp.Or(cmp.Compare(b.Chance, a.Chance), cmp.Compare(a.ID, b.ID))
	})
}
