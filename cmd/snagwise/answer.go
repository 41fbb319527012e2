package main

// This file asks the engine and hands its answer to the screen.

import (
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"snagwise/cmd/snagwise/internal/load"
	"snagwise/engine/diagnose"
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
	if file := load.RigBeside(raw.At.File, raw.Rig.Value); file != "" {
		p.choice.Rig = file
	}
	lib, err := p.open()
	if err != nil {
		return nil, nil, err
	}
	if p.choice.Rig != "" {
		r, l := lib.Rig(p.choice.Rig)
		return lib, r, l.Err()
	}
	r, l := lib.Rig(raw.Rig.Value)
	for i := range l {
		l[i].Pos = raw.Rig.Pos()
	}
	return lib, r, l.Err()
}

// answer asks the engine about an account and shows what it says.
func (p *program) answer(e *diagnose.Engine, account *sheet.Account, ask asking) error {
	now, err := situation(e, ask)
	if err != nil {
		return err
	}
	result := e.Diagnose(account, now)
	if len(result.FirstActions) > 0 {
		p.status = firstDue
	}
	page := &answerPage{s: p.page, e: e, r: result, all: ask.all, bare: bare(account)}
	if ask.why != "" {
		why, err := p.why(e, account, ask.why)
		switch {
		case err != nil:
			return err
		case ask.json:
			return p.printJSON(why)
		}
		page.why(why)
		return nil
	}
	if ask.json {
		return p.printJSON(result)
	}
	page.show()
	return nil
}

// situation checks what the flags say of the rig as it stands.
func situation(e *diagnose.Engine, ask asking) (diagnose.Situation, error) {
	now := diagnose.Situation{State: ask.state, Tools: ask.tools, EngineerHere: ask.engineer, Minutes: ask.minutes}
	if states := e.States(); ask.state != "" && !slices.Contains(states, ask.state) {
		return now, unknownWord("state of the rig", ask.state, states)
	}
	known := e.Tools()
	for _, t := range ask.tools {
		if !slices.Contains(known, t) {
			return now, unknownWord("tool", t, known)
		}
	}
	if ask.minutes < 0 {
		return now, fmt.Errorf("the flag --minutes cannot be below 0")
	}
	if ask.all {
		now.Causes = -1
	}
	return now, nil
}

// why asks for the whole ground of a cause by its id or its words.
func (p *program) why(e *diagnose.Engine, account *sheet.Account, word string) (*diagnose.Why, error) {
	f := e.Fitted()
	i, err := p.causeShelf().named(f.Base, word)
	if err != nil {
		return nil, err
	}
	return e.Why(account, f.Base.Causes[i].ID)
}

// bare says that an account tells nothing that could point at a cause.
func bare(a *sheet.Account) bool {
	told := len(a.Statements) + len(a.Circumstances) + len(a.Trials) + len(a.Courses) + len(a.Normals) + len(a.NormalRead)
	for _, m := range a.Moments {
		told += len(m.Readings) + len(m.Signs) + len(m.NotSeen) + len(m.Courses) + len(m.Normals)
	}
	return told == 0
}

func (p *program) completeState(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return p.completeOf((*diagnose.Engine).States)
}

func (p *program) completeTool(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return p.completeOf((*diagnose.Engine).Tools)
}

// completeOf completes with words that the engine knows.
func (p *program) completeOf(list func(*diagnose.Engine) []string) ([]string, cobra.ShellCompDirective) {
	lib, r, err := p.openRig()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	e, l := lib.Engine(r)
	if len(l) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return list(e), cobra.ShellCompDirectiveNoFileComp
}
