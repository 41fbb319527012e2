package casebook

// This file changes the figures of the rules, to see what rests on them.

import (
	"math"
	"slices"

	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
)

// surest is the most that a strength is scaled to.
const surest = .99

// Scale gives a factor for one figure of the rules.
type Scale func() float64

// Spread returns factors that lie by chance between 1-width and 1+width.
func Spread(rnd *Chance, width float64) Scale {
	return func() float64 { return 1 + (2*rnd.Float64()-1)*width }
}

// Scaled returns a copy of a base in which every strength, false alarm and
// frequency is multiplied by a factor of its own, and of what circumstances do
// to the odds the logarithm. The base itself is not changed.
func Scaled(base *knowledge.Base, by Scale) *knowledge.Base {
	one := func(p float64) float64 { return math.Min(surest, p*by()) }
	return changed(base, one, one, func(odds float64) float64 { return math.Pow(odds, by()) }, one)
}

// changed returns a copy of a base in which every false alarm, every frequency,
// what each circumstance does to the odds and every strength is what a function makes of it.
func changed(base *knowledge.Base, alarm, frequency, odds, strength func(float64) float64) *knowledge.Base {
	b := *base
	links := func(list []knowledge.Link, of func(float64) float64) []knowledge.Link {
		list = slices.Clone(list)
		for i := range list {
			list[i].By = of(list[i].By)
		}
		return list
	}
	b.Signs = slices.Clone(b.Signs)
	for i := range b.Signs {
		b.Signs[i].FalseAlarm = alarm(b.Signs[i].FalseAlarm)
	}
	b.States = slices.Clone(b.States)
	for i := range b.States {
		s := &b.States[i]
		s.LeadsTo, s.Shows = links(s.LeadsTo, strength), links(s.Shows, strength)
	}
	b.Causes = slices.Clone(b.Causes)
	for i := range b.Causes {
		c := &b.Causes[i]
		c.Frequency = frequency(c.Frequency)
		c.Gives, c.Direct, c.Second = links(c.Gives, strength), links(c.Direct, strength), links(c.Second, strength)
	}
	b.Patterns = slices.Clone(b.Patterns)
	for i := range b.Patterns {
		p := &b.Patterns[i]
		p.FalseAlarm, p.ForState, p.ForCause = alarm(p.FalseAlarm), links(p.ForState, strength), links(p.ForCause, strength)
	}
	b.Trials = slices.Clone(b.Trials)
	for i := range b.Trials {
		t := &b.Trials[i]
		t.ForState, t.ForCause = links(t.ForState, strength), links(t.ForCause, strength)
	}
	b.Courses = slices.Clone(b.Courses)
	for i := range b.Courses {
		c := &b.Courses[i]
		c.ForState, c.ForCause = links(c.ForState, strength), links(c.ForCause, strength)
	}
	b.Circumstances = slices.Clone(b.Circumstances)
	for i := range b.Circumstances {
		c := &b.Circumstances[i]
		c.Likely, c.LikelyState = links(c.Likely, odds), links(c.LikelyState, odds)
	}
	return &b
}

// ScaledSettings scales how often a sign is told with none of its causes there.
func ScaledSettings(set diagnose.Settings, by Scale) diagnose.Settings {
	usual := diagnose.Usual()
	for _, k := range []struct {
		to   *float64
		from float64
	}{{&set.Leak, usual.Leak}, {&set.CheckLeak, usual.CheckLeak}, {&set.VagueLeak, usual.VagueLeak}} {
		if *k.to == 0 {
			*k.to = k.from
		}
		*k.to *= by()
	}
	return set
}
