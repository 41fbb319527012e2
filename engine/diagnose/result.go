package diagnose

import "snagwise/engine/problem"

// A Result is everything one sheet leads to. Its JSON form is stable; the
// schema beside this file is generated from these types.
type Result struct {
	Rig          RigRef        `json:"rig" jsonschema_description:"the rig that the sheet is about"`
	FirstActions []FirstAction `json:"first_actions" jsonschema_description:"what must be done at once, before any ranking and whatever it says"`
	Causes       []Cause       `json:"causes" jsonschema_description:"likely causes, likeliest first"`
	NoneOfThese  float64       `json:"none_of_these" jsonschema:"minimum=0,maximum=1" jsonschema_description:"chance that none of the listed causes is there"`
	NextChecks   []Check       `json:"next_checks" jsonschema_description:"what to look at next, best first"`
	NeedsTools   []Check       `json:"needs_tools" jsonschema_description:"checks worth doing for which a tool is missing"`
	HeldBack     []HeldBack    `json:"held_back" jsonschema_description:"checks not offered while something dangerous is true or not looked at"`
	AskFirst     []string      `json:"ask_first" jsonschema_description:"what should be answered before anything is run or turned: dangers that nobody has looked for"`
	NormalThings []NormalThing `json:"normal_things" jsonschema_description:"what looks like a fault and is none"`
	Disagree     []Disagree    `json:"disagree" jsonschema_description:"things told that contradict one another"`
	CallEngineer []string      `json:"call_engineer" jsonschema_description:"why a licensed engineer is needed, if so"`
	Assumed      []string      `json:"assumed" jsonschema_description:"what was taken for granted and not told"`
	Notes        []string      `json:"notes" jsonschema_description:"what was told and fits no field: shown, not used"`
	Opens        Opening       `json:"-"` // where the situation asks for it
	Noticed      []Noticed     `json:"-"` // likewise
	// Try is the cause to put right without looking further, by id, where that
	// is worth more than any check and no check settles it; "" for none.
	Try string `json:"-"`
	// Chances holds the chance of every cause that the rig can have, by id, and
	// Dangers all that may forbid checks.
	Chances       map[string]float64 `json:"-"`
	Dangers       []Danger           `json:"-"`
	LeftOutChance float64            `json:"left_out_chance" jsonschema:"minimum=0,maximum=1" jsonschema_description:"upper bound on what sets of causes left out of the sum could weigh"`
}

// RigRef names a rig.
type RigRef struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// A FirstAction is due at once.
type FirstAction struct {
	ID      string   `json:"id"`
	Do      string   `json:"do"`
	Because []Ground `json:"because"`
	Source  []string `json:"source"`
}

// A Ground is one thing known, in a proof or a ledger.
type Ground struct {
	ID     string `json:"id"`
	Means  string `json:"means"`
	Truth  string `json:"truth" jsonschema:"enum=true,enum=false,enum=not known"`
	How    string `json:"how" jsonschema_description:"told, or the rule that concluded it and the figures it rests on"`
	Moment int    `json:"moment,omitempty" jsonschema_description:"number of the moment, from 1; 0 for the whole sheet"`
}

// A Cause is one thing that may be wrong.
type Cause struct {
	ID            string    `json:"id"`
	Name          string    `json:"name"`
	System        string    `json:"system"`
	Part          string    `json:"part" jsonschema_description:"the part of the rig; of paired parts the likelier"`
	Places        []Place   `json:"places,omitempty" jsonschema_description:"for paired parts, the chance of each"`
	Chance        float64   `json:"chance" jsonschema:"minimum=0,maximum=1"`
	ChanceInWords string    `json:"chance_in_words"`
	Start         float64   `json:"start" jsonschema_description:"points from how common it is"`
	For           []Line    `json:"for" jsonschema_description:"what speaks for it, most first"`
	Against       []Line    `json:"against" jsonschema_description:"what speaks against it, most first"`
	NotLookedAt   []Unknown `json:"not_looked_at" jsonschema_description:"what would bear on it and is not known"`
	NotExplained  []string  `json:"not_explained,omitempty" jsonschema_description:"what was told that it does not explain"`
	Ledger        []Line    `json:"ledger" jsonschema_description:"the same evidence in lines that add up to the total; signs that hang together are one line"`
	Total         float64   `json:"total" jsonschema_description:"points in all, alone against none of the listed causes"`
	FellBecause   string    `json:"fell_because,omitempty" jsonschema_description:"the likelier cause that explains the same things"`
	Who           string    `json:"who" jsonschema_description:"who may put it right"`
	RunOn         string    `json:"run_on"`
	RunOnWhy      string    `json:"run_on_why,omitempty"`
	SettledBy     string    `json:"settled_by,omitempty"`
	Remedy        string    `json:"remedy,omitempty"`
	RemedyMinutes float64   `json:"remedy_minutes,omitempty"`
	HoldsIf       string    `json:"holds_if,omitempty"`
	Source        []string  `json:"source"`
}

// A Why is the whole ground of one cause: its ledger, and for every sign in it
// how that sign is known.
type Why struct {
	Cause  Cause   `json:"cause"`
	Proofs []Proof `json:"proofs"`
}

// A Proof is one step of why a thing is so, and what it rests on.
type Proof struct {
	Ground
	Clauses []string `json:"clauses,omitempty" jsonschema_description:"the parts of the rule that decided it, with the figures found"`
	// WorkedOut are the computed readings that those parts rest on.
	WorkedOut []WorkedOut `json:"worked_out,omitempty" jsonschema_description:"the computed readings that those parts rest on"`
	From      []Proof     `json:"from,omitempty"`
}

// A WorkedOut is a reading that nobody read: it was worked out from others.
type WorkedOut struct {
	ID      string `json:"id"`
	Means   string `json:"means"`
	Value   string `json:"value" jsonschema_description:"the figure, in its usual unit"`
	Formula string `json:"formula" jsonschema_description:"how it was worked out, in the units of what goes in"`
	Caution string `json:"caution,omitempty" jsonschema_description:"when the formula holds and how it misleads"`
	Source  string `json:"source"`
}

// A Place is one of several like parts.
type Place struct {
	Part   string  `json:"part"`
	Chance float64 `json:"chance" jsonschema:"minimum=0,maximum=1"`
}

// A Line is one line of a ledger: points are ten times the decimal logarithm
// of a ratio, so 3 doubles the odds and 10 is ten times.
type Line struct {
	ID     string  `json:"id"`
	Means  string  `json:"means"`
	Points float64 `json:"points"`
	How    string  `json:"how"`
}

// An Unknown is a sign nobody has looked at.
type Unknown struct {
	ID    string `json:"id"`
	Means string `json:"means"`
	Check string `json:"check,omitempty" jsonschema_description:"the quickest check that settles it"`
}

// A Check is what to look at next.
type Check struct {
	ID           string   `json:"id"`
	Do           string   `json:"do"`
	Minutes      float64  `json:"minutes"`
	MinutesSaved float64  `json:"minutes_saved"`
	RigState     string   `json:"rig_state"`
	SetUp        float64  `json:"set_up_minutes" jsonschema_description:"minutes to get the rig into that state, paid once for all checks that share it"`
	Cautions     []string `json:"cautions"`
	Tools        []string `json:"tools"`
	Who          string   `json:"who"`
	Inspects     string   `json:"inspects,omitempty" jsonschema_description:"the cause that this looks at directly: the way to go where no cheaper check pays"`
	Answers      []Answer `json:"answers" jsonschema_description:"what it may show and what that would mean"`
	Missing      []string `json:"missing_tools,omitempty"`
	Source       []string `json:"source,omitempty"`
}

// An Answer is one thing a check may show.
type Answer struct {
	ID     string   `json:"id"`
	Means  string   `json:"means"`
	Chance float64  `json:"chance"`
	Leads  []string `json:"leads" jsonschema_description:"the causes that would then lead"`
}

// A HeldBack is a check that is not offered, and why.
type HeldBack struct {
	ID  string `json:"id"`
	Do  string `json:"do"`
	Why string `json:"why"`
}

// A NormalThing looks like a fault and is none.
type NormalThing struct {
	Seen        string `json:"seen"`
	Why         string `json:"why"`
	NotNormalIf string `json:"not_normal_if"`
}

// A Disagree is two things told that cannot both be so.
type Disagree struct {
	ID    string `json:"id"`
	Means string `json:"means"`
	Why   string `json:"why"`
}

// A Fault is a Result that could not be: what was wrong with the input.
type Fault struct {
	Problems []problem.Problem `json:"problems"`
}
