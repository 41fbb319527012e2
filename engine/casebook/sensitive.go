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
	b := *base
	one := func(p float64) float64 { return math.Min(surest, p*by()) }
	links := func(list []knowledge.Link) []knowledge.Link {
		list = slices.Clone(list)
		for i := range list {
			list[i].By = one(list[i].By)
		}
		return list
	}
	b.Signs = slices.Clone(b.Signs)
	for i := range b.Signs {
		b.Signs[i].FalseAlarm = one(b.Signs[i].FalseAlarm)
	}
	b.States = slices.Clone(b.States)
	for i := range b.States {
		b.States[i].LeadsTo, b.States[i].Shows = links(b.States[i].LeadsTo), links(b.States[i].Shows)
	}
	b.Causes = slices.Clone(b.Causes)
	for i := range b.Causes {
		c := &b.Causes[i]
		c.Frequency = one(c.Frequency)
		c.Gives, c.Direct, c.Second = links(c.Gives), links(c.Direct), links(c.Second)
	}
	b.Patterns = slices.Clone(b.Patterns)
	for i := range b.Patterns {
		p := &b.Patterns[i]
		p.FalseAlarm, p.ForState, p.ForCause = one(p.FalseAlarm), links(p.ForState), links(p.ForCause)
	}
	b.Trials = slices.Clone(b.Trials)
	for i := range b.Trials {
		b.Trials[i].ForState, b.Trials[i].ForCause = links(b.Trials[i].ForState), links(b.Trials[i].ForCause)
	}
	b.Courses = slices.Clone(b.Courses)
	for i := range b.Courses {
		b.Courses[i].ForState, b.Courses[i].ForCause = links(b.Courses[i].ForState), links(b.Courses[i].ForCause)
	}
	b.Circumstances = slices.Clone(b.Circumstances)
	for i := range b.Circumstances {
		for _, list := range []*[]knowledge.Link{&b.Circumstances[i].Likely, &b.Circumstances[i].LikelyState} {
			*list = slices.Clone(*list)
			for k := range *list {
				(*list)[k].By = math.Pow((*list)[k].By, by())
			}
		}
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
