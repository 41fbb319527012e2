// Package rig holds one rig: the parts it has, how they are joined and by what
// flow, its gauges with where they tap and what is usual on them, and its levers
// and switches.
//
// What holds for every rig comes with the kinds of part: the usual connections,
// bands, limits and levers ([LoadKinds]). A rig file says which kinds it has and
// where it differs ([Load]); what it leaves unsaid is filled in and marked as
// assumed.
//
//	kinds, problems := rig.ReadKinds(rules)
//	r, more := rig.Load(kinds, "rigs/hollin.yaml", text)
//	a, _ := r.ByID("engine_fuel_pump")
//	b, _ := r.ByID("fuel_delivery_pipe")
//	suspects := r.Between("fuel", a, b)
//
// A part is named by its index in [Rig.Parts] everywhere. A loaded rig is not
// changed and may be used by many goroutines at once.
package rig

import (
	"slices"
	"strings"

	"snagwise/engine/problem"
	"snagwise/engine/quantity"
)

var phases = []string{"rest", "pre_oil", "crank", "idle", "warm_up", "run_up", "display", "cool_down", "stopped"}

// Phases returns the phases of a ground run, in order. Rest is an engine not
// yet turned that day; stopped is one just stopped.
func Phases() []string { return slices.Clone(phases) }

// A Rig is one engine on its stand.
type Rig struct {
	ID, Name, Means string
	Invented        bool // its figures are no real engine's
	Parts           []Part
	Links           []Link
	Gauges          []Gauge // sorted by reading
	Controls        []Control
	Phases          []string // those this rig goes through, in order
	Flows           []string // those that join parts of this rig, sorted

	Ratios     []Figure // plain numbers, such as reduction
	Capacities []Figure
	Figures    []Figure
	Tables     []Table
	Facts      []Fact
	// DisplayLimits and LeastBeforeOpeningUp are figures of readings: where
	// the keeper ends the display, and what must be reached before power.
	DisplayLimits, LeastBeforeOpeningUp []Figure

	StopControls string // how it is stopped in a hurry
	Notes        []string
	At           problem.Pos

	kinds *Kinds
	byID  map[string]int
	lanes map[string]*lanes // by flow; "" joins all flows
	group []int             // of each part, the number of its connected whole
}

// A Part is one part of a rig. Paired parts are two parts of one kind.
type Part struct {
	ID, Kind, Name string
	Side           string // left, right or ""
	Group          string // the first group that its kind belongs to, or ""
	Count          int    // how many the one entry stands for; at least 1
	At             problem.Pos
}

// A Link says that a flow runs from one part to another.
type Link struct {
	From, To int
	Flow     string
	Assumed  bool // usual for the kinds, not said by the rig
}

// A Gauge is one reading that this rig can give: by a gauge, a meter, an eye or
// a hand. Its numbers are SI values of Dim.
type Gauge struct {
	Reading string
	Taps    []int  // parts where it taps; none for the weather
	At      string // where on the part; may be empty
	Unit    string // empty for an answer
	Dim     quantity.Dimension
	By      string      // gauge, eye, hand, ear, watch, meter, ...
	From    string      // the reading it is worked out from; may be empty
	Dial    *[2]float64 // its ends; nil when not said
	Class   float64     // accuracy, percent of full scale; 0 when not said
	Bands   []Band      // in the order of phases
	Limits  []Limit     // in the order of phases
	Sees    []string
	BlindTo []string
	Note    string
	// BandsAssumed and LimitsAssumed say that the usual ones stand in for
	// figures that the rig does not give.
	BandsAssumed, LimitsAssumed bool
	Pos                         problem.Pos

	usualFrom string
}

// A Band is what is usual in one phase: a stretch of numbers, or answers.
type Band struct {
	Phase   string
	Lo, Hi  float64
	Answers []string // for a reading that gives an answer
}

// A Limit is where to watch and where to stop in one phase. A bound that is not
// set is nil.
type Limit struct {
	Phase                                        string
	WatchBelow, StopBelow, WatchAbove, StopAbove *float64
	WatchOn, StopOn                              []string
	Note                                         string
}

// A Figure is a named quantity of a rig.
type Figure struct {
	Name  string
	Value quantity.Quantity
}

// A Table is a named list of pairs in the units its reader knows.
type Table struct {
	Name string
	Rows [][2]float64
}

// A Fact is a named word about a rig.
type Fact struct{ Name, Value string }

// ByID returns the part with an id.
func (r *Rig) ByID(id string) (int, bool) {
	i, ok := r.byID[id]
	return i, ok
}

// OfKind returns the parts of a kind, in the order of the rig.
func (r *Rig) OfKind(kind string) []int {
	var found []int
	for i := range r.Parts {
		if r.Parts[i].Kind == kind {
			found = append(found, i)
		}
	}
	return found
}

// Called returns the parts that go by a word: a part's id or name, a kind or
// group of kinds by id, or one of their everyday words. Case, underscores and
// hyphens do not matter; "left" or "right" before the word takes one side.
func (r *Rig) Called(word string) []int {
	w := foldWord(word)
	if found := r.called(w); found != nil {
		return found
	}
	for _, side := range sides {
		if rest, ok := strings.CutPrefix(w, side+" "); ok {
			return slices.DeleteFunc(r.called(rest), func(p int) bool { return r.Parts[p].Side != side })
		}
	}
	return nil
}

func (r *Rig) called(word string) []int {
	for i := range r.Parts {
		if p := &r.Parts[i]; foldWord(p.ID) == word || foldWord(p.Name) == word {
			return []int{i}
		}
	}
	named := r.kinds.called(word)
	var found []int
	for i := range r.Parts {
		if slices.Contains(named, r.Parts[i].Kind) {
			found = append(found, i)
		}
	}
	return found
}

// Gauge returns the gauge that gives a reading.
func (r *Rig) Gauge(reading string) (*Gauge, bool) {
	for i := range r.Gauges {
		if r.Gauges[i].Reading == reading {
			return &r.Gauges[i], true
		}
	}
	return nil, false
}

// Control returns the lever or switch with an id.
func (r *Rig) Control(id string) (*Control, bool) {
	for i := range r.Controls {
		if r.Controls[i].ID == id {
			return &r.Controls[i], true
		}
	}
	return nil, false
}

// Kinds returns the kinds of part that the rig was loaded with.
func (r *Rig) Kinds() *Kinds { return r.kinds }

// Figure returns a quantity among the figures, capacities and ratios.
func (r *Rig) Figure(name string) (quantity.Quantity, bool) {
	for _, list := range [][]Figure{r.Figures, r.Capacities, r.Ratios} {
		for _, f := range list {
			if f.Name == name {
				return f.Value, true
			}
		}
	}
	return quantity.Quantity{}, false
}

// Table returns the rows of a table.
func (r *Rig) Table(name string) ([][2]float64, bool) {
	for _, t := range r.Tables {
		if t.Name == name {
			return t.Rows, true
		}
	}
	return nil, false
}

// Fact returns a word about the rig, or "".
func (r *Rig) Fact(name string) string {
	for _, f := range r.Facts {
		if f.Name == name {
			return f.Value
		}
	}
	return ""
}

// Band returns what is usual on g in a phase.
func (g *Gauge) Band(phase string) (Band, bool) {
	for _, b := range g.Bands {
		if b.Phase == phase {
			return b, true
		}
	}
	return Band{}, false
}

// Limit returns where to watch and stop on g in a phase.
func (g *Gauge) Limit(phase string) (Limit, bool) {
	for _, l := range g.Limits {
		if l.Phase == phase {
			return l, true
		}
	}
	return Limit{}, false
}
