package main

import (
	"slices"

	"github.com/spf13/cobra"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/knowledge"
)

// causesCommand lists what can be wrong, and shows one cause.
func (p *program) causesCommand() *cobra.Command {
	return p.browse(p.causeShelf(), &cobra.Command{
		Short: "List what can be wrong on a rig, or show one cause in full",
		Example: `  snagwise causes --find filter
  snagwise causes fuel_filter_choked`,
	})
}

// causeShelf holds what can be wrong.
func (p *program) causeShelf() shelf {
	return shelf{
		kind: knowledge.MeansCause, one: "cause", many: "causes",
		columns: []screen.Column{{Title: "how common"}},
		ids: func(b *knowledge.Base) []string {
			return each(b.Causes, func(c knowledge.Cause) string { return c.ID })
		},
		row: func(f *knowledge.Fitted, i int) row {
			c := f.Base.Causes[i]
			return row{system: c.System, cells: []string{knowledge.FrequencyWord(c.Frequency)}, means: c.FailsBy, here: len(partsOf(f, i)) > 0}
		},
		show: showCause,
	}
}

// partsOf returns the parts of the rig that may have a cause, by name.
func partsOf(f *knowledge.Fitted, cause int) []string {
	var parts []string
	for _, in := range f.Causes {
		if in.Cause == cause {
			parts = append(parts, f.Rig.Parts[in.Part].Name)
		}
	}
	return parts
}

func showCause(s *screen.Screen, f *knowledge.Fitted, i int) {
	c := f.Base.Causes[i]
	title(s, c.ID, c.FailsBy)
	parts := partsOf(f, i)
	words(s, "part", parts)
	if len(parts) == 0 {
		pair(s, "part", "the "+f.Rig.Name+" cannot have this: it lacks the part ("+c.Kind+") or is of another design")
	}
	pair(s, "how common", knowledge.FrequencyWord(c.Frequency)+", "+c.Class)
	words(s, "more likely if", moreLikely(f.Base, i))
	pair(s, "holds if", c.HoldsIf)
	words(s, "makes untrue", each(c.Falsifies, func(k int) string { return f.Readings[k].ID }))
	pair(s, "running on", joined(c.RunOn, c.RunOnWhy))
	words(s, "checks", each(c.Checks, func(k int) string { return f.Checks[k].ID.Value }))
	pair(s, "settled by", c.SettledBy)
	pair(s, "cure", c.Remedy)
	if c.RemedyMinutes > 0 {
		pair(s, "takes", screen.Minutes(c.RemedyMinutes))
	}
	pair(s, "who", c.Who)
	words(s, "sources", c.Source)
	s.Gap()
	t := screen.Table{Columns: []screen.Column{{Title: "leads to"}, {Title: "how often"}, {Title: "what it is"}}, Indent: 2}
	for _, k := range c.Gives {
		t.Rows = append(t.Rows, []string{f.States[k.To].ID, knowledge.StrengthWord(k.By), f.States[k.To].Means})
	}
	s.Table(t)
	s.Gap()
	t = screen.Table{Columns: []screen.Column{{Title: "shows by itself"}, {Title: "how often"}, {Title: "what it is"}}, Indent: 2}
	for _, k := range c.Direct {
		t.Rows = append(t.Rows, []string{f.Signs[k.To].ID, knowledge.StrengthWord(k.By), f.Signs[k.To].Means})
	}
	for _, k := range c.Never {
		t.Rows = append(t.Rows, []string{f.Signs[k].ID, "speaks against", f.Signs[k].Means})
	}
	s.Table(t)
	s.Gap()
	lookAlikes(s, f, i)
	strengthsNote(s)
}

// moreLikely lists the circumstances that make a cause likelier.
func moreLikely(b *knowledge.Base, cause int) []string {
	var list []string
	for _, c := range b.Circumstances {
		if slices.ContainsFunc(c.Likely, func(k knowledge.Link) bool { return k.To == cause && k.By > 1 }) {
			list = append(list, c.ID)
		}
	}
	return list
}

// lookAlikes tells what a cause is easily taken for, and what parts the two.
func lookAlikes(s *screen.Screen, f *knowledge.Fitted, cause int) {
	for _, k := range f.Pairs {
		other := k.B
		switch cause {
		case k.A:
		case k.B:
			other = k.A
		default:
			continue
		}
		s.Item(2, "- ", "looks like "+f.Base.Causes[other].ID+"; parted by: "+k.How)
	}
}

// joined puts two texts together.
func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + ": " + b
}

// strengthsNote says whose scale the words of strength are.
func strengthsNote(s *screen.Screen) {
	s.Gap()
	s.Styled(screen.Quiet, 0, "How often and how common are the project's own scale, not measured. The engine's own book comes first.")
}
