package hunt

// This file says why: why a check, why a cause, and what was told.

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/diagnose"
	"snagwise/engine/hunt"
)

// whyShort says in a line what a check is good for.
func (s *Session) whyShort(q *hunt.Question) []string {
	c := &q.Check
	if c.Inspects != "" {
		return []string{"Why: it looks straight at " + s.hunt.Cause(c.Inspects) + "."}
	}
	var leads []string
	for _, o := range q.Options {
		if len(o.Leads) > 0 && len(leads) < 2 && (len(leads) == 0 || leads[0] != o.Leads[0]) {
			leads = append(leads, o.Leads[0])
		}
	}
	text := "Why: it bears on what is likely"
	if len(leads) == 2 {
		text = fmt.Sprintf("Why: it parts %q from %q", leads[0], leads[1])
	}
	if c.MinutesSaved >= .5 {
		text += ", and saves about " + screen.Minutes(c.MinutesSaved)
	}
	return []string{text + "."}
}

// whyCheck says in full what each answer to the question would do.
func (s *Session) whyCheck() []string {
	q := &s.turn.Question
	if q.Check.ID == "" {
		return []string{"why N tells all that bears on cause N, why WORDS on the cause that goes by them."}
	}
	out := append([]string{sentence(q.Check.Do)}, s.whyShort(q)...)
	for _, o := range q.Options {
		text := "- " + o.Means
		if o.Chance > 0 {
			text += " (" + screen.Chance(o.Chance) + ")"
		}
		if len(o.Leads) > 0 {
			text += ": then " + strings.Join(o.Leads, "; then ")
		}
		out = append(out, text+".")
	}
	return append(out, "why N tells all that bears on cause N.")
}

// groundsAt is the column at which the text after a label begins.
const groundsAt = 17

func (s *Session) grounds(c *diagnose.Cause) {
	p := s.Page
	p.Text(0, c.Name+": "+screen.Chance(c.Chance))
	lines := func(label string, list []diagnose.Line) {
		if len(list) == 0 {
			p.Pair(2, groundsAt, label, "nothing that was told")
		}
		for _, l := range list {
			p.Pair(2, groundsAt, label, screen.Points(l.Points)+"  "+strings.TrimSuffix(l.Means, "."))
			label = ""
		}
	}
	lines("for it", c.For)
	lines("against it", c.Against)
	var open []string
	for _, u := range c.NotLookedAt {
		open = append(open, strings.TrimSuffix(u.Means, "."))
	}
	for _, pair := range [][2]string{
		{"not looked at", strings.Join(open, "; ")}, {"holds if", c.HoldsIf}, {"running on", joined(c.RunOn, c.RunOnWhy)},
		{"settled by", c.SettledBy}, {"cure", c.Remedy}, {"who", c.Who},
	} {
		if pair[1] != "" {
			p.Pair(2, groundsAt, pair[0], pair[1])
		}
	}
	p.Text(2, "Points: 3 double the odds, 10 are ten times. The project's own scale, not measured.")
}

// more lists the likely causes beyond the first three.
func (s *Session) more() {
	if s.turn.Result == nil {
		return
	}
	for i, c := range s.turn.Result.Causes {
		s.Page.Item(0, fmt.Sprintf("%2d  ", i+1), c.Name+": "+screen.Chance(c.Chance))
	}
	s.Page.Text(0, "None of the causes known here: "+screen.Chance(s.turn.Result.NoneOfThese)+".")
	for _, c := range s.turn.Others {
		s.Page.Item(0, "Also worth a look: ", sentence(c.Do)+" "+upper(screen.Minutes(c.Minutes))+".")
	}
	for _, c := range s.turn.Hardly {
		who := ""
		if c.Who != "operator" && c.Who != "" {
			who = ", for the " + c.Who
		}
		s.Page.Item(0, "Hardly worth it: ", sentence(c.Do)+" "+upper(screen.Minutes(c.Minutes))+who+".")
	}
}

// list shows what was told, each under its number.
func (s *Session) list() {
	if len(s.hunt.Facts()) == 0 {
		s.Page.Text(0, "Nothing was told yet.")
		return
	}
	for _, f := range s.hunt.Facts() {
		if putOnly(&f.Fact) {
			continue
		}
		s.Page.Item(0, fmt.Sprintf("%3d  ", f.N), s.factWords(f.Fact))
	}
	s.Page.Text(0, "back N takes one back, fix N WORDS puts another in its place.")
}

// wasPut marks a question that was put once and need not be again.
const wasPut = "asked"

// putOnly says whether a fact tells nothing but that a question was put.
func putOnly(f *hunt.Fact) bool {
	return f.Kind == hunt.Left && len(f.Values) > 0 && f.Values[0] == wasPut
}

// doubt says of each thing told what would be first if it were wrong, where
// that changes.
func (s *Session) doubt() {
	list := s.hunt.Doubts()
	if len(list) == 0 {
		s.Page.Text(0, "No one thing told, taken back, would put another cause first or speak plainly for the first.")
		return
	}
	for _, d := range list {
		text := fmt.Sprintf("without %q: first would be %s (%s)", s.factWords(d.Fact), s.hunt.Cause(d.First), screen.Chance(d.Chance))
		if d.Same {
			text = fmt.Sprintf("without %q: %s would be %s", s.factWords(d.Fact), s.hunt.Cause(d.First), screen.Chance(d.Chance))
		}
		s.Page.Item(0, fmt.Sprintf("%3d  ", d.N), text)
	}
	s.Page.Text(0, "back N takes one back; look again before you do.")
}

// longestCheckName is how many columns of what a check does are repeated.
const longestCheckName = 60

// factWords tells one fact, what a check does shortened.
func (s *Session) factWords(f hunt.Fact) string { return s.factIn(f, longestCheckName) }

// factIn tells one fact with so many columns for what a check does.
func (s *Session) factIn(f hunt.Fact, columns int) string {
	text := s.hunt.Means(f.Kind, f.Name)
	if f.Kind == hunt.Checked || f.Kind == hunt.Left {
		text = screen.Clip(text, columns)
	}
	switch f.Kind {
	case hunt.NotSeen:
		text = "not: " + text
	case hunt.Read, hunt.Weather:
		text += " " + strings.Join(f.Values, ", ")
	case hunt.Unread:
		text += ": could not be read"
	case hunt.Normal:
		text = "in order: " + text
	case hunt.Note:
		text = "note: " + strings.Join(f.Values, "; ")
	case hunt.Lacking:
		text = "not at hand: " + f.Name
	case hunt.Left:
		text += ": " + strings.Join(f.Values, "; ")
	case hunt.Part:
		text = s.partWords(f.Part)
	case hunt.Checked:
		text += ": " + s.shownWords(&f)
	}
	if at := momentWords(f.At); at != "" {
		text += " (" + at + ")"
	}
	return text
}

// shownWords tells what a check showed.
func (s *Session) shownWords(f *hunt.Fact) string {
	var words []string
	for _, id := range f.Shown {
		words = append(words, s.hunt.Means(hunt.Seen, id))
	}
	if len(words) == 0 {
		words = []string{"looked at, nothing of this"}
	}
	text := strings.Join(words, "; ")
	if f.Minutes > 0 {
		text += ", " + screen.ShortMinutes(math.Round(f.Minutes))
	}
	return text
}

// partKeys are the keys of a statement in the order in which they are said,
// with the words for those that are not said as they stand.
var partKeys = []struct{ key, words string }{
	{"part", ""}, {"flow", ""}, {"worked_on", "worked on: "}, {"when", ""}, {"changed", "changed: "}, {"looked_at", "looked at: "}, {"leaks", "leaks "}, {"how_much", ""},
	{"felt", "felt "}, {"good_as_far_as", "good as far as "}, {"gone_at", "gone at "}, {"notes", ""},
}

// partWords says a statement about a part.
func (s *Session) partWords(part map[string][]string) string {
	var words []string
	for _, k := range partKeys {
		list := slices.Clone(part[k.key])
		for i, v := range list {
			switch k.key {
			case "part", "good_as_far_as", "gone_at":
				list[i] = s.hunt.PartName(v)
			default:
				list[i] = strings.ReplaceAll(v, "_", " ")
			}
		}
		if len(list) > 0 {
			words = append(words, k.words+strings.Join(list, " and "))
		}
	}
	if len(words) > 1 && (len(part["part"]) > 0 || len(part["flow"]) > 0) {
		return words[0] + " " + strings.Join(words[1:], ", ")
	}
	return strings.Join(words, ", ")
}

func sentence(t string) string {
	t = upper(strings.TrimSpace(t))
	if t == "" || strings.HasSuffix(t, ".") || strings.HasSuffix(t, "?") || strings.HasSuffix(t, "!") || strings.HasSuffix(t, ")") && strings.Contains(t, ".)") {
		return t
	}
	return t + "."
}

func upper(t string) string {
	if t == "" {
		return t
	}
	return strings.ToUpper(t[:1]) + t[1:]
}

func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + ": " + b
}
