package main

// This file works out one reading from others, and lists what can be worked
// out.

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"snagwise/engine/diagnose"
	"snagwise/engine/physics"
	"snagwise/engine/problem"
	"snagwise/engine/quantity"
	"snagwise/engine/rig"
	"snagwise/engine/sheet"
)

// computeCommand lists the computed readings, and works one out.
func (p *program) computeCommand() *cobra.Command {
	var asJSON bool
	c := &cobra.Command{
		Use:   "compute [NAME [INPUT=VALUE ...]]",
		Short: "Work out what no gauge shows, with formula and source",
		Long: `Work out a reading that no gauge shows from what is given, and say by which
formula, from which source and when it holds. Without a name, list what can be
worked out and what each needs. With --rig the rig's own figures and its record
stand in for what is not given.`,
		Example: `  snagwise compute fuel_drop fuel_pump_pressure=16psi fuel_delivery_pressure=11psi
  snagwise compute expected_boost_for_rpm engine_rpm=1800rpm \
      ambient_pressure=985hPa --rig hollin`,
		RunE: func(_ *cobra.Command, args []string) error {
			err := p.compute(args, asJSON)
			var l problem.List
			if asJSON && errors.As(err, &l) {
				p.status = wrong
				return p.printJSON(diagnose.Fault{Problems: l.Sorted()})
			}
			return err
		},
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 0 {
				return physics.Names(), cobra.ShellCompDirectiveNoFileComp
			}
			c, err := physics.Find(args[0])
			if err != nil {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return each(c.Inputs, func(in physics.Input) string { return in.Name + "=" }), cobra.ShellCompDirectiveNoSpace
		},
	}
	p.rigFlag(c, "`NAME` or file of the rig whose figures stand in")
	c.Flags().BoolVar(&asJSON, "json", false, "the same content as JSON")
	return c
}

// compute carries the command out.
func (p *program) compute(args []string, asJSON bool) error {
	var r *rig.Rig
	if p.choice.Rig != "" {
		var err error
		if _, r, err = p.openRig(); err != nil {
			return err
		}
	}
	if len(args) == 0 {
		if asJSON {
			return p.printJSON(computables())
		}
		listComputed(p.page)
		return nil
	}
	p.text[sheet.ArgsFile] = []byte(sheet.ArgsLine(args))
	s := sum{rig: r, args: args}
	if l := s.find(); len(l) > 0 {
		return l
	}
	if l := s.read(); len(l) > 0 {
		return l
	}
	v, l := s.work()
	if len(l) > 0 {
		return l
	}
	if asJSON {
		return p.printJSON(s.answer(v))
	}
	s.show(p.page, v)
	return nil
}

// A sum is one computed reading with what is given to it.
type sum struct {
	rig   *rig.Rig // nil for none
	args  []string
	c     *physics.Computed
	given physics.Given
	at    map[string]quantity.Quantity // where the rig's tables are read
	from  map[string]string            // by input: where it comes from
	terms map[string]physics.Term      // by input: what it was taken as
}

func place(col int) problem.Pos { return problem.Pos{File: sheet.ArgsFile, Line: 1, Col: col} }

func (s *sum) find() (l problem.List) {
	c, err := physics.Find(s.args[0])
	if err != nil {
		l.Add(place(1), "unknown-name", fmt.Sprintf("unknown computed reading %q", s.args[0]), problem.DidYouMean(s.args[0], physics.Names()))
	}
	s.c = c
	return l
}

// read reads the arguments. A word without "=" belongs to the value before it,
// as in "boost=-4 lb".
func (s *sum) read() (l problem.List) {
	var words []string
	var cols []int
	col := len([]rune(s.args[0])) + 2
	for _, a := range s.args[1:] {
		if n := len(words); n > 0 && !strings.Contains(a, "=") {
			words[n-1] += " " + a
		} else {
			words, cols = append(words, a), append(cols, col)
		}
		col += len([]rune(a)) + 1
	}
	s.at = map[string]quantity.Quantity{}
	rest, restCols := words[:0:0], cols[:0:0]
	for i, w := range words {
		name, text, _ := strings.Cut(w, "=")
		unit := s.tableUnit(name)
		if unit == "" {
			rest, restCols = append(rest, w), append(restCols, cols[i])
			continue
		}
		q, err := quantity.ParseAs(strings.TrimSpace(text), quantity.Serves(unit)[0], unit)
		if err != nil {
			var e *quantity.Error
			hint := ""
			if errors.As(err, &e) {
				hint = e.Hint()
			}
			l.Add(place(cols[i]), "bad-value", err.Error(), hint)
			continue
		}
		s.at[name] = q
	}
	given, faults := s.c.Read(rest)
	s.given = given
	for _, err := range faults {
		s.fault(&l, restCols, err)
	}
	return l
}

// tableUnit returns the unit in which a name says where the rig's table is
// read, or "" for any other name.
func (s *sum) tableUnit(name string) string {
	if _, own := s.c.Input(name); own || s.rig == nil {
		return ""
	}
	for i := range s.c.Inputs {
		for _, p := range s.c.Inputs[i].From {
			if p.Kind == physics.RigTable && p.At == name {
				return p.AtUnit
			}
		}
	}
	return ""
}

// fault words what is wrong with one argument.
func (s *sum) fault(l *problem.List, cols []int, err error) {
	var arg *physics.ArgumentError
	if !errors.As(err, &arg) {
		l.Add(problem.Pos{}, "bad-value", err.Error(), "")
		return
	}
	at := place(cols[arg.At])
	var name *physics.NameError
	var term *physics.TermError
	switch {
	case errors.As(err, &name):
		known := name.Known
		hint := problem.DidYouMean(name.Name, known)
		if hint == "" {
			hint = "wanted " + strings.Join(known, ", ")
		}
		l.Add(at, "unknown-name", fmt.Sprintf("%s takes no %q", s.c.ID, name.Name), hint)
	case errors.As(err, &term):
		l.Add(at, "bad-value", term.Name+" "+term.Text, s.wish(term))
	default:
		l.Add(at, "bad-value", arg.Err.Error(), "")
	}
}

// wish says what a term should have been.
func (s *sum) wish(e *physics.TermError) string {
	if in, ok := s.c.Input(e.Name); ok && len(in.Words) > 0 {
		return "one of: " + e.Want
	}
	if strings.HasPrefix(e.Want, "a ") {
		return "wanted " + e.Want
	}
	return e.Want
}

// work works the sum out.
func (s *sum) work() (physics.Value, problem.List) {
	var l problem.List
	s.from, s.terms = map[string]string{}, map[string]physics.Term{}
	v, err := s.c.Work(func(in *physics.Input) (physics.Term, bool) {
		if t, ok := s.given.Look(in); ok {
			s.from[in.Name], s.terms[in.Name] = "given", t
			return t, true
		}
		if s.rig == nil {
			return physics.Term{}, false
		}
		t, ok := in.Seek("", func(p physics.Place) (physics.Term, bool) { return s.ofRig(in, p, &l) })
		if ok {
			s.from[in.Name], s.terms[in.Name] = s.rig.Name, t
		}
		return t, ok
	})
	var missing *physics.MissingError
	switch {
	case errors.As(err, &missing):
		for _, name := range missing.Inputs {
			in, _ := s.c.Input(name)
			l.Add(problem.Pos{}, "missing", fmt.Sprintf("%s wants %s: %s", s.c.ID, name, in.Means), s.wanted(in))
		}
	case err != nil:
		l.Add(problem.Pos{}, "out-of-range", err.Error(), "")
	}
	return v, l
}

// wanted says how an input could be given.
func (s *sum) wanted(in *physics.Input) string {
	text := fmt.Sprintf("give %s=..., a %v such as %s", in.Name, in.Dim, in.Unit)
	switch {
	case len(in.Words) > 0:
		text = fmt.Sprintf("give %s=..., one of: %s", in.Name, strings.Join(in.Words, ", "))
	case in.Unit == "":
		text = fmt.Sprintf("give %s=..., a plain number", in.Name)
	}
	for _, p := range in.From {
		switch {
		case s.rig == nil && p.Kind >= physics.RigFigure:
			return text + ", or name a rig that has it with --rig"
		case s.rig != nil && p.Kind == physics.RigTable && len(s.at) == 0:
			return text + fmt.Sprintf(", or %s=... for the record of the rig", p.At)
		}
	}
	return text
}

// ofRig returns what the rig has at a place.
func (s *sum) ofRig(in *physics.Input, p physics.Place, l *problem.List) (physics.Term, bool) {
	switch p.Kind {
	case physics.RigFigure, physics.RigRatio, physics.RigCapacity:
		q, ok := s.rig.Figure(p.Name)
		return physics.Term{Quantity: q}, ok
	case physics.RigFact:
		w := s.rig.Fact(p.Name)
		return physics.Term{Word: w}, w != ""
	case physics.RigTable:
		rows, ok := s.rig.Table(p.Name)
		at, told := s.at[p.At]
		if !ok || !told {
			return physics.Term{}, false
		}
		t, err := in.FromTable(rows, at)
		if err != nil {
			l.Add(problem.Pos{}, "out-of-range", fmt.Sprintf("the record of the %s: %v", s.rig.Name, err), "")
		}
		return t, err == nil
	}
	return physics.Term{}, false
}

// needs lists what an input list wants: what must be given, what may be, and
// what has a usual figure.
func needs(c *physics.Computed) (must, may, usual []string) {
	for i := range c.Inputs {
		switch in := &c.Inputs[i]; {
		case in.Default != "":
			usual = append(usual, in.Name)
		case in.Optional:
			may = append(may, in.Name)
		default:
			must = append(must, in.Name)
		}
	}
	return must, may, usual
}

// inputsUsed returns the names of what went into a sum, in the order of the
// inputs, beside what was assumed.
func (s *sum) inputsUsed() []string {
	return slices.DeleteFunc(each(s.c.Inputs, func(in physics.Input) string { return in.Name }),
		func(name string) bool { return s.from[name] == "" })
}
