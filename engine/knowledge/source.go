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
	Accepted      []AcceptedSource
}

// ReadingSource is one thing that can be read off, told or judged.
type ReadingSource struct {
	ID       Text   `yaml:"id,required"`
	Means    string `yaml:"means,required"`
	Quantity Text   `yaml:"quantity"`
	Unit     Text   `yaml:"unit"`
	Gives    Text   `yaml:"gives"`
	// Computed says that it is worked out from others, under its id.
	Computed bool `yaml:"computed"`
	// Elapsed are phases: the reading is the time that went by in them, up to
	// the moment, summed from what is told between moments.
	Elapsed []Text   `yaml:"elapsed"`
	Answers []Text   `yaml:"answers"`
	Words   []Text   `yaml:"words"`
	Fails   []string `yaml:"fails"`
	Cross   []Text   `yaml:"cross"`
	Source  []Text   `yaml:"source"`
	System  string
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
	// FalseAlarm is how often it is told with none of its causes there, where
	// that is not what is usual for its kind.
	FalseAlarm Text   `yaml:"false_alarm"`
	Words      []Text `yaml:"words"`
	Source     []Text `yaml:"source"`
	System     string
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
	Falsifies     []Text          `yaml:"falsifies"`
	MoreLikelyIf  []Text          `yaml:"more_likely_if"`
	HoldsIf       string          `yaml:"holds_if"`
	Needs         []Text          `yaml:"needs"`
	Before        []document.Pair `yaml:"before"` // flow: kind that its part must lie before
	After         []document.Pair `yaml:"after"`  // flow: kind that its part must lie after
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
	// turning, let_out (what is dangerous is let out or put under pressure), prime
	// (more fuel is put into the engine).
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

// AcceptedSource says that a finding of the examination of the rules stands
// for a reason. About names each finding that is accepted, one or more.
type AcceptedSource struct {
	Check  Text   `yaml:"check,required"`
	About  []Text `yaml:"about,required"`
	Reason Text   `yaml:"reason,required"`
}
