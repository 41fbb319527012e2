package sheet

// This file looks up statements about parts, and the finding of a case.

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"snagwise/engine/problem"
	"snagwise/engine/quantity"
)

// statement looks up one statement; one that says several things of several
// parts gives as many.
func (r *resolver) statement(s Statement) []Said {
	if s.Flow.Value != "" || len(s.GoodAsFarAs) > 0 || len(s.GoneAt) > 0 {
		return r.flow(s)
	}
	if len(s.Part) == 0 {
		r.l.Add(s.At, "missing-key", `a statement without a part`, "name it: {part: fuel_fine_filter, looked_at: good}")
		return nil
	}
	var out []Said
	for i, w := range s.Part {
		parts, ok := r.part(w)
		base := Said{Parts: parts, Part: w.Value, Sign: -1, Flow: -1, Notes: texts(s.Notes), At: w.Pos()}
		if i > 0 && !ok {
			continue
		}
		said := r.ofPart(s, base, i == 0)
		if ok {
			out = append(out, said...)
		}
	}
	return out
}

// ofPart reads all that a statement says of its part. Problems are reported
// only where report is set, so that a list of parts does not repeat them.
func (r *resolver) ofPart(s Statement, base Said, report bool) []Said {
	if !report {
		kept := r.l
		defer func() { r.l = kept }()
	}
	var out []Said
	for _, w := range s.WorkedOn {
		d := base
		d.Manner, d.Text = WorkedOn, w.Value
		d.When = whenOf(s.When.Value)
		out = append(out, d)
	}
	if len(s.WorkedOn) == 0 && s.When.Value != "" && s.Changed.Value == "" {
		r.l.Add(s.When.Pos(), "lone-key", `"when" says when a part was worked on, and no work is told`, "add worked_on: refitted, or as it was")
	}
	if s.Changed.Value != "" {
		d := base
		d.Manner, d.When = Changed, whenOf(s.When.Value)
		if o, ok := r.choose(s.Changed, "outcome of a change", outcomeWords); ok {
			d.Outcome = Outcome(o + 1)
			out = append(out, d)
		}
	}
	for _, w := range s.LookedAt {
		if d, ok := r.looked(w, base); ok {
			out = append(out, d)
		}
	}
	for _, w := range s.Leaks {
		d := base
		d.Manner, d.Text = Leaks, s.HowMuch.Value
		d.Amount = Amount(pick(amountWords, s.HowMuch.Value) + 1)
		if f, ok := r.choose(w, "thing that leaks", fluidWords); ok {
			d.Fluid = Fluid(f + 1)
			out = append(out, d)
		}
	}
	if len(s.Leaks) == 0 && s.HowMuch.Value != "" {
		r.l.Add(s.HowMuch.Pos(), "lone-key", `"how_much" says how much leaks, and no leak is told`, "add leaks: oil, or what it is")
	}
	for _, w := range s.Felt {
		d := base
		d.Manner = Felt
		if f, ok := r.choose(w, "feel of a part", feelingWords); ok {
			d.Feeling = Feeling(f + 1)
			out = append(out, d)
		}
	}
	if len(s.WorkedOn)+len(s.LookedAt)+len(s.Leaks)+len(s.Felt) == 0 && s.Changed.Value == "" && s.When.Value == "" && s.HowMuch.Value == "" {
		r.l.Add(s.At, "missing-key", fmt.Sprintf("nothing is said of %q", clip(base.Part)), "add worked_on, changed, looked_at, leaks or felt")
	}
	return out
}

// looked reads how a part was found: good, a sign, or in words that are kept and
// not used.
func (r *resolver) looked(w Text, d Said) (Said, bool) {
	d.Manner, d.Text = LookedAt, w.Value
	if pick(goodWords, w.Value) >= 0 {
		d.Good = true
		return d, true
	}
	found, level := r.by[aSign].find(w.Value)
	switch {
	case len(found) == 1:
		d.Sign = found[0]
	case len(found) > 1:
		r.several(w, "symptom", pickStrings(r.by[aSign].ids, found))
		return d, false
	case level == notFound && strings.Contains(w.Value, "_") && !strings.Contains(w.Value, " "):
		r.missing(w, "symptom", r.by[aSign].known) // written like an id
		return d, false
	}
	return d, true
}

// flow reads how far along a flow all is well.
func (r *resolver) flow(s Statement) []Said {
	d := Said{Manner: Flows, Sign: -1, Flow: -1, Notes: texts(s.Notes), At: s.At}
	ok := true
	switch {
	case len(s.Part) > 0:
		r.l.Add(s.Part[0].Pos(), "two-statements", "a part and a flow in one statement", "part them into two")
		ok = false
	case s.Flow.Value == "":
		r.l.Add(s.At, "missing-key", "which flow is not said", "add flow: "+strings.Join(r.by[aFlow].ids, ", or "))
		ok = false
	default:
		if d.Flow, ok = r.name(s.Flow, aFlow); !ok {
			d.Flow = -1
		}
	}
	if len(s.GoodAsFarAs)+len(s.GoneAt) == 0 {
		r.l.Add(s.At, "missing-key", "where the flow is good or gone is not said", "add good_as_far_as or gone_at with a part")
		return nil
	}
	for _, w := range s.GoodAsFarAs {
		parts, known := r.part(w)
		d.Parts, ok = append(d.Parts, parts...), ok && known
	}
	for _, w := range s.GoneAt {
		parts, known := r.part(w)
		d.Gone, ok = append(d.Gone, parts...), ok && known
	}
	d.Parts, d.Gone = unique(d.Parts), unique(d.Gone)
	d.Part = strings.Join(texts(s.GoodAsFarAs), ", ")
	if !ok {
		return nil
	}
	return []Said{d}
}

// part returns the parts that a word names: one, or all of a group or a pair. A
// magneto of which the side is not said may be either, so what is said holds
// for both.
func (r *resolver) part(w Text) ([]int, bool) {
	found, _ := r.parts.find(w.Value)
	if len(found) == 0 && r.v.Called != nil {
		found = unique(slices.Clone(r.v.Called(w.Value)))
	}
	if len(found) == 0 {
		if len(r.v.Parts) == 0 {
			r.l.Add(w.Pos(), "unknown-name", fmt.Sprintf("part %q cannot be looked up", clip(w.Value)), "say which rig it is: rig: hollin")
			return nil, false
		}
		r.missing(w, "part", r.parts.known)
		return nil, false
	}
	return unique(slices.Clone(found)), true
}

// choose looks a word up in a closed list.
func (r *resolver) choose(w Text, what string, list *choices) (int, bool) {
	if i := pick(list, w.Value); i >= 0 {
		return i, true
	}
	hint := "one of: " + strings.Join(heads(list), ", ")
	if near := problem.Near(w.Value, spoken(list)); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	r.l.Add(w.Pos(), "unknown-word", fmt.Sprintf("unknown %s %q", what, clip(w.Value)), hint)
	return 0, false
}

// kept reads the finding of a case.
func (r *resolver) kept(s *Sheet) Case {
	c := Case{Source: texts(s.Source), Remedy: s.Remedy.Value, NormalThing: s.NormalThing.Value}
	if s.About.Value != "" {
		i, _ := r.choose(s.About, "kind of case", aboutWords)
		c.About = About(i + 1)
	}
	if s.Evidence.Value != "" {
		i, _ := r.choose(s.Evidence, "amount of evidence", evidenceWords)
		c.Evidence = Evidence(i + 1)
	}
	if s.Certainty.Value != "" {
		i, _ := r.choose(s.Certainty, "certainty", certaintyWords)
		c.Certainty = Certainty(i + 1)
	}
	c.Found, c.AlsoRight, c.AlsoFound = r.names(s.Found, aCause), r.names(s.AlsoRight, aCause), r.names(s.AlsoFound, aCause)
	for _, d := range s.Checks {
		if done, ok := r.done(d); ok {
			c.Checks = append(c.Checks, done)
		}
	}
	if s.Phrases != nil {
		c.Phrases = r.phrases(s.Phrases)
	}
	return c
}

// phrases reads how much of a telling a sheet says. What is told and not said
// must be named, phrase by phrase.
func (r *resolver) phrases(p *Phrases) Counted {
	count := func(w Text) int {
		n, err := strconv.Atoi(w.Value)
		if w.Value != "" && (err != nil || n < 0 || n > MaxValues) {
			r.l.Add(w.Pos(), "bad-count", fmt.Sprintf("%q is no count", clip(w.Value)), "a whole number from 0")
		}
		return n
	}
	c := Counted{Told: count(p.Told), Said: count(p.Said)}
	for _, u := range p.Cannot {
		c.Cannot = append(c.Cannot, Silent{u.Phrase.Value, u.Why.Value})
	}
	if left := c.Told - c.Said; left != len(c.Cannot) && p.Told.Value != "" && p.Said.Value != "" {
		r.l.Add(p.At, "bad-count", fmt.Sprintf("%d phrases told, %d said, and %d that cannot be", c.Told, c.Said, len(c.Cannot)),
			"those said and those that cannot be must come to those told")
	}
	return c
}

func (r *resolver) done(d Done) (DoneCheck, bool) {
	out := DoneCheck{Minutes: math.NaN(), Outcome: d.Outcome.Value, Sign: -1}
	if d.Minutes.Value != "" {
		out.Minutes = r.minutes(d.Minutes)
	}
	if d.Outcome.Value != "" {
		out.Sign, out.Seen = r.outcome(d.Outcome)
	}
	out.Shown, out.Denied = r.signs(d.Seen, d.NotSeen)
	switch {
	case out.Sign >= 0 && out.Seen:
		out.Shown = unique(append(out.Shown, out.Sign))
	case out.Sign >= 0:
		out.Denied = unique(append(out.Denied, out.Sign))
	}
	if d.Check.Value == "" { // reported when the file was read
		return out, false
	}
	i, ok := r.name(d.Check, aCheck)
	out.Check = i
	return out, ok
}

// minutes reads a bare number of minutes, or a time.
func (r *resolver) minutes(w Text) float64 {
	text := w.Value
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		text += " min"
	}
	q, err := quantity.ParseAs(text, quantity.Time, "min")
	if err != nil {
		r.quantityProblem(w, err)
		return math.NaN()
	}
	return q.SI / 60
}

// outcome finds the sign that an outcome names, and whether it was there; -1 for
// an outcome in words of its own.
func (r *resolver) outcome(w Text) (int, bool) {
	if found, _ := r.by[aSign].find(w.Value); len(found) == 1 {
		return found[0], true
	}
	if rest, ok := denied(w); ok {
		if found, _ := r.by[aSign].find(rest.Value); len(found) == 1 {
			return found[0], false
		}
	}
	return -1, false
}

// compareSaid orders statements by what they say, not by where they stand.
func compareSaid(a, b Said) int {
	return cmp.Or(slices.Compare(a.Parts, b.Parts), slices.Compare(a.Gone, b.Gone), cmp.Compare(a.Manner, b.Manner), cmp.Compare(a.Flow, b.Flow),
		cmp.Compare(a.Outcome, b.Outcome), cmp.Compare(a.Sign, b.Sign), cmp.Compare(a.Fluid, b.Fluid), cmp.Compare(a.Amount, b.Amount),
		cmp.Compare(a.Feeling, b.Feeling), cmp.Compare(a.When, b.When), cmp.Compare(a.Text, b.Text), cmp.Compare(a.Part, b.Part),
		slices.Compare(a.Notes, b.Notes))
}
