package sheet

// This file holds the names a sheet may use and how a word is looked up among
// them.

import (
	"slices"

	"snagwise/engine/quantity"
)

// A Vocabulary is every name that a sheet may use. An [Account] speaks of things
// by their index in these lists.
type Vocabulary struct {
	Rig           string // id of the rig that the parts are of; empty for none
	Phases        []Named
	Rough         []RoughPhase // rough words for a phase; nil for [UsualRough]
	Readings      []Reading
	Controls      []Control
	Signs         []Named
	Circumstances []Named
	Courses       []Named
	Trials        []Named
	Normals       []Named
	Causes        []Named
	Checks        []Named
	Parts         []Part
	Flows         []Named

	// Fold brings a phrase to a common form in which like words are one, for
	// what is not found otherwise; nil for none.
	Fold func(phrase string) string
	// Called returns the parts that a word names, several for a group; nil to
	// go by the names of Parts alone.
	Called func(word string) []int
}

// Named is a thing with an id and the everyday words for it.
type Named struct {
	ID    string
	Words []string
}

// A Reading is what can be read: a number of a dimension, or one of Answers.
type Reading struct {
	Named
	Dim     quantity.Dimension
	Unit    string   // of the gauge
	Answers []string // for a reading that gives an answer, else empty
}

// A Control is a lever or switch with its positions and other words for each.
type Control struct {
	Named
	Positions []Named
}

// A Part is a part of the rig.
type Part struct {
	Named
	Name string // as shown, such as "left magneto"
	Kind string
	Side string // left, right or empty
}

// A RoughPhase is a rough word for a phase, with the ids of those it may be.
type RoughPhase struct {
	Words  []string
	Phases []string
}

// UsualRough returns the rough words people use for the phase of a run; common
// practice, no source.
func UsualRough() []RoughPhase {
	return []RoughPhase{
		{[]string{"before starting", "before start", "standing", "not running"}, []string{"rest", "pre_oil"}},
		{[]string{"starting", "at start", "at starting", "on starting", "start up", "trying to start"}, []string{"crank"}},
		{[]string{"running", "in the run", "engine running"}, []string{"idle", "warm_up", "run_up", "display", "cool_down"}},
		{[]string{"slow running", "low speed", "at low speed"}, []string{"idle", "warm_up", "cool_down"}},
		{[]string{"at power", "power", "under power", "at high power", "opened up", "on opening up"}, []string{"run_up", "display"}},
		{[]string{"after stopping", "after the stop", "after shutting down", "after running", "shut down"}, []string{"stopped"}},
		{[]string{"stopping", "shutting down", "on stopping"}, []string{"cool_down", "stopped"}},
		{[]string{"engine still", "still", "stopped or at rest"}, []string{"rest", "pre_oil", "stopped"}},
	}
}

// kind is a sort of thing that a word may name.
type kind uint8

const (
	aReading kind = iota
	aControl
	aSign
	aCircumstance
	aCourse
	aTrial
	aNormal
	aCause
	aCheck
	aPhase
	aFlow
	kinds
)

// kindWords says what each kind is called, and where in a sheet it belongs.
var kindWords = [kinds]struct{ a, many, under string }{
	aReading:      {"a reading", "reading", "readings, with a value"},
	aControl:      {"a lever or switch", "lever or switch", "controls, with its position"},
	aSign:         {"a symptom", "symptom", "symptoms or not_seen"},
	aCircumstance: {"a circumstance", "circumstance", "circumstances"},
	aCourse:       {"a way a trouble comes on", "course", "course"},
	aTrial:        {"something tried", "trial", "trials"},
	aNormal:       {"a thing said to be in order", "thing in order", "normal"},
	aCause:        {"a cause", "cause", "found"},
	aCheck:        {"a check", "check", "checks"},
	aPhase:        {"a phase", "phase", "phase"},
	aFlow:         {"a flow", "flow", "flow"},
}

// A Lexicon looks words up in a vocabulary. It is made once and may be used by
// many goroutines at once.
type Lexicon struct {
	v     Vocabulary
	by    [kinds]*index
	parts *index
	rough *index
	sets  []PhaseSet // of each rough word
	spots []*index   // positions of each control
}

// NewLexicon prepares a vocabulary for looking up.
func NewLexicon(v Vocabulary) *Lexicon {
	lx := &Lexicon{v: v}
	readings := make([]Named, len(v.Readings))
	for i, r := range v.Readings {
		readings[i] = r.Named
	}
	controls := make([]Named, len(v.Controls))
	for i, c := range v.Controls {
		controls[i] = c.Named
		lx.spots = append(lx.spots, newIndex(c.Positions, v.Fold))
	}
	for k, list := range [kinds][]Named{
		aReading: readings, aControl: controls, aSign: v.Signs, aCircumstance: v.Circumstances, aCourse: v.Courses,
		aTrial: v.Trials, aNormal: v.Normals, aCause: v.Causes, aCheck: v.Checks, aPhase: v.Phases, aFlow: v.Flows,
	} {
		lx.by[k] = newIndex(list, v.Fold)
	}
	parts := make([]Named, len(v.Parts))
	for i, p := range v.Parts {
		parts[i] = Named{ID: p.ID, Words: append([]string{p.Name, p.Kind}, p.Words...)}
	}
	lx.parts = newIndex(parts, v.Fold)
	rough := v.Rough
	if rough == nil {
		rough = UsualRough()
	}
	var names []Named
	for _, r := range rough {
		var set PhaseSet
		for i, p := range v.Phases {
			if slices.Contains(r.Phases, p.ID) {
				set |= 1 << i
			}
		}
		if set != 0 && len(r.Words) > 0 {
			names = append(names, Named{ID: r.Words[0], Words: r.Words[1:]})
			lx.sets = append(lx.sets, set)
		}
	}
	lx.rough = newIndex(names, v.Fold)
	return lx
}

// Vocabulary returns what the lexicon looks words up in.
func (lx *Lexicon) Vocabulary() *Vocabulary { return &lx.v }
