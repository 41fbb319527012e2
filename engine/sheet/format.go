package sheet

// This file writes a sheet back as the text of a file.

import (
	"strconv"
	"strings"
)

// Format writes a sheet as YAML that [Parse] reads back to the same words. The
// keys stand in one fixed order, so that the same sheet gives the same bytes.
// Words of a command line must be settled first; otherwise they are written as
// readings and symptoms.
func Format(s *Sheet) []byte {
	w := &writer{}
	w.text("title", s.Title)
	w.text("what", s.What)
	w.text("date", s.Date)
	w.text("about", s.About)
	w.list("source", s.Source)
	w.text("evidence", s.Evidence)
	w.text("rig", s.Rig)
	w.entries("weather", s.Weather)
	w.moments(s.Moments)
	w.statements(s.Parts)
	w.list("circumstances", s.Circumstances)
	w.list("trials", s.Trials)
	w.list("course", s.Course)
	w.list("normal", s.Normal)
	w.list("found", s.Found)
	w.list("also_right", s.AlsoRight)
	w.list("also_found", s.AlsoFound)
	w.text("certainty", s.Certainty)
	w.phrases(s.Phrases)
	w.text("normal_thing", s.NormalThing)
	w.text("remedy", s.Remedy)
	w.checks(s.Checks)
	w.block("notes", s.Notes)
	if w.b.Len() == 0 {
		return []byte("{}\n") // a sheet that says nothing
	}
	return []byte(w.b.String())
}

// writer writes keys at one indent; the first of an item follows its dash.
type writer struct {
	b      strings.Builder
	indent string
	dash   bool
}

func (w *writer) key(k string) {
	if w.dash {
		w.b.WriteString(w.indent[:len(w.indent)-2] + "- ")
		w.dash = false
	} else {
		w.b.WriteString(w.indent)
	}
	w.b.WriteString(k + ":")
}

func (w *writer) text(k string, t Text) {
	if t.Value == "" {
		return
	}
	w.key(k)
	w.b.WriteString(" " + scalar(t.Value, false) + "\n")
}

func (w *writer) list(k string, list []Text) {
	if len(list) == 0 {
		return
	}
	w.key(k)
	w.b.WriteString(" " + flowList(list) + "\n")
}

// block writes a list with one item a line.
func (w *writer) block(k string, list []Text) {
	if len(list) == 0 {
		return
	}
	w.key(k)
	w.b.WriteString("\n")
	for _, t := range list {
		w.b.WriteString(w.indent + "  - " + scalar(t.Value, false) + "\n")
	}
}

func (w *writer) entries(k string, entries Entries) {
	if len(entries) == 0 {
		return
	}
	w.key(k)
	parts := make([]string, len(entries))
	for i, e := range entries {
		parts[i] = scalar(e.Name.Value, true) + ": "
		if len(e.Values) == 1 {
			parts[i] += scalar(e.Values[0].Value, true)
		} else {
			parts[i] += flowList(e.Values)
		}
	}
	w.b.WriteString(" {" + strings.Join(parts, ", ") + "}\n")
}

func (w *writer) moments(moments []Moment) {
	if len(moments) == 0 {
		return
	}
	w.key("moments")
	w.b.WriteString("\n")
	w.indent = "    "
	for _, m := range moments {
		if m.empty() {
			w.b.WriteString("  - {}\n")
			continue
		}
		w.dash = true
		if len(m.Phase) == 1 {
			w.text("phase", m.Phase[0])
		} else {
			w.list("phase", m.Phase)
		}
		w.text("after", m.After)
		w.entries("controls", m.Controls)
		w.entries("readings", append(m.Readings[:len(m.Readings):len(m.Readings)], m.Given...))
		w.list("symptoms", append(m.Symptoms[:len(m.Symptoms):len(m.Symptoms)], m.Bare...))
		w.list("course", m.Course)
		w.list("not_seen", m.NotSeen)
		w.list("could_not_read", m.CouldNotRead)
		w.list("normal", m.Normal)
		w.list("notes", m.Notes)
	}
	w.indent = ""
}

func (w *writer) statements(said []Statement) {
	if len(said) == 0 {
		return
	}
	w.key("parts")
	w.b.WriteString("\n")
	for _, s := range said {
		w.item([]pair{
			{"part", s.Part}, {"worked_on", s.WorkedOn}, {"when", one(s.When)}, {"changed", one(s.Changed)}, {"looked_at", s.LookedAt},
			{"leaks", s.Leaks}, {"how_much", one(s.HowMuch)}, {"felt", s.Felt}, {"flow", one(s.Flow)},
			{"good_as_far_as", s.GoodAsFarAs}, {"gone_at", s.GoneAt}, {"notes", s.Notes},
		})
	}
}

func (w *writer) checks(checks []Done) {
	if len(checks) == 0 {
		return
	}
	w.key("checks")
	w.b.WriteString("\n")
	for _, c := range checks {
		w.item([]pair{{"check", one(c.Check)}, {"minutes", one(c.Minutes)}, {"outcome", one(c.Outcome)}, {"seen", c.Seen}, {"not_seen", c.NotSeen}})
	}
}

func (w *writer) phrases(p *Phrases) {
	if p == nil {
		return
	}
	w.key("phrases")
	w.b.WriteString("\n")
	w.indent = "  "
	w.text("told", p.Told)
	w.text("said", p.Said)
	if len(p.Cannot) > 0 {
		w.key("cannot")
		w.b.WriteString("\n")
	}
	for _, u := range p.Cannot {
		w.item([]pair{{"phrase", one(u.Phrase)}, {"why", one(u.Why)}})
	}
	w.indent = ""
}

type pair struct {
	key  string
	list []Text
}

func one(t Text) []Text {
	if t.Value == "" {
		return nil
	}
	return []Text{t}
}

// item writes a map on one line.
func (w *writer) item(pairs []pair) {
	var parts []string
	for _, p := range pairs {
		switch len(p.list) {
		case 0:
		case 1:
			parts = append(parts, p.key+": "+scalar(p.list[0].Value, true))
		default:
			parts = append(parts, p.key+": "+flowList(p.list))
		}
	}
	w.b.WriteString(w.indent + "  - {" + strings.Join(parts, ", ") + "}\n")
}

func flowList(list []Text) string {
	parts := make([]string, len(list))
	for i, t := range list {
		parts[i] = scalar(t.Value, true)
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

// scalar writes a word so that YAML reads it back as the same text: bare where
// nothing in it has a meaning of its own, in quotes otherwise. Inside brackets
// commas and brackets have.
func scalar(s string, inBrackets bool) string {
	if bare(s, inBrackets) {
		return s
	}
	// Go's escapes are YAML's too, but for a byte that is no text, which no
	// sheet holds.
	return strconv.Quote(s)
}

func bare(s string, inBrackets bool) bool {
	if s == "" || s != strings.TrimSpace(s) || strings.Contains(s, ": ") || strings.Contains(s, " #") || strings.HasSuffix(s, ":") {
		return false
	}
	switch strings.ToLower(s) {
	case "null", "~", "true", "false", "yes", "no", "on", "off", "y", "n", "-", "?":
		return false
	}
	for i, r := range s {
		switch {
		case r < ' ', r == '"', r == '\'', r == '\\', r == '\x7f', r == '\ufeff', 0x80 <= r && r < 0xa0, r == '\u2028', r == '\u2029':
			return false
		case inBrackets && strings.ContainsRune(",[]{}:", r):
			return false
		case i == 0 && strings.ContainsRune("-?:,[]{}#&*!|>%@`=", r) && !(r == '-' && len(s) > 1 && s[1] >= '0' && s[1] <= '9'):
			return false
		case r == '\ufffd':
			return false
		}
	}
	return true
}
