package rank

import (
	"cmp"
	"slices"
	"sync"
)

// A Pattern is several signs together, or one under two settings, that say
// more than each alone. Where it holds it is one group of evidence with
// its parts.
type Pattern struct {
	Parts      []int   // signs it is built of; may be empty
	Concludes  []Named // how often it is seen with these
	Against    []Named // hardly ever seen with these; strength 0 is taken as .02
	FalseAlarm float64 // how often it is seen with none of the causes
}

// Named is a cause, or with State a state, and a strength.
type Named struct {
	ID       int
	State    bool
	Strength float64
}

// Stand says how a set of causes stands to a pattern.
type Stand uint8

// The three ways a set can stand to a pattern that holds.
const (
	Unnamed  Stand = iota // the pattern says nothing of it
	Points                // the pattern points to it
	Excludes              // the pattern speaks against it
)

// A PatternCase is what a [Combine] decides on: one set of causes and one
// pattern that holds.
type PatternCase struct {
	Stand      Stand
	Strength   float64 // chance of the pattern with this set, for Points and Excludes
	FalseAlarm float64
	Parts      int     // parts that are known and still count
	With       float64 // likelihood of all that is known, the parts counted as plain signs
	// Without returns the likelihood of all that is known but the parts, on
	// the same scale. It costs a sum over states: call it only when needed.
	Without func() float64
}

// A Combine returns the likelihood of a set with a pattern in place of its
// parts. Returning With leaves the parts as they are.
type Combine func(PatternCase) float64

// Stronger is the usual [Combine]: for a set the pattern points to, the
// pattern stands for its parts where it is the stronger; one it excludes gets the
// small chance unless its parts say less; all others keep their parts. A pattern
// without parts among the signs is a witness of its own, with its false alarm
// for whatever it does not name.
func Stronger(c PatternCase) float64 {
	switch {
	case c.Stand == Points && c.Parts == 0:
		return max(c.Strength, c.FalseAlarm) * c.With
	case c.Stand == Points:
		return max(c.With, c.Strength*c.Without())
	case c.Stand == Excludes && c.Parts == 0:
		return min(c.Strength, c.FalseAlarm) * c.With
	case c.Stand == Excludes:
		return min(c.With, c.Strength*c.Without())
	case c.Parts == 0:
		return c.FalseAlarm * c.With
	}
	return c.With
}

// Replace is a [Combine] that always puts the pattern in place of its parts
// for a set it points to or excludes.
func Replace(c PatternCase) float64 {
	switch {
	case c.Stand != Unnamed:
		return c.Strength * c.Without()
	case c.Parts == 0:
		return c.FalseAlarm * c.With
	}
	return c.With
}

// naming is a pattern spread over the causes: how it stands to each cause
// alone, by the strongest path. It is worked out when it is first asked for,
// as few of the patterns hold: doing all took 18 of the 45 ms of a net of 600
// patterns (2 cores, 2026-11-25).
type naming struct {
	once             sync.Once
	points, excludes []float64 // by cause; excludes is 1 where it does not
}

func (n *Net) setPatterns(b *Builder) {
	n.patterns = slices.Clone(b.patterns)
	n.named = make([]naming, len(n.patterns))
}

func (n *Net) naming(pattern int) *naming {
	m := &n.named[pattern]
	m.once.Do(func() {
		p := &n.patterns[pattern]
		m.points, m.excludes = make([]float64, len(n.odds)), make([]float64, len(n.odds))
		for c := range n.odds {
			m.excludes[c] = 1
			for _, x := range p.Concludes {
				m.points[c] = max(m.points[c], x.Strength*n.reaches(c, x, 0))
			}
			for _, x := range p.Against {
				if n.reaches(c, x, n.opts.Sure) > 0 {
					m.excludes[c] = min(m.excludes[c], cmp.Or(x.Strength, .02))
				}
			}
		}
	})
	return m
}

// reaches returns how strongly the cause is, or reaches, what is named: 1 for
// the cause itself, 0 for not at all. A state reached at less than sure
// counts only if the cause gives it.
func (n *Net) reaches(c int, x Named, sure float64) float64 {
	if !x.State {
		if x.ID == c {
			return 1
		}
		return 0
	}
	at := n.place[x.ID]
	for _, r := range n.reach[c] {
		if r.to == at && (r.s >= sure || hasTie(n.gives[c], at)) {
			return r.s
		}
	}
	return 0
}

// stands returns how a set stands to a pattern: it points to the set when it
// points to a member, and excludes it when it excludes a member and points to
// none, for what another fault explains is not held against the set.
func (n *Net) stands(pattern int, set []int32) (Stand, float64) {
	m := n.naming(pattern)
	points, excludes := 0.0, 1.0
	for _, c := range set {
		points = max(points, m.points[c])
		excludes = min(excludes, m.excludes[c])
	}
	switch {
	case points > 0:
		return Points, points
	case excludes < 1:
		return Excludes, excludes
	}
	return Unnamed, 0
}

// A holding is a pattern that holds, with its parts among the observations.
type holding struct {
	pattern int
	parts   []int32
}

// A step is what one pattern multiplied a set's likelihood by.
type step struct {
	pattern int
	ratio   float64
}

// combined applies the patterns that hold to a set whose likelihood with all
// parts counted singly is with. Of patterns that share parts the strongest
// for this set counts. It returns the likelihood, the parts that stood back and
// the steps on the way.
func (v *view) combined(w *worker, set []int32, with float64) (float64, []int32, []step) {
	if len(v.holding) == 0 {
		return with, nil, nil
	}
	type turn struct {
		*holding
		stand    Stand
		strength float64
	}
	turns := make([]turn, 0, len(v.holding))
	for i := range v.holding {
		h := &v.holding[i]
		stand, s := v.net.stands(h.pattern, set)
		turns = append(turns, turn{h, stand, s})
	}
	slices.SortStableFunc(turns, func(a, b turn) int {
		rank := func(s Stand) int { return [...]int{Points: 0, Excludes: 1, Unnamed: 2}[s] }
		strength := cmp.Compare(b.strength, a.strength)
		if a.stand == Excludes {
			strength = -strength
		}
		return cmp.Or(cmp.Compare(rank(a.stand), rank(b.stand)), strength, cmp.Compare(len(b.parts), len(a.parts)), cmp.Compare(a.pattern, b.pattern))
	})
	value, factor := with, 1.0
	var gone []int32
	var steps []step
	for _, t := range turns {
		if len(t.parts) > 0 && slices.ContainsFunc(t.parts, func(p int32) bool { return slices.Contains(gone, p) }) {
			continue
		}
		all := append(slices.Clone(gone), t.parts...)
		left, asked := 0.0, false
		without := func() float64 {
			if !asked {
				left, asked = v.likelihood(w, set, all), true
			}
			return factor * left
		}
		next := v.net.opts.Combine(PatternCase{
			Stand: t.stand, Strength: t.strength, FalseAlarm: v.net.patterns[t.pattern].FalseAlarm,
			Parts: len(t.parts), With: value, Without: without,
		})
		switch {
		case next == value:
			continue
		case len(t.parts) == 0:
			if value > 0 {
				factor *= next / value
			}
		default:
			if without(); left > 0 {
				factor = next / left
			}
			gone = all
		}
		steps = append(steps, step{t.pattern, over(next, value)})
		value = next
	}
	return value, gone, steps
}
