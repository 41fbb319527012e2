package condition

import "math"

// A Band is a set of band words: what can be said of a reading against the
// bands of its gauge, or of its course, without giving a figure.
type Band uint16

// The band words; in a condition they are written none(x), low(x) and so on.
const (
	None      Band = 1 << iota // no reading to speak of
	Low                        // under the usual band
	Normal                     // within it
	High                       // over it
	OverStop                   // past the upper figure at which to stop
	BelowStop                  // past the lower figure at which to stop
	Rising                     // climbing
	Falling                    // sinking
	Unsteady                   // wandering or flickering
	Dead                       // the needle does not move at all
)

// bandWords are the words as they stand in a condition, by bit.
var bandWords = [...]string{"none", "low", "normal", "high", "over_stop", "below_stop", "rising", "falling", "unsteady", "dead"}

// A Word is what is known of a reading in band words: those known to be true
// of it and those known to be false. A bit in neither is unknown.
type Word struct{ True, False Band }

// is returns what is known of one band word.
func (w Word) is(b Band) Truth {
	switch {
	case w.True&b != 0:
		return True
	case w.False&b != 0:
		return False
	}
	return Unknown
}

// A Moment is what is known at one moment of a run. A list may be shorter than
// its scope has slots: what lies beyond its end is unknown.
type Moment struct {
	Num   []float64 // by number slot, SI; NaN is unknown
	Word  []Word    // by number slot
	Truth []Truth   // by truth slot, as known at this moment
	Text  []uint64  // by text slot: the values of Name.Values it may have, a bit each; 0 is unknown
}

// A World is everything that is known when conditions are evaluated: the
// moments in order of time, and the truths over the whole of them.
type World struct {
	Moments []Moment
	Whole   []Truth // by truth slot: true if true at any moment, else false if false at any
}

// empty is the moment at which nothing is known.
var empty Moment

// moment returns the moment at index now, or one at which nothing is known.
func (w *World) moment(now int) *Moment {
	if uint(now) < uint(len(w.Moments)) {
		return &w.Moments[now]
	}
	return &empty
}

// span returns the indexes to go through for "over all moments": from and up
// to but not including. A world without moments has one empty moment, -1.
func (w *World) span() (from, to int) {
	if len(w.Moments) == 0 {
		return -1, 0
	}
	return 0, len(w.Moments)
}

func (m *Moment) num(slot int32) float64 {
	if int(slot) < len(m.Num) {
		return m.Num[slot]
	}
	return math.NaN()
}

func (m *Moment) word(slot int32) Word {
	if int(slot) < len(m.Word) {
		return m.Word[slot]
	}
	return Word{}
}

func (m *Moment) truth(slot int32) Truth {
	if int(slot) < len(m.Truth) {
		return m.Truth[slot]
	}
	return Unknown
}

func (m *Moment) text(slot int32) uint64 {
	if int(slot) < len(m.Text) {
		return m.Text[slot]
	}
	return 0
}

func (w *World) whole(slot int32) Truth {
	if int(slot) < len(w.Whole) {
		return w.Whole[slot]
	}
	return Unknown
}
