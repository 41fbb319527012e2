package main

import (
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"snagwise/cmd/snagwise/internal/load"
	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/problem"
	"snagwise/engine/rig"
)

// rigCommand lists the rigs, and shows what one carries.
func (p *program) rigCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "rig [NAME|FILE]",
		Short: "List the rigs, or show what one carries",
		Example: `  snagwise rig
  snagwise rig teasel`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				p.choice.Rig = args[0]
			}
			lib, err := p.open()
			if err != nil {
				return err
			}
			if len(args) == 0 {
				listRigs(p.page, lib)
				return nil
			}
			r, l := lib.Rig(args[0])
			if len(l) > 0 {
				return l
			}
			showRig(p.page, lib, r)
			return nil
		},
		ValidArgsFunction: p.completeRig,
	}
}

func listRigs(s *screen.Screen, lib *load.Library) {
	t := screen.Table{Columns: []screen.Column{{Title: "rig"}, {Title: "name"}, {Title: "parts", Right: true}, {Title: "gauges", Right: true}, {Title: "what it is"}}}
	for _, r := range lib.Rigs {
		t.Rows = append(t.Rows, []string{r.ID, r.Name, short(float64(len(r.Parts))), short(float64(len(r.Gauges))), r.Means})
	}
	s.Table(t)
}

func showRig(s *screen.Screen, lib *load.Library, r *rig.Rig) {
	s.Styled(screen.Strong, 0, r.Name+" ("+r.ID+")")
	s.Text(2, sentence(r.Means))
	if r.Invented {
		s.Text(2, "Its figures are invented; they are no real engine's.")
	}
	pair(s, "stops by", r.StopControls)
	for _, list := range []struct {
		label   string
		figures []rig.Figure
	}{{"ratios", r.Ratios}, {"capacities", r.Capacities}, {"display limits", r.DisplayLimits}, {"before opening up", r.LeastBeforeOpeningUp}} {
		words(s, list.label, each(list.figures, func(f rig.Figure) string { return spaced(f.Name) + " " + f.Value.Shown() }))
	}
	for _, n := range r.Notes {
		pair(s, "note", n)
	}
	rigParts(s, r)
	rigGauges(s, r)
	rigControls(s, r)
	s.Gap()
	n := lib.Base.On(r)
	causes := map[int]bool{}
	for _, in := range n.Causes {
		causes[in.Cause] = true
	}
	s.Text(0, screen.Count(len(causes), "cause", "causes")+" of "+short(float64(len(n.Base.Causes)))+" can be on this rig. A gauge that it lacks stays unknown for good.")
}

func spaced(id string) string { return strings.ReplaceAll(id, "_", " ") }

// rigParts lists the parts by system.
func rigParts(s *screen.Screen, r *rig.Rig) {
	s.Heading("Parts")
	bySystem := map[string][]string{}
	var systems []string
	for _, part := range r.Parts {
		sys := ""
		if k, ok := r.Kinds().Kind(part.Kind); ok {
			sys = r.Kinds().Parts[k].System
		}
		if bySystem[sys] == nil {
			systems = append(systems, sys)
		}
		bySystem[sys] = append(bySystem[sys], part.Name)
	}
	for _, sys := range systems {
		pair(s, sys, strings.Join(bySystem[sys], ", "))
	}
}

// rigGauges lists the gauges with what is usual at the phases that matter.
func rigGauges(s *screen.Screen, r *rig.Rig) {
	s.Heading("Gauges, meters and what is looked at")
	t := screen.Table{Columns: []screen.Column{{Title: "reading"}, {Title: "by"}, {Title: "normal"}}}
	assumed := false
	for i := range r.Gauges {
		g := &r.Gauges[i]
		usual := bandsInLine(r, g)
		if g.BandsAssumed {
			assumed = true
			usual = strings.TrimSpace(usual + " (assumed)")
		}
		t.Rows = append(t.Rows, []string{g.Reading, g.By, usual})
	}
	s.Table(t)
	if assumed {
		s.Text(0, "Assumed: what is usual for the kind, where the rig's file gives no figure.")
	}
}

// bandsInLine tells the bands of a gauge, phases with the same band together.
func bandsInLine(r *rig.Rig, g *rig.Gauge) string {
	var texts []string
	phases := map[string][]string{}
	for _, ph := range r.Phases {
		b, ok := g.Band(ph)
		if !ok {
			continue
		}
		text := strings.Join(b.Answers, " or ")
		if len(b.Answers) == 0 {
			text = between(g, b.Lo, b.Hi)
		}
		if !slices.Contains(texts, text) {
			texts = append(texts, text)
		}
		phases[text] = append(phases[text], phaseWords(ph))
	}
	for i, text := range texts {
		texts[i] = strings.Join(phases[text], ", ") + " " + text
	}
	if len(texts) == 0 {
		return g.Unit
	}
	return strings.Join(texts, "; ")
}

func rigControls(s *screen.Screen, r *rig.Rig) {
	s.Heading("Controls")
	t := screen.Table{Columns: []screen.Column{{Title: "control"}, {Title: "positions"}, {Title: "what it is"}}}
	for _, c := range r.Controls {
		t.Rows = append(t.Rows, []string{c.ID, strings.Join(c.Positions, ", "), c.Means})
	}
	s.Table(t)
}

// checkPhase returns an error for a word that is no phase of the rig.
func checkPhase(r *rig.Rig, word string) error {
	if word == "" || slices.Contains(r.Phases, word) {
		return nil
	}
	return problem.List{{Check: "unknown-phase", Text: "unknown phase \"" + screen.Clip(word, 60) + "\"", Hint: problem.DidYouMean(word, r.Phases)}}
}
