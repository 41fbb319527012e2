package knowledge

// This file holds what the rule files say of what people tell, and of what ties
// things to one another.

import (
	"snagwise/engine/document"
	"snagwise/engine/problem"
)

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
	At       problem.Pos
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
	When      []Text  `yaml:"when"`          // when it was done; none means any other time
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
	Blocks []Text `yaml:"blocks"` // running, turning
	// BlocksIfSo are sorts of check that it forbids when it is so and not while
	// nobody has looked: let_out, prime.
	BlocksIfSo []Text `yaml:"blocks_if_so"`
	When       Text   `yaml:"when,required"`  // it is so
	Clear      Text   `yaml:"clear,required"` // it has been looked for and is not
	Ask        string `yaml:"ask,required"`
	Source     []Text `yaml:"source,required"`
}

// ImpliedSource says that a statement about a part is a sign.
type ImpliedSource struct {
	Told Text   `yaml:"told,required"`
	How  []Text `yaml:"how,required"`
	Part []Text `yaml:"part"` // kinds of part; none means any
	Sign Text   `yaml:"sign,required"`
}
