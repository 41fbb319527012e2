package knowledge

import (
	"snagwise/engine/document"
)

// Text is a word of a rule file with its place.
type Text = document.Text

// A Source is everything the rule files say, as written, in the order of the
// files, before any name is looked up. Each list is one top-level key of a
// file; a file may hold any of them.
type Source struct {
	Readings      []ReadingSource
	Signs         []SignSource
	Rules         []RuleSource
	Patterns      []PatternSource
	States        []StateSource
	Causes        []CauseSource
	SecondOpinion []OpinionSource
	Checks        []CheckSource
	RigStates     []RigStateSource
	Trials        []TrialSource
	Courses       []CourseSource
	Normals       []NormalSource
	Circumstances []CircumstanceSource
	FirstActions  []FirstActionSource
	Pairs         []PairSource
	Doubles       []DoubleSource
	Leads         []LeadSource
	NormalThings  []NormalThingSource
	CallEngineer  []Text
	Sources       []SourceSource
	SameWords     []SameWordsSource
	PartWords     []PartWordsSource
	Fillers       []string
	Untied        []UntiedSource
	NoWayThrough  []Text
	Relations     []RelationSource
	Implied       []ImpliedSource
	Hazards       []HazardSource
}

// ReadingSource is one thing that can be read off, told or judged.
type ReadingSource struct {
	ID       Text   `yaml:"id,required"`
	Means    string `yaml:"means,required"`
	Quantity Text   `yaml:"quantity"`
	Unit     Text   `yaml:"unit"`
	Gives    Text   `yaml:"gives"`
	// Computed says that it is worked out from others, under its id.
	Computed bool     `yaml:"computed"`
	Answers  []Text   `yaml:"answers"`
	Words    []Text   `yaml:"words"`
	Fails    []string `yaml:"fails"`
	Cross    []Text   `yaml:"cross"`
	Source   []Text   `yaml:"source"`
	System   string
}

// SignSource is a thing seen, heard, felt, smelt or found by a check, or a
// vague word that covers several of them.
type SignSource struct {
	ID        Text   `yaml:"id,required"`
	Means     string `yaml:"means,required"`
	Kind      Text   `yaml:"kind"`
	Sense     Text   `yaml:"sense"`
	Phases    []Text `yaml:"phases"`
	Covers    []Text `yaml:"covers"`
	StandsFor Text   `yaml:"stands_for"`
	Side      Text   `yaml:"side"`
	About     Text   `yaml:"about"`
	Words     []Text `yaml:"words"`
	Source    []Text `yaml:"source"`
	System    string
}

// RuleSource is a fact or a sign told by readings.
type RuleSource struct {
	ID         Text   `yaml:"id,required"`
	When       Text   `yaml:"when,required"`
	Means      string `yaml:"means,required"`
	FalseAlarm Text   `yaml:"false_alarm"`
	Fact       bool   `yaml:"fact"`
	// Concludes is the sign that the rule adds to, where that is not its own
	// id. Where it is undecided it then has no say.
	Concludes Text `yaml:"concludes"`
	// Moment says that a fact is so at a moment and not of the whole sheet.
	Moment    bool   `yaml:"moment"`
	Phases    []Text `yaml:"phases"`
	StandsFor Text   `yaml:"stands_for"`
	Side      Text   `yaml:"side"`
	Words     []Text `yaml:"words"`
	Source    []Text `yaml:"source"`
	System    string
}

// PatternSource is a rule over things together.
type PatternSource struct {
	ID            Text            `yaml:"id,required"`
	When          Text            `yaml:"when,required"`
	Means         string          `yaml:"means,required"`
	Of            []Text          `yaml:"of"`
	Concludes     []document.Pair `yaml:"concludes,required"`
	SpeaksAgainst []Text          `yaml:"speaks_against"`
	FalseAlarm    Text            `yaml:"false_alarm"`
	Rigs          []Text          `yaml:"rigs"`
	Source        []Text          `yaml:"source"`
	System        string
}

// StateSource is what is physically true inside.
type StateSource struct {
	ID            Text            `yaml:"id,required"`
	Means         string          `yaml:"means,required"`
	LeadsTo       []document.Pair `yaml:"leads_to"`
	Shows         []document.Pair `yaml:"shows"`
	SpeaksAgainst []Text          `yaml:"speaks_against"`
	System        string
}

// RunOnSource says what happens when a run goes on with a cause present.
type RunOnSource struct {
	Do  Text   `yaml:"do"`
	Why string `yaml:"why"`
}

// CauseSource is one thing that can be wrong.
type CauseSource struct {
	ID            Text            `yaml:"id,required"`
	Part          Text            `yaml:"part,required"`
	FailsBy       string          `yaml:"fails_by,required"`
	Class         Text            `yaml:"class"`
	HowCommon     Text            `yaml:"how_common,required"`
	Gives         []document.Pair `yaml:"gives"`
	Direct        []document.Pair `yaml:"direct"`
	Never         []Text          `yaml:"never"`
	Older         []document.Pair `yaml:"older"`
	Falsifies     []Text          `yaml:"falsifies"`
	MoreLikelyIf  []Text          `yaml:"more_likely_if"`
	HoldsIf       string          `yaml:"holds_if"`
	Needs         []Text          `yaml:"needs"`
	Rigs          []Text          `yaml:"rigs"`
	RunOn         RunOnSource     `yaml:"run_on"`
	Checks        []Text          `yaml:"checks"`
	SettledBy     string          `yaml:"settled_by"`
	Remedy        string          `yaml:"remedy"`
	RemedyMinutes float64         `yaml:"remedy_minutes"`
	Who           Text            `yaml:"who"`
	Words         []Text          `yaml:"words"`
	Source        []Text          `yaml:"source,required"`
	Basis         Text            `yaml:"basis"`
	Notes         string          `yaml:"notes"`
	System        string
}

// OpinionSource is a second opinion on the causes of one sign.
type OpinionSource struct {
	Sign         Text   `yaml:"sign,required"`
	AlmostAlways []Text `yaml:"almost always"`
	Often        []Text `yaml:"often"`
	Sometimes    []Text `yaml:"sometimes"`
	Seldom       []Text `yaml:"seldom"`
	Against      []Text `yaml:"against"`
	System       string
}

// CheckSource is one check: what to do, what it settles and what it costs.
type CheckSource struct {
	ID       Text     `yaml:"id,required"`
	Do       string   `yaml:"do,required"`
	Tells    []Text   `yaml:"tells,required"`
	RigState Text     `yaml:"rig_state,required"`
	Minutes  float64  `yaml:"minutes,required"`
	Tools    []Text   `yaml:"tools"`
	Caution  []string `yaml:"caution"`
	Who      Text     `yaml:"who,required"`
	Rigs     []Text   `yaml:"rigs"`
	Needs    []Text   `yaml:"needs"`
	// Dangers are those of the check itself beside its rig state: running,
	// turning.
	Dangers []Text `yaml:"dangers"`
	Words   []Text `yaml:"words"`
	Source  []Text `yaml:"source"`
	System  string
}

// RigStateSource is a state the rig must be in for a check, and the minutes
// to get there from others.
type RigStateSource struct {
	ID          Text               `yaml:"id,required"`
	Means       string             `yaml:"means,required"`
	MinutesFrom map[string]float64 `yaml:"minutes_from"`
	Running     bool               `yaml:"running"` // the engine runs
	Turning     bool               `yaml:"turning"` // it is turned on the starter
	Steps       []string           `yaml:"steps"`
	Source      []Text             `yaml:"source"`
	System      string
}

// TrialSource is something tried and what came of it.
type TrialSource struct {
	ID            Text            `yaml:"id,required"`
	Means         string          `yaml:"means,required"`
	Words         []Text          `yaml:"words"`
	Told          Text            `yaml:"told"`
	Clears        []Text          `yaml:"clears"`
	Leaves        []Text          `yaml:"leaves"`
	SpeaksFor     []document.Pair `yaml:"speaks_for"`
	SpeaksAgainst []Text          `yaml:"speaks_against"`
	Against       float64         `yaml:"against"`
	Otherwise     Text            `yaml:"otherwise"`
	SameAs        Text            `yaml:"same_as"`
	OppositeOf    Text            `yaml:"opposite_of"`
	Minutes       float64         `yaml:"minutes"`
	RigState      Text            `yaml:"rig_state"`
	Caution       []string        `yaml:"caution"`
	Who           Text            `yaml:"who"`
	Rigs          []Text          `yaml:"rigs"`
	Note          string          `yaml:"note"`
	Source        []Text          `yaml:"source"`
	System        string
}

// CourseSource is how a trouble came on or comes and goes.
type CourseSource struct {
	ID            Text            `yaml:"id,required"`
	Means         string          `yaml:"means,required"`
	Words         []Text          `yaml:"words"`
	SpeaksFor     []document.Pair `yaml:"speaks_for"`
	SpeaksAgainst []Text          `yaml:"speaks_against"`
	Source        []Text          `yaml:"source"`
	System        string
}

// NormalSource is a thing said to be in order and what that denies.
type NormalSource struct {
	ID     Text   `yaml:"id,required"`
	Means  string `yaml:"means,required"`
	Words  []Text `yaml:"words"`
	Denies []Text `yaml:"denies,required"`
	Phases []Text `yaml:"phases"`
	About  Text   `yaml:"about"`
	Source []Text `yaml:"source"`
	System string
}

// CircumstanceSource is what went before and which causes it makes likelier.
type CircumstanceSource struct {
	ID    Text   `yaml:"id,required"`
	Means string `yaml:"means,required"`
	Words []Text `yaml:"words"`
	// When, where there is one, says when it is so without being told.
	When       Text            `yaml:"when"`
	MoreLikely []document.Pair `yaml:"more_likely"`
	LessLikely []document.Pair `yaml:"less_likely"`
	OneStory   []Text          `yaml:"one_story"`
	Rigs       []Text          `yaml:"rigs"`
	Source     []Text          `yaml:"source"`
	System     string
}

// FirstActionSource is what must be done at once, whatever the cause.
type FirstActionSource struct {
	ID     Text   `yaml:"id,required"`
	When   Text   `yaml:"when,required"`
	Do     string `yaml:"do,required"`
	Needs  []Text `yaml:"needs"` // kinds of part without which it does not apply
	Source []Text `yaml:"source,required"`
	System string
}

// PairSource is two causes that look alike and what parts them.
type PairSource struct {
	Of       []Text `yaml:"of,required"`
	Alike    []Text `yaml:"alike"`
	PartedBy []Text `yaml:"parted_by"`
	How      string `yaml:"how"`
	System   string
}

// DoubleSource is two causes at once that look like another.
type DoubleSource struct {
	Of        []Text `yaml:"of,required"`
	Picture   string `yaml:"picture"`
	LooksLike []Text `yaml:"looks_like"`
	Tell      string `yaml:"tell"`
	Evidence  []Text `yaml:"evidence"`
	System    string
}

// LeadSource is a cause that brings another about in time.
type LeadSource struct {
	From   Text   `yaml:"from,required"`
	To     Text   `yaml:"to,required"`
	How    string `yaml:"how"`
	System string
}

// NormalThingSource looks like a fault and is none.
type NormalThingSource struct {
	ID          Text   `yaml:"id"`
	Seen        string `yaml:"seen,required"`
	When        Text   `yaml:"when"`
	Why         string `yaml:"why"`
	NotNormalIf string `yaml:"not_normal_if"`
	Source      []Text `yaml:"source"`
	System      string
}

// SourceSource is a source that knowledge rests on.
type SourceSource struct {
	ID   Text   `yaml:"id,required"`
	What string `yaml:"what,required"`
	Kind Text   `yaml:"kind,required"`
}

// SameWordsSource folds everyday words to one.
type SameWordsSource struct {
	Head  string
	Words []string
}

// PartWordsSource is what people call a part, and the trials on it.
type PartWordsSource struct {
	Part  Text   `yaml:"part,required"`
	Words []Text `yaml:"words"`
	Kinds []Text `yaml:"kinds"`
}

// UntiedSource excuses a cause whose part no connection ties to a reading that
// tells of it.
type UntiedSource struct {
	Cause   Text   `yaml:"cause,required"`
	Reading Text   `yaml:"reading,required"`
	Reason  string `yaml:"reason,required"`
}

// RelationSource says by how much a statement about a part multiplies the odds
// of causes: those of the part itself, of the parts joined to it, and for a
// flow those of what lies between and elsewhere along it.
type RelationSource struct {
	Told      Text    `yaml:"told,required"` // the key of the statement
	How       []Text  `yaml:"how"`           // its words; none means any other
	Own       float64 `yaml:"own"`
	Joined    float64 `yaml:"joined"`
	Between   float64 `yaml:"between"`
	Elsewhere float64 `yaml:"elsewhere"`
	Source    []Text  `yaml:"source,required"`
}

// HazardSource is what forbids checks while it is so or nobody has looked.
type HazardSource struct {
	ID     Text   `yaml:"id,required"`
	Means  string `yaml:"means,required"`
	Blocks []Text `yaml:"blocks,required"` // running, turning
	When   Text   `yaml:"when,required"`   // it is so
	Clear  Text   `yaml:"clear,required"`  // it has been looked for and is not
	Ask    string `yaml:"ask,required"`
	Source []Text `yaml:"source,required"`
}

// ImpliedSource says that a statement about a part is a sign.
type ImpliedSource struct {
	Told Text   `yaml:"told,required"`
	How  []Text `yaml:"how,required"`
	Part []Text `yaml:"part"` // kinds of part; none means any
	Sign Text   `yaml:"sign,required"`
}
