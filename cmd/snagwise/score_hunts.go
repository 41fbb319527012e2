package main

// This file plays hunts against drawn snags and tells what they cost.

import (
	"encoding/json"
	"fmt"
	"os"
	"strconv"
	"strings"

	"snagwise/cases"
	"snagwise/cmd/snagwise/internal/load"
	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/casebook"
	"snagwise/engine/problem"
	"snagwise/engine/simulate"
)

// huntsFile is where the figures of hunts are kept.
const huntsFile = "cases/hunts.yaml"

// Figures of a run of hunts; a short one is played again by a test.
const (
	usualHunts = 2000
	shortHunts = 12
	huntsSeed  = 1
	mostSmall  = 60 // small problems in a full run
)

// playHunts plays so many drawn hunts and, in a full run, the kept cases.
func playHunts(lib *load.Library, n int, list []casebook.Case) (*simulate.Report, error) {
	tables, l := casebook.LoadTables(cases.Files, "tables")
	if len(l) > 0 {
		return nil, l
	}
	p := simulate.Plan{Tables: tables, Cases: list, Rig: huntRigs(lib), Hunts: n, Seed: huntsSeed, Small: min(mostSmall, (n+3)/4)}
	for _, r := range lib.Rigs {
		ready, err := p.Rig(r.ID)
		if err != nil {
			return nil, err
		}
		p.Rigs = append(p.Rigs, ready)
	}
	return p.Run()
}

// huntRigs makes each rig ready for hunts once.
func huntRigs(lib *load.Library) func(string) (*simulate.Rig, error) {
	made := map[string]*simulate.Rig{}
	return func(name string) (*simulate.Rig, error) {
		if r := made[name]; r != nil {
			return r, nil
		}
		r, l := lib.Rig(name)
		if len(l) > 0 {
			return nil, l
		}
		ready, l := simulate.NewRig(lib.Base.On(r))
		if len(l) > 0 {
			return nil, l
		}
		made[name] = ready
		return ready, nil
	}
}

// hunts plays hunts and tells what came of them.
func (p *program) hunts(lib *load.Library, list []casebook.Case, ask scoreAsk) error {
	if ask.hunts < 1 || ask.hunts > 100_000 {
		return problem.List{{Check: "bad-number", Text: fmt.Sprintf("%d hunts cannot be played", ask.hunts), Hint: "give a number from 1 to 100000: --hunts=200"}}
	}
	full, err := playHunts(lib, ask.hunts, list)
	if err != nil {
		return err
	}
	if ask.record != "" {
		short, err := playHunts(lib, shortHunts, nil)
		if err != nil {
			return err
		}
		if ask.record == recordFile {
			ask.record = huntsFile
		}
		rec := simulate.Record{Runs: []simulate.Report{*full, *short}}
		return p.write(ask.record, rec.Text(), huntsFile)
	}
	if ask.json {
		enc := json.NewEncoder(p.stdout)
		enc.SetIndent("", "  ")
		return enc.Encode(full)
	}
	showHunts(p.page, full)
	return nil
}

// write writes a record to a file.
func (p *program) write(file, text, usual string) error {
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		return problem.List{{Pos: problem.Pos{File: file}, Check: "unwritable", Text: strings.TrimPrefix(err.Error(), "open "+file+": "), Hint: "run it where " + usual + " lies, or name a file: --record=FILE"}}
	}
	p.page.Text(0, "Written: "+file)
	return nil
}

func showHunts(s *screen.Screen, r *simulate.Report) {
	for _, g := range r.Groups {
		s.Heading(fmt.Sprintf("%d hunts: %s", g.Hunts, huntsOf(g.Name)))
		t := screen.Table{Columns: []screen.Column{{Title: "next look by"}, {Title: "minutes", Right: true}, {Title: "looks", Right: true}, {Title: "found %", Right: true}}}
		t.Style = func(i int) screen.Style {
			if i == 0 {
				return screen.Strong
			}
			return screen.Plain
		}
		for _, x := range g.Rows {
			t.Rows = append(t.Rows, []string{x.Strategy, tenths(x.Minutes), tenths(x.Looks), percent(x.Found)})
		}
		s.Table(t)
		if g.Given > 0 {
			s.Gap()
			s.Text(0, fmt.Sprintf("Of what checks told, %s %% stands in the case; the rest is drawn from what was found.", percent(g.Given)))
		}
	}
	all := r.Group(simulate.OverAll)
	s.Gap()
	for _, way := range []string{simulate.ByHunt, simulate.ByTool} {
		s.Text(0, fmt.Sprintf("Over all, %s takes %s %% fewer minutes than the best way that ranks once, %s %% fewer than the best that ranks anew after every answer.",
			way, percent(all.Saved(way, simulate.Once...)), percent(all.Saved(way, simulate.Anew...))))
	}
	showSmall(s, &r.Small)
	s.Gap()
	s.Text(0, fmt.Sprintf("Minutes and looks are means; a hunt not done after %.0f minutes is given up and counts those. All ways meet the same snags, pay for a check and for getting the rig into its state, and end by the same rule: a check shows what settles the cause, or its remedy works. Ranked anew means by the tool's own ranking after every answer. The tool's hunt asks from memory too, a minute each time, and knows more than the others by it. Knowing the fault is no way to look: it is told what is wrong and goes straight there, so that nobody can take less.", r.Budget))
}

// showSmall tells what small problems cost, and how much there is to save.
func showSmall(s *screen.Screen, m *simulate.Smalls) {
	if m.Problems == 0 {
		return
	}
	s.Heading("Small problems, beside the best way there is")
	t := screen.Table{Columns: []screen.Column{{Title: "next look by"}, {Title: "minutes", Right: true}, {Title: "/ best", Right: true}, {Title: "best saves %", Right: true}},
		Rows: [][]string{{"the best way", tenths(m.Minutes), hundredths(1), ""}}}
	for _, x := range m.Rows {
		t.Rows = append(t.Rows, []string{x.Strategy, tenths(x.Minutes), hundredths(x.Ratio), percent(m.BestSaves(x.Strategy))})
	}
	s.Table(t)
	s.Gap()
	s.Text(0, fmt.Sprintf("%d problems of 4 to 7 causes and 5 to 7 checks, cut from the rules. The tool's single ratios: mean %s, greatest %s. The best way takes %s %% fewer minutes than chance per minute ranked anew: nobody can save more than that there.",
		m.Problems, hundredths(m.Mean), hundredths(m.Worst), percent(m.BestSaves(simulate.ByRatioAgain))))
}

// huntsOf says what a group of hunts is.
func huntsOf(name string) string {
	switch name {
	case "situations":
		return "invented situations that are kept"
	case "real":
		return "real accounts that are kept"
	case simulate.OverAll:
		return "all of these"
	}
	return name
}

func tenths(x float64) string { return strconv.FormatFloat(x, 'f', 1, 64) }
