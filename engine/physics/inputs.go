package physics

// This file holds the inputs of one sum while it is worked out.

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"snagwise/engine/quantity"
)

// standing says what is known of an input.
type standing uint8

const (
	unknown standing = iota
	given
	assumed
)

// inputs are the inputs of one sum. A sum asks for them by name; what it asks for
// and is not known, and the first error of a formula, are gathered here.
type inputs struct {
	c       *Computed
	terms   []Term
	state   []standing
	asked   uint64 // by index: the sum used it
	missing []string
	err     error
}

// A result is what a sum comes to.
type result struct {
	si   float64
	word string
	also []Figure
}

// take fills in input i: as looked up, or its default.
func (a *inputs) take(i int, look func(*Input) (Term, bool)) error {
	in := &a.c.Inputs[i]
	t, ok := look(in)
	if !ok || math.IsNaN(t.Quantity.SI) {
		if in.Default == "" {
			return nil
		}
		d, err := in.read(in.Default)
		if err != nil {
			return err
		}
		a.terms[i], a.state[i] = d, assumed
		return nil
	}
	if len(in.Words) > 0 {
		w, fits := in.Match(t.Word)
		if !fits {
			return &TermError{in.Name, fmt.Sprintf("is %q", t.Word), strings.Join(in.Words, ", ")}
		}
		t.Word = w
	} else if t.Quantity.Dim != in.Dim {
		return &TermError{in.Name, "is a " + t.Quantity.Dim.String(), "a " + in.Dim.String()}
	} else if math.IsInf(t.Quantity.SI, 0) {
		return &TermError{in.Name, "is without end", "a number"}
	}
	a.terms[i], a.state[i] = t, given
	return nil
}

func (a *inputs) index(name string) int {
	i := slices.IndexFunc(a.c.Inputs, func(in Input) bool { return in.Name == name })
	if i < 0 {
		panic("physics: " + a.c.ID + " asks for " + name + ", which is none of its inputs")
	}
	return i
}

func (a *inputs) used(i int) bool { return a.asked&(1<<i) != 0 }

// has reports whether an input is known.
func (a *inputs) has(name string) bool { return a.state[a.index(name)] != unknown }

// si returns the SI value of an input, NaN and a note when it is not known.
func (a *inputs) si(name string) float64 {
	i := a.index(name)
	a.asked |= 1 << i
	if a.state[i] == unknown {
		a.miss(name)
		return math.NaN()
	}
	return a.terms[i].Quantity.SI
}

// word returns the word of an input, "" and a note when it is not known.
func (a *inputs) word(name string) string {
	i := a.index(name)
	a.asked |= 1 << i
	if a.state[i] == unknown {
		a.miss(name)
	}
	return a.terms[i].Word
}

func (a *inputs) miss(name string) {
	if !slices.Contains(a.missing, name) {
		a.missing = append(a.missing, name)
	}
}

// sum passes the value of a formula on and keeps its error.
func (a *inputs) sum(v float64, err error) float64 {
	if err != nil && a.err == nil {
		a.err = err
	}
	return v
}

// verdict returns what went wrong: first what is missing, for a formula that was
// fed with nothing has nothing to say.
func (a *inputs) verdict() error {
	if len(a.missing) > 0 {
		slices.SortFunc(a.missing, func(x, y string) int { return a.index(x) - a.index(y) })
		return &MissingError{a.c.ID, a.missing}
	}
	if a.err != nil {
		return fmt.Errorf("%s: %w", a.c.ID, a.err)
	}
	return nil
}

// Match returns the word of the input that a text stands for; case does not
// matter.
func (in *Input) Match(text string) (string, bool) {
	folded := strings.ToLower(strings.Join(strings.Fields(text), " "))
	for _, w := range in.Words {
		if strings.ToLower(w) == folded {
			return w, true
		}
	}
	w, ok := in.Also[folded]
	return w, ok
}

// Seek returns the term of an input in a phase from the first of its places where
// find knows one that fits: a reading that serves in this phase, of the right
// dimension, or a word that the input knows. What is told for one sum alone is not
// sought. It serves an engine that works out what it can: what does not fit is not
// known.
func (in *Input) Seek(phase string, find func(Place) (Term, bool)) (Term, bool) {
	for _, p := range in.From {
		if p.Kind == Told || len(p.Phases) > 0 && !slices.Contains(p.Phases, phase) {
			continue
		}
		t, ok := find(p)
		if !ok {
			continue
		}
		if len(in.Words) == 0 && t.Quantity.Dim == in.Dim {
			return t, true
		}
		if w, fits := in.Match(t.Word); fits {
			return Term{Word: w}, true
		}
	}
	return Term{}, false
}

// FromTable returns the term of an input that comes from a rig's table: its rows
// read at a quantity, in the units that the input's place and the input name.
// Outside the table the error is a *RangeError.
func (in *Input) FromTable(rows [][2]float64, at quantity.Quantity) (Term, error) {
	var place Place
	for _, p := range in.From {
		if p.Kind == RigTable {
			place = p
		}
	}
	x, err := at.In(place.AtUnit)
	if err != nil {
		return Term{}, &TermError{in.Name, "is read at a " + at.Dim.String(), "one in " + strconv.Quote(place.AtUnit)}
	}
	y, err := Between(rows, x)
	if err != nil {
		return Term{}, fmt.Errorf("%s: %w", in.Name, err)
	}
	q, err := quantity.New(y, in.Unit, in.Dim)
	if err != nil {
		return Term{}, &TermError{in.Name, err.Error(), "a " + in.Dim.String()}
	}
	return Term{Quantity: q}, nil
}

// read reads the text of an input.
func (in *Input) read(text string) (Term, error) {
	if len(in.Words) > 0 {
		w, ok := in.Match(text)
		if !ok {
			return Term{}, &TermError{in.Name, fmt.Sprintf("is %q", text), strings.Join(in.Words, ", ")}
		}
		return Term{Word: w}, nil
	}
	q, err := quantity.ParseAs(text, in.Dim, in.Unit)
	if err != nil {
		if e, ok := err.(*quantity.Error); ok && e.Hint() != "" {
			return Term{}, &TermError{in.Name, fmt.Sprintf("= %q: %s", text, e.Reason), e.Hint()}
		}
		return Term{}, &TermError{in.Name, fmt.Sprintf("= %q: %v", text, err), "a " + in.Dim.String()}
	}
	return Term{Quantity: q}, nil
}

// An ArgumentError says which argument cannot be read, counting from 0.
type ArgumentError struct {
	At       int
	Argument string
	Err      error // a *NameError or *TermError, or one of its own
}

// Error returns what is wrong with the argument.
func (e *ArgumentError) Error() string { return fmt.Sprintf("argument %q: %v", e.Argument, e.Err) }

// Unwrap returns what lies beneath.
func (e *ArgumentError) Unwrap() error { return e.Err }

// Read reads arguments of the form name=value, such as "engine_rpm=1800 rpm", and
// returns what they give, and every fault in them as an *ArgumentError.
func (c *Computed) Read(arguments []string) (Given, []error) {
	terms := Given{}
	var faults []error
	for i, arg := range arguments {
		if err := c.readOne(terms, arg); err != nil {
			faults = append(faults, &ArgumentError{i, arg, err})
		}
	}
	return terms, faults
}

func (c *Computed) names() []string {
	var names []string
	for i := range c.Inputs {
		names = append(names, c.Inputs[i].Name)
	}
	return names
}

func (c *Computed) readOne(terms Given, arg string) error {
	name, text, found := strings.Cut(arg, "=")
	name, text = strings.TrimSpace(name), strings.TrimSpace(text)
	if !found {
		return fmt.Errorf("wanted name=value")
	}
	in, ok := c.Input(name)
	if !ok {
		return &NameError{"input", name, c.names()}
	}
	if _, twice := terms[name]; twice {
		return fmt.Errorf("%s is given twice; wanted it once", name)
	}
	t, err := in.read(text)
	if err != nil {
		return err
	}
	terms[name] = t
	return nil
}
