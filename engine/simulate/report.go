package simulate

import (
	"fmt"
	"strings"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// A Report is what a run of hunts came to.
type Report struct {
	Hunts  int     `yaml:"hunts,required" json:"hunts"` // drawn as the rules reckon
	Seed   int     `yaml:"seed,required" json:"seed"`
	Budget float64 `yaml:"budget,required" json:"budget_minutes"` // after which a hunt is given up
	Groups []Group `yaml:"groups,required" json:"groups"`
	Small  Smalls  `yaml:"small,required" json:"small"`
}

// A Group is hunts of one sort.
type Group struct {
	Name  string  `yaml:"group,required" json:"group"`
	Hunts int     `yaml:"hunts,required" json:"hunts"`
	Given float64 `yaml:"given,required" json:"given"` // share of what checks told that a kept case says; the rest is drawn
	Rows  []Row   `yaml:"rows,required" json:"strategies"`
}

// A Row is how one strategy did in a group.
type Row struct {
	Strategy string  `yaml:"strategy,required" json:"strategy"`
	Minutes  float64 `yaml:"minutes,required" json:"minutes"` // mean; a hunt given up counts the budget
	Looks    float64 `yaml:"looks,required" json:"looks"`     // mean number of checks and remedies
	Found    float64 `yaml:"found,required" json:"found"`     // share found within the budget
}

// Smalls is how strategies did on small problems, beside the best that can be.
type Smalls struct {
	Problems int        `yaml:"problems,required" json:"problems"`
	Minutes  float64    `yaml:"minutes,required" json:"minutes"`  // of the best way, mean
	Mean     float64    `yaml:"mean,required" json:"tool_mean"`   // mean over single problems of the tool's minutes as a multiple of the best
	Worst    float64    `yaml:"worst,required" json:"tool_worst"` // greatest of them
	Rows     []SmallRow `yaml:"rows,required" json:"strategies"`
}

// A SmallRow is how one strategy did on small problems.
type SmallRow struct {
	Strategy string  `yaml:"strategy,required" json:"strategy"`
	Minutes  float64 `yaml:"minutes,required" json:"minutes"` // mean
	Ratio    float64 `yaml:"ratio,required" json:"ratio"`     // all its minutes over all of the best way
}

// Row returns a strategy's row on small problems.
func (s *Smalls) Row(strategy string) SmallRow {
	for _, r := range s.Rows {
		if r.Strategy == strategy {
			return r
		}
	}
	return SmallRow{}
}

// BestSaves returns by how much of a strategy's minutes the best way takes
// less: no strategy can save more.
func (s *Smalls) BestSaves(strategy string) float64 {
	if r := s.Row(strategy); r.Ratio > 0 {
		return 1 - 1/r.Ratio
	}
	return 0
}

// Names of the strategies, in the order of the rows.
const (
	ByTool        = "the tool's advice"
	ByTables      = "published tables"
	ByLikely      = "likeliest first"
	ByLikelyAgain = "likeliest, ranked anew"
	ByRatio       = "chance per minute"
	ByRatioAgain  = "chance per minute, ranked anew"

	// ByHunt is the hunt at the trailer: the advice, with questions from memory
	// and the bounds of what is worth asking. It is told more than the others.
	ByHunt = "the tool's hunt"
	// ByKnowing is no strategy: it is told what is wrong, so that no way to look
	// for it can do better.
	ByKnowing = "knowing the fault"
)

// OverAll is the name of the group of all hunts.
const OverAll = "over all"

// Names lists the strategies that see alike, in the order of the rows; before them
// comes [ByHunt], after them [ByKnowing].
func Names() []string {
	return []string{ByTool, ByTables, ByLikely, ByRatio, ByLikelyAgain, ByRatioAgain}
}

// Row returns a strategy's row of a group.
func (g *Group) Row(strategy string) Row {
	for _, r := range g.Rows {
		if r.Strategy == strategy {
			return r
		}
	}
	return Row{}
}

// Group returns a group by its name.
func (r *Report) Group(name string) Group {
	for _, g := range r.Groups {
		if g.Name == name {
			return g
		}
	}
	return Group{}
}

// Once and Anew are the strategies that the advice is held against: those that
// rank once, by what was told first, and those that rank after every answer.
var (
	Once = []string{ByTables, ByLikely, ByRatio}
	Anew = []string{ByLikelyAgain, ByRatioAgain}
)

// Saved returns by how much of the minutes of the best of the others a strategy
// takes less, from 1 for all to below 0 for more.
func (g *Group) Saved(strategy string, others ...string) float64 {
	best := 0.0
	for _, s := range others {
		if m := g.Row(s).Minutes; best == 0 || m < best {
			best = m
		}
	}
	if best == 0 {
		return 0
	}
	return 1 - g.Row(strategy).Minutes/best
}

// A Record holds reports as they were written down: of a full run, and of a
// short one that a test plays again.
type Record struct {
	Runs []Report `yaml:"runs,required"`
}

// ReadRecord reads a record. All problems are reported.
func ReadRecord(name string, text []byte) (*Record, problem.List) {
	node, l := document.Parse(name, text)
	if node == nil {
		return nil, l
	}
	r := &Record{}
	if l = append(l, document.Decode(node, r)...); len(l) > 0 {
		return nil, l
	}
	return r, nil
}

// Text writes a record as the file it is read from.
func (r *Record) Text() string {
	var b strings.Builder
	b.WriteString("# Hunts played against drawn snags, as they came out when this was written: minutes\n" +
		"# and looks are means, shares of 1. Written by: snagwise score --hunts --record\n")
	b.WriteString("runs:\n")
	for _, run := range r.Runs {
		fmt.Fprintf(&b, "  - hunts: %d\n    seed: %d\n    budget: %.0f\n    groups:\n", run.Hunts, run.Seed, run.Budget)
		for _, g := range run.Groups {
			fmt.Fprintf(&b, "      - group: %q\n        hunts: %d\n        given: %.3f\n        rows:\n", g.Name, g.Hunts, g.Given)
			for _, x := range g.Rows {
				fmt.Fprintf(&b, "          - {strategy: %q, minutes: %.1f, looks: %.1f, found: %.3f}\n", x.Strategy, x.Minutes, x.Looks, x.Found)
			}
		}
		s := run.Small
		fmt.Fprintf(&b, "    small:\n      problems: %d\n      minutes: %.1f\n      mean: %.3f\n      worst: %.3f\n      rows:\n", s.Problems, s.Minutes, s.Mean, s.Worst)
		for _, x := range s.Rows {
			fmt.Fprintf(&b, "        - {strategy: %q, minutes: %.1f, ratio: %.3f}\n", x.Strategy, x.Minutes, x.Ratio)
		}
	}
	return b.String()
}
