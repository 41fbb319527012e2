package main

// This file holds the command that looks for what is weak in the rules.

import (
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"snagwise/cases"
	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/casebook"
	"snagwise/engine/diagnose"
	"snagwise/engine/examine"
	"snagwise/engine/problem"
)

// examineCommand looks the rules through.
func (p *program) examineCommand() *cobra.Command {
	var list bool
	c := &cobra.Command{
		Use:   "examine [DIR]",
		Short: "Look for what is wrong or weak in the rules",
		Long: `Everything that loading the rules refuses is found, and then what may be right
but deserves a look: rules that nothing makes true, causes that nothing tells
apart, limits finer than the gauge, and the like. With a folder of your own
rules, what is found in it is told, not what ships. A finding that is right as
it stands is accepted in a rule file, each by its own name and never a kind as a
whole; an accept that no longer meets a finding is found too:

accepted:
  - {check: never-true, about: [rule_id], reason: no kept case of it yet}

Exit status 0: nothing found; 1: something; 2: the rules do not load.`,
		Example: `  snagwise examine
  snagwise examine mine`,
		Args: cobra.MaximumNArgs(1),
		RunE: func(_ *cobra.Command, args []string) error {
			if list {
				p.listExaminations()
				return nil
			}
			if len(args) > 0 {
				p.choice.Rules = args[0]
			}
			return p.examine()
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return nil, cobra.ShellCompDirectiveFilterDirs
		},
	}
	c.Flags().BoolVar(&list, "list", false, "list what is looked for")
	return c
}

func (p *program) listExaminations() {
	t := screen.Table{Columns: []screen.Column{{Title: "check"}, {Title: "what it finds"}}}
	for _, c := range examine.Checks() {
		t.Rows = append(t.Rows, []string{c.Name, c.Finds})
	}
	p.page.Table(t)
}

func (p *program) examine() error {
	kept, err := p.keptCases()
	if err != nil {
		return err
	}
	lib, err := p.open()
	if err != nil {
		return err
	}
	src, l := lib.Source()
	if len(l) > 0 {
		return l
	}
	want := examine.Want{Source: src, Base: lib.Base}
	engine := engines(lib)
	for _, r := range lib.Rigs {
		e, err := engine(r.ID)
		if err != nil {
			return err
		}
		want.Engines = append(want.Engines, e)
	}
	if want.Told, err = toldCases(kept, engine); err != nil {
		return err
	}
	found := p.mine(lib.Shown(examine.Examine(want)))
	if len(found) == 0 {
		p.page.Text(0, "Nothing found: "+screen.Count(len(lib.Base.Causes), "cause", "causes")+", "+
			screen.Count(len(lib.Base.Rules)+len(lib.Base.Patterns), "rule and pattern", "rules and patterns")+", "+
			screen.Count(len(want.Told), "case", "cases")+".")
		return nil
	}
	p.status = 1
	p.page.Problems(found, p.source)
	return nil
}

// toldCases reads every kept case and the jobs with what is expected of them too.
func toldCases(list []casebook.Case, engine func(string) (*diagnose.Engine, error)) ([]examine.Told, error) {
	jobs, l := casebook.Jobs(cases.Files, "scenarios", cases.Split)
	if len(l) > 0 {
		return nil, l
	}
	var told []examine.Told
	for _, c := range append(list, jobs...) {
		e, err := engine(c.Sheet.Rig.Value)
		if err != nil {
			return nil, err
		}
		a, l := e.Read(c.Sheet)
		if len(l) > 0 {
			return nil, l
		}
		told = append(told, examine.Told{Engine: e, Account: a})
	}
	return told, nil
}

// mine leaves only what was found in the keeper's own folder, where one is
// given.
func (p *program) mine(l problem.List) problem.List {
	if p.choice.Rules == "" {
		return l
	}
	within := filepath.Clean(p.choice.Rules) + string(filepath.Separator)
	var out problem.List
	for _, f := range l {
		if strings.HasPrefix(f.Pos.File, within) {
			out = append(out, f)
		}
	}
	return out
}
