package sheet

// This file holds what a sheet says once every word is looked up.

import (
	"math"
	"math/bits"

	"snagwise/engine/problem"
	"snagwise/engine/quantity"
)

// An Account is a sheet with every word looked up. Numbers of things are indices
// into the lists of the [Vocabulary]. All lists but Moments are sorted, so that
// two sheets that say the same in another order give the same account.
type Account struct {
	Rig           string
	Title, What   string
	Date          string
	Weather       []Value
	Moments       []Told
	Statements    []Said
	Circumstances []int
	Trials        []int
	Courses       []int
	Normals       []int // things said to be in order over the whole sheet
	NormalRead    []int // readings said to be in order over the whole sheet
	Notes         []string
	Case          Case
}

// A Case is what was found in the end. All of it is zero for a snag that is not
// settled.
type Case struct {
	About     About
	Source    []string
	Evidence  Evidence
	Certainty Certainty
	Found     []int // causes
	AlsoRight []int // causes that would be as good an answer
	AlsoFound []int // causes that were there with no part in it
	Remedy    string
	// NormalThing is the id of what looked like a fault and was none.
	NormalThing string
	Checks      []DoneCheck // in the order done
	Phrases     Counted
}

// Counted is how many phrases a source tells and a sheet says, with those that
// it cannot say. It is zero where nobody counted.
type Counted struct {
	Told, Said int
	Cannot     []Silent
}

// Silent is a phrase that a sheet cannot say, and why.
type Silent struct{ Phrase, Why string }

// A DoneCheck is a check that was done.
type DoneCheck struct {
	Check   int
	Minutes float64 // NaN when not told
	Outcome string
	Sign    int   // the sign that the outcome names, or -1
	Seen    bool  // whether that sign was there
	Shown   []int // signs that it showed, that of the outcome with them
	Denied  []int // signs that it showed not to be there, likewise
}

// A PhaseSet is a set of phases by index; empty when no phase was told.
type PhaseSet uint32

// Has reports whether phase i is in the set.
func (s PhaseSet) Has(i int) bool { return s>>i&1 == 1 }

// One returns the phase when it is exactly one.
func (s PhaseSet) One() (int, bool) {
	return bits.TrailingZeros32(uint32(s)), bits.OnesCount32(uint32(s)) == 1
}

// List returns the phases of the set in order.
func (s PhaseSet) List() []int {
	var list []int
	for rest := uint32(s); rest != 0; rest &= rest - 1 {
		list = append(list, bits.TrailingZeros32(rest))
	}
	return list
}

// Told is one moment looked up.
type Told struct {
	Phases   PhaseSet // those it may be; empty when unsaid
	Phase    string   // as told
	After    float64  // seconds since the moment before; NaN when not told
	Controls []Set
	Readings []Value
	Signs    []int
	NotSeen  []int // signs looked for and not there
	Unread   []int // readings that could not be read
	Courses  []int
	Normals  []int // things said to be in order
	Notes    []string
	At       problem.Pos
}

// Set is a lever or switch and its position.
type Set struct {
	Control, Position int
	At                problem.Pos
}

// A Value is what is told of one reading in one moment: a figure, an answer,
// words that judge it, or several of these.
type Value struct {
	Reading  int
	IsFigure bool
	Figure   quantity.Told // where IsFigure
	Answer   int           // index into the answers of the reading, or -1
	Judged   Judged
	At       problem.Pos
}

// Number returns the SI value to reckon with, and NaN when no figure was told.
func (v Value) Number() float64 {
	if !v.IsFigure {
		return math.NaN()
	}
	return v.Figure.Value()
}

// A Manner says what sort of statement is made of a part.
type Manner uint8

// The sorts of statement.
const (
	WorkedOn Manner = iota // Text tells what was done, When when
	Changed                // Outcome tells what came of it
	LookedAt               // Good, or Sign, or Text
	Leaks                  // Fluid and Amount
	Felt                   // Feeling
	Flows                  // Flow is good as far as Parts and gone at Gone
)

// Said is one statement about parts, looked up.
type Said struct {
	Manner  Manner
	Parts   []int  // one, or all parts of a group that is told by one word
	Part    string // as told
	Text    string // as told: the work, the find, how much
	When    When
	Outcome Outcome
	Good    bool
	Sign    int // the sign that the find names, or -1
	Fluid   Fluid
	Amount  Amount
	Feeling Feeling
	Flow    int   // of a flow
	Gone    []int // where a flow was found gone; empty when not told
	Notes   []string
	At      problem.Pos
}
