package hunt

// This file puts the question.

import (
	"fmt"
	"slices"
	"strings"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/hunt"
)

// question asks.
func (s *Session) question() {
	p, q := s.Page, &s.turn.Question
	switch q.About {
	case hunt.Start:
		p.Text(0, "What was seen, heard, felt or smelt, and what do the gauges say? Several things parted by commas, such as: at idle, rough, black smoke, oil pressure 55. Type help for help.")
	case hunt.Pick:
		s.askPick(q)
	case hunt.Figure:
		s.askFigure(q)
	case hunt.Phase_:
		p.Text(0, fmt.Sprintf("%s %s: when was that read?", upper(s.hunt.Means(hunt.Read, q.Waiting.Reading)), strings.Join(q.Waiting.Values, ", ")))
		for i, o := range q.Options {
			p.Item(0, fmt.Sprintf("%2d  ", i+1), o.Means)
		}
		keys(p, "0 nobody can say", "- leave it")
	case hunt.Recall:
		s.askRecall(q)
	case hunt.Dangers:
		if q.Opens != "" {
			p.Text(0, "Best check, once it may be done: "+sentence(q.Opens))
		}
		s.askDangers(q)
	case hunt.Moving:
		s.askMove(q)
	case hunt.Looking:
		s.askCheck(q)
	case hunt.Closing:
		s.askClose()
	}
}

// askRecall asks from memory. How it is answered is told in full with the first such
// question; what stands on the page as it did is not listed again.
func (s *Session) askRecall(q *hunt.Question) {
	p := s.Page
	var ids []string
	for _, o := range q.Options {
		ids = append(ids, o.ID)
	}
	if slices.Equal(ids, s.recalled) {
		p.Text(0, fmt.Sprintf("Was any of that so too, 1 to %d as listed above? Enter lists it again.", len(ids)))
		keys(p, "0 surely none of these", "? nobody can say")
		return
	}
	first := q.Waiting.Text == hunt.RecallName(1)
	s.recalled = ids
	if first {
		p.Text(0, "Was any of this so too? From memory; nothing need be done for it.")
	} else {
		p.Text(0, "And from memory, was any of this so?")
	}
	for i, o := range q.Options {
		if o.Gauge && (i == 0 || !q.Options[i-1].Gauge) {
			p.Text(1, "On the panel:")
		}
		p.Item(0, fmt.Sprintf("%2d  ", i+1), o.Means)
	}
	if first {
		p.Text(4, "Those not numbered stay unknown; after a stroke come those that were surely not there, such as: 1 3 / 2.")
	}
	hint := []string{"0 surely none of these", "? nobody can say"}
	if !first {
		hint = append(hint, "1 3 / 2: those were, that was not")
	}
	keys(p, hint...)
}

func (s *Session) askDangers(q *hunt.Question) {
	p := s.Page
	lead := "Before anything is run or turned: "
	none := "looked at, and none of these"
	if len(q.Dangers) > 1 {
		p.Text(0, "Before anything is run or turned, look for each of these:")
		lead, none = "", "each was looked at, and none of these is so"
	}
	n := 0
	for _, d := range q.Dangers {
		p.Text(0, lead+sentence(d.Ask))
		for range d.Open {
			n++
			p.Item(0, fmt.Sprintf("%2d  ", n), q.Options[n-1].Means)
		}
	}
	p.Item(0, " 0  ", none)
	if len(q.Dangers) > 1 {
		p.Text(4, "Of several that are so all numbers, such as: 1 3; the others are then asked again.")
		keys(p, "? x not all can be told: one by one", "s later")
		return
	}
	keys(p, "? could not tell", "x cannot do that here", "s later")
}

func (s *Session) askPick(q *hunt.Question) {
	p := s.Page
	what := "What is meant by"
	if q.Waiting.Denied {
		what = "Which is not there"
	}
	if q.Waiting.Part != nil {
		what = "Which part is"
	}
	p.Text(0, fmt.Sprintf("%s %q?", what, screen.Clip(q.Waiting.Text, 60)))
	for i, o := range q.Options {
		p.Item(0, fmt.Sprintf("%2d  ", i+1), o.Means+sortWords(o.Kind))
	}
	if len(q.Options) == 0 {
		p.Text(0, "Nothing known here goes by that.")
	}
	if len(q.Options) > 1 {
		p.Text(4, "Several numbers may be given, such as: 1 3.")
	}
	keys(p, "0 none of these: keep it as a note", "- leave it", "or say it otherwise")
}

// sortWords says what sort of thing a choice is where it is no symptom.
func sortWords(k hunt.Kind) string {
	switch k {
	case hunt.Read:
		return " (a gauge)"
	case hunt.Circumstance:
		return " (went before)"
	case hunt.Course:
		return " (how it came on)"
	case hunt.Trial:
		return " (was tried)"
	case hunt.Normal:
		return " (in order)"
	}
	return ""
}

func (s *Session) askFigure(q *hunt.Question) {
	id := q.Waiting.Reading
	unit, answers := s.finder.Unit(id)
	text := upper(s.hunt.Means(hunt.Read, id)) + ": "
	switch {
	case len(answers) > 0:
		text += strings.Join(answers, ", ")
	case unit == "":
		text += "the figure"
	default:
		text += "how many " + unit
	}
	if len(answers) == 0 {
		text += ", or none, low, normal, high, rising, falling, unsteady"
	}
	if usual := s.finder.Shows(id, s.hunt.Moment().Phase); usual != "" {
		text += " (usual at " + strings.TrimPrefix(hunt.Phase(s.hunt.Moment().Phase), "at ") + ": " + usual + ")"
	}
	s.Page.Text(0, text+"?")
	keys(s.Page, "? could not be read", "- leave it")
}

func (s *Session) askMove(q *hunt.Question) {
	p := s.Page
	if q.For {
		p.Text(0, "Next check: "+sentence(q.Check.Do))
		p.Text(0, "For it the rig must be "+q.Move.To+". Steps, once:")
	} else {
		p.Text(0, "The rig is to be "+q.Move.To+". Steps:")
	}
	for i, st := range q.Move.Steps {
		p.Item(0, fmt.Sprintf("%2d  ", i+1), st)
	}
	p.Text(4, "The engine's own card comes first. The propeller is live until proved otherwise.")
	if q.Move.Minutes >= 1 {
		p.Text(4, "Takes about "+screen.Minutes(q.Move.Minutes)+".")
	}
	keys(p, "d every step is done", "NUMBER that step cannot be done")
	if q.For {
		keys(p, "s another check", "x cannot do that here")
	} else {
		keys(p, "s leave it for now")
	}
}

func (s *Session) askCheck(q *hunt.Question) {
	p, c := s.Page, &q.Check
	p.Text(0, "Next check: "+sentence(c.Do))
	for _, w := range s.whyShort(q) {
		p.Text(4, w)
	}
	cost := screen.Minutes(c.Minutes)
	if len(c.Tools) > 0 {
		cost += "; with " + strings.Join(c.Tools, ", ")
	}
	if c.RigState != "any" && c.RigState != "" {
		cost += "; rig " + c.RigState
	}
	p.Text(4, upper(cost)+".")
	for _, w := range c.Cautions {
		p.Item(4, "Caution: ", sentence(w))
	}
	n := 0
	for _, o := range q.Options {
		key := " 0  "
		if o.Kind == hunt.Seen {
			n++
			key = fmt.Sprintf("%2d  ", n)
		}
		text := o.Means
		if len(o.Leads) > 0 {
			text += " -> " + o.Leads[0]
		}
		p.Item(0, key, text)
	}
	keys(p, "? could not tell", "x cannot do that here", "t no tool for it", "s another check")
	if len(s.turn.Ask) > 0 {
		keys(p, "a answer what holds running checks back ("+screen.Count(len(s.turn.Ask), "question", "questions")+")")
	}
}

// keys writes what single keys do, on one line if that is wide enough.
func keys(p *screen.Screen, list ...string) {
	if line := " " + strings.Join(list, "   "); screen.Columns(line) <= p.Width() {
		p.Verbatim(line)
		return
	}
	for _, k := range list {
		p.Text(1, k)
	}
}

func (s *Session) askClose() {
	p := s.Page
	p.Text(0, "No check that can be done here and now is worth its minutes. Tell more, or:")
	if len(s.turn.Hardly) > 0 {
		p.Item(0, "", "more        what could still be looked at, though it hardly pays")
	}
	p.Item(0, "", "found 1     the first cause was it: keeps the snag with what cured it")
	p.Item(0, "", "handover    writes the page for the licensed engineer")
	p.Item(0, "", "list        shows what was told, doubt what would change if one were wrong")
}
