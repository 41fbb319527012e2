package rig

// This file reads a rig file.

import (
	"fmt"
	"slices"
	"strings"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

var sides = []string{"left", "right"}

// rigFile is what a rig file may hold.
type rigFile struct {
	Rig         document.Text    `yaml:"rig,required"`
	Name        string           `yaml:"name,required"`
	Means       string           `yaml:"means,required"`
	Invented    bool             `yaml:"invented"`
	Phases      []document.Text  `yaml:"phases"`
	Parts       []*document.Node `yaml:"parts,required"`
	Connections *document.Node   `yaml:"connections"`
	Gauges      *document.Node   `yaml:"gauges"`
	Controls    *document.Node   `yaml:"controls"`
	Ratios      []document.Pair  `yaml:"ratios"`
	Capacities  []document.Pair  `yaml:"capacities"`
	Figures     []document.Pair  `yaml:"figures"`
	Tables      *document.Node   `yaml:"tables"`
	Facts       []document.Pair  `yaml:"facts"`
	Display     *document.Node   `yaml:"display_limits"`
	Least       *document.Node   `yaml:"least_before_opening_up"`
	Stop        string           `yaml:"stop_controls"`
	Notes       []string         `yaml:"notes"`
	At          problem.Pos
}

type partFile struct {
	ID    document.Text `yaml:"id"`
	Kind  document.Text `yaml:"kind"`
	Name  string        `yaml:"name"`
	Side  document.Text `yaml:"side"`
	Count int           `yaml:"count"`
}

// Budgets for what a stranger may have written. Loading gives up on a list once
// a file has shown enough problems.
const (
	maxParts    = 2000  // parts of a rig, and kinds
	maxLinks    = 50000 // links of a rig, and usual ones
	maxProblems = 500
)

func enough(l problem.List) bool { return len(l) > maxProblems }

type loader struct {
	*Rig
	l problem.List
}

// Load reads one rig file. All its faults are reported at once; the rig is nil
// when there are any. A nil or faulty Kinds makes every part unknown.
func Load(kinds *Kinds, file string, text []byte) (*Rig, problem.List) {
	node, faults := document.Parse(file, text)
	if node == nil {
		return nil, faults
	}
	if kinds == nil {
		kinds = &Kinds{}
	}
	var f rigFile
	ld := &loader{Rig: &Rig{kinds: kinds, byID: map[string]int{}}, l: faults}
	ld.l = append(ld.l, document.Decode(node, &f)...)
	ld.ID, ld.Name, ld.Means, ld.Invented = f.Rig.Value, f.Name, f.Means, f.Invented
	ld.StopControls, ld.Notes, ld.At = f.Stop, f.Notes, f.At
	if f.Rig.Value != "" {
		checkID(f.Rig, &ld.l)
	}
	ld.takePhases(f.Phases)
	for _, n := range f.Parts {
		if len(ld.Parts) >= maxParts || enough(ld.l) {
			ld.add(n.Pos(), "too-many", "", "no more parts are read from here on")
			break
		}
		ld.takePart(n)
	}
	ld.takeConnections(f.Connections)
	ld.index()
	ld.takeGauges(f.Gauges)
	ld.takeControls(f.Controls)
	ld.Ratios = ld.takeFigures(f.Ratios, true)
	ld.Capacities = ld.takeFigures(f.Capacities, false)
	ld.Figures = ld.takeFigures(f.Figures, false)
	ld.takeTables(f.Tables)
	for _, p := range f.Facts {
		ld.Facts = append(ld.Facts, Fact{p.Key.Value, p.Value.Value})
	}
	ld.DisplayLimits = ld.takeReadingFigures(f.Display)
	ld.LeastBeforeOpeningUp = ld.takeReadingFigures(f.Least)
	if len(ld.l) > 0 {
		return nil, ld.l.Sorted()
	}
	return ld.Rig, nil
}

func (ld *loader) add(pos problem.Pos, check, hint, format string, args ...any) {
	ld.l.Add(pos, check, fmt.Sprintf(format, args...), hint)
}

func (ld *loader) takePhases(list []document.Text) {
	if len(list) == 0 {
		ld.Phases = Phases()
		return
	}
	for _, p := range list {
		if !slices.Contains(phases, p.Value) {
			ld.add(p.At, "unknown-phase", problem.DidYouMean(p.Value, phases), "unknown phase %q", p.Value)
		}
	}
	for _, p := range phases {
		if slices.ContainsFunc(list, func(t document.Text) bool { return t.Value == p }) {
			ld.Phases = append(ld.Phases, p)
		}
	}
}

// takePart takes one entry: a bare kind, or a map. A paired kind without a side
// stands for a left and a right part.
func (ld *loader) takePart(n *document.Node) {
	var p partFile
	switch n.Kind {
	case document.Scalar:
		ld.l = append(ld.l, document.Decode(n, &p.Kind)...)
	default:
		ld.l = append(ld.l, document.Decode(n, &p)...)
	}
	if p.Kind.Value == "" {
		p.Kind = p.ID
	}
	if p.Kind.Value == "" {
		ld.add(n.Pos(), "missing-key", "wanted a kind of part", "this part has no kind")
		return
	}
	i := ld.kinds.wantKind(p.Kind, &ld.l)
	if i < 0 {
		return
	}
	if s := p.Side.Value; s != "" && !slices.Contains(sides, s) {
		ld.add(p.Side.At, "unknown-side", problem.DidYouMean(s, sides), "unknown side %q", s)
		return
	}
	if p.Count < 0 || p.Count > 1000 {
		ld.add(n.Pos(), "bad-count", "a whole number from 1 to 1000", "count %d of %q is out of range", p.Count, p.Kind.Value)
		p.Count = 1
	}
	if ld.kinds.Parts[i].Paired && p.Side.Value == "" && p.ID.Value == "" {
		for _, s := range sides {
			q := p
			q.Side.Value = s
			ld.addPart(q, n)
		}
		return
	}
	ld.addPart(p, n)
}

func (ld *loader) addPart(p partFile, n *document.Node) {
	part := Part{ID: p.ID.Value, Kind: p.Kind.Value, Name: p.Name, Side: p.Side.Value,
		Group: ld.kinds.GroupOf(p.Kind.Value), Count: max(1, p.Count), At: n.Pos()}
	if part.ID == "" {
		part.ID = part.Kind
		if part.Side != "" {
			part.ID += "_" + part.Side
		}
	} else {
		checkID(p.ID, &ld.l)
	}
	if part.Name == "" {
		part.Name = strings.TrimSpace(part.Side + " " + strings.ReplaceAll(part.Kind, "_", " "))
		if part.ID != part.Kind && part.Side == "" {
			part.Name = strings.ReplaceAll(part.ID, "_", " ")
		}
	}
	if _, twice := ld.byID[part.ID]; twice {
		ld.add(n.Pos(), "name-twice", "give each part an id or a side", "part %q is already there", part.ID)
		return
	}
	if _, kind := ld.kinds.Kind(part.ID); kind && part.ID != part.Kind {
		ld.add(n.Pos(), "name-twice", "choose another id", "part %q is named like another kind of part", part.ID)
		return
	}
	ld.byID[part.ID] = len(ld.Parts)
	ld.Parts = append(ld.Parts, part)
}

// takeControls gives the rig the levers that come with its parts, with the
// positions that the file names where it names any; an empty list leaves one
// out.
func (ld *loader) takeControls(n *document.Node) {
	if n != nil && n.Kind != document.Null && n.Kind != document.MapKind {
		ld.add(n.Pos(), "wrong-type", "wanted {control: [position, ...]}", "controls must be a map")
		return
	}
	var names []string
	for _, c := range ld.kinds.Controls {
		names = append(names, c.ID)
		own := []document.Text(nil)
		var node *document.Node
		if n != nil {
			if node = n.Get(c.ID); node != nil {
				ld.l = append(ld.l, document.Decode(node, &own)...)
			}
		}
		fitted := len(ld.OfKind(c.Part)) > 0
		switch {
		case node == nil && fitted:
			ld.Controls = append(ld.Controls, c)
		case len(own) > 0:
			ld.Controls = append(ld.Controls, ld.narrowed(c, own))
		}
	}
	if n == nil {
		return
	}
	for _, key := range n.Keys {
		if !slices.Contains(names, key.Value) {
			ld.add(key.Pos(), "unknown-name", problem.DidYouMean(key.Value, names), "unknown control %q", key.Value)
		}
	}
}

// narrowed returns c with the positions that a rig has.
func (ld *loader) narrowed(c Control, own []document.Text) Control {
	var positions []string
	for _, p := range own {
		name, ok := c.Position(p.Value)
		if !ok {
			ld.add(p.At, "unknown-position", problem.DidYouMean(p.Value, c.Positions), "unknown position %q of %q", p.Value, c.ID)
			continue
		}
		positions = append(positions, name)
	}
	c.Positions = positions
	return c
}
