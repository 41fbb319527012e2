package hunt

// This file turns what was typed into facts.

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"snagwise/engine/hunt"
	"snagwise/engine/problem"
)

// A teller works through one line of what was seen.
type teller struct {
	s    *Session
	h    *hunt.Hunt
	x    *hunt.Finder
	at   hunt.Moment // when what follows held
	out  []hunt.Step
	wait []hunt.Pending
	said []string // what could not be taken, and why

	typed []string // statements about parts, as they are typed
	more  bool     // the line has several phrases
}

// thousands is the comma in 1,200.
var thousands = regexp.MustCompile(`(\d),(\d{3})\b`)

// stops are where a line is surely parted into phrases, joins where it may be.
var (
	stops = regexp.MustCompile(`\s*[,;\n]\s*`)
	joins = regexp.MustCompile(`\s+(?:and|but|&|\+)\s+`)
	// hanging is an "and" that joins nothing any more.
	hanging = regexp.MustCompile(`^\s*(?:and|but|&|\+)\s+|\s+(?:and|but|&|\+)\s*$`)
)

// mostTyped is how long a line may be, in bytes.
const mostTyped = 2000

// tell turns a line into steps. What cannot be taken is said.
func (s *Session) tell(line string) ([]hunt.Step, []string) {
	if len(line) > mostTyped {
		return nil, []string{"That is too long for one answer; tell it in pieces."}
	}
	s.answered = false
	t := &teller{s: s, h: s.hunt, x: s.finder, at: s.hunt.Moment()}
	was := t.at
	line = thousands.ReplaceAllString(line, "$1$2")
	if len(t.x.Exactly(line)) > 0 && !strings.ContainsAny(line, "!?;,") {
		t.phrase(line)
	} else {
		t.line(line)
	}
	t.statements()
	if t.at != was {
		at := t.at
		t.out = append(t.out, hunt.Step{Moment: &at})
	}
	if len(t.wait) > 0 {
		t.out = append(t.out, hunt.Step{Wait: t.wait})
	}
	return t.out, t.said
}

// line parts a line into phrases and takes them one by one.
func (t *teller) line(line string) {
	line, t.typed = spokenFlow(t.h, outcomeAfter.ReplaceAllString(line, "$1 $2"))
	var list []string
	for _, p := range stops.Split(line, -1) {
		p = hanging.ReplaceAllString(p, "")
		list = append(list, t.whole(joins.Split(p, -1))...)
	}
	t.more = len(list) > 1
	if phase, ok := t.only(list); ok {
		t.at = t.h.At(phase)
	}
	for _, p := range list {
		if p = strings.TrimSpace(strings.TrimRight(p, ".!")); p != "" {
			t.phrase(p)
		}
	}
}

// whole puts together again what was parted within a statement in free words,
// such as plugs.looked_at=clean and dry.
func (t *teller) whole(list []string) []string {
	var out []string
	for _, p := range list {
		if last := len(out) - 1; last >= 0 && hunt.IsStatement(out[last]) && joinsFreely(out[last]) && t.free(p) {
			out[last] += " and " + p
			continue
		}
		out = append(out, p)
	}
	return out
}

// free says whether words tell nothing by themselves: no name, no gauge with
// what it shows, nothing not seen, nothing of another part.
func (t *teller) free(p string) bool {
	_, _, read := t.x.Reading(p)
	_, not := denied(p)
	return !read && !not && !strings.ContainsAny(p, "=!?:") && len(t.x.Exactly(p)) == 0 && len(spokenPart(t.h, p)) == 0
}

// statements takes what was said of parts.
func (t *teller) statements() {
	facts, wait, l := t.h.Statements(t.typed)
	for _, f := range facts {
		t.fact(f)
	}
	t.wait = append(t.wait, wait...)
	t.said = append(t.said, problemWords(l)...)
}

// only returns the phase of a line that names one, wherever in the line it
// stands by itself: "rough, at idle" is said of idle.
func (t *teller) only(list []string) (string, bool) {
	found := ""
	for _, p := range list {
		if phase, rest, ok := t.phase(strings.TrimSpace(p)); ok {
			if found != "" || rest != "" {
				return "", false
			}
			found = phase
		}
	}
	return found, found != ""
}

// phrase takes one phrase: the phase that begins it, a lever, a gauge with what
// it showed, a thing not seen, or a name.
func (t *teller) phrase(p string) {
	if strings.Trim(p, " ?.!-") == "" {
		return
	}
	if low := strings.ToLower(p); (low == "no" || low == "yes") && t.more {
		return // "no, the cock was open"
	}
	if figures(p) || slices.Contains([]string{"y", "n", "yes", "no", "x", "t", "s", "d"}, strings.ToLower(p)) {
		t.said = append(t.said, fmt.Sprintf("%q answers no question here. Say what was seen, heard, felt or smelt, or what a gauge shows; help shows the rest.", p))
		return
	}
	if t.s != nil && len(t.x.Exactly(strings.TrimRight(p, "? "))) == 0 && t.s.answers(p) {
		t.s.answered = true
		return
	}
	if rest, not := denied(p); hunt.IsStatement(p) {
		if not {
			t.said = append(t.said, fmt.Sprintf("What is said of a part cannot be taken back with a no: say how it was found, such as %s.looked_at=good.", strings.TrimSpace(rest[:strings.Index(rest, ".")])))
			return
		}
		t.typed = append(t.typed, p)
		return
	}
	if len(t.x.Exactly(p)) == 0 {
		if phase, rest, ok := t.phase(p); ok {
			t.at = t.h.At(phase)
			if rest != "" {
				t.phrase(rest)
			}
			return
		}
		if phase, rest, ok := t.trailing(p); ok {
			was := t.at
			t.at = t.h.At(phase)
			t.phrase(rest)
			if was != (hunt.Moment{}) {
				t.at = was // said of this phrase alone
			}
			return
		}
		if lever, ok := t.h.Lever(p); ok {
			t.at = t.at.With(lever)
			return
		}
	}
	if len(t.x.Exactly(p)) == 0 {
		if typed := spokenPart(t.h, p); typed != nil {
			t.typed = append(t.typed, typed...)
			return
		}
	}
	if bare, asked := strings.CutSuffix(p, "?"); asked {
		p = strings.TrimSpace(bare)
		if c := t.x.Exactly(p); len(c) == 1 && c[0].Kind == hunt.Read {
			t.fact(hunt.Fact{Kind: hunt.Unread, Name: c[0].ID, At: t.at})
			return
		}
		t.wait = append(t.wait, hunt.Pending{Text: p}) // asked, not told
		return
	}
	if id, value, ok := t.x.Reading(p); ok && len(t.x.Exactly(p)) == 0 {
		t.reading(id, value)
		return
	}
	if name, value, ok := t.x.Figured(p); ok {
		t.wait = append(t.wait, hunt.Pending{Text: name, Values: []string{value}})
		return
	}
	if rest, ok := denied(p); ok && (p[0] == '!' || len(t.x.Exactly(p)) == 0) {
		if c := t.x.Exactly(rest); len(c) == 1 && c[0].Kind == hunt.Seen {
			t.fact(hunt.Fact{Kind: hunt.NotSeen, Name: c[0].ID, At: t.h.When(c[0].ID, t.at)})
			return
		}
		if !strings.HasPrefix(strings.ToLower(p), "no ") || slices.ContainsFunc(t.x.Exactly(rest), func(c hunt.Choice) bool { return c.Kind == hunt.Seen }) {
			t.wait = append(t.wait, hunt.Pending{Text: rest, Denied: true})
			return
		} // "no charge after standing" is a snag, not something missed
	}
	switch c := t.x.Exactly(p); {
	case len(c) != 1:
		t.wait = append(t.wait, hunt.Pending{Text: p})
	case c[0].Kind == hunt.Read:
		t.wait = append(t.wait, hunt.Pending{Text: p, Reading: c[0].ID})
	default:
		t.fact(t.h.Telling(c[0], t.at, false))
	}
}

func (t *teller) fact(f hunt.Fact) { t.out = append(t.out, hunt.Step{Tell: &f}) }

// reading takes a gauge with what it showed; when it was read is asked for
// where that matters and nobody said.
func (t *teller) reading(id, typed string) {
	value, l := t.h.Value(t.x, id, typed)
	if len(l) > 0 {
		t.said = append(t.said, problemWords(l)...)
		t.wait = append(t.wait, hunt.Pending{Text: id, Reading: id})
		return
	}
	if t.at.Phase == "" && t.x.Banded(id) {
		t.wait = append(t.wait, hunt.Pending{Text: id, Reading: id, Values: []string{value}})
		return
	}
	t.fact(hunt.Fact{Kind: hunt.Read, Name: id, Values: []string{value}, At: t.at})
}

// phaseWords are what people call the phases of a run, the longer first.
var phaseWords = [][2]string{
	{"display power", "display"}, {"full power", "display"}, {"power", "display"}, {"display", "display"},
	{"pre-oiling", "pre_oil"}, {"pre_oil", "pre_oil"}, {"pre-oil", "pre_oil"}, {"warm-up", "warm_up"}, {"warm up", "warm_up"}, {"warm_up", "warm_up"}, {"warming up", "warm_up"},
	{"run-up", "run_up"}, {"run up", "run_up"}, {"run_up", "run_up"}, {"magneto check", "run_up"}, {"cool-down", "cool_down"}, {"cool down", "cool_down"}, {"cool_down", "cool_down"},
	{"cranking", "crank"}, {"crank", "crank"}, {"starting", "crank"}, {"start", "crank"}, {"idling", "idle"}, {"idle", "idle"}, {"tickover", "idle"}, {"slow running", "idle"},
	{"rest", "rest"}, {"stopped", "stopped"}, {"after stopping", "stopped"}, {"shutdown", "stopped"},
}

// phase takes a phase off the beginning of a phrase: "idle: ...", "at idle ...",
// "while cranking ...".
func (t *teller) phase(p string) (phase, rest string, ok bool) {
	low := strings.ToLower(p)
	led := low
	for _, w := range []string{"at ", "when ", "while ", "during ", "in the ", "on "} {
		led = strings.TrimPrefix(led, w)
	}
	led = strings.TrimPrefix(led, "the ")
	for _, w := range phaseWords {
		after, has := strings.CutPrefix(led, w[0])
		switch {
		case !has, !slices.Contains(t.h.Engine().Fitted().Rig.Phases, w[1]):
		case strings.HasPrefix(after, ":"):
			return w[1], strings.TrimSpace(p[len(p)-len(after)+1:]), true
		case led != low && (after == "" || after[0] == ' '):
			return w[1], strings.TrimSpace(p[len(p)-len(after):]), true
		}
	}
	return "", "", false
}

// trailing takes a phase off the end of a phrase: "black smoke at idle".
func (t *teller) trailing(p string) (phase, rest string, ok bool) {
	words := strings.Fields(p)
	for n := min(4, len(words)-1); n > 1; n-- {
		end := strings.Join(words[len(words)-n:], " ")
		if !slices.Contains([]string{"at", "when", "while", "during", "on"}, strings.ToLower(words[len(words)-n])) {
			continue
		}
		if phase, after, ok := t.phase(end); ok && after == "" {
			return phase, strings.Join(words[:len(words)-n], " "), true
		}
	}
	return "", "", false
}

// denied takes "no", "not" and the like off a phrase.
func denied(p string) (string, bool) {
	low := strings.ToLower(p)
	for _, no := range []string{"!", "no ", "not ", "never ", "without "} {
		if strings.HasPrefix(low, no) && len(p) > len(no) {
			return strings.TrimSpace(p[len(no):]), true
		}
	}
	return p, false
}

// problemWords says problems without their places, which mean nothing in talk.
func problemWords(l problem.List) []string {
	var out []string
	for _, p := range l.Sorted() {
		text := strings.ToUpper(p.Text[:1]) + p.Text[1:]
		if p.Hint != "" {
			text += "; " + p.Hint
		}
		if !strings.HasSuffix(text, "?") {
			text += "."
		}
		out = append(out, text)
	}
	return out
}
