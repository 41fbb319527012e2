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
	Problems int     `yaml:"problems,required" json:"problems"`
	Minutes  float64 `yaml:"minutes,required" json:"minutes"`  // of the best way, mean
	Tool     float64 `yaml:"tool,required" json:"tool"`        // all minutes of the tool over all of the best way
	Mean     float64 `yaml:"mean,required" json:"tool_mean"`   // mean of the ratios of single problems
	Worst    float64 `yaml:"worst,required" json:"tool_worst"` // greatest of them
	Likely   float64 `yaml:"likeliest,required" json:"likeliest"`
	Ratio    float64 `yaml:"per_minute,required" json:"per_minute"`
}

// Names of the strategies, in the order of the rows.
const (
	ByTool        = "the tool's advice"
	ByTables      = "published tables"
	ByLikely      = "likeliest first"
	ByLikelyAgain = "likeliest, ranked anew"
	ByRatio       = "chance per minute"
	ByRatioAgain  = "chance per minute, ranked anew"
)

// Names lists the strategies in the order of the rows.
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

// Saved returns by how much of the minutes of the best of the given strategies
// the tool takes less, from 1 for all to below 0 for more.
func (g *Group) Saved(strategies ...string) float64 {
	best := 0.0
	for _, s := range strategies {
		if m := g.Row(s).Minutes; best == 0 || m < best {
			best = m
		}
	}
	if best == 0 {
		return 0
	}
	return 1 - g.Row(ByTool).Minutes/best
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
		fmt.Fprintf(&b, "    small: {problems: %d, minutes: %.1f, tool: %.3f, mean: %.3f, worst: %.3f, likeliest: %.3f, per_minute: %.3f}\n",
			s.Problems, s.Minutes, s.Tool, s.Mean, s.Worst, s.Likely, s.Ratio)
	}
	return b.String()
}
