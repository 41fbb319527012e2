// Package knowledge turns the rule files into one checked, immutable base:
// every name looked up, every condition compiled, every item with its place.
//
// [Read] reads the files as written into a [Source]; [Compile] checks it and
// gives a [Base]; [Base.On] leaves out what a rig does not carry and makes one
// of each paired part. Faults are reported all at once, as problems.
//
//	src, problems := knowledge.Read(rules.Files)
//	base, more := knowledge.Compile(src)
//	fitted, more := base.On(rig)
package knowledge

import (
	"snagwise/engine/condition"
	"snagwise/engine/problem"
	"snagwise/engine/quantity"
	"snagwise/engine/rig"
)

// A Base is all knowledge, for any rig. It is not changed after Compile and
// may be used by many goroutines at once.
type Base struct {
	Readings      []Reading
	Signs         []Sign
	Rules         []Rule
	Patterns      []Pattern
	States        []State
	Causes        []Cause
	Checks        []Check
	RigStates     []RigStateSource
	Trials        []Trial
	Courses       []Course
	Normals       []Normal
	Circumstances []Circumstance
	FirstActions  []FirstAction
	Kinds         *rig.Kinds
	Pairs         []Pair
	Leads         []Lead
	NormalThings  []NormalThing
	CallEngineer  []Text
	Sources       []SourceSource
	PartWords     []PartWordsSource
	Doubles       []DoubleSource
	Untied        []UntiedSource
	// NoWayThrough are the kinds of part that join so much that a way through
	// them says nothing of what can tell on what.
	NoWayThrough []string
	Relations    []RelationSource
	Implied      []Implied
	Hazards      []Hazard

	Scope *condition.Scope
	// Controls are the levers and switches of all rigs, with every position
	// that any of them has.
	Controls []Control
	// Phases are the phases of a run, in order.
	Phases []string

	like      func() *likeWords // made when first asked for
	words     func() *wordIndex // likewise
	sameWords []SameWordsSource
	fillers   []string
	truths    int // how many truth slots there are
	slotOwner []Owner
	readingAt map[string]int
	signAt    map[string]int
	stateAt   map[string]int
	causeAt   map[string]int
	kindAt    map[string]int // by id of a kind of part
	checkAt   map[string]int
}

// A Link ties one thing to another, by index, with a chance from 0 to 1 or a
// factor on the odds.
type Link struct {
	To int
	By float64
}

// A Reading is a thing that can be read off a gauge, told by eye or judged.
type Reading struct {
	ID, Means, System string
	Dim               quantity.Dimension
	Unit              string
	Answers           []string // for a reading that gives an answer, else nil
	Taps              []string // for an answer: the kinds of part that it is usually had of
	Words             []string
	Fails             []string
	Cross             []string
	Computed          bool // worked out from others, under its id; people may tell it all the same
	// Elapsed are the phases of which it is the time gone by; nil for any other.
	Elapsed []string
	Slot    int // number slot, or text slot when it gives an answer
	At      problem.Pos
}

// SignKind says how a sign is told.
type SignKind uint8

// The kinds of sign.
const (
	SeenSign    SignKind = iota // seen, heard, felt or smelt
	CheckSign                   // found by a check
	VagueSign                   // a vague word that covers others
	ReadingSign                 // told by readings through a rule
)

// A Sign is a thing that bears witness to a state or cause.
type Sign struct {
	ID, Means, System string
	Kind              SignKind
	Sense             string
	Words             []string
	Phases            []string
	Covers            []int // signs that a vague sign covers, through other vague ones too
	StandsFor         int   // the sign whose links this sided one takes, or -1
	Side              string
	FalseAlarm        float64 // chance that it is so with none of the causes; 0 when not said
	Rules             []int   // rules that conclude it, its own first
	Readings          []int   // readings that its own rule reads, computed ones aside
	Checks            []int   // checks that settle it
	Slot              int     // truth slot
	At                problem.Pos
}

// A Rule concludes the truth of one slot from a condition.
type Rule struct {
	ID, Means, When string
	Slot            int
	Fact            bool // a fact for other rules, not a sign
	Program         *condition.Program
	// Only says at which moments the rule has a say; nil for always.
	Only *condition.Program
	// Quiet says that it has none where it is undecided: it adds to what the
	// sign's own rule says.
	Quiet bool
	At    problem.Pos
}

// A Pattern sees what no single sign shows.
type Pattern struct {
	ID, Means, When string
	Slot            int
	Of              []int // signs that it is built of, the vague ones opened
	ForState        []Link
	ForCause        []Link
	AgainstState    []int
	AgainstCause    []int
	FalseAlarm      float64
	Rigs            []string
	Program         *condition.Program
	At              problem.Pos
}

// A State is what is physically true inside.
type State struct {
	ID, Means, System string
	LeadsTo           []Link // states
	Shows             []Link // signs
	Against           []int  // signs
	At                problem.Pos
}

// A Place is a kind of part along a flow.
type Place struct{ Flow, Kind string }

// A Cause is one thing that can be wrong with a kind of part.
type Cause struct {
	ID, FailsBy, System string
	Kind                string // kind of part
	Class               string // fault, operator error, fluid, instrument
	Frequency           float64
	Gives               []Link // states
	Direct              []Link // signs; overrides what comes through states
	Never               []int  // signs
	Second              []Link // signs, by a second opinion
	SecondAgainst       []int
	Falsifies           []int // readings
	HoldsIf             string
	Needs               []string // further kinds without which it cannot be
	Before, After       []Place  // where along a flow its part must lie
	Rigs                []string
	RunOn               string
	RunOnWhy            string
	Checks              []int
	SettledBy           string
	Remedy              string
	RemedyMinutes       float64
	Who                 string
	Words               []string
	Source              []string
	Basis               string
	At                  problem.Pos
}

// A Check is what can be done to settle signs.
type Check struct {
	CheckSource
	Settles []int // signs
}

// A Trial is something tried and what came of it.
type Trial struct {
	TrialSource
	Slot         int
	ForState     []Link
	ForCause     []Link
	AgainstState []int
	AgainstCause []int
	Spares       []int // causes of the cleared parts that stay as they were
	Usual        float64
	AgainstP     float64
	Same         int // the sign that this outcome is, or -1
	Opposite     int // the sign that the other outcome is, or -1
}

// A Course is how a trouble came on.
type Course struct {
	ID, Means    string
	Words        []string
	Slot         int
	ForState     []Link
	AgainstState []int
	ForCause     []Link
	AgainstCause []int
	At           problem.Pos
}

// A Normal is a thing said to be in order.
type Normal struct {
	ID, Means string
	Words     []string
	Slot      int
	Denies    []int // signs, vague ones as such
	At        problem.Pos
}

// A Circumstance is what went before.
type Circumstance struct {
	ID, Means string
	Words     []string
	Slot      int
	Likely    []Link // causes and factor on the odds, above 1 or below
	// LikelyState is the same for every cause that gives a state itself.
	LikelyState []Link
	Stories     []string
	Program     *condition.Program // when it is so without being told; may be nil
	At          problem.Pos
}

// A FirstAction is what must be done at once.
type FirstAction struct {
	ID, Do  string
	Needs   []string // kinds of part without which it does not apply
	Source  []string
	Program *condition.Program
	At      problem.Pos
}

// A Pair is two causes that look alike.
type Pair struct {
	A, B     int
	PartedBy []int
	How      string
}

// A Lead is a cause that brings another about in time.
type Lead struct {
	From, To int
	How      string
}

// A NormalThing looks like a fault and is none.
type NormalThing struct {
	NormalThingSource
	Program *condition.Program // nil when it is only described
}

// An Implied says that a statement about a part is a sign.
type Implied struct {
	Told  string
	How   []string
	Kinds []string // none means any part
	Sign  int
}

// A Hazard forbids checks while it is so or nobody has looked.
type Hazard struct {
	ID, Means, Ask   string
	Running, Turning bool // which checks it forbids
	LetOut, Prime    bool // when it is so, also those that let out what is dangerous or put it under pressure, and those that prime
	When, Clear      *condition.Program
}

// A Control is a lever or switch with its positions.
type Control struct {
	ID        string
	Means     string
	Positions []string
	Words     []string
	Also      map[string][]string // other words for a position
	Slot      int
}
