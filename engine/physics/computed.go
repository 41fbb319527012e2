package physics

// This file holds what a computed reading is and how it is worked out.

import (
	"fmt"
	"slices"
	"strings"

	"snagwise/engine/quantity"
)

// A Computed is one reading that is worked out from others. It is shared and must
// not be changed.
type Computed struct {
	ID       string
	Means    string
	Inputs   []Input
	Dim      quantity.Dimension // of the result
	Unit     string             // the result's usual unit; empty for a plain number
	Formula  string             // one line of text, in the units of the inputs
	Verdicts []Verdict          // the words it may add to the figure; may be empty
	Caution  string             // when it holds, how it misleads; may be empty
	Source   string
	work     func(*inputs) result
}

// A Verdict is a word that a computed reading may add to its figure, and what it
// means.
type Verdict struct{ Word, Means string }

// A PlaceKind says where an input comes from.
type PlaceKind uint8

// The places an input may come from.
const (
	Told        PlaceKind = iota // by a person, for this sum alone
	Reading                      // a reading of the moment
	Weather                      // a reading of the weather, the same for the whole sheet
	Phase                        // the phase of the moment
	RigFigure                    // a named figure of the rig
	RigRatio                     // a named ratio of the rig
	RigCapacity                  // a named capacity of the rig
	RigFact                      // a named word of the rig
	RigTable                     // a table of the rig, read at a reading
)

// String returns the place in words.
func (k PlaceKind) String() string {
	words := [...]string{"told", "reading", "weather", "phase", "rig figure", "rig ratio", "rig capacity", "rig fact", "rig table"}
	if int(k) < len(words) {
		return words[k]
	}
	return "unknown place"
}

// A Place is where an input comes from.
type Place struct {
	Kind   PlaceKind
	Name   string   // of the reading, figure, ratio, capacity, fact or table; empty when told
	Phases []string // in which the reading serves; empty: in any
	At     string   // for a table: the reading at which it is read
	AtUnit string   // for a table: the unit of its first column
}

// An Input is one thing that goes into a computed reading: a number, or a word
// where Words is not empty.
type Input struct {
	Name     string
	Means    string
	Dim      quantity.Dimension
	Unit     string            // usual unit, or the unit of a table's second column
	Words    []string          // what the word may be
	Also     map[string]string // other spellings, lower case, of the words
	From     []Place           // in order of preference
	Default  string            // stands in when not given, and is then said to be assumed
	Optional bool              // may stay unknown
}

// A Term is what is known of one input: a quantity, or a word.
type Term struct {
	Quantity quantity.Quantity
	Word     string
}

// Given holds terms by the name of the input.
type Given map[string]Term

// Look returns the term of an input; it serves as the argument of Work.
func (g Given) Look(in *Input) (Term, bool) {
	t, ok := g[in.Name]
	return t, ok
}

// An Assumed is an input that was not given and for which the usual figure stood
// in.
type Assumed struct{ Name, Value string }

// A Figure is a named quantity that comes out beside the main one.
type Figure struct {
	Name     string
	Quantity quantity.Quantity
}

// A Value is what a computed reading comes to.
type Value struct {
	ID       string
	Quantity quantity.Quantity
	Word     string    // one of the verdicts, or ""
	Also     []Figure  // what else came out, in a fixed order
	Assumed  []Assumed // in the order of the inputs
}

// A MissingError says which inputs of a computed reading are not known. It is the
// usual answer when a gauge was not read: no value, never a guess.
type MissingError struct {
	ID     string
	Inputs []string // names, in the order of the inputs
}

// Error returns the names in one line.
func (e *MissingError) Error() string {
	return fmt.Sprintf("%s wants %s", e.ID, strings.Join(e.Inputs, ", "))
}

// A NameError says that there is no such computed reading or input.
type NameError struct {
	Kind  string // "computed reading" or "input"
	Name  string
	Known []string // the names there are, for a near match
}

// Error returns the name, and the names there are where they are few, in one line.
func (e *NameError) Error() string {
	s := fmt.Sprintf("unknown %s %q", e.Kind, e.Name)
	if len(e.Known) <= 8 {
		s += "; wanted " + strings.Join(e.Known, ", ")
	}
	return s
}

// Names returns the ids of all computed readings, sorted.
func Names() []string {
	var ids []string
	for _, c := range table {
		ids = append(ids, c.ID)
	}
	slices.Sort(ids)
	return ids
}

// All returns every computed reading, in the order of the systems: speed and
// power, ignition, fuel, oil, coolant, electrics, air, feathering, weather.
func All() []*Computed { return slices.Clone(table) }

// Find returns the computed reading with an id. The error is a *NameError.
func Find(id string) (*Computed, error) {
	for _, c := range table {
		if c.ID == id {
			return c, nil
		}
	}
	return nil, &NameError{Kind: "computed reading", Name: id, Known: Names()}
}

// Compute works out one computed reading from what is given. The error is a
// *NameError, or as that of Work.
func Compute(id string, given Given) (Value, error) {
	c, err := Find(id)
	if err != nil {
		return Value{}, err
	}
	return c.Work(given.Look)
}

// Input returns the input with a name.
func (c *Computed) Input(name string) (*Input, bool) {
	for i := range c.Inputs {
		if c.Inputs[i].Name == name {
			return &c.Inputs[i], true
		}
	}
	return nil, false
}

// Work works the reading out from what look knows of each input; a term of another
// dimension or with an unfitting word is a *TermError, one out of the formula's
// range holds a *RangeError, and one not known a *MissingError.
func (c *Computed) Work(look func(*Input) (Term, bool)) (Value, error) {
	a := &inputs{c: c, terms: make([]Term, len(c.Inputs)), state: make([]standing, len(c.Inputs))}
	for i := range c.Inputs {
		if err := a.take(i, look); err != nil {
			return Value{}, err
		}
	}
	r := c.work(a)
	if err := a.verdict(); err != nil {
		return Value{}, err
	}
	v := Value{ID: c.ID, Quantity: inUnit(r.si, c.Dim, c.Unit), Word: r.word, Also: r.also}
	for i := range c.Inputs {
		if a.state[i] == assumed && a.used(i) {
			v.Assumed = append(v.Assumed, Assumed{c.Inputs[i].Name, c.Inputs[i].Default})
		}
	}
	return v, nil
}

// A TermError says that a term does not fit its input.
type TermError struct {
	Name string // of the input
	Text string // what is wrong
	Want string // what would be right
}

// Error returns all of it in one line.
func (e *TermError) Error() string { return e.Name + " " + e.Text + "; wanted " + e.Want }

func inUnit(si float64, dim quantity.Dimension, unit string) quantity.Quantity {
	q := quantity.Quantity{SI: si, Dim: dim}
	if unit != "" {
		q.Unit, _ = quantity.UnitFor(unit, dim)
	}
	return q
}
