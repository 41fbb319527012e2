package rank

import "fmt"

// A Builder collects a net. Causes, states, signs and patterns are counted
// from zero; every strength is a chance from 0 to 1. What is wrong is kept
// and told by [Builder.Build], all at once.
type Builder struct {
	prior     []float64
	stateLeak []float64
	leak      []float64
	gives     [][]tie
	leads     [][]tie
	shows     [][]tie
	words     [][]word
	against   [][]int32
	coins     [][]coin
	plain     []bool
	covers    [][]int32
	patterns  []Pattern
	faults    []error
}

// A tie goes to the thing numbered to, with a strength.
type tie struct {
	to int32
	s  float64
}

// A word is what a cause says of a sign itself.
type word struct {
	sign  int32
	s     float64
	never bool
}

// A coin is a false reading: with chance share the sign is true with chance
// p, whatever the engine does.
type coin struct {
	sign     int32
	p, share float64
}

// NewBuilder returns a Builder for so many causes, states and signs. Every
// cause starts with a prior of .01, every sign with a leak of .02.
func NewBuilder(causes, states, signs int) *Builder {
	b := &Builder{
		prior: make([]float64, causes), gives: make([][]tie, causes), words: make([][]word, causes), coins: make([][]coin, causes),
		stateLeak: make([]float64, states), leads: make([][]tie, states), shows: make([][]tie, states), against: make([][]int32, states),
		leak: make([]float64, signs), plain: make([]bool, signs), covers: make([][]int32, signs),
	}
	for i := range b.prior {
		b.prior[i] = .01
	}
	for i := range b.leak {
		b.leak[i] = .02
	}
	return b
}

func (b *Builder) wrong(format string, args ...any) {
	b.faults = append(b.faults, fmt.Errorf(format, args...))
}

// fits says whether id counts one of n things, and notes it if not.
func (b *Builder) fits(what string, id, n int) bool {
	if id < 0 || id >= n {
		b.wrong("%s %d of %d does not exist", what, id, n)
		return false
	}
	return true
}

func (b *Builder) cause(id int) bool { return b.fits("cause", id, len(b.prior)) }
func (b *Builder) state(id int) bool { return b.fits("state", id, len(b.leads)) }
func (b *Builder) sign(id int) bool  { return b.fits("sign", id, len(b.leak)) }

// chance says whether p lies from 0 to 1, and notes it if not.
func (b *Builder) chance(what string, p float64) bool {
	if !(p >= 0 && p <= 1) {
		b.wrong("%s is %v, want a chance from 0 to 1", what, p)
		return false
	}
	return true
}

// Prior says how often the cause is there, strictly between 0 and 1: a cause
// that is impossible or certain could never be argued with.
func (b *Builder) Prior(cause int, p float64) {
	if !b.cause(cause) {
		return
	}
	if !(p > 0 && p < 1) {
		b.wrong("prior of cause %d is %v, want a chance between 0 and 1, both left out", cause, p)
		return
	}
	b.prior[cause] = p
}

// Give says that the cause brings the state about.
func (b *Builder) Give(cause, state int, strength float64) {
	if b.cause(cause) && b.state(state) && b.chance("strength", strength) {
		b.gives[cause] = append(b.gives[cause], tie{int32(state), strength})
	}
}

// Lead says that one state leads to another.
func (b *Builder) Lead(from, to int, strength float64) {
	if b.state(from) && b.state(to) && b.chance("strength", strength) {
		b.leads[from] = append(b.leads[from], tie{int32(to), strength})
	}
}

// Show says that the state shows the sign.
func (b *Builder) Show(state, sign int, strength float64) {
	if b.state(state) && b.sign(sign) && b.chance("strength", strength) {
		b.shows[state] = append(b.shows[state], tie{int32(sign), strength})
	}
}

// Direct says what the cause itself shows. It takes the place of all that
// would come to this sign through this cause's states; 0 is possible. A state that
// another cause of the set brings about as well shows the sign in that one's part.
func (b *Builder) Direct(cause, sign int, strength float64) {
	if b.cause(cause) && b.sign(sign) && b.chance("strength", strength) {
		b.words[cause] = append(b.words[cause], word{int32(sign), strength, false})
	}
}

// Never says that the cause does not show the sign, whatever its states do,
// and that the sign speaks against it.
func (b *Builder) Never(cause, sign int) {
	if b.cause(cause) && b.sign(sign) {
		b.words[cause] = append(b.words[cause], word{int32(sign), 0, true})
	}
}

// Against says that the sign is hardly ever seen while the state is there.
// It holds against causes that give the state themselves or reach it at
// [Options.Sure] or stronger, and not against one whose own word or
// another state of its own gives the sign.
func (b *Builder) Against(state, sign int) {
	if b.state(state) && b.sign(sign) {
		b.against[state] = append(b.against[state], int32(sign))
	}
}

// StateLeak says how often the state is there with none of the causes; 0 if
// not told.
func (b *Builder) StateLeak(state int, p float64) {
	if b.state(state) && b.chance("leak", p) {
		b.stateLeak[state] = p
	}
}

// Leak says how often the sign is there with none of the states.
func (b *Builder) Leak(sign int, p float64) {
	if b.sign(sign) && b.chance("leak", p) {
		b.leak[sign] = p
	}
}

// Report makes the sign a plain report of one state: seen with chance hit
// while the state is there, with chance false while it is not.
func (b *Builder) Report(state, sign int, hit, falseAlarm float64) {
	if !b.state(state) || !b.sign(sign) || !b.chance("hit rate", hit) || !b.chance("false rate", falseAlarm) {
		return
	}
	if falseAlarm == 1 {
		b.wrong("false rate of sign %d is 1: it would tell nothing", sign)
		return
	}
	b.plain[sign] = true
	b.leak[sign] = falseAlarm
	b.shows[state] = append(b.shows[state], tie{int32(sign), 1 - (1-hit)/(1-falseAlarm)})
}

// Coin says that while the cause is there the sign comes through a broken
// instrument: with chance share it is true with chance p whatever the engine
// does, else it tells what is so.
func (b *Builder) Coin(cause, sign int, p, share float64) {
	if b.cause(cause) && b.sign(sign) && b.chance("chance", p) && b.chance("share", share) {
		b.coins[cause] = append(b.coins[cause], coin{int32(sign), p, share})
	}
}

// Vague says that the sign holds when any of those it covers does; covered
// signs may be vague themselves.
func (b *Builder) Vague(sign int, covers ...int) {
	if !b.sign(sign) {
		return
	}
	for _, c := range covers {
		if b.sign(c) {
			b.covers[sign] = append(b.covers[sign], int32(c))
		}
	}
}

// Pattern adds a pattern and returns its number.
func (b *Builder) Pattern(p Pattern) int {
	for _, part := range p.Parts {
		b.sign(part)
	}
	for _, list := range [][]Named{p.Concludes, p.Against} {
		for _, n := range list {
			if n.State {
				b.state(n.ID)
			} else {
				b.cause(n.ID)
			}
			b.chance("strength", n.Strength)
		}
	}
	if !(p.FalseAlarm > 0 && p.FalseAlarm < 1) {
		b.wrong("false alarm of pattern %d is %v, want a chance between 0 and 1, both left out", len(b.patterns), p.FalseAlarm)
	}
	b.patterns = append(b.patterns, p)
	return len(b.patterns) - 1
}
