// Package advise says what to look at next. It knows causes, checks,
// tools and rig states as whole numbers, time in minutes, and chances; it
// knows no part and no gauge by name.
//
// The yardstick is [Repair]: the minutes to expect when every cause is
// inspected, and cured if found, in the order of falling chance per minute
// until fetching help is the better way. A check is worth the minutes by
// which it shortens that, less its own: [Next] works this out for each
// check, looks one check further among the best, and lists apart what
// lacks a tool, what there is no time for, and what must not be done while
// something dangerous is true or has not been looked for.
//
// A check may settle causes as well ([Check.Finds], [Cause.By]): to inspect a
// cause is then to do that check, one look inspects all the causes it settles,
// and nothing is left to look for where it finds one. What such a look brings a
// minute is what any other check must beat to come before it.
//
// One fault at a time is assumed to be cured: a set of two causes shares its
// chance between them. After a cure, rank and ask again.
//
// Sources: J. Kadane, H. Simon, "Optimal strategies for a class of
// constrained sequential problems", Ann. Statist. 5, 1977 (order by chance
// per cost); D. Heckerman, J. Breese, K. Rommelse, "Decision-theoretic
// troubleshooting", Communications of the ACM 38, 1995 (expected cost of
// repair, call for service).
package advise

// A Set is one way things may be: the causes that are there together and how
// heavy it weighs. A set without causes stands for "none of those listed".
type Set struct {
	Causes []int   // indices into Snag.Causes, none twice
	Weight float64 // any positive scale, the same for all sets
}

// A Cause is what may be inspected and, if found, cured.
type Cause struct {
	Minutes  float64 // to inspect it and, where the caller counts that, cure it, above 0; taken as conclusive
	Engineer bool    // only a licensed engineer may do it
	// By is one more than the check that settles it, an index into Snag.Checks:
	// to inspect it is to do that check, which inspects at once all causes
	// that name it. Minutes count where that check cannot be done now. 0 for a
	// cause inspected by itself, in any rig state.
	By int
}

// A Check is one thing that may be looked at or tried.
type Check struct {
	Minutes  float64 // hands-on, without getting into the rig state; 0 or more
	State    int     // rig state it needs, an index into Snag.States; AnyState if any will do
	Tools    []int   // tools it needs, by the caller's own numbers
	Engineer bool    // only a licensed engineer may do it
	Hazard   Hazard  // dangers of the check itself, beside those of its rig state

	// Outcomes holds, for each outcome, its chance in each set of Snag.Sets,
	// given that the check tells anything: over the outcomes the chances of
	// one set add up to 1.
	Outcomes [][]float64
	// Finds holds, for each outcome, the causes that it settles: where one of
	// them is there, nothing is left to look for. May be nil or shorter than
	// Outcomes.
	Finds [][]int
	// CouldNotTell is the share of tries, 0 to 1, that tell nothing,
	// whatever is wrong.
	CouldNotTell float64
}

// AnyState is the Check.State of a check that needs no particular rig state.
const AnyState = -1

// A State is a condition the rig can be in, such as cold or running.
type State struct {
	Being Hazard // dangers while the rig is in it
	Reach Hazard // further dangers of getting into it from any other state
}

// A Snag is the trouble at hand: what may be wrong and what may be done.
type Snag struct {
	Causes []Cause
	Sets   []Set
	Checks []Check
	States []State
	// Moves holds the minutes to get from one state to another, by from and
	// to, both in the order of States; 0 on the diagonal, infinite where there
	// is no way. Ways through a third state are found by [Next], but never
	// through a state that is itself dangerous. May be nil if there are no
	// states.
	Moves [][]float64
	// Help is the minutes it costs to fetch somebody who will find and cure
	// whatever it is; 0 means that nobody can be fetched.
	Help float64
}

// A Situation is how things stand now.
type Situation struct {
	State int    // rig state now, an index into Snag.States; ignored if there are none
	Facts []Fact // what the gates turn on
	// Tools at hand by the caller's numbers; nil means all of them, an empty
	// list none.
	Tools        []int
	EngineerHere bool    // a licensed engineer is at the rig
	Limit        float64 // minutes left for checks; 0 means no limit
}

// Options are the owner's settings; the zero value does the usual thing.
type Options struct {
	// Ahead is how many of the best checks are tried with a second one to
	// follow; 0 means 8, below 0 none.
	Ahead int
	// Second is how many checks are tried as the second; 0 means 32.
	Second int
	// Penalty is set against a check that has any hazard, in minutes, when
	// checks are put in order; it is not part of any minutes shown.
	// 0 means 1 minute (the project's own choice, no source), below 0 none.
	Penalty float64
}

func (o Options) ahead() int {
	if o.Ahead == 0 {
		return 8
	}
	return max(o.Ahead, 0)
}

func (o Options) second() int {
	if o.Second <= 0 {
		return 32
	}
	return o.Second
}

func (o Options) penalty() float64 {
	if o.Penalty == 0 {
		return 1
	}
	return max(o.Penalty, 0)
}

// Advice is what [Next] answers.
type Advice struct {
	// Minutes to expect until it is cured, with inspections and help alone.
	Minutes float64
	// Checks that may be done now, the best first; those that pay come before
	// those that do not.
	Checks []Suggestion
	// Inspections of single causes in the order of falling chance per minute.
	Inspections []Inspection
	// HelpAfter is how many of the Inspections are worth doing before help is
	// fetched.
	HelpAfter int
	// InspectFirst says that no check pays, or none brings more a minute than
	// the first inspection: do that, or fetch help if HelpAfter is 0.
	InspectFirst bool
	// Apart holds checks that nothing forbids but that cannot be done now,
	// those that would save most first.
	Apart []Apart
	// Gated holds checks that must not be done now, in the order of
	// Snag.Checks. What they would save is not worked out.
	Gated []Gated
}

// A Suggestion is a check that may be done now.
type Suggestion struct {
	Check   int     // index into Snag.Checks
	Minutes float64 // of the check itself
	SetUp   float64 // minutes to get the rig into the state it needs, 0 if it is there
	// Saves is the expected minutes saved by this check alone, its own minutes
	// and set-up taken off; may be negative.
	Saves float64
	// SavesAhead is the same with the best second check to follow, where that
	// helps; at least Saves, and equal to it where no second was tried.
	SavesAhead float64
	// Pays says that it is better than going on without it: it saves minutes
	// alone, or it saves more with a second check than any other alone.
	Pays bool
	// Bits is how much it tells of which set holds, in bits; see [Bits]. Like
	// the Causes and None of its Outcomes, it is worked out only for those
	// looked at two deep and at least for the eight that save most alone.
	Bits float64
	// Outcomes with their chances. The last is "could not tell" if the check
	// has such a share.
	Outcomes []Outcome
}

// An Outcome is one answer of a check and how things stand after it.
type Outcome struct {
	Outcome int     // index into Check.Outcomes; CouldNotTell for that
	Chance  float64 // of this answer, 0 to 1
	Causes  []Share // chances of the causes after it, highest first
	None    float64 // chance after it that it is none of those listed
	Then    int     // the check that pays best after it, or Inspect
}

const (
	// CouldNotTell is the Outcome.Outcome of a try that told nothing.
	CouldNotTell = -1
	// Inspect is the Outcome.Then where no further check pays.
	Inspect = -1
)

// A Share is a cause with its chance: the share of weight in sets that
// hold it. Shares can add up to more than 1 as sets may hold two causes.
type Share struct {
	Cause  int
	Chance float64
}

// An Inspection is the direct way: look at one cause and cure it if found.
type Inspection struct {
	Cause    int
	Chance   float64 // share of weight in sets that hold it
	Minutes  float64
	Engineer bool // needs a licensed engineer, who is not here
	TooLong  bool // does not fit into the time left
}

// An Apart is a check that cannot be done now, with all the reasons.
type Apart struct {
	Check    int
	Missing  []int   // tools that are not at hand
	Engineer bool    // needs a licensed engineer, who is not here
	TooLong  bool    // does not fit into the time left
	NoWay    bool    // the rig cannot be brought into the state it needs
	Saves    float64 // what it would save alone; minus infinity if NoWay
}

// Next returns what to do next about the snag in this situation. The answer
// depends on nothing but its arguments, down to the order of equals. It fails
// if the input contradicts itself, such as an index out of range, a chance
// outside 0 to 1, or outcomes of a check that do not add up to 1.
func Next(snag *Snag, now *Situation, opt Options) (*Advice, error) {
	if err := snag.check(now); err != nil {
		return nil, err
	}
	b := newBench(snag, now)
	a := &Advice{}
	a.Minutes = b.minimum
	b.inspections(a)
	open := b.sortOut(a)
	b.suggest(a, open, opt)
	a.InspectFirst = len(a.Checks) == 0 || !b.first[a.Checks[0].Check]
	return a, nil
}
