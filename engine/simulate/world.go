package simulate

import (
	"math"
	"slices"

	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
	"snagwise/engine/rank"
	"snagwise/engine/sheet"
)

// A World is one snag as it is: the causes that are there and all that they
// show, seen or not.
type World struct {
	rig       *Rig
	causes    []int // instances that are there
	first     int   // the sign that is told first
	start     sheet.Told
	startText string            // tells starts with readings apart; empty for a sign alone
	kept      bool              // a kept case: it ends when a cause that was found is put right
	fixed     []condition.Truth // by sign: what a kept case says of it; nil for none
	chance    chance
	so        []bool // by sign: what is so
}

// A chance is where all that is left to chance in one world comes from. The
// same question has the same answer whenever it is asked.
type chance struct {
	seed uint64
	sd   float64 // by how much each strength is off, in log-odds
	off  uint64  // seed of that
}

// mix turns numbers into 64 bits that look like chance.
//
// Source: G. L. Steele, D. Lea, C. H. Flood, "Fast splittable pseudorandom
// number generators", OOPSLA 2014: the finalizer of SplitMix64 (from memory).
func mix(numbers ...uint64) uint64 {
	var z uint64
	for _, n := range numbers {
		z += n + 0x9e3779b97f4a7c15
		z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
		z = (z ^ z>>27) * 0x94d049bb133111eb
		z ^= z >> 31
	}
	return z
}

// share returns a number from 0 to below 1.
func share(numbers ...uint64) float64 { return float64(mix(numbers...)>>11) / (1 << 53) }

// normal returns a number that is spread as the normal distribution of mean 0
// and deviation 1.
//
// Source: G. E. P. Box, M. E. Muller, "A note on the generation of random normal
// deviates", Ann. Math. Statist. 29, 1958.
func normal(numbers ...uint64) float64 {
	n := slices.Clip(numbers)
	return math.Sqrt(-2*math.Log(1-share(append(n, 1)...))) * math.Cos(2*math.Pi*share(append(n, 2)...))
}

// moved returns a chance as the world has it: its log-odds off by some.
func (c chance) moved(p float64, key ...uint64) float64 {
	if c.sd == 0 || p <= 0 || p >= 1 {
		return p
	}
	return 1 / (1 + (1-p)/p*math.Exp(-c.sd*normal(append([]uint64{c.off}, key...)...)))
}

// Kinds of what is left to chance beside the strands of the net.
const (
	ofCause = iota + 100 // which cause is there
	ofSecond
	ofInstrument
	ofPrior
	ofFirst
	ofAnswer
	ofMemory
)

// toss decides a strand of the net.
func (c chance) toss(of rank.Strand, from, to int, p float64) bool {
	k := []uint64{uint64(of), uint64(from), uint64(to)}
	return share(c.seed, k[0], k[1], k[2]) < c.moved(p, k...)
}

// draw works out what is so.
func (w *World) draw() {
	w.so = w.rig.net.Draw(w.causes, w.chance.toss)
	for s, t := range w.fixed {
		if t != condition.Unknown {
			w.so[s] = t == condition.True
		}
	}
}

// without returns the world with a cause of the base put right.
func (w *World) without(cause int) *World {
	n := *w
	n.causes = slices.DeleteFunc(slices.Clone(w.causes), func(c int) bool { return w.rig.fitted.Causes[c].Cause == cause })
	n.fixed = nil // told while the cause was there
	n.draw()
	return &n
}

// has says whether a cause of the base is there.
func (w *World) has(cause int) bool {
	return slices.ContainsFunc(w.causes, func(c int) bool { return w.rig.fitted.Causes[c].Cause == cause })
}

// Shares of the snags drawn; the project's own choice.
const (
	doubles      = .15 // two causes at once
	lying        = .05 // an instrument beside them tells its readings by a coin
	couldNotTell = .1  // of the checks asked for tell nothing
)

// drawn returns a snag drawn by its number: a cause by how common it is on the
// rig, now and then with a second or with a lying gauge, and what they show.
// What is told first is one of the signs that need no check and that would not
// be there without a cause, each as likely. Where there is none, or where what
// would settle every cause is told already, nobody comes for help: another is
// drawn.
func drawn(r *Rig, number, seed uint64, sd float64) *World {
	for try := uint64(0); ; try++ {
		w := &World{rig: r, chance: chance{seed: mix(seed, number, try), sd: sd, off: mix(seed, number)}}
		w.drawCauses()
		w.draw()
		if w.setFirst() {
			return w
		}
	}
}

func (w *World) drawCauses() {
	r, c := w.rig, w.chance
	pick := func(kind uint64, fits func(int) bool) {
		sum := 0.0
		odds := make([]float64, len(r.fitted.Causes))
		for i := range odds {
			if fits(i) {
				odds[i] = r.net.Prior(i)
				if c.sd > 0 {
					odds[i] *= math.Exp(c.sd * normal(c.off, ofPrior, uint64(i)))
				}
				sum += odds[i]
			}
		}
		left := share(c.seed, kind) * sum
		for i, o := range odds {
			if left -= o; left < 0 && o > 0 {
				w.causes = append(w.causes, i)
				return
			}
		}
	}
	pick(ofCause, func(int) bool { return true })
	if share(c.seed, ofSecond, 1) < doubles {
		pick(ofSecond, func(i int) bool { return !w.has(r.fitted.Causes[i].Cause) })
	}
	if share(c.seed, ofInstrument, 1) < lying {
		pick(ofInstrument, func(i int) bool {
			k := r.fitted.Causes[i].Cause
			return len(r.fitted.Base.Causes[k].Falsifies) > 0 && !w.has(k)
		})
	}
}

// setFirst draws what is told first, if anything can be.
func (w *World) setFirst() bool {
	f := w.rig.fitted
	nothing := w.rig.net.Draw(nil, w.chance.toss)
	var list []int
	for s, so := range w.so {
		if so && !nothing[s] && f.SignOn[s] && f.Signs[s].Kind != knowledge.CheckSign {
			list = append(list, s)
		}
	}
	if len(list) == 0 {
		return false
	}
	w.first = list[int(share(w.chance.seed, ofFirst)*float64(len(list)))]
	w.start = beginning(w.first)
	for _, c := range w.causes {
		if s := w.rig.findings[f.Causes[c].Cause].Sign; s == w.first || slices.Contains(w.rig.asked, s) {
			return false
		}
	}
	return true
}

// startKey tells apart what is told first.
func (w *World) startKey() string { return w.startText }
