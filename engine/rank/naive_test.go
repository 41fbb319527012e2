package rank

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A spec is a small net in the plainest form, as told to the builder, for
// counting every set of causes and every configuration of all states.
type spec struct {
	prior       []float64
	sleak, leak []float64
	gives       []map[int]float64 // cause: state
	leads       []map[int]float64 // state: later state
	shows       []map[int]float64 // state: sign
	words       []map[int]float64 // cause: sign, -1 for never
	against     []map[int]bool    // state: sign
	coins       []map[int]coin    // cause: sign
	covers      map[int][]int     // sign: plain signs
}

func (s *spec) build(t failer, o Options) *Net {
	b := NewBuilder(len(s.prior), len(s.leads), len(s.leak))
	for c, p := range s.prior {
		b.Prior(c, p)
		for x, g := range s.gives[c] {
			b.Give(c, x, g)
		}
		for f, d := range s.words[c] {
			if d < 0 {
				b.Never(c, f)
			} else {
				b.Direct(c, f, d)
			}
		}
		for f, k := range s.coins[c] {
			b.Coin(c, f, k.p, k.share)
		}
	}
	for x := range s.leads {
		b.StateLeak(x, s.sleak[x])
		for y, l := range s.leads[x] {
			b.Lead(x, y, l)
		}
		for f, l := range s.shows[x] {
			b.Show(x, f, l)
		}
		for f := range s.against[x] {
			b.Against(x, f)
		}
	}
	for f, l := range s.leak {
		b.Leak(f, l)
		b.Vague(f, s.covers[f]...)
	}
	return mustBuild(t, b, o)
}

// reach is the strongest path from a cause to each state.
func (s *spec) reach(c int) []float64 {
	r := make([]float64, len(s.leads))
	for x := range r {
		r[x] = s.gives[c][x]
		for p := range x {
			r[x] = max(r[x], r[p]*s.leads[p][x])
		}
	}
	return r
}

// held says how surely a sign is spoken against for a cause.
func (s *spec) held(c, f int, sure float64) float64 {
	if w, ok := s.words[c][f]; ok {
		if w < 0 {
			return 1
		}
		return 0
	}
	most := 0.0
	for x, r := range s.reach(c) {
		if !s.against[x][f] || s.gives[c][x] == 0 && r < sure {
			continue
		}
		other := false
		for y := range s.gives[c] {
			other = other || y != x && s.gives[c][y] > 0 && s.shows[y][f] > 0
		}
		if !other {
			most = max(most, r)
		}
	}
	return most
}

// signFalse is the chance that sign f is false, with the members given, for a set and a configuration
// of states; leak is that of the sign told.
func (s *spec) signFalse(set []int, there []bool, members []int, leak float64) float64 {
	q := 1 - leak
	for _, f := range members {
		for _, c := range set {
			if d, ok := s.words[c][f]; ok {
				q *= 1 - max(d, 0)
			}
		}
		for x, on := range there {
			if on {
				q *= 1 - s.shows[x][f]*s.others(set, x, f)
			}
		}
	}
	return q
}

// others is the part in which state x is there through members that have no word
// on f, or altogether if a leak reaches it.
func (s *spec) others(set []int, x, f int) float64 {
	if s.leakReaches(x) {
		return 1
	}
	stays, all := 1.0, 1.0
	for _, c := range set {
		r := s.reach(c)[x]
		all *= 1 - r
		if _, ok := s.words[c][f]; !ok {
			stays *= 1 - r
		}
	}
	if stays == all {
		return 1
	}
	return (1 - stays) / (1 - all)
}

func (s *spec) leakReaches(x int) bool {
	if s.sleak[x] > 0 {
		return true
	}
	for p := range x {
		if s.leads[p][x] > 0 && s.leakReaches(p) {
			return true
		}
	}
	return false
}

// likelihood sums over every configuration of every state.
func (s *spec) likelihood(set []int, e Evidence) float64 {
	sum := 0.0
	there := make([]bool, len(s.leads))
	for z := range 1 << len(there) {
		w := 1.0
		for x := range there {
			there[x] = z>>x&1 == 1
			q := 1 - s.sleak[x]
			for _, c := range set {
				q *= 1 - s.gives[c][x]
			}
			for p := range x {
				if there[p] {
					q *= 1 - s.leads[p][x]
				}
			}
			if there[x] {
				q = 1 - q
			}
			w *= q
		}
		for _, k := range e.Signs {
			w *= s.factor(set, there, k, e)
		}
		sum += w
	}
	return sum
}

func (s *spec) factor(set []int, there []bool, k Known, e Evidence) float64 {
	told := map[int]bool{}
	truth := map[int]bool{}
	for _, o := range e.Signs {
		told[o.Sign], truth[o.Sign] = true, o.True
	}
	members := []int{k.Sign}
	if cover := s.covers[k.Sign]; len(cover) > 0 {
		members = nil
		for _, f := range cover {
			if k.True && truth[f] {
				return 1 // told more exactly
			}
			if !told[f] {
				members = append(members, f)
			}
		}
	}
	leak := s.leak[k.Sign]
	held := 0.0
	for _, c := range set {
		held = max(held, s.held(c, k.Sign, .75))
	}
	q := s.signFalse(set, there, members, leak*(1-.8*held))
	if k.True {
		q = 1 - q
	}
	var best coin
	for _, c := range set {
		if x, ok := s.coins[c][k.Sign]; ok && (x.share > best.share || x.share == best.share && x.p > best.p) {
			best = x
		}
	}
	p := best.p
	if !k.True {
		p = 1 - p
	}
	return best.share*p + (1-best.share)*q
}

// weights returns the chance of each cause and of none, every set counted.
func (s *spec) weights(e Evidence) ([]float64, float64) {
	chance := make([]float64, len(s.prior))
	total, none := 0.0, 0.0
	for z := range 1 << len(s.prior) {
		var set []int
		w := 1.0
		for c, p := range s.prior {
			if z>>c&1 == 1 {
				set = append(set, c)
				w *= p / (1 - p)
			}
		}
		w *= s.likelihood(set, e)
		total += w
		if z == 0 {
			none = w
		}
		for _, c := range set {
			chance[c] += w
		}
	}
	for c := range chance {
		chance[c] /= total
	}
	return chance, none / total
}

// drawSpec draws a small net with everything in it that a net can have; the
// last sign is vague and covers two others.
func drawSpec(t *rapid.T, leaky bool) *spec {
	strength := rapid.SampledFrom([]float64{.02, .15, .4, .75, .95, 1})
	causes, states, signs := rapid.IntRange(1, 5).Draw(t, "causes"), rapid.IntRange(1, 7).Draw(t, "states"), rapid.IntRange(3, 6).Draw(t, "signs")
	s := &spec{covers: map[int][]int{signs - 1: {0, 1}}}
	some := func(name string, from, to, percent int) map[int]float64 {
		m := map[int]float64{}
		for i := from; i < to; i++ {
			if rapid.IntRange(0, 99).Draw(t, name) < percent {
				m[i] = strength.Draw(t, name)
			}
		}
		return m
	}
	for range causes {
		s.prior = append(s.prior, rapid.Float64Range(.001, .4).Draw(t, "prior"))
		s.gives = append(s.gives, some("gives", 0, states, 40))
		words := some("word", 0, signs-1, 15)
		for f := range signs - 1 {
			if rapid.IntRange(0, 99).Draw(t, "never") < 8 {
				words[f] = -1
			}
		}
		s.words = append(s.words, words)
		coins := map[int]coin{}
		for f := range some("coin", 0, 1, 15) {
			coins[f+2] = coin{p: .5, share: rapid.SampledFrom([]float64{1, .6}).Draw(t, "share")}
		}
		s.coins = append(s.coins, coins)
	}
	for x := range states {
		s.sleak = append(s.sleak, 0)
		if leaky && rapid.IntRange(0, 3).Draw(t, "leaky") == 0 {
			s.sleak[x] = .03
		}
		s.leads = append(s.leads, some("leads", x+1, states, 35))
		s.shows = append(s.shows, some("shows", 0, signs-1, 40))
		against := map[int]bool{}
		for f := range some("against", 0, signs-1, 10) {
			against[f] = true
		}
		s.against = append(s.against, against)
	}
	for range signs {
		s.leak = append(s.leak, rapid.SampledFrom([]float64{.01, .05, .2}).Draw(t, "leak"))
	}
	return s
}

func drawEvidence(t *rapid.T, signs int) Evidence {
	var e Evidence
	for f := range signs {
		switch rapid.IntRange(0, 2).Draw(t, fmt.Sprint("sign ", f)) {
		case 1:
			e.Signs = append(e.Signs, Known{Sign: f, True: true})
		case 2:
			e.Signs = append(e.Signs, Known{Sign: f})
		}
	}
	return e
}

// Agreement with counting every set of causes and every configuration of
// every state, on random small nets.
func TestAgreesWithCountingEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSpec(t, rapid.Bool().Draw(t, "leaky"))
		e := drawEvidence(t, len(s.leak))
		for _, o := range []Options{{}, {Unbudgeted: true}} {
			o.Unscaled, o.MaxSize = true, len(s.prior)
			r := s.build(t, o).Posterior(e)
			want, none := s.weights(e)
			for c := range want {
				if got := r.chanceOf(c); !(math.Abs(got-want[c]) <= 1e-9) {
					t.Fatalf("%+v: chance of cause %d = %.12g, want %.12g", o, c, got, want[c])
				}
			}
			if !(math.Abs(r.None-none) <= 1e-9) {
				t.Fatalf("none = %.12g, want %.12g", r.None, none)
			}
		}
	})
}
