package main

// This file asks the engine and hands its answer to the screen.

import (
	"errors"
	"slices"

	"github.com/spf13/cobra"

	"snagwise/cmd/snagwise/internal/load"
	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
	"snagwise/engine/rig"
	"snagwise/engine/sheet"
)

// rigOf returns the rig that a sheet is about: that of the flag, else the
// sheet's own, else the usual one.
func (p *program) rigOf(raw *sheet.Sheet) (*load.Library, *rig.Rig, error) {
	if p.choice.Rig != "" {
		raw.Rig = sheet.Text{}
		return p.openRig()
	}
	lib, err := p.open()
	if err != nil {
		return nil, nil, err
	}
	r, l := lib.Rig(raw.Rig.Value)
	for i := range l {
		l[i].Pos = raw.Rig.Pos()
	}
	return lib, r, l.Err()
}

// answer asks the engine about an account and shows what it says.
func (p *program) answer(e *diagnose.Engine, account *sheet.Account, ask asking) error {
	f := e.Fitted()
	result, err := consult(e, account, ask)
	if err != nil {
		return err
	}
	if len(result.FirstActions) > 0 {
		p.status = firstDue
	}
	if ask.json {
		return p.printJSON(result)
	}
	page := &answerPage{s: p.page, f: f, r: result, all: ask.all, bare: bare(account)}
	page.show()
	return nil
}

// consult checks what is asked for and asks the engine.
func consult(e *diagnose.Engine, account *sheet.Account, ask asking) (*diagnose.Result, error) {
	f := e.Fitted()
	if states := rigStates(f.Base); ask.state != "" && !slices.Contains(states, ask.state) {
		return nil, unknownWord("state of the rig", ask.state, states)
	}
	known := toolsOf(f)
	for _, t := range ask.tools {
		if !slices.Contains(known, t) {
			return nil, unknownWord("tool", t, known)
		}
	}
	return nil, errors.New("the engine")
}

// bare says that an account tells nothing that could point at a cause.
func bare(a *sheet.Account) bool {
	told := len(a.Statements) + len(a.Circumstances) + len(a.Trials) + len(a.Courses) + len(a.Normals) + len(a.NormalRead)
	for _, m := range a.Moments {
		told += len(m.Readings) + len(m.Signs) + len(m.NotSeen) + len(m.Courses) + len(m.Normals)
	}
	return told == 0
}

// rigStates returns the states that checks ask of the rig, sorted, the one that
// is no state aside.
func rigStates(b *knowledge.Base) []string {
	var list []string
	for _, st := range b.RigStates {
		if st.ID.Value != "any" {
			list = append(list, st.ID.Value)
		}
	}
	slices.Sort(list)
	return list
}

// toolsOf returns every tool that a check on the rig asks for, sorted.
func toolsOf(f *knowledge.Fitted) []string {
	var list []string
	for i, c := range f.Checks {
		if f.CheckOn[i] {
			list = append(list, knowledge.Values(c.Tools)...)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

func (p *program) completeState(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	lib, err := p.open()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return rigStates(lib.Base), cobra.ShellCompDirectiveNoFileComp
}

func (p *program) completeTool(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	lib, r, err := p.openRig()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return toolsOf(lib.Base.On(r)), cobra.ShellCompDirectiveNoFileComp
}

