package main

// This file holds what the commands share that list one sort of thing and show
// one of them: readings, signs, causes, checks.

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/knowledge"
)

// A shelf is one sort of thing with what the commands need of it.
type shelf struct {
	kind      knowledge.MeaningKind
	one, many string          // such as "cause" and "causes"
	columns   []screen.Column // after the name and before what it means
	ids       func(*knowledge.Base) []string
	row       func(f *knowledge.Fitted, i int) row
	show      func(s *screen.Screen, f *knowledge.Fitted, i int)
}

// A row is one thing in a list.
type row struct {
	system string
	cells  []string // one for each column
	means  string
	here   bool // the rig can have it or be asked for it
}

// browse returns the command of a shelf.
func (p *program) browse(sh shelf, c *cobra.Command) *cobra.Command {
	var find string
	var all bool
	c.Use = sh.many + " [NAME]"
	c.Args = func(_ *cobra.Command, args []string) error {
		if len(args) > 1 && find != "" {
			return fmt.Errorf("the flag --find and a name do not go together")
		}
		return nil
	}
	c.RunE = func(_ *cobra.Command, args []string) error {
		lib, r, err := p.openRig()
		if err != nil {
			return err
		}
		f := lib.Base.On(r)
		if len(args) > 0 {
			i, err := sh.named(f.Base, strings.Join(args, " "))
			if err != nil {
				return err
			}
			sh.show(p.page, f, i)
			return nil
		}
		sh.list(p.page, f, find, all)
		return nil
	}
	c.ValidArgsFunction = func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		lib, err := p.open()
		if err != nil || len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return sh.ids(lib.Base), cobra.ShellCompDirectiveNoFileComp
	}
	p.rigFlag(c, "`NAME` or file of the rig (as a rule, hollin)")
	c.Flags().StringVar(&find, "find", "", "only those that go by this `WORD`, everyday words included")
	c.Flags().BoolVar(&all, "all", false, "those that this rig cannot have as well")
	return c
}

// named returns the thing that a word names.
func (sh shelf) named(b *knowledge.Base, word string) (int, error) {
	ids := sh.ids(b)
	if i := slices.Index(ids, word); i >= 0 {
		return i, nil
	}
	var found []string
	for _, m := range b.Meanings(word) {
		if m.Kind == sh.kind {
			found = append(found, m.ID)
		}
	}
	switch len(found) {
	case 0:
		return 0, unknownWord(sh.one, word, ids)
	case 1:
		return slices.Index(ids, found[0]), nil
	}
	return 0, fmt.Errorf("%q could be %s: use the id of the one that is meant", screen.Clip(word, 60), strings.Join(found, " or "))
}

// list writes the things of a shelf, by system, or those that a word finds,
// the best first.
func (sh shelf) list(s *screen.Screen, f *knowledge.Fitted, find string, all bool) {
	ids := sh.ids(f.Base)
	if find != "" {
		var hits []int
		for _, m := range f.Find(find) {
			if m.Kind == sh.kind {
				hits = append(hits, slices.Index(ids, m.ID))
			}
		}
		if len(hits) == 0 {
			s.Text(0, fmt.Sprintf("No %s goes by %q. Try a shorter word, or one for the part it is about.", sh.one, screen.Clip(find, 60)))
			return
		}
		sh.table(s, f, ids, hits, true)
		return
	}
	bySystem := map[string][]int{}
	var systems []string
	left := 0
	for i := range ids {
		r := sh.row(f, i)
		if !r.here && !all {
			left++
			continue
		}
		if bySystem[r.system] == nil {
			systems = append(systems, r.system)
		}
		bySystem[r.system] = append(bySystem[r.system], i)
	}
	for _, sys := range systems {
		s.Heading(heading(sys))
		sh.table(s, f, ids, bySystem[sys], all)
	}
	s.Gap()
	if left > 0 {
		s.Text(0, fmt.Sprintf("%s left out that the %s cannot have; --all shows them.", capital(screen.Count(left, sh.one, sh.many)), f.Rig.Name))
	}
}

// table writes rows. Where things that the rig cannot have stand among them
// they are marked.
func (sh shelf) table(s *screen.Screen, f *knowledge.Fitted, ids []string, items []int, mark bool) {
	t := screen.Table{Columns: slices.Concat([]screen.Column{{Title: sh.one}}, sh.columns, []screen.Column{{Title: "what it is"}})}
	for _, i := range items {
		r := sh.row(f, i)
		means := r.means
		if mark && !r.here {
			means += " (not on this rig)"
		}
		t.Rows = append(t.Rows, slices.Concat([]string{ids[i]}, r.cells, []string{means}))
	}
	s.Table(t)
}

// heading names a system.
func heading(system string) string {
	switch system {
	case "":
		return "Without a system"
	case "engine":
		return "Engine as a whole"
	}
	return capital(system)
}

// capital makes the first letter a capital.
func capital(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// title writes a thing's name and what it is.
func title(s *screen.Screen, id, means string) {
	s.Styled(screen.Strong, 0, id)
	s.Text(2, sentence(means))
	s.Gap()
}

// sentence makes text begin like a sentence and end like one.
func sentence(text string) string {
	text = capital(strings.TrimSpace(text))
	if text == "" || strings.HasSuffix(text, ".") || strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

// pair writes a label and its text, unless there is none.
func pair(s *screen.Screen, label, text string) {
	if text != "" {
		s.Pair(2, labelAt, label, text)
	}
}

// labelAt is the column at which the text after a label begins.
const labelAt = 18

// words writes a list after a label, unless it is empty.
func words(s *screen.Screen, label string, list []string) { pair(s, label, strings.Join(list, ", ")) }
