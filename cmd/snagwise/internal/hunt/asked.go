package hunt

// This file answers what is asked in the field in plain words: may I run, is it
// this or that, what can I check.

import (
	"regexp"
	"strings"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/diagnose"
	"snagwise/engine/hunt"
)

// An asking is a sort of question with what answers it. What is asked is known
// by its words; common practice, no source.
type asking struct {
	form   *regexp.Regexp
	answer func(s *Session, m []string)
}

var askings []asking

func init() {
	askings = []asking{
		{regexp.MustCompile(`(?i)\b(?:brake|air) (?:applications?|strokes?|actuations?|uses?)\b.*\bleft\b|\bhow (?:many|much) (?:more )?(?:brak|air|strokes? of air)\w*`), func(s *Session, _ []string) { s.strokes() }},
		{regexp.MustCompile(`(?i)\bhow many (?:more )?(?:starts?|tries|goes|attempts)\b|\b(?:get|got|have) (?:me )?(?:\w+ )?more (?:starts?|tries)\b|\bcook the starter\b|\bstarts? left\b`), func(s *Session, _ []string) { s.starts() }},
		{regexp.MustCompile(`(?i)^(?:is|was|were)?\s*(?:it|this|that)?\s*(?:the )?same (?:snag |thing |fault )?(?:as|like|again as)\b.*|\b(?:had|seen|met) (?:this|it|that) before\b.*`), (*Session).before},
		{regexp.MustCompile(`(?i)^(?:(?:no|so|and|but|then) )*(?:may|can|could|should|shall|must) (?:i|we) (?:run|finish|go on|keep|do the|carry on|start|stop)\b`), func(s *Session, _ []string) { s.mayRun() }},
		{regexp.MustCompile(`(?i)^(?:do|must) (?:i|we) (?:have to )?stop\b|^how long (?:have|do) (?:i|we)\b|^(?:is it )?(?:fit|safe) to run\b`), func(s *Session, _ []string) { s.mayRun() }},
		{regexp.MustCompile(`(?i)^what (?:can|could|should|do|shall) (?:i|we) (?:check|look at|do|try)\b`), func(s *Session, _ []string) { s.checks() }},
		{regexp.MustCompile(`(?i)^what (?:do|shall|should) (?:i|we) (?:tell|say to) the engineer\b`), func(s *Session, _ []string) {
			s.Page.Text(0, "handover 412 h: WHAT WAS DISTURBED writes the page for him: what was seen, what was looked at and what it showed, what is likely, what was not looked at.")
		}},
		{regexp.MustCompile(`(?i)\b(?:need|call|fetch|for) (?:the|an) (?:licensed )?engineer\b`), func(s *Session, _ []string) { s.engineer() }},
		{regexp.MustCompile(`(?i)^what (?:do|shall|should) (?:i|we) (?:tell|say to) the (?:organi[sz]er|crowd|announcer|marshal)s?\b`), func(s *Session, _ []string) { s.mayRun() }},
		{regexp.MustCompile(`(?i)^(?:is|was|could|might) (?:it|this|that)(?: be)? (?:not )?(?:the |a |an )?(.+?)(?:,? or (?:is it )?(?:the |a |an )?(.+))?$`), (*Session).isIt},
		{regexp.MustCompile(`(?i)^(?:may|can|could|should|shall|must|do) (?:i|we)\b`), func(s *Session, _ []string) {
			s.now()
			s.Page.Text(0, "Nothing here says that it may be done: the engine's own card and book do, and the licensed engineer.")
		}},
	}
}

// orWords parts "spark or fuel".
var orWords = regexp.MustCompile(`(?i)\s*,?\s+or\s+|\s*,\s*`)

// answers answers a phrase that is a question of these sorts.
func (s *Session) answers(phrase string) bool {
	phrase = strings.TrimSpace(strings.TrimRight(phrase, "?! "))
	if s.told == nil {
		return false
	}
	for _, a := range askings {
		if m := a.form.FindStringSubmatch(phrase); m != nil {
			a.answer(s, m)
			return true
		}
	}
	sides := orWords.Split(phrase, -1)
	return strings.Contains(phrase, " or ") && len(sides) < 4 && s.eitherOr(sides)
}

// mayRun says in full what must be done at once and whether a run may go on.
func (s *Session) mayRun() {
	s.now()
	v := &s.told.Verdict
	switch v.RunOn {
	case hunt.Unsaid:
		s.Page.Text(0, "Running on: nothing is known yet to say. Until it is: stop if the oil pressure is not where it should be, if anything passes its limit, shakes, leaks or smells of burning.")
	case hunt.No:
		s.Page.Text(0, "Running on: no, because:")
	case hunt.InsideReduced:
		s.Page.Text(0, "Running on: inside reduced limits, eyes on the gauges, if the engine's book allows it:")
	}
	for _, w := range v.RunOnWhy {
		s.Page.Item(0, "- ", sentence(w))
	}
	for _, w := range v.NotToday {
		s.Page.Alert("NOT TODAY", sentence(w))
	}
	s.Page.Text(0, "The engine's own book, the rules of the place and the licensed engineer come first.")
}

// engineer says why a licensed engineer is needed, if so.
func (s *Session) engineer() {
	var list []string
	for _, a := range s.told.Result.FirstActions {
		if strings.Contains(a.Do, "engineer") {
			list = append(list, a.Do)
		}
	}
	list = append(append(list, s.told.Verdict.NotToday...), s.told.Result.CallEngineer...)
	if len(list) == 0 {
		s.Page.Text(0, "Nothing that was told calls for the licensed engineer so far; who may cure a cause stands with it: why N.")
	}
	for _, w := range list {
		s.Page.Item(0, "- ", sentence(w))
	}
}

// checks lists what is worth a look now.
func (s *Session) checks() {
	q := &s.told.Question
	if q.Check.ID == "" && len(s.told.Others) == 0 {
		s.Page.Text(0, "No check that can be done here and now is worth its minutes so far.")
		return
	}
	list := s.told.Others
	if q.Check.ID != "" {
		list = append([]diagnose.Check{q.Check}, list...)
	}
	for i, c := range list {
		mark := "Then: "
		if i == 0 {
			mark = "First: "
		}
		s.Page.Item(0, mark, sentence(c.Do)+" "+upper(screen.Minutes(c.Minutes))+".")
	}
}

// isIt says how likely each thing is that is asked after: a part, a cause, the
// gauges.
func (s *Session) isIt(m []string) {
	told := false
	for _, w := range m[1:] {
		for w := range strings.SplitSeq(w, ", ") {
			for _, a := range []string{"the ", "a ", "an ", "its "} {
				w = strings.TrimPrefix(strings.TrimSpace(w), a)
			}
			if w == "" {
				continue
			}
			told = s.blame(w) || told
		}
	}
	if told {
		s.Page.Text(0, "why N or why WORDS tells what bears on one.")
	}
}

// may answers whether a run may go on, where anything was told.
func (s *Session) may() {
	if s.told != nil {
		s.mayRun()
	}
}
