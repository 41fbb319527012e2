package hunt

// This file ends a hunt: as a kept snag, or as a page for the licensed
// engineer.

import (
	"bytes"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/hunt"
)

// found keeps the snag with the cause that was found.
func (s *Session) found(rest string) ([]hunt.Step, []string, error) {
	name, remedy, _ := strings.Cut(rest, ":")
	if strings.TrimSpace(name) == "" {
		s.more()
		return nil, []string{"found N: WHAT WAS DONE keeps the snag, such as: found 1: fuse renewed. Words for a cause do as well as its number."}, nil
	}
	id, said := s.cause(strings.TrimSpace(name))
	if id == "" {
		return nil, said, nil
	}
	b := s.hunt.Engine().Fitted().Base
	if remedy = strings.TrimSpace(remedy); remedy == "" {
		remedy = b.Causes[b.Cause(id)].Remedy
	}
	text, l := s.hunt.Case(id, screen.Clip(remedy, 400), s.Now().Format("2006-01-02"))
	if len(l) > 0 {
		return nil, append([]string{"It cannot be kept as it stands:"}, problemWords(l)...), nil
	}
	file := filepath.Join(s.Dir, s.journal.Name+".yaml")
	if err := WriteWhole(file, text); err != nil {
		return nil, nil, err
	}
	return []hunt.Step{{End: "found " + id}}, []string{
		"Kept: " + file,
		"Found: " + s.hunt.Cause(id) + ". Before the next run: what was opened is closed, tools and covers counted, a short run with eyes on the gauges.",
		"Move it into your folder of cases to have it counted: snagwise score.",
	}, nil
}

// hours is how the hours of the engine are told.
var hours = regexp.MustCompile(`^(\d{1,6}(?:\.\d)?)\s*(?:h|hours)\b\s*:?\s*`)

// handover writes the page for the licensed engineer and shows it.
func (s *Session) handover(rest string) ([]hunt.Step, []string, error) {
	run := "not told"
	if m := hours.FindStringSubmatch(rest); m != nil {
		run, rest = m[1]+" h", rest[len(m[0]):]
	}
	page, l := s.hunt.Page()
	if len(l) > 0 {
		return nil, problemWords(l), nil
	}
	text := s.pageText(page, run, strings.TrimSpace(strings.TrimPrefix(rest, ":")))
	file := filepath.Join(s.Dir, s.journal.Name+"-handover.txt")
	if err := WriteWhole(file, text); err != nil {
		return nil, nil, err
	}
	for line := range strings.Lines(string(text)) {
		s.Page.Verbatim(strings.TrimRight(line, "\n"))
	}
	s.Page.Gap()
	return []hunt.Step{{End: "handover"}}, []string{"Kept: " + file}, nil
}

// pageText lays the page out: eighty columns, no colour, headings that a
// stranger can follow.
func (s *Session) pageText(p *hunt.Page, run, disturbed string) []byte {
	var b bytes.Buffer
	w := screen.Open(&b, func(string) string { return "" })
	w.Heading("For the licensed engineer: " + p.Rig)
	w.Pair(0, 10, "Date", s.Now().Format("2006-01-02 15:04"))
	w.Pair(0, 10, "Hours", run)
	w.Pair(0, 10, "Rig now", rigWords(s.hunt.Rig())+"; propeller to be treated as live")
	facts := func(heading string, list []hunt.Numbered, none string) {
		w.Heading(heading)
		if len(list) == 0 {
			w.Text(0, none)
		}
		for _, f := range list {
			if putOnly(&f.Fact) {
				continue
			}
			w.Item(0, "- ", sentence(s.factIn(f.Fact, 400)))
		}
	}
	if len(p.First)+len(p.Call) > 0 {
		w.Heading("What must not wait")
		for _, a := range p.First {
			w.Item(0, "- ", sentence(a.Do))
		}
		for _, c := range p.Call {
			w.Item(0, "- ", sentence(c))
		}
	}
	facts("What was seen", p.Seen, "Nothing was told.")
	facts("Looked for and not there, or not to be read", p.NotThere, "Nothing was told.")
	facts("Checks done", p.Checks, "None.")
	w.Heading("What is likely")
	if len(p.Likely) == 0 {
		w.Text(0, "Nothing stands out.")
	}
	for _, c := range p.Likely {
		w.Item(0, "- ", c.Name+": "+screen.Chance(c.Chance)+".")
	}
	if len(p.Against) > 0 {
		w.Heading("What was likely, and what speaks against it")
		for _, c := range p.Against {
			w.Item(0, "- ", fmt.Sprintf("%s: from %s to %s.%s", c.Name, screen.Percent(c.Was), screen.Percent(c.Chance), against(&c)))
		}
	}
	if len(p.Open) > 0 {
		facts("Not looked at, or could not be told", p.Open, "")
	}
	facts("What was disturbed", p.Disturbed, orElse(disturbed, "Nothing was told."))
	if disturbed != "" && len(p.Disturbed) > 0 {
		w.Item(0, "- ", sentence(disturbed))
	}
	w.Gap()
	w.Text(0, "Chances are the project's own scale, not measured. What is not named here was not looked at.")
	return b.Bytes()
}

// against says what speaks against a fallen cause most.
func against(c *hunt.Fallen) string {
	var words []string
	for _, l := range c.Against {
		if t := strings.TrimSuffix(l.Means, "."); len(words) < 2 && !slices.Contains(words, t) {
			words = append(words, t)
		}
	}
	switch {
	case len(words) > 0:
		return " Speaks against it: " + strings.Join(words, "; ") + "."
	case c.FellBecause != "":
		return " Less needed, now that another explains the same."
	}
	return ""
}

func orElse(a, b string) string {
	if a == "" {
		return b
	}
	return sentence(a)
}

func rigWords(state string) string {
	if state == "" {
		return "not told"
	}
	return state
}
