package main

import (
	"strings"

	"github.com/spf13/cobra"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/knowledge"
)

// sourcesCommand lists what the knowledge rests on.
func (p *program) sourcesCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "sources",
		Short: "List what the rules rest on, and how much rests on each",
		Args:  noArguments("sources"),
		RunE: func(*cobra.Command, []string) error {
			lib, err := p.open()
			if err != nil {
				return err
			}
			src, l := lib.Source()
			if len(l) > 0 {
				return l
			}
			listSources(p.page, src)
			return nil
		},
	}
}

// A tally counts what rests on one source: causes, and rules, checks and all
// else.
type tally struct{ causes, other int }

// listSources writes each source with how much cites it. An item that cites
// two sources counts with both.
func listSources(s *screen.Screen, src *knowledge.Source) {
	count := tallies(src)
	t := screen.Table{Columns: []screen.Column{{Title: "source"}, {Title: "causes", Right: true}, {Title: "other", Right: true}, {Title: "what it is"}}}
	for _, k := range src.Sources {
		n := count[k.ID.Value]
		what := k.What
		if k.Kind.Value != "published" && !strings.Contains(what, k.Kind.Value) {
			what += " (" + k.Kind.Value + ")"
		}
		t.Rows = append(t.Rows, []string{k.ID.Value, short(float64(n.causes)), short(float64(n.other)), what})
	}
	s.Table(t)
	s.Gap()
	s.Text(0, "Strengths and how common a cause is are the project's own scale throughout, not taken from these sources. The engine's own book comes first.")
}

func tallies(src *knowledge.Source) map[string]tally {
	count := map[string]tally{}
	other := func(n *tally) { n.other++ }
	cite := func(cited []knowledge.Text, add func(*tally)) {
		seen := map[string]bool{}
		for _, c := range cited {
			id := sourceOf(src, c.Value)
			if !seen[id] {
				n := count[id]
				add(&n)
				count[id] = n
			}
			seen[id] = true
		}
	}
	for _, k := range src.Causes {
		cite(k.Source, func(n *tally) { n.causes++ })
	}
	for _, k := range src.Rules {
		cite(k.Source, other)
	}
	for _, k := range src.Patterns {
		cite(k.Source, other)
	}
	for _, k := range src.Checks {
		cite(k.Source, other)
	}
	for _, k := range src.Readings {
		cite(k.Source, other)
	}
	for _, k := range src.Signs {
		cite(k.Source, other)
	}
	for _, k := range src.Trials {
		cite(k.Source, other)
	}
	for _, k := range src.Courses {
		cite(k.Source, other)
	}
	for _, k := range src.Normals {
		cite(k.Source, other)
	}
	for _, k := range src.Circumstances {
		cite(k.Source, other)
	}
	for _, k := range src.FirstActions {
		cite(k.Source, other)
	}
	for _, k := range src.NormalThings {
		cite(k.Source, other)
	}
	for _, k := range src.RigStates {
		cite(k.Source, other)
	}
	for _, k := range src.Relations {
		cite(k.Source, other)
	}
	return count
}

// sourceOf returns the source that a citation names: the longest id that it
// begins with.
func sourceOf(src *knowledge.Source, cited string) string {
	best := ""
	for _, k := range src.Sources {
		id := k.ID.Value
		if len(id) > len(best) && (cited == id || strings.HasPrefix(cited, id+" ")) {
			best = id
		}
	}
	return best
}
