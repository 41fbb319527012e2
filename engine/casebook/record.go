package casebook

// This file holds the figures below which the rules may not fall.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// A Record is what was reached when it was last written down.
type Record struct {
	Groups []Floor `yaml:"groups,required"`
	// Thrown is, by the name of a disturbance, the share of trials in which it
	// threw the cause out of the first five.
	Thrown []Thrown `yaml:"thrown"`
}

// A Floor is the least that a group of cases may score.
type Floor struct {
	Group document.Text `yaml:"group,required"`
	Cases float64       `yaml:"cases,required"`
	Top1  float64       `yaml:"top_1"`
	Top3  float64       `yaml:"top_3"`
	MRR   float64       `yaml:"mrr"`
}

// Thrown is the most of the trials that a disturbance may spoil.
type Thrown struct {
	Disturbance document.Text `yaml:"disturbance,required"`
	Most        float64       `yaml:"most,required"`
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

// Floors returns the floors that measures set: what was reached, less one case
// of slack.
func Floors(groups []Group) []Floor {
	var out []Floor
	for _, g := range groups {
		n := float64(g.Measures.N)
		slack := func(x float64) float64 { return math.Floor(math.Max(0, x-1/n)*1000) / 1000 }
		out = append(out, Floor{Group: document.Text{Value: g.Name}, Cases: n,
			Top1: slack(g.Measures.Top1), Top3: slack(g.Measures.Top3), MRR: slack(g.Measures.MRR)})
	}
	return out
}

// Ceilings returns the most that disturbances may spoil: what was measured, and
// one trial in a hundred of slack.
func Ceilings(list []Shaking) []Thrown {
	var out []Thrown
	for _, s := range list {
		out = append(out, Thrown{Disturbance: document.Text{Value: s.Disturbance.Name}, Most: math.Ceil((s.Out()+.01)*1000) / 1000})
	}
	return out
}

// Below lists, in words, what has fallen below a record, and groups of which
// the record knows nothing.
func (r *Record) Below(groups []Group) []string {
	var out []string
	for _, g := range groups {
		i := slices.IndexFunc(r.Groups, func(f Floor) bool { return f.Group.Value == g.Name })
		if i < 0 {
			out = append(out, fmt.Sprintf("%s: nothing is recorded", g.Name))
			continue
		}
		f := r.Groups[i]
		for _, k := range []struct {
			what      string
			got, want float64
		}{{"first", g.Measures.Top1, f.Top1}, {"among three", g.Measures.Top3, f.Top3}, {"mean reciprocal rank", g.Measures.MRR, f.MRR}} {
			if k.got < k.want-1e-9 {
				out = append(out, fmt.Sprintf("%s: %s %.3f, recorded %.3f", g.Name, k.what, k.got, k.want))
			}
		}
	}
	return out
}

// Text writes a record as the file it is read from.
func (r *Record) Text() string {
	var b strings.Builder
	b.WriteString("# The least that the rules may score on the kept cases: what was reached when\n" +
		"# this was written, less one case of slack. A test fails below it. Shares of 1.\n" +
		"# Written by: snagwise score --record\n")
	b.WriteString("groups:\n")
	for _, f := range r.Groups {
		fmt.Fprintf(&b, "  - {group: %q, cases: %.0f, top_1: %.3f, top_3: %.3f, mrr: %.3f}\n", f.Group.Value, f.Cases, f.Top1, f.Top3, f.MRR)
	}
	if len(r.Thrown) > 0 {
		b.WriteString("# The most trials in which a disturbance of what was told may throw the cause out\n# of the first five. The aim is .05 for one thing dropped or added.\n")
		b.WriteString("thrown:\n")
		for _, t := range r.Thrown {
			fmt.Fprintf(&b, "  - {disturbance: %q, most: %.3f}\n", t.Disturbance.Value, t.Most)
		}
	}
	return b.String()
}
