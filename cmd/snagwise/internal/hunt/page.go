package hunt

// This file shows a turn: what is due, what is likely, what time allows, what
// is asked.

import (
	"fmt"
	"math"
	"strings"
	"time"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/hunt"
)

// mostTold is how many things of one answer are repeated.
const mostTold = 8

// show puts a turn on the page. While a phrase waits for its meaning only that
// is asked.
func (s *Session) show() {
	p := s.Page
	p.Gap()
	if s.turn.Result != nil {
		for _, f := range s.turn.Gone {
			p.Text(0, fmt.Sprintf("Taken back %d: %s.", f.N, s.factWords(f.Fact)))
		}
		last := s.turn.Last
		if len(last) > mostTold {
			p.Text(0, fmt.Sprintf("Told: %d things; list shows them.", len(last)))
			last = nil
		}
		for _, f := range last {
			if putOnly(&f.Fact) {
				continue
			}
			p.Text(0, fmt.Sprintf("Told %d: %s.", f.N, s.factWords(f.Fact)))
		}
		s.due()
		s.likely()
		s.time()
	}
	p.Gap()
	s.question()
}

// due shows what must be done at once: in full when it is new, then in a line.
func (s *Session) due() {
	r := s.turn.Result
	stand := 0
	for _, a := range r.FirstActions {
		if s.hunt.Did(a.ID) {
			continue
		}
		if s.actions[a.ID] {
			stand++
			continue
		}
		s.actions[a.ID] = true
		s.Page.Alert("NOW", sentence(a.Do))
	}
	if stand > 0 {
		s.Page.Alert("NOW", screen.Count(stand, "thing", "things")+" told before still to be done at once: now shows it, did ends it.")
	}
	for _, d := range r.Disagree {
		if s.actions["odd "+d.ID] {
			continue
		}
		s.actions["odd "+d.ID] = true
		s.Page.Alert("ODD", sentence(strings.TrimSuffix(d.Means, ".")+": "+d.Why)+" One of them may be wrong: list, then back N.")
	}
	for _, n := range r.NormalThings {
		s.Page.Item(0, "May be no fault: ", sentence(n.Seen)+" "+sentence(n.Why))
	}
	if len(r.FirstActions) == 0 && len(s.hunt.Facts()) == 0 {
		s.Page.Text(0, "Fire, fuel leaking, no oil pressure, a heavy knock, a magneto that stays live: stop first, tell then. The propeller is live until proved otherwise.")
	}
}

// now shows in full what must be done at once.
func (s *Session) now() {
	if s.told == nil || len(s.told.Result.FirstActions) == 0 {
		s.Page.Text(0, "Nothing that was told must be acted on at once.")
		return
	}
	for _, a := range s.told.Result.FirstActions {
		s.Page.Alert("NOW", sentence(a.Do))
	}
}

// likely shows the three likeliest causes and how the last answer moved them.
func (s *Session) likely() {
	r := s.turn.Result
	if len(s.hunt.Facts()) == 0 || s.shown && len(s.turn.Last)+len(s.turn.Gone) == 0 {
		return
	}
	if len(r.Causes) == 0 {
		s.Page.Text(0, "None of the causes known here fits what was told. Look over what was told (list), tell more, or ask the licensed engineer.")
		return
	}
	var lines []string
	same := s.shown
	for i, c := range s.turn.Shifts {
		moved := movedWords(c.Was, c.Chance)
		lines = append(lines, s.causeWords(&c, moved))
		same = same && moved == asBefore && i < len(s.leaders) && s.leaders[i] == c.ID
	}
	s.leaders = nil
	for _, c := range s.turn.Shifts {
		s.leaders = append(s.leaders, c.ID)
	}
	s.Page.Gap()
	if same {
		s.Page.Text(0, "The likeliest causes stand as before.")
	} else {
		head := "Likely now:"
		if r.Causes[0].Chance < standsOut {
			head = "Likely now: nothing stands out yet. Of many alike:"
		}
		s.Page.Text(0, head)
		for i, l := range lines {
			s.Page.Item(0, fmt.Sprintf("%2d  ", i+1), l)
		}
		if r.NoneOfThese >= .1 {
			s.Page.Text(4, "None of the causes known here: "+screen.Chance(r.NoneOfThese)+".")
		}
	}
	s.shown = true
	for _, w := range s.turn.Verdict.NotToday {
		s.Page.Alert("NOT TODAY", sentence(w)+" Stand down and call the licensed engineer; handover writes the page for him.")
	}
}

// standsOut is the chance of the first cause below which none stands out.
const standsOut = .075

func (s *Session) causeWords(c *hunt.Shift, moved string) string {
	text := c.Name + ": " + screen.Chance(c.Chance)
	if moved != "" {
		text += " (" + moved + ")"
	}
	if c.Who != "operator" && c.Who != "" {
		text += ", for the " + c.Who
	}
	return text
}

// asBefore says that a chance did not move in the steps that are shown.
const asBefore = "as before"

// movedWords says how a chance moved, in the steps of five that are shown.
func movedWords(was, now float64) string {
	switch from, to := screen.Percent(was), screen.Percent(now); {
	case math.IsNaN(was):
		return ""
	case from == to:
		return asBefore
	case now > was:
		return "up from " + from
	default:
		return "down from " + from
	}
}

// time says what the minutes left allow, and whether a run may go on.
func (s *Session) time() {
	v := s.turn.Verdict
	if len(s.hunt.Facts()) == 0 {
		return
	}
	s.Page.Gap()
	if v.Set {
		at, _ := s.slot()
		text := fmt.Sprintf("Slot at %s: %s left.", at.Format("15:04"), screen.Minutes(math.Floor(v.Left)))
		if v.Left < 1 {
			text = fmt.Sprintf("Slot at %s: that is now, or past.", at.Format("15:04"))
		}
		if v.Possible && v.Stand >= 0 {
			last := s.Now().Add(time.Duration(v.Stand * float64(time.Minute)))
			text += fmt.Sprintf(" Last moment to stand down: %s.", last.Format("15:04"))
		}
		s.Page.Text(0, text)
	}
	if words := runOnWords(&v); words != "" && words != s.runOn {
		s.runOn = words
		s.Page.Text(0, words)
	}
	if s.turn.Late > 0 {
		s.Page.Text(0, screen.Count(s.turn.Late, "check", "checks")+" not offered: too late to change anything before the slot.")
	}
}

// runOnWords says whether a run may go on, and why.
func runOnWords(v *hunt.Verdict) string {
	why := ""
	if len(v.RunOnWhy) > 0 {
		why = ": " + strings.TrimSuffix(v.RunOnWhy[0], ".")
	}
	if n := len(v.RunOnWhy) - 1; n > 0 {
		why += fmt.Sprintf(" (and %d more: may shows them)", n)
	}
	switch v.RunOn {
	case hunt.No:
		return "Running on: no" + why + "."
	case hunt.InsideReduced:
		if why == "" {
			why = ": nothing likely forbids it"
		}
		return "Running on: inside reduced limits, eyes on the gauges, if the engine's book allows it" + why + "."
	}
	return ""
}
