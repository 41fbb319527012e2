package main

// This file shows what choosing the figures that no source gives by the real
// accounts would come to.

import (
	"encoding/json"
	"fmt"
	"strconv"

	"snagwise/cases"
	"snagwise/cmd/snagwise/internal/load"
	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/casebook"
	"snagwise/engine/diagnose"
)

// fitDraws is how many ways are drawn by lot beside those that move one figure.
const fitDraws = 24

// fit scores the real accounts with other figures and chooses among them.
func (p *program) fit(lib *load.Library, asJSON bool) error {
	list, l := casebook.Load(cases.Files, "real")
	if len(l) > 0 {
		return l
	}
	fit, err := casebook.Choose(casebook.Ways(fitDraws), func(f casebook.Figures) ([]casebook.Score, error) {
		base := casebook.Reworded(lib.Base, f)
		made := map[string]*diagnose.Engine{}
		return casebook.Run(list, func(name string) (*diagnose.Engine, error) {
			if e := made[name]; e != nil {
				return e, nil
			}
			r, l := lib.Rig(name)
			if len(l) > 0 {
				return nil, l
			}
			e, l := diagnose.New(base.On(r), f.Settings)
			made[name] = e
			return e, l.Err()
		})
	})
	if err != nil {
		return err
	}
	if asJSON {
		enc := json.NewEncoder(p.stdout)
		enc.SetIndent("", "  ")
		return enc.Encode(fit)
	}
	showFit(p.page, fit)
	return nil
}

func showFit(s *screen.Screen, fit casebook.Fit) {
	s.Heading("The real accounts by other figures")
	t := screen.Table{Columns: []screen.Column{{Title: "figures"}, {Title: "cases", Right: true}, {Title: "first", Right: true}, {Title: "of 3", Right: true},
		{Title: "of 5", Right: true}, {Title: "MRR", Right: true}, {Title: "log loss", Right: true}}}
	for _, row := range []struct {
		name string
		of   casebook.Fitted
	}{{"as they stand", fit.AsTheyStand}, {"best on all the others, case by case", fit.LeftOut}, {"best on all, these among them", fit.InSample}} {
		t.Rows = append(t.Rows, []string{row.name, strconv.Itoa(row.of.N), percent(row.of.Top1), percent(row.of.Top3), percent(row.of.Top5), hundredths(row.of.MRR), fmt.Sprintf("%.3f", row.of.LogLoss)})
	}
	s.Table(t)
	s.Gap()
	s.Text(0, fmt.Sprintf("Of %d ways to set the words of strength and of frequency and the leaks, %q did best on all, and for %d cases on all the others too. Log loss is the mean of minus the natural logarithm of the chance given to what was found. Only the second row says what a choice is worth: there no case had a part in the choice for itself.", fit.Ways, fit.Best, fit.Chosen))
}
