package main

import (
	"github.com/spf13/cobra"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/knowledge"
)

// checksCommand lists what can be looked at, and shows one check.
func (p *program) checksCommand() *cobra.Command {
	return p.browse(shelf{
		kind: knowledge.MeansCheck, one: "check", many: "checks",
		columns: []screen.Column{{Title: "takes", Right: true}, {Title: "rig must be"}},
		ids: func(b *knowledge.Base) []string {
			return each(b.Checks, func(c knowledge.Check) string { return c.ID.Value })
		},
		row: func(f *knowledge.Fitted, i int) row {
			c := f.Checks[i]
			return row{system: c.System, cells: []string{screen.ShortMinutes(c.Minutes), c.RigState.Value}, means: c.Do, here: f.CheckOn[i]}
		},
		show: showCheck,
	}, &cobra.Command{
		Short: "List what can be looked at on a rig, or show one check",
		Example: `  snagwise checks --find filter
  snagwise checks dip_fuel`,
	})
}

func showCheck(s *screen.Screen, f *knowledge.Fitted, i int) {
	c := f.Checks[i]
	title(s, c.ID.Value, c.Do)
	for _, text := range c.Caution {
		s.Item(2, "Caution: ", text)
	}
	pair(s, "rig must be", joined(c.RigState.Value, stateMeans(f.Base, c.RigState.Value)))
	pair(s, "takes", screen.Minutes(c.Minutes))
	words(s, "tools", knowledge.Values(c.Tools))
	pair(s, "who", c.Who.Value)
	words(s, "sources", knowledge.Values(c.Source))
	s.Gap()
	t := screen.Table{Columns: []screen.Column{{Title: "settles"}, {Title: "what it is"}}, Indent: 2}
	for _, k := range c.Settles {
		t.Rows = append(t.Rows, []string{f.Signs[k].ID, f.Signs[k].Means})
	}
	s.Table(t)
	if !f.CheckOn[i] {
		s.Gap()
		s.Text(0, "It settles nothing on the "+f.Rig.Name+".")
	}
}

// stateMeans tells what a state of the rig is.
func stateMeans(b *knowledge.Base, id string) string {
	for _, st := range b.RigStates {
		if st.ID.Value == id {
			return st.Means
		}
	}
	return ""
}
