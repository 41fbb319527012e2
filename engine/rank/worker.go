package rank

import (
	"runtime"
	"sync"
	"sync/atomic"
)

// A worker has the scratch room to sum sets one after another.
type worker struct {
	solver *solver
	nodes  []float64
	rough  bool // a sum since the last look left some dependence out
}

func newWorker(v *view) *worker {
	w := &worker{solver: newSolver(v)}
	if w.solver.budget = v.net.opts.Budget; v.net.opts.Unbudgeted {
		w.solver.budget = tooMany - 1
	}
	return w
}

// likelihood returns the likelihood of a set with some observations left out,
// on a scale where what bears on no observation counts 1.
func (v *view) likelihood(w *worker, set, without []int32) float64 {
	s := w.solver
	s.set(v, set, without)
	l := s.sum()
	w.rough = w.rough || s.rough
	s.clear()
	for _, i := range without {
		if b := v.obs[i].base; b > 0 {
			l /= b
		}
	}
	return max(0, l) // the sum over coordinates may end a rounding below zero
}

// whole returns the likelihood of a set with patterns counted, and without.
func (v *view) whole(w *worker, set []int32) (with, combined float64) {
	with = v.likelihood(w, set, nil)
	combined, _, _ = v.combined(w, set, with)
	return with, combined
}

// each runs do for 0 to n-1 on as many workers as there are processors, at
// most four. What do writes must be its own index's alone, so that the result
// does not depend on who did what.
func (v *view) each(n int, do func(w *worker, i int)) {
	hands := min(4, runtime.GOMAXPROCS(0), (n+15)/16)
	var next atomic.Int64
	work := func() {
		w := newWorker(v)
		for {
			from := int(next.Add(8)) - 8
			if from >= n {
				return
			}
			for i := from; i < min(from+8, n); i++ {
				do(w, i)
			}
		}
	}
	if hands <= 1 {
		work()
		return
	}
	var group sync.WaitGroup
	for range hands {
		group.Go(work)
	}
	group.Wait()
}
