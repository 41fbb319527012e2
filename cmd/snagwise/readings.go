package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/knowledge"
	"snagwise/engine/rig"
)

// readingsCommand lists what can be read, and shows one of them.
func (p *program) readingsCommand() *cobra.Command {
	return p.browse(shelf{
		kind: knowledge.MeansReading, one: "reading", many: "readings",
		columns: []screen.Column{{Title: "unit"}, {Title: "by"}},
		ids: func(b *knowledge.Base) []string {
			return each(b.Readings, func(r knowledge.Reading) string { return r.ID })
		},
		row:  readingRow,
		show: showReading,
	}, &cobra.Command{
		Short: "List what can be read on a rig, or show one reading",
		Example: `  snagwise readings --find boost
  snagwise readings fuel_delivery_pressure --rig teasel`,
	})
}

// each returns one word for each item.
func each[T any](list []T, word func(T) string) []string {
	out := make([]string, len(list))
	for i, x := range list {
		out[i] = word(x)
	}
	return out
}

func readingRow(f *knowledge.Fitted, i int) row {
	r := f.Readings[i]
	unit, by := r.Unit, "not fitted"
	if g, ok := f.Rig.Gauge(r.ID); ok {
		by = g.By
		if g.Unit != "" {
			unit = g.Unit
		}
	}
	if len(r.Answers) > 0 {
		unit = "answer"
	}
	if r.Computed {
		by = "worked out"
	}
	return row{system: r.System, cells: []string{unit, by}, means: r.Means, here: f.ReadOn[i] || r.Computed}
}

// showReading shows one reading with what is usual on the rig.
func showReading(s *screen.Screen, f *knowledge.Fitted, i int) {
	r := f.Readings[i]
	title(s, r.ID, r.Means)
	words(s, "also called", r.Words)
	words(s, "answers", r.Answers)
	if len(r.Answers) == 0 {
		pair(s, "measured in", r.Unit)
	}
	words(s, "can mislead by", r.Fails)
	words(s, "compare with", r.Cross)
	g, ok := f.Rig.Gauge(r.ID)
	switch {
	case r.Elapsed != nil:
		s.Gap()
		s.Text(0, "No gauge shows it: it is summed from the times told between moments of "+strings.Join(each(r.Elapsed, spaced), ", ")+".")
		return
	case r.Computed:
		s.Gap()
		s.Text(0, fmt.Sprintf("No gauge shows it: it is worked out where all that goes in is known. See: snagwise compute %s", r.ID))
		if !ok {
			return
		}
	case !ok:
		s.Gap()
		s.Text(0, fmt.Sprintf("Not fitted on the %s: it stays unknown there, and is never taken for normal or nothing.", f.Rig.Name))
		return
	}
	s.Gap()
	s.Text(0, "On the "+f.Rig.Name+":")
	pair(s, "read by", g.By)
	words(s, "where", each(g.Taps, func(p int) string { return f.Rig.Parts[p].Name }))
	pair(s, "on the part", g.At)
	pair(s, "worked out from", g.From)
	if g.Dial != nil {
		pair(s, "dial", between(g, g.Dial[0], g.Dial[1]))
	}
	words(s, "sees", g.Sees)
	words(s, "blind to", g.BlindTo)
	pair(s, "note", g.Note)
	if g.BandsAssumed || g.LimitsAssumed {
		pair(s, "assumed", "what is usual stands in for figures that the rig does not give")
	}
	s.Gap()
	s.Table(bandTable(f.Rig, g))
}

// bandTable lists what is usual, and where to watch and stop, by phase.
func bandTable(r *rig.Rig, g *rig.Gauge) screen.Table {
	t := screen.Table{Columns: []screen.Column{{Title: "phase"}, {Title: "normal"}, {Title: "watch"}, {Title: "stop"}}, Indent: 2}
	for _, ph := range r.Phases {
		cells := []string{phaseWords(ph), "", "", ""}
		if b, ok := g.Band(ph); ok {
			if cells[1] = strings.Join(b.Answers, ", "); len(b.Answers) == 0 {
				cells[1] = between(g, b.Lo, b.Hi)
			}
		}
		if l, ok := g.Limit(ph); ok {
			cells[2] = bounds(g, l.WatchBelow, l.WatchAbove, l.WatchOn)
			cells[3] = bounds(g, l.StopBelow, l.StopAbove, l.StopOn)
			if l.Note != "" {
				cells[3] = strings.TrimPrefix(cells[3]+" ("+l.Note+")", " ")
			}
		}
		if cells[1]+cells[2]+cells[3] != "" {
			t.Rows = append(t.Rows, cells)
		}
	}
	return t
}

func bounds(g *rig.Gauge, below, above *float64, on []string) string {
	var out []string
	if below != nil {
		out = append(out, "below "+figure(g, *below))
	}
	if above != nil {
		out = append(out, "above "+figure(g, *above))
	}
	out = append(out, on...)
	return strings.Join(out, ", ")
}
