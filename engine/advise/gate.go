package advise

// What stands between a check and being offered: hazards first, which forbid
// it, then tools, people, time and the way into the rig state.

import (
	"cmp"
	"math"
	"slices"
)

// A Hazard is a set of dangers that a check, or a rig state, brings with it.
// The meaning of the bits beyond those named here is the caller's.
type Hazard uint8

const (
	Running Hazard = 1 << iota // the engine runs
	Turning                    // the engine is turned otherwise than slowly by hand: on the starter, or to start it
	HotPart                    // hands go near hot parts
	Open                       // fuel or other dangerous matter is let out
	Priming                    // more fuel is put into the engine
)

// Truth is what is known of a fact. Its values are those of the conditions:
// the zero value is Unknown.
type Truth int8

const (
	False   Truth = -1
	Unknown Truth = 0
	True    Truth = 1
)

// A Fact is something that forbids checks while it is true, or may be: fire,
// a fuel leak, lost oil pressure (which forbid Running), a liquid lock, a live
// magneto (Turning), not yet cooled down (HotPart).
type Fact struct {
	Known  Truth
	Blocks Hazard // the dangers it forbids while it is not known to be false
}

// A Gated check must not be done now, and why.
type Gated struct {
	Check   int
	True    []int // facts that are true and forbid it, indices into Situation.Facts
	Unknown []int // facts that forbid it because nobody has looked
	// Unwatched holds the dangers of the check that no fact speaks of: silence
	// does not open a gate.
	Unwatched Hazard
	Missing   []int // tools that are not at hand either
}

// hazards returns the dangers of a check begun in the given state.
func (s *Snag) hazards(c *Check, from int) Hazard {
	if c.State == AnyState {
		return c.Hazard
	}
	h := c.Hazard | s.States[c.State].Being
	if c.State != from {
		h |= s.States[c.State].Reach
	}
	return h
}

// unwatched returns those of the dangers that no fact speaks of.
func unwatched(facts []Fact, h Hazard) Hazard {
	for _, f := range facts {
		h &^= f.Blocks
	}
	return h
}

// barred says whether any of the dangers is forbidden at present.
func barred(facts []Fact, h Hazard) bool {
	if unwatched(facts, h) != 0 {
		return true
	}
	for _, f := range facts {
		if f.Blocks&h != 0 && f.Known != False {
			return true
		}
	}
	return false
}

// gate returns why a check is forbidden, or ok if it is not.
func (b *bench) gate(check int) (why Gated, ok bool) {
	c := &b.snag.Checks[check]
	h := b.snag.hazards(c, b.state)
	if !barred(b.now.Facts, h) {
		return Gated{}, true
	}
	why = Gated{Check: check, Unwatched: unwatched(b.now.Facts, h), Missing: b.missing(c)}
	for i, f := range b.now.Facts {
		if f.Blocks&h == 0 || f.Known == False {
			continue
		}
		if f.Known == True {
			why.True = append(why.True, i)
		} else {
			why.Unknown = append(why.Unknown, i)
		}
	}
	return why, false
}

func (b *bench) missing(c *Check) []int {
	if b.now.Tools == nil {
		return nil
	}
	var missing []int
	for _, t := range c.Tools {
		if !slices.Contains(b.now.Tools, t) && !slices.Contains(missing, t) {
			missing = append(missing, t)
		}
	}
	return missing
}

// sortOut puts each check where it belongs and returns those that may be done
// now, in order.
func (b *bench) sortOut(a *Advice) (open []int) {
	for i := range b.snag.Checks {
		c := &b.snag.Checks[i]
		if why, ok := b.gate(i); !ok {
			a.Gated = append(a.Gated, why)
			continue
		}
		minutes := c.Minutes + b.move(b.state, c.State)
		apart := Apart{
			Check:    i,
			Missing:  b.missing(c),
			Engineer: c.Engineer && !b.now.EngineerHere,
			NoWay:    math.IsInf(minutes, 1),
		}
		apart.TooLong = !apart.NoWay && b.tooLong(minutes)
		if apart.Missing == nil && !apart.Engineer && !apart.NoWay && !apart.TooLong {
			open = append(open, i)
			continue
		}
		apart.Saves = b.alone(i)
		a.Apart = append(a.Apart, apart)
	}
	slices.SortStableFunc(a.Apart, func(x, y Apart) int { return cmp.Compare(y.Saves, x.Saves) })
	return open
}

func (b *bench) tooLong(minutes float64) bool {
	return b.now.Limit > 0 && minutes > b.now.Limit
}
