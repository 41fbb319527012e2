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
	if e.set.ListShare <= 0 || e.set.CauseByCause {
		return e.net.Posterior(ev)
	}
	second := make(chan *rank.Result)
	go func() { second <- e.byLists(ev) }()
	r := e.net.Posterior(ev)
	if other := <-second; other != nil {
		blend(r, other, e.set.ListShare)
	}
	return r
}

// byLists ranks with the knowledge read cause by cause. The lists are made for
// the signs that are known alone: made of all at the start they took half of it.
func (e *Engine) byLists(ev rank.Evidence) *rank.Result {
	f, set := e.fitted, e.set
	set.CauseByCause = true
	only := part{make([]bool, len(f.Signs)), make([]bool, len(f.Patterns))}
	var want func(sign int)
	want = func(sign int) {
		if !only.signs[sign] {
			only.signs[sign] = true
			for _, c := range f.Signs[sign].Covers {
				want(c)
			}
		}
	}
	for _, k := range ev.Signs {
		want(k.Sign)
	}
	for i, at := range e.patterns {
		only.patterns[i] = at >= 0 && slices.Contains(ev.Patterns, at)
	}
	lists, at, err := net(f, set, only)
	if err != nil {
		return nil // what is wrong with a part is wrong with the whole, and New has told it
	}
	ev.Patterns = nil
	for _, i := range at {
		if i >= 0 {
			ev.Patterns = append(ev.Patterns, i)
		}
	}
	return lists.Posterior(ev)
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
