package main

// This file sits down at a hunt: from a sheet, from words, from nothing, or
// from where it was left.

import (
	"bufio"
	"fmt"
	"os"
	"slices"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	talk "snagwise/cmd/snagwise/internal/hunt"
	"snagwise/engine/hunt"
	"snagwise/engine/problem"
	"snagwise/engine/sheet"
)

// A hunting is what the command line asks of a hunt.
type hunting struct {
	slot   string
	dir    string
	resume bool
	clock  string // hidden, also SNAGWISE_CLOCK: a set time, and by how much it goes on at each look
}

// huntCommand goes through a snag question by question.
func (p *program) huntCommand() *cobra.Command {
	var ask hunting
	c := &cobra.Command{
		Use:   "hunt [SHEET.yaml | WORD...]",
		Short: "Go through a snag question by question, at the trailer",
		Long: `Go through a snag question by question. Begin with a sheet, with a few words or
with nothing; each turn says what to do at once, the three likeliest causes and
how the last answer moved them, and the next check that is worth its minutes.
Every answer is on disk before the next question shows; --resume goes on where
it was left. Type help at any question.`,
		Example: `  snagwise hunt --slot 20m
  snagwise hunt --rig teasel surges, black smoke
  snagwise hunt --resume`,
		RunE: func(_ *cobra.Command, args []string) error { return p.hunt(args, ask) },
	}
	p.rigFlag(c, "`NAME` or file of the rig (as a rule, the sheet's own; else hollin)")
	c.Flags().StringVar(&ask.slot, "slot", "", "when the slot is: `20m` from now, or a time of day such as 15:05")
	c.Flags().StringVar(&ask.dir, "dir", "snagwise-hunts", "`FOLDER` in which hunts are kept")
	c.Flags().BoolVar(&ask.resume, "resume", false, "go on with the hunt of that name, else the last one without an end")
	c.Flags().StringVar(&ask.clock, "clock", "", "")
	if err := c.Flags().MarkHidden("clock"); err != nil {
		panic(err) // the flag was made a line above
	}
	return c
}

// hunt opens what is asked for and talks.
func (p *program) hunt(args []string, ask hunting) error {
	if ask.clock == "" {
		ask.clock = os.Getenv("SNAGWISE_CLOCK")
	}
	now, err := clock(ask.clock)
	if err != nil {
		return err
	}
	s := &talk.Session{
		In: bufio.NewReader(p.in), Out: p.stdout, Page: p.page, Now: now, Dir: ask.dir,
		Echo: !isTerminal(p.in),
	}
	var j *talk.Journal
	var h *hunt.Hunt
	var said string
	if ask.resume {
		j, h, err = p.resumed(args, ask)
	} else {
		j, h, said, err = p.begun(args, ask, now())
	}
	if err != nil {
		return err
	}
	s.Begin(h, j)
	if end := s.End(); end != "" {
		return fmt.Errorf("the hunt %s has ended: %s", j.Name, end)
	}
	if !ask.resume {
		if err := s.Open(ask.slot, said); err != nil {
			return err
		}
	}
	p.page.Text(0, h.Engine().Fitted().Rig.Name+", "+j.Name)
	err = s.Run()
	if cerr := j.Close(); err == nil {
		err = cerr
	}
	return err
}

// begun begins a hunt from a sheet, words or nothing.
func (p *program) begun(args []string, ask hunting, at time.Time) (*talk.Journal, *hunt.Hunt, string, error) {
	raw, said := &sheet.Sheet{}, strings.Join(args, " ")
	if len(args) == 1 && isSheet(args[0]) {
		var l problem.List
		if raw, l = p.told(args); len(l) > 0 {
			return nil, nil, "", l
		}
		said = ""
	}
	lib, r, err := p.rigOf(raw)
	if err != nil {
		return nil, nil, "", err
	}
	e, l := lib.Engine(r)
	if len(l) > 0 {
		return nil, nil, "", l
	}
	if _, l := e.Read(raw); len(l) > 0 {
		return nil, nil, "", l
	}
	if ask.slot != "" {
		if _, err := talk.ParseSlot(ask.slot, at); err != nil {
			return nil, nil, "", fmt.Errorf("the flag --slot cannot be %q: %w", ask.slot, err)
		}
	}
	moments, facts := hunt.From(e.Fitted().Base, raw)
	rigName := r.ID
	if p.choice.Rig != "" {
		rigName = p.choice.Rig
	}
	j, err := talk.Create(ask.dir, at.Format("2006-01-02-1504"), talk.Header{Rig: rigName, Rules: p.choice.Rules, Began: at.Format(time.RFC3339), Moments: moments})
	if err != nil {
		return nil, nil, "", err
	}
	if len(facts) > 0 {
		rec := hunt.Record{When: at.Format(time.RFC3339), Said: args[0]}
		for i := range facts {
			rec.Steps = append(rec.Steps, hunt.Step{Tell: &facts[i]})
		}
		if err := j.Append(rec); err != nil {
			return nil, nil, "", err
		}
		j.Read = append(j.Read, rec)
	}
	return j, hunt.New(e, moments), said, nil
}

// resumed opens a hunt that was left.
func (p *program) resumed(args []string, ask hunting) (*talk.Journal, *hunt.Hunt, error) {
	var name string
	var err error
	switch len(args) {
	case 0:
		name, err = talk.Latest(ask.dir)
	case 1:
		name = args[0]
	default:
		err = fmt.Errorf("--resume takes one name of a hunt")
	}
	if err != nil {
		return nil, nil, err
	}
	j, err := talk.Open(ask.dir, name)
	if err != nil {
		return nil, nil, err
	}
	p.choice.Rig = j.Header.Rig
	if p.choice.Rules == "" {
		p.choice.Rules = j.Header.Rules
	}
	lib, r, err := p.openRig()
	if err != nil {
		return nil, nil, err
	}
	e, l := lib.Engine(r)
	return j, hunt.New(e, j.Header.Moments), l.Err()
}

// isSheet says whether an argument names a file rather than what was seen.
func isSheet(arg string) bool {
	return strings.HasSuffix(arg, ".yaml") || strings.HasSuffix(arg, ".yml") || slices.ContainsFunc([]string{"/", "./"}, func(p string) bool { return strings.HasPrefix(arg, p) }) && exists(arg)
}

func isTerminal(in any) bool {
	f, ok := in.(*os.File)
	return ok && term.IsTerminal(int(f.Fd()))
}

// clock returns the keeper's clock, or one that is set: "2026-08-15T14:40:00Z"
// stands still, "2026-08-15T14:40:00Z,30s" goes on by half a minute each time it
// is looked at.
func clock(set string) (func() time.Time, error) {
	if set == "" {
		return time.Now, nil
	}
	text, step, _ := strings.Cut(set, ",")
	at, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return nil, fmt.Errorf("the flag --clock cannot be %q: want a time such as 2026-08-15T14:40:00Z", set)
	}
	var by time.Duration
	if step != "" {
		if by, err = time.ParseDuration(step); err != nil {
			return nil, fmt.Errorf("the flag --clock cannot be %q: want a step such as ,30s", set)
		}
	}
	return func() time.Time { at = at.Add(by); return at }, nil
}
