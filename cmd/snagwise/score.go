package main

// This file holds the command that measures how well the rules answer the kept
// cases.

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"snagwise/cases"
	"snagwise/cmd/snagwise/internal/load"
	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/casebook"
	"snagwise/engine/diagnose"
	"snagwise/engine/rig"
)

// recordFile is where the figures that a test holds the rules to are kept.
const recordFile = "cases/recorded.yaml"

// shakes is how often each case is disturbed in each way for the record.
const shakes = 1

// scoreCommand tells how often the rules find what was found.
func (p *program) scoreCommand() *cobra.Command {
	var ask scoreAsk
	c := &cobra.Command{
		Use:   "score",
		Short: "Say how well the rules answer the kept cases",
		Long: `Each kept case is ranked from what was told before its cause was found, and
the place of that cause is counted. The real accounts, the published cases, which
no rule was written from, and the invented situations stand apart. With --rules, the cases of your own folder are scored too.
Exit status 1 says that the score has fallen below what is recorded.`,
		Example: `  snagwise score
  snagwise score --rules mine --cases
  snagwise score --hunts=200`,
		Args: noArguments("score"),
		RunE: func(c *cobra.Command, _ []string) error {
			ask.huntsAsked = c.Flags().Changed("hunts")
			return p.score(ask)
		},
	}
	c.Flags().BoolVar(&ask.json, "json", false, "the same content as JSON")
	c.Flags().BoolVar(&ask.cases, "cases", false, "list each case that is not answered first")
	c.Flags().BoolVar(&ask.shake, "shake", false, "disturb what was told in each real account and situation, and count how often that throws its cause out of the first five")
	c.Flags().BoolVar(&ask.fit, "fit", false, "choose other figures by the real accounts, each left out in turn, and say what that is worth (minutes)")
	c.Flags().IntVar(&ask.hunts, "hunts", 0, "play so many hunts against drawn snags, and say what minutes each way to choose the next look costs (some minutes)")
	c.Flags().Lookup("hunts").NoOptDefVal = strconv.Itoa(usualHunts)
	c.Flags().StringVar(&ask.record, "record", "", "write what is reached to a file, as the least from now on")
	c.Flags().Lookup("record").NoOptDefVal = recordFile
	return c
}

// scoreAsk is what the flags ask for.
type scoreAsk struct {
	json, cases, shake, fit bool
	record                  string // a file
	hunts                   int
	huntsAsked              bool
}

func (p *program) score(ask scoreAsk) error {
	list, err := p.keptCases()
	if err != nil {
		return err
	}
	lib, err := p.open()
	if err != nil {
		return err
	}
	if ask.huntsAsked {
		return p.hunts(lib, list, ask)
	}
	if ask.fit {
		return p.fit(lib, ask.json)
	}
	engine := engines(lib)
	scores, err := casebook.Run(list, engine)
	if err != nil {
		return err
	}
	tables, l := casebook.LoadTables(cases.Files, "tables")
	if len(l) > 0 {
		return l
	}
	if err := casebook.Beside(scores, tables, engine); err != nil {
		return err
	}
	groups := casebook.Report(scores)
	kept, l := casebook.ReadRecord(recordFile, []byte(cases.Recorded))
	if len(l) > 0 {
		return l
	}
	shaken := []casebook.Shaking{}
	if ask.shake {
		if shaken, err = casebook.Shake(steady(scores), engine, shakes); err != nil {
			return err
		}
	}
	if ask.record != "" {
		if ask.shake {
			kept.Thrown = casebook.Ceilings(shaken)
		}
		kept.Groups = casebook.Floors(groups)
		return p.write(ask.record, kept.Text(), recordFile)
	}
	var below []string
	if p.choice.Rules == "" {
		below = kept.Below(groups)
	}
	if len(below) > 0 {
		p.status = 1
	}
	if ask.json {
		enc := json.NewEncoder(p.stdout)
		enc.SetIndent("", "  ")
		if below == nil {
			below = []string{}
		}
		return enc.Encode(struct {
			Groups []casebook.Group   `json:"groups"`
			Missed []missed           `json:"missed"`
			Shaken []casebook.Shaking `json:"shaken"`
			Said   []casebook.Saying  `json:"said"`
			Below  []string           `json:"below_record"`
		}{groups, misses(scores), shaken, casebook.Sayings(scores), below})
	}
	showScore(p.page, groups)
	if ask.shake {
		showShaken(p.page, shaken)
	}
	said := casebook.Sayings(scores)
	showSaid(p.page, said)
	if ask.cases {
		if ask.shake {
			showLost(p.page, shaken)
		}
		showUnsaid(p.page, said)
		showMisses(p.page, misses(scores))
	}
	if len(below) > 0 {
		p.page.Heading("Below what is recorded")
		for _, what := range below {
			p.page.Item(0, "- ", what)
		}
	}
	return nil
}

// keptCases returns the published cases, the real accounts, the situations, and
// the cases of the keeper's own folder. The rigs that they bring along are chosen
// with them, so the library must be opened afterwards.
func (p *program) keptCases() ([]casebook.Case, error) {
	list, l := casebook.Load(cases.Files, "published", "real", "situations")
	rigs, more := casebook.Rigs(cases.Files, ".")
	if l = append(l, more...); len(l) > 0 {
		return nil, l
	}
	p.choice.Beside = rigs
	if p.choice.Rules == "" {
		return list, nil
	}
	own := os.DirFS(p.choice.Rules)
	if _, err := fs.Stat(own, "cases"); err != nil {
		return list, nil
	}
	mine, l := casebook.Load(own, "cases")
	rigs, more = casebook.Rigs(own, "cases")
	if l = append(l, more...); len(l) > 0 {
		for i := range l {
			l[i].Pos.File = filepath.Join(p.choice.Rules, l[i].Pos.File)
		}
		return nil, l
	}
	for _, f := range rigs {
		p.choice.Beside = append(p.choice.Beside, rig.File{Name: filepath.Join(p.choice.Rules, f.Name), Text: f.Text})
	}
	return append(list, mine...), nil
}

// steady returns the scores of the cases that are disturbed: all but the
// published ones, which are counted as they were told and in no other way, so
// that what is recorded of disturbances keeps its meaning as more of them come.
func steady(scores []casebook.Score) []casebook.Score {
	return slices.DeleteFunc(slices.Clone(scores), func(s casebook.Score) bool { return s.Folder() == "published" })
}

// engines makes the engine of each rig once.
func engines(lib *load.Library) func(string) (*diagnose.Engine, error) {
	made := map[string]*diagnose.Engine{}
	return func(name string) (*diagnose.Engine, error) {
		if e := made[name]; e != nil {
			return e, nil
		}
		r, l := lib.Rig(name)
		if len(l) > 0 {
			return nil, l
		}
		e, l := lib.Engine(r)
		if len(l) > 0 {
			return nil, l
		}
		made[name] = e
		return e, nil
	}
}

func percent(x float64) string { return strconv.Itoa(int(x*100 + .5)) }

func hundredths(x float64) string { return strings.TrimPrefix(fmt.Sprintf("%.2f", x), "0") }

func showScore(s *screen.Screen, groups []casebook.Group) {
	right := func(titles ...string) []screen.Column {
		columns := []screen.Column{{Title: "cases of"}}
		for _, t := range titles {
			columns = append(columns, screen.Column{Title: t, Right: true})
		}
		return columns
	}
	style := func(i int) screen.Style {
		if groups[i].Whole() {
			return screen.Strong
		}
		return screen.Plain
	}
	place := screen.Table{Columns: right("cases", "first", "of 3", "of 5", "MRR"), Style: style}
	other := screen.Table{Columns: right("rules", "MRR", "tables", "MRR", "frequency", "MRR"), Style: style}
	chance := screen.Table{Columns: right("Brier", "reliability", "resolution", "uncertainty", "says", "is"), Style: style}
	for _, g := range groups {
		m := g.Measures
		place.Rows = append(place.Rows, []string{g.Name, strconv.Itoa(m.N), percent(m.Top1), percent(m.Top3), percent(m.Top5), hundredths(m.MRR)})
		other.Rows = append(other.Rows, []string{g.Name, percent(m.Top3), hundredths(m.MRR), percent(g.ByTables.Top3), hundredths(g.ByTables.MRR), percent(g.ByFrequency.Top3), hundredths(g.ByFrequency.MRR)})
		chance.Rows = append(chance.Rows, []string{g.Name, hundredths(m.Brier), hundredths(m.Reliability), hundredths(m.Resolution), hundredths(m.Uncertainty), percent(m.Says), percent(m.Is)})
	}
	s.Heading("Where the cause that was found stands, in percent of the cases")
	s.Table(place)
	s.Gap()
	s.Text(0, "MRR is the mean of one over its place.")
	s.Heading("Among the first three, beside orders that know less")
	s.Table(other)
	s.Gap()
	s.Text(0, "The tables are those of published handbooks, by the symptoms told; frequency alone puts the commonest causes of the rig first, whatever was told. Ties count as the mean over all ways to break them.")
	s.Heading("What is claimed of the first cause, and what is so")
	s.Table(chance)
	s.Gap()
	s.Text(0, "Says is the mean chance claimed for the first cause, is how often it was right, both in percent. Brier is reliability less resolution plus uncertainty, but for what lies within a tenth.")
}

func showShaken(s *screen.Screen, list []casebook.Shaking) {
	s.Heading("How often a disturbed telling throws the cause out of the first five")
	right := func(title string) screen.Column { return screen.Column{Title: title, Right: true} }
	t := screen.Table{Columns: []screen.Column{{Title: "disturbance"}, right("trials"), right("out %"), right("worse"), right("same"), right("better"), right("hung"), right("out"), right("rest out %")}}
	for _, k := range list {
		t.Rows = append(t.Rows, []string{k.Disturbance.Name, strconv.Itoa(k.Trials), percent(k.Out()), strconv.Itoa(k.Worse), strconv.Itoa(k.Same), strconv.Itoa(k.Better),
			strconv.Itoa(k.Hung), strconv.Itoa(k.HungOut), percent(k.OutOfRest())})
	}
	s.Table(t)
	s.Gap()
	s.Text(0, "Hung are the trials in which the case hung on what was disturbed: it carried half or more of the points for the cause, or fewer than four things were told; beside them how often the cause left the first five there, and its share of all other trials. --cases lists every trial in which it left them.")
}

// showLost lists the trials in which a disturbance threw the cause out.
func showLost(s *screen.Screen, list []casebook.Shaking) {
	s.Heading("Trials in which the cause left the first five")
	for _, k := range list {
		for _, l := range k.Lost {
			place := "nowhere"
			if l.Is > 0 {
				place = strconv.Itoa(l.Is)
			}
			text := fmt.Sprintf("%s, %d told: %s; place %d, then %s", strings.TrimSuffix(filepath.Base(l.Case), ".yaml"), l.Told, l.What, l.Was, place)
			if k.Disturbance.Takes {
				text += fmt.Sprintf("; carried %s %% of its points", percent(max(0, l.Carried)))
			}
			s.Item(0, "- ", text+"; first now "+l.First)
		}
	}
}

// showSaid tells how much of what the sources tell is on the sheets.
func showSaid(s *screen.Screen, said []casebook.Saying) {
	if len(said) == 0 {
		return
	}
	s.Heading("How much of what was told the sheets say")
	t := screen.Table{Columns: []screen.Column{{Title: "cases of"}, {Title: "cases", Right: true}, {Title: "phrases told", Right: true},
		{Title: "said", Right: true}, {Title: "said %", Right: true}}}
	for _, g := range said {
		t.Rows = append(t.Rows, []string{g.Group, strconv.Itoa(g.Cases), strconv.Itoa(g.Told), strconv.Itoa(g.Said), percent(g.Share())})
	}
	s.Table(t)
	s.Gap()
	s.Text(0, "Phrases of the source, figures, order and what was tried among them. What stands only in a note is not said. --cases lists what cannot be.")
}

// showUnsaid lists what the sheets cannot say, with the reason.
func showUnsaid(s *screen.Screen, said []casebook.Saying) {
	t := screen.Table{Columns: []screen.Column{{Title: "case"}, {Title: "told"}, {Title: "why no sheet says it"}}}
	for _, g := range said {
		if !strings.HasSuffix(g.Group, ", all") {
			continue
		}
		for _, u := range g.Unsaid {
			name, _, _ := strings.Cut(filepath.Base(u.Case), "_")
			t.Rows = append(t.Rows, []string{name, u.Phrase, u.Why})
		}
	}
	s.Heading("What was told and no sheet says")
	s.Table(t)
}

// missed is a case whose cause does not stand first.
type missed struct {
	Case  string   `json:"case"`
	Place int      `json:"place"`
	Found []string `json:"found"`
	First []string `json:"first"`
}

func misses(scores []casebook.Score) []missed {
	out := []missed{}
	for _, s := range scores {
		if s.Rank != 1 {
			out = append(out, missed{s.Case.File, s.Rank, s.Accepted, s.List[:min(3, len(s.List))]})
		}
	}
	return out
}

func showMisses(s *screen.Screen, list []missed) {
	s.Heading("Cases whose cause does not stand first")
	t := screen.Table{Columns: []screen.Column{{Title: "case"}, {Title: "place", Right: true}, {Title: "found"}, {Title: "first"}}}
	for _, m := range list {
		place := "-"
		if m.Place > 0 {
			place = strconv.Itoa(m.Place)
		}
		t.Rows = append(t.Rows, []string{m.Case, place, strings.Join(m.Found, ", "), m.First[0]})
	}
	s.Table(t)
}
