package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/knowledge"
)

// signsCommand lists the symptoms that a sheet can tell, and shows one.
func (p *program) signsCommand() *cobra.Command {
	c := p.browse(shelf{
		kind: knowledge.MeansSign, one: "sign", many: "signs",
		columns: []screen.Column{{Title: "told by"}},
		ids:     func(b *knowledge.Base) []string { return each(b.Signs, func(s knowledge.Sign) string { return s.ID }) },
		row: func(f *knowledge.Fitted, i int) row {
			g := f.Signs[i]
			return row{system: g.System, cells: []string{toldBy(g)}, means: g.Means, here: f.SignOn[i]}
		},
		show: showSign,
	}, &cobra.Command{
		Short: "List the signs and symptoms that can be told, or show one",
		Example: `  snagwise signs --find smoke
  snagwise signs pops_back_running`,
	})
	c.Aliases = []string{"symptoms"}
	return c
}

// toldBy says how a sign comes to be known.
func toldBy(g knowledge.Sign) string {
	switch g.Kind {
	case knowledge.CheckSign:
		return "a check"
	case knowledge.VagueSign:
		return "word of mouth"
	case knowledge.ReadingSign:
		return "readings"
	}
	if g.Sense != "" {
		return g.Sense
	}
	return "eye or ear"
}

func showSign(s *screen.Screen, f *knowledge.Fitted, i int) {
	g := f.Signs[i]
	title(s, g.ID, g.Means)
	words(s, "also called", g.Words)
	pair(s, "told by", toldBy(g))
	words(s, "when", each(g.Phases, phaseWords))
	signID := func(k int) string { return f.Signs[k].ID }
	words(s, "any of", each(g.Covers, signID))
	if g.StandsFor >= 0 {
		pair(s, "stands for", strings.TrimSuffix(f.Signs[g.StandsFor].ID+", "+g.Side, ", "))
	}
	words(s, "readings", each(g.Readings, func(k int) string { return f.Readings[k].ID }))
	for _, k := range g.Rules {
		pair(s, "when", f.Base.Rules[k].When)
	}
	words(s, "settled by", each(g.Checks, func(k int) string { return f.Checks[k].ID.Value }))
	if !f.SignOn[i] {
		s.Gap()
		s.Text(0, "Not on the "+f.Rig.Name+": no cause there shows it, or a gauge for it is not fitted.")
		return
	}
	s.Gap()
	s.Table(bearers(f, i))
}

// bearers lists the states and causes that show a sign, the strongest first.
func bearers(f *knowledge.Fitted, sign int) screen.Table {
	type bearer struct {
		id, means string
		by        float64
	}
	var list []bearer
	add := func(links []knowledge.Link, id, means string) {
		for _, k := range links {
			if k.To == sign {
				list = append(list, bearer{id, means, k.By})
			}
		}
	}
	for _, st := range f.States {
		add(st.Shows, st.ID, st.Means)
	}
	for _, c := range f.Base.Causes {
		add(c.Direct, c.ID, c.FailsBy)
	}
	slices.SortStableFunc(list, func(a, b bearer) int {
		switch {
		case a.by > b.by:
			return -1
		case a.by < b.by:
			return 1
		}
		return strings.Compare(a.id, b.id)
	})
	t := screen.Table{Columns: []screen.Column{{Title: "shown by"}, {Title: "how often"}, {Title: "what it is"}}, Indent: 2}
	for _, b := range list {
		t.Rows = append(t.Rows, []string{b.id, knowledge.StrengthWord(b.by), b.means})
	}
	return t
}
