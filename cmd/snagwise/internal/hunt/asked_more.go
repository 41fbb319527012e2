package hunt

// This file answers what is asked of systems, of what was kept before, and of how
// many starts or brake applications are left.

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/hunt"
	"snagwise/engine/physics"
	"snagwise/engine/sheet"
)

// systemWords are what people call the systems of an engine, by the name of the
// system in the rules; common practice, no source.
var systemWords = map[string]string{
	"spark": "ignition", "sparks": "ignition", "ignition": "ignition", "mags": "ignition",
	"fuel": "fuel", "petrol": "fuel", "gas": "fuel", "fuelling": "fuel",
	"carburation": "induction", "induction": "induction", "mixture": "induction", "intake": "induction",
	"oil": "lubrication", "lubrication": "lubrication", "cooling": "cooling", "coolant": "cooling", "water": "cooling",
	"electrics": "electrical", "electrical": "electrical", "electric": "electrical",
	"propeller": "propeller", "prop": "propeller", "pneumatics": "pneumatic", "pneumatic": "pneumatic",
	"engine": "mechanical", "mechanical": "mechanical",
}

// eitherOr answers "spark or fuel?": of each side, a system or what names causes,
// it is told how likely it is. Where one names neither, the words are taken as told.
func (s *Session) eitherOr(sides []string) bool {
	for i, w := range sides {
		w = strings.TrimSpace(strings.TrimPrefix(strings.ToLower(w), "the "))
		if sides[i] = w; systemWords[w] == "" && len(s.hunt.Blamed(s.finder, s.told.Result, w)) == 0 {
			return false
		}
	}
	for _, w := range sides {
		s.blame(w)
	}
	s.Page.Text(0, "why N or why WORDS tells what bears on one.")
	if len(s.hunt.Facts()) == 0 {
		s.Page.Text(0, "Nothing was told yet: that is how common they are. Say what was noticed.")
	}
	return true
}

// blame says how likely a system, a part, a cause or the gauges are. It reports
// whether there is any cause of it.
func (s *Session) blame(w string) bool {
	head := upper(screen.Clip(w, 60))
	list := s.hunt.Blamed(s.finder, s.told.Result, w)
	if sys := systemWords[strings.ToLower(w)]; sys != "" {
		if all, likeliest, ok := s.hunt.System(s.told.Result, sys); ok {
			head += ", in all " + screen.Chance(all)
			list = likeliest
		}
	}
	if len(list) == 0 {
		s.Page.Text(0, head+": no cause goes by that here. why WORDS looks for one.")
		return false
	}
	s.Page.Text(0, head+":")
	for _, c := range list {
		s.Page.Item(2, "- ", s.hunt.Cause(c.ID)+": "+screen.Chance(c.Chance))
	}
	return true
}

// strokes says how many brake applications are left.
func (s *Session) strokes() {
	const id = "air_actuations_left"
	if a, l := s.hunt.Account(); len(l) == 0 {
		if w, ok := s.hunt.Engine().WorkedOut(a, id); ok {
			s.Page.Text(0, w.Means+": "+w.Value+". "+sentence(w.Caution)+" Each brake application takes about one.")
			return
		}
	}
	s.Page.Text(0, "Say what the air bottle shows, such as: air bottle pressure 300 psi; then ask again. snagwise compute "+id+" does the sum with other figures.")
}

// starts says how long the starter must rest and how far the battery goes.
func (s *Session) starts() {
	if c, err := physics.Find("starter_duty_left"); err == nil {
		s.Page.Text(0, "Starter: "+c.Formula+". "+sentence(c.Caution))
	}
	words := "say the volts at rest, such as: bus volts 25.1 at rest."
	if a, l := s.hunt.Account(); len(l) == 0 {
		if w, ok := s.hunt.Engine().WorkedOut(a, "battery_charge_from_rest_volts"); ok {
			words = "charged to " + w.Value + " by its volts at rest. " + sentence(w.Caution)
		}
	}
	s.Page.Text(0, "Battery: "+words)
	s.Page.Text(0, "snagwise compute starts_left gives the number from the charge and what one start takes; failed tries take as much as good ones. Flooded, locked or no oil pressure: no further try.")
}

// months are the names of the months, to be found in what was asked.
var months = []string{"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"}

// inMonth is a month in "same as last August?"; 0 for none.
var inMonth = regexp.MustCompile(`(?i)\b(` + strings.Join(months, "|") + `)\b`)

// mostLike is how many kept snags are told.
const mostLike = 3

// before answers "same as last August?" from what was kept here: the snags of
// that month, or all, that share most of what was told now.
func (s *Session) before(m []string) {
	month := ""
	if w := inMonth.FindString(m[0]); w != "" {
		month = fmt.Sprintf("-%02d-", slices.Index(months, strings.ToLower(w))+1)
	}
	type one struct {
		name, date, found, remedy string
		shared                    []string
	}
	var list []one
	names, err := filepath.Glob(filepath.Join(s.Dir, "*.yaml"))
	if err != nil {
		names = nil
	}
	slices.Sort(names)
	kept := 0
	for _, name := range slices.Backward(names) { // the newest first
		text, err := fs.ReadFile(os.DirFS(s.Dir), filepath.Base(name))
		if err != nil {
			continue
		}
		raw, l := sheet.Parse(name, text)
		if len(l) > 0 || raw.Rig.Value != s.hunt.Engine().Fitted().Rig.ID || len(raw.Found) == 0 || !strings.Contains(raw.Date.Value, month) {
			continue
		}
		kept++
		o := one{name: name, date: raw.Date.Value, found: s.hunt.Cause(raw.Found[0].Value), remedy: raw.Remedy.Value}
		_, facts := hunt.From(s.hunt.Engine().Fitted().Base, raw)
		for _, f := range s.hunt.Facts() {
			if (f.Kind == hunt.Seen || f.Kind == hunt.Read) && slices.ContainsFunc(facts, func(k hunt.Fact) bool { return k.Kind == f.Kind && k.Name == f.Name }) {
				o.shared = append(o.shared, s.hunt.Means(f.Kind, f.Name))
			}
		}
		list = append(list, o)
	}
	slices.SortStableFunc(list, func(a, b one) int { return len(b.shared) - len(a.shared) })
	if kept == 0 {
		s.Page.Text(0, "No snag of this rig"+of(month, m[0])+" is kept in "+s.Dir+". found N: WHAT WAS DONE keeps this one for the next time.")
		return
	}
	for _, o := range list[:min(len(list), mostLike)] {
		alike := "shares nothing that was told now"
		if len(o.shared) > 0 {
			alike = "shares: " + strings.Join(o.shared, "; ")
		}
		s.Page.Item(0, "- ", strings.TrimSpace(o.date+" "+sentence(o.found))+" "+sentence(o.remedy)+" "+upper(alike)+".")
	}
	s.Page.Text(0, "If it is the same come back after it was thought cured, say so: it is back again.")
}

func of(month, said string) string {
	if month == "" {
		return ""
	}
	return " of " + upper(strings.ToLower(inMonth.FindString(said)))
}
