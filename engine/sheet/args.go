package sheet

// This file reads a sheet from the words of a command line.

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"snagwise/engine/problem"
)

// ArgsFile is the name that stands for the file in places on a command line.
const ArgsFile = "command line"

// ArgsLine returns the command line that the columns of [ParseArgs] count in.
func ArgsLine(args []string) string { return strings.Join(args, " ") }

// ParseArgs reads a sheet told in the words of a command line:
//
//	idle: booster=on oil_pressure=60psi display: engine_rpm=1950rpm pops_back_running
//
// A word that ends in a colon begins a moment with that phase; "weather:" the
// weather. name=value is a reading or a lever, name? a gauge that could not be
// read, !name or "not name" a thing not seen, part.word=value a statement about a
// part (oil_cooler.leaks=oil) or a flow (fuel.good_as_far_as=fuel_cock
// fuel.gone_at=carburettor), after=12min the time since the moment before,
// note=... a note; any other word is a symptom, circumstance, trial, course or
// thing in order, as its name tells. Columns count in [ArgsLine].
func ParseArgs(args []string) (*Sheet, problem.List) {
	p := &argParser{sheet: &Sheet{At: problem.Pos{File: ArgsFile, Line: 1, Col: 1}}}
	col, words := 1, 0
	for i, a := range args {
		words++
		if words > MaxValues {
			p.l.Add(p.sheet.At, "too-large", fmt.Sprintf("more than %d words", MaxValues), "")
			return nil, p.l
		}
		p.next = ""
		if i+1 < len(args) {
			p.next = args[i+1]
		}
		switch {
		case !utf8.ValidString(a):
			p.l.Add(argText("", col).At, "not-utf8", fmt.Sprintf("%q is not UTF-8", a), "")
		case strings.ContainsFunc(a, unicode.IsControl):
			p.l.Add(argText("", col).At, "control-character", fmt.Sprintf("%q holds a control character", a), "write it in plain letters")
		case p.skip:
			p.skip = false
		default:
			p.arg(a, col)
		}
		col += utf8.RuneCountInString(a) + 1
	}
	return p.sheet, few(p.l)
}

type argParser struct {
	sheet   *Sheet
	weather bool // the words belong to the weather
	skip    bool // the next word was taken already
	next    string
	l       problem.List
}

func argText(s string, col int) Text {
	return Text{Value: s, At: problem.Pos{File: ArgsFile, Line: 1, Col: col}}
}

// moment returns the moment that words belong to, beginning one if none has.
func (p *argParser) moment(col int) *Moment {
	if len(p.sheet.Moments) == 0 {
		p.sheet.Moments = append(p.sheet.Moments, Moment{At: argText("", col).At})
	}
	return &p.sheet.Moments[len(p.sheet.Moments)-1]
}

// arg reads one word of the command line, which begins at col.
func (p *argParser) arg(a string, col int) {
	trimmed := strings.TrimSpace(a)
	if trimmed == "" {
		p.l.Add(argText("", col).At, "missing-value", "an empty word", "")
		return
	}
	// A phase may stand apart or against the word after it.
	colon, equals := strings.Index(a, ":"), strings.Index(a, "=")
	if colon >= 0 && (equals < 0 || colon < equals) {
		p.phase(a[:colon], col)
		if rest := a[colon+1:]; strings.TrimSpace(rest) != "" {
			p.arg(rest, col+utf8.RuneCountInString(a[:colon+1]))
		}
		return
	}
	switch {
	case equals >= 0:
		p.given(a[:equals], a[equals+1:], col)
	case strings.HasSuffix(trimmed, "?"):
		name := strings.TrimSpace(strings.TrimSuffix(trimmed, "?"))
		if name == "" {
			p.l.Add(argText("", col).At, "missing-name", "a name before ? is missing", "write the reading that could not be read, such as boost?")
			return
		}
		m := p.moment(col)
		m.CouldNotRead = append(m.CouldNotRead, argText(name, col))
	case strings.HasPrefix(trimmed, "!"):
		p.notSeen(strings.TrimSpace(trimmed[1:]), col+1)
	case trimmed == "not" && p.next != "":
		p.skip = true
		p.notSeen(p.next, col+4)
	case strings.HasPrefix(trimmed, "not "):
		p.notSeen(strings.TrimSpace(trimmed[4:]), col+4)
	default:
		m := p.moment(col)
		m.Bare = append(m.Bare, argText(a, col))
	}
}

func (p *argParser) phase(name string, col int) {
	if p.weather = fold(name) == "weather"; p.weather {
		return
	}
	if strings.TrimSpace(name) == "" {
		p.l.Add(argText("", col).At, "missing-name", "the phase before : is missing", "write it as idle: or display:")
		return
	}
	p.sheet.Moments = append(p.sheet.Moments, Moment{Phase: []Text{argText(name, col)}, At: argText("", col).At})
}

func (p *argParser) notSeen(name string, col int) {
	if name == "" {
		p.l.Add(argText("", col).At, "missing-name", "what was not seen is missing", "write it as !black_smoke")
		return
	}
	m := p.moment(col)
	m.NotSeen = append(m.NotSeen, argText(name, col))
}

// given reads name=value.
func (p *argParser) given(name, value string, col int) {
	n, v := argText(name, col), argText(value, col+utf8.RuneCountInString(name)+1)
	switch {
	case strings.TrimSpace(name) == "":
		p.l.Add(n.At, "missing-name", "the name before = is missing", "write a reading as oil_pressure=60psi")
		return
	case strings.TrimSpace(value) == "":
		p.l.Add(v.At, "missing-value", fmt.Sprintf("the value of %q is missing", clip(name)), "write a value, or "+clip(name)+"? for a gauge that could not be read")
		return
	}
	if part, key, ok := strings.Cut(name, "."); ok {
		p.statement(argText(part, col), key, v)
		return
	}
	switch fold(name) {
	case "after":
		m := p.moment(col)
		if m.After.Value != "" {
			p.l.Add(n.At, "given-twice", `"after" is given twice in one moment`, "")
		}
		m.After = v
	case "note", "notes":
		p.sheet.Notes = append(p.sheet.Notes, v)
	default:
		e := Entry{Name: n, Values: split(v)}
		if p.weather {
			p.sheet.Weather = append(p.sheet.Weather, e)
			return
		}
		m := p.moment(col)
		m.Given = append(m.Given, e)
	}
}

// split parts "low,falling" into its words; figures keep their commas.
func split(v Text) []Text {
	if strings.ContainsAny(v.Value, "0123456789") || !strings.Contains(v.Value, ",") {
		return []Text{v}
	}
	var parts []Text
	col := v.At.Col
	for w := range strings.SplitSeq(v.Value, ",") {
		parts = append(parts, argText(w, col))
		col += utf8.RuneCountInString(w) + 1
	}
	return parts
}

// typedKeys are what may be said of a part, and of a flow.
var typedKeys = []string{"worked_on", "changed", "looked_at", "leaks", "felt", "when", "how_much", "good_as_far_as", "gone_at"}

// statement reads part.key=value and flow.key=value. When work was done, how
// much leaks and where a flow is gone belong to the word before it about the
// same part or flow.
func (p *argParser) statement(of Text, key string, v Text) {
	one := []Text{v}
	s := Statement{Part: []Text{of}, At: of.At}
	joins := false
	switch key = strings.ReplaceAll(fold(key), " ", "_"); key {
	case "worked_on":
		s.WorkedOn = one
	case "changed":
		s.Changed = v
	case "looked_at":
		s.LookedAt = one
	case "leaks":
		s.Leaks = one
	case "felt":
		s.Felt = one
	case "when":
		s.When, joins = v, true
	case "how_much":
		s.HowMuch, joins = v, true
	case "good_as_far_as":
		s.Part, s.Flow, s.GoodAsFarAs = nil, of, one
	case "gone_at":
		s.Part, s.Flow, s.GoneAt, joins = nil, of, one, true
	default:
		at := of.At
		at.Col += utf8.RuneCountInString(of.Value) + 1
		p.l.Add(at, "unknown-key", fmt.Sprintf("unknown statement %q about a part", clip(key)), problem.DidYouMean(clip(key), typedKeys))
		return
	}
	if last := len(p.sheet.Parts) - 1; joins && last >= 0 && p.sheet.Parts[last].join(&s) {
		return
	}
	p.sheet.Parts = append(p.sheet.Parts, s)
}

// join takes into s what is told of the same part or flow and is not told yet.
func (s *Statement) join(more *Statement) bool {
	same := func(a, b []Text) bool { return len(a) == 1 && len(b) == 1 && fold(a[0].Value) == fold(b[0].Value) }
	switch {
	case len(more.GoneAt) > 0 && len(s.GoneAt) == 0 && s.Flow.Value != "" && fold(s.Flow.Value) == fold(more.Flow.Value):
		s.GoneAt = more.GoneAt
	case more.When.Value != "" && s.When.Value == "" && len(s.WorkedOn) > 0 && same(s.Part, more.Part):
		s.When = more.When
	case more.HowMuch.Value != "" && s.HowMuch.Value == "" && len(s.Leaks) > 0 && same(s.Part, more.Part):
		s.HowMuch = more.HowMuch
	default:
		return false
	}
	return true
}
