package diagnose

import (
	"fmt"
	"math"

	"snagwise/engine/knowledge"
	"snagwise/engine/rank"
)

// Settings are the figures of the ranking that are not part of the rules. The
// zero value of a field means the usual one.
type Settings struct {
	Rank rank.Options
	// Leak is how often a sign is told with none of its causes there, by kind
	// of sign; a rule's own false alarm stands over it.
	Leak, CheckLeak, VagueLeak float64
	// Mistold is how often a thing that is seen, heard, felt or smelt is told
	// though it has nothing to do with the trouble, over and above its leak or
	// false alarm.
	Mistold float64
	// SecondOpinion says how the second opinion on signs counts.
	SecondOpinion Opinion
	// SecondWeight is the share of the second opinion where the two are
	// averaged.
	SecondWeight float64
	// CauseByCause leaves the states out: a cause shows the marginal of what
	// its states would show, each sign by itself.
	CauseByCause bool
	// ListShare is the share that the same knowledge, read cause by cause, has
	// in each chance; below 0 none.
	ListShare float64
	// NoPatterns leaves the patterns out.
	NoPatterns bool
	// NormalWeight is how much a thing merely said to be normal counts, as a
	// power of the chance.
	NormalWeight float64
	// EarlierWeight is what is left of that where nothing was wrong at the
	// moment of which it was said.
	EarlierWeight float64
	// SeenWeight and VagueWeight are how much a sign that was seen counts, as
	// a power of the chance: exact and vague ones.
	SeenWeight, VagueWeight float64
	// PriorPower flattens how common causes are: below 1 the words count for
	// less.
	PriorPower float64
	// AlarmPower does the same for the false alarms of rules.
	AlarmPower float64
	// CourseUsual is how often a trouble of which nothing is said comes on in
	// a given way, CourseAgainst how often one that speaks against it does.
	CourseUsual, CourseAgainst float64
	// TrialPower is how much trials count, as a power.
	TrialPower float64
	// PartPower is how much statements about parts count, as a power.
	PartPower float64
	// NotSeenWeight is the same for a sign looked for and not seen.
	NotSeenWeight float64
	// Sharpness is the power to which the odds of what is claimed are raised; 1
	// claims what the ranking says.
	Sharpness float64
}

// Opinion is a way to use a second opinion on what a cause shows.
type Opinion uint8

// The ways to use the second opinion.
const (
	Fill    Opinion = iota // where the first has no link, the second's, at its share
	Ignore                 // leave it out
	Average                // average the two on every sign that the second covers
	Differ                 // average where they differ by two words or more
)

func (s Settings) withDefaults() Settings {
	def := func(x *float64, v float64) {
		if *x == 0 {
			*x = v
		}
	}
	def(&s.Leak, .01)
	def(&s.ListShare, .4)
	def(&s.CheckLeak, .005)
	def(&s.Mistold, .02)
	def(&s.VagueLeak, .05)
	def(&s.SecondWeight, .25)
	def(&s.NormalWeight, .3)
	def(&s.NotSeenWeight, .8)
	def(&s.EarlierWeight, .1)
	def(&s.SeenWeight, 1)
	def(&s.VagueWeight, .6)
	def(&s.PriorPower, .8)
	def(&s.AlarmPower, 1.3)
	def(&s.CourseUsual, .25)
	def(&s.CourseAgainst, .08)
	def(&s.Sharpness, 1.5)
	def(&s.TrialPower, 1)
	def(&s.PartPower, 1)
	def(&s.Rank.Faintest, .15)
	def(&s.Rank.Earn, 10)
	return s
}

// A part of the knowledge: the signs and the patterns of it.
type part struct {
	signs    []bool // by sign
	patterns []bool // by pattern of the base
}

// net builds the ranking's net from the knowledge that holds on a rig, all of
// it or as far as it bears on a part. It returns, by pattern of the base, its number in
// the net, or -1.
func net(f *knowledge.Fitted, set Settings, only part) (*rank.Net, []int, error) {
	b := rank.NewBuilder(len(f.Causes), len(f.States), len(f.Signs))
	for i, s := range f.Signs {
		b.Leak(i, leakOf(s, set))
		if s.Kind == knowledge.VagueSign && only.sign(i) {
			b.Vague(i, s.Covers...)
		}
	}
	if !set.CauseByCause {
		states(b, f)
	}
	m := newMarginals(f, only.signs)
	for i, inst := range f.Causes {
		c := &f.Base.Causes[inst.Cause]
		b.Prior(i, math.Pow(c.Frequency, set.PriorPower)*inst.Share)
		if !set.CauseByCause {
			for _, g := range c.Gives {
				b.Give(i, g.To, g.By)
			}
		}
		words(b, f, i, m.of(inst.Cause), set, only)
	}
	var patterns []int
	if !set.NoPatterns {
		patterns = addPatterns(b, f, only)
	}
	n, err := b.Build(set.Rank)
	if err != nil {
		return nil, nil, fmt.Errorf("rig %q: %w", f.Rig.ID, err)
	}
	return n, patterns, nil
}

func (p part) sign(i int) bool { return p.signs == nil || p.signs[i] }

func (p part) pattern(i int) bool { return p.patterns == nil || p.patterns[i] }

// leakOf returns how often a sign is told with none of its causes there.
func leakOf(s knowledge.Sign, set Settings) float64 {
	leak := set.Leak
	switch {
	case s.FalseAlarm > 0:
		leak = math.Pow(s.FalseAlarm, set.AlarmPower)
	case s.Kind == knowledge.CheckSign:
		leak = set.CheckLeak
	case s.Kind == knowledge.VagueSign:
		leak = set.VagueLeak
	}
	if s.Kind == knowledge.SeenSign {
		leak = 1 - (1-leak)*(1-set.Mistold)
	}
	return leak
}

// states ties the states to one another and to their signs. A sided sign is
// shown as the sign that it stands for.
func states(b *rank.Builder, f *knowledge.Fitted) {
	sided := sidedSigns(f)
	for i, s := range f.States {
		for _, k := range s.LeadsTo {
			b.Lead(i, k.To, k.By)
		}
		for _, k := range s.Shows {
			b.Show(i, k.To, k.By)
			for _, side := range sided[k.To] {
				b.Show(i, side, k.By)
			}
		}
		for _, k := range s.Against {
			b.Against(i, k)
		}
	}
}

// sidedSigns lists, by sign, the sided ones that stand for it.
func sidedSigns(f *knowledge.Fitted) map[int][]int {
	out := map[int][]int{}
	for i, s := range f.Signs {
		if s.StandsFor >= 0 {
			out[s.StandsFor] = append(out[s.StandsFor], i)
		}
	}
	return out
}

// words gives the builder what a cause shows itself, its sided signs and what
// its instrument makes untrue.
func words(b *rank.Builder, f *knowledge.Fitted, i int, m *marginal, set Settings, only part) {
	inst := f.Causes[i]
	c := &f.Base.Causes[inst.Cause]
	own := m.words(c, set)
	for _, w := range own {
		b.Direct(i, w.To, w.By)
	}
	for _, s := range c.Never {
		if only.sign(s) {
			b.Never(i, s)
		}
	}
	if inst.Side != "" {
		for s, sg := range f.Signs {
			if sg.StandsFor < 0 || !only.sign(s) {
				continue
			}
			p := 0.0
			if sg.Side == inst.Side {
				p = m.shown(sg.StandsFor)
			}
			b.Direct(i, s, p)
		}
	}
	if len(c.Falsifies) == 0 {
		return
	}
	has := map[int]bool{}
	for _, w := range own {
		has[w.To] = true
	}
	for s, sg := range f.Signs {
		if !only.sign(s) {
			continue
		}
		for _, r := range sg.Readings {
			if !has[s] && contains(c.Falsifies, r) {
				b.Coin(i, s, .5, 1)
				break
			}
		}
	}
}

func contains(list []int, x int) bool {
	for _, y := range list {
		if x == y {
			return true
		}
	}
	return false
}

// addPatterns adds the patterns that can hold on the rig, as far as they are
// asked for, and returns, by pattern of the base, its number in the net or -1.
func addPatterns(b *rank.Builder, f *knowledge.Fitted, only part) []int {
	instances := map[int][]int{}
	for i, inst := range f.Causes {
		instances[inst.Cause] = append(instances[inst.Cause], i)
	}
	at := make([]int, len(f.Patterns))
	for i, p := range f.Patterns {
		at[i] = -1
		if !f.PatternOn[i] || !only.pattern(i) {
			continue
		}
		rp := rank.Pattern{Parts: p.Of, FalseAlarm: p.FalseAlarm}
		for _, k := range p.ForState {
			rp.Concludes = append(rp.Concludes, rank.Named{ID: k.To, State: true, Strength: k.By})
		}
		for _, k := range p.ForCause {
			for _, inst := range instances[k.To] {
				rp.Concludes = append(rp.Concludes, rank.Named{ID: inst, Strength: k.By})
			}
		}
		for _, k := range p.AgainstState {
			rp.Against = append(rp.Against, rank.Named{ID: k, State: true})
		}
		for _, k := range p.AgainstCause {
			for _, inst := range instances[k] {
				rp.Against = append(rp.Against, rank.Named{ID: inst})
			}
		}
		at[i] = b.Pattern(rp)
	}
	return at
}
