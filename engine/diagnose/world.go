package diagnose

import (
	"math"
	"slices"

	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
	"snagwise/engine/quantity"
	"snagwise/engine/relate"
	"snagwise/engine/rig"
	"snagwise/engine/sheet"
)

// A telling is one sheet made ready for the rules: what is known at each
// moment, and what is said of parts.
type telling struct {
	account    *sheet.Account
	world      *condition.World
	statements []relate.Statement
	reckoned   [][]bool // by moment, by computed reading: it was worked out here
	assumed    []string // usual figures that stood in where one was worked out
}

// tell turns an account into what the conditions read. Everything lands in the
// slots of the base; nothing is concluded yet.
func (e *Engine) tell(a *sheet.Account) *telling {
	t := &telling{account: a}
	n := max(1, len(a.Moments))
	t.world = e.fitted.Scope.NewWorld(n)
	for i := range a.Moments {
		e.fill(&t.world.Moments[i], &a.Moments[i])
	}
	for i := range t.world.Moments {
		e.fillWeather(t, i)
	}
	e.elapse(t)
	whole := func(slot int) { t.world.Whole[slot] = condition.True }
	for _, c := range a.Circumstances {
		whole(e.fitted.Circumstances[c].Slot)
	}
	for _, c := range a.Trials {
		tr := &e.fitted.Trials[c]
		whole(tr.Slot)
		if tr.Same >= 0 {
			whole(e.fitted.Signs[tr.Same].Slot)
		}
	}
	for _, c := range a.Courses {
		whole(e.fitted.Courses[c].Slot)
	}
	for _, c := range a.Normals {
		whole(e.fitted.Normals[c].Slot)
	}
	for _, r := range a.NormalRead {
		for i := range t.world.Moments {
			e.judge(&t.world.Moments[i], r, sheet.JudgedNormal)
		}
	}
	e.reckon(t)
	e.say(t)
	return t
}

// fill writes one told moment into its slots.
func (e *Engine) fill(m *condition.Moment, told *sheet.Told) {
	if told.Phases != 0 {
		m.Text[phaseSlot] = uint64(told.Phases)
	}
	for _, c := range told.Controls {
		ctl := &e.fitted.Base.Controls[c.Control]
		m.Text[ctl.Slot] = 1 << c.Position
	}
	for _, v := range e.twins(told.Readings) {
		e.fillReading(m, told, v)
	}
	for _, s := range told.NotSeen {
		m.Truth[e.fitted.Signs[s].Slot] = condition.False
	}
	for _, s := range told.Signs {
		m.Truth[e.fitted.Signs[s].Slot] = condition.True
	}
	for _, c := range told.Courses {
		m.Truth[e.fitted.Courses[c].Slot] = condition.True
	}
	for _, c := range told.Normals {
		m.Truth[e.fitted.Normals[c].Slot] = condition.True
	}
}

// fillWeather writes the weather of the sheet into a moment, but for what was
// read at the moment itself.
func (e *Engine) fillWeather(t *telling, i int) {
	told := &sheet.Told{}
	if i < len(t.account.Moments) {
		told = &t.account.Moments[i]
	}
	for _, v := range t.account.Weather {
		if !slices.ContainsFunc(told.Readings, func(own sheet.Value) bool { return own.Reading == v.Reading }) {
			e.fillReading(&t.world.Moments[i], told, v)
		}
	}
}

// phaseSlot is the text slot of the phase.
const phaseSlot = 0

func (e *Engine) fillReading(m *condition.Moment, told *sheet.Told, v sheet.Value) {
	rd := &e.fitted.Readings[v.Reading]
	if len(rd.Answers) > 0 {
		if v.Answer >= 0 {
			m.Text[rd.Slot] = 1 << v.Answer
		}
		return
	}
	if v.IsFigure {
		lo, hi := v.Figure.Interval()
		if !math.IsInf(lo, 0) && !math.IsInf(hi, 0) {
			m.Num[rd.Slot] = v.Number()
		}
		if g, ok := e.fitted.Rig.Gauge(rd.ID); ok {
			w := e.against(g, told.Phases, lo, hi)
			m.Word[rd.Slot].True |= w.True
			m.Word[rd.Slot].False |= w.False
		}
		if v.Figure.Shape == quantity.Changed {
			change(&m.Word[rd.Slot], v.Figure.From.SI, v.Figure.To.SI)
		}
	}
	e.judge(m, v.Reading, v.Judged)
}

// change says which way a reading went.
func change(w *condition.Word, from, to float64) {
	switch {
	case to > from:
		w.True |= condition.Rising
		w.False |= condition.Falling | condition.Dead
	case to < from:
		w.True |= condition.Falling
		w.False |= condition.Rising | condition.Dead
	}
}

// against holds a figure between lo and hi against the bands and limits of its
// gauge. Where the moment may be one of several phases, only what holds in all
// of them is known. One for which the rig gives no band, or no limit, has no say in what is
// amiss, and leaves open what is not: nothing is taken as in order for want of a figure.
func (e *Engine) against(g *rig.Gauge, phases sheet.PhaseSet, lo, hi float64) condition.Word {
	bands, limits := everything, everything
	for i, name := range e.fitted.Phases {
		if phases != 0 && !phases.Has(i) {
			continue
		}
		b, hasBand := g.Band(name)
		l, hasLimit := g.Limit(name)
		if phases == 0 && !hasBand {
			continue
		}
		bands.take(inBand(g, b, lo, hi), hasBand)
		limits.take(withinLimit(l, lo, hi), hasLimit)
	}
	return condition.Word{True: bands.so() | limits.so(), False: bands.isNot() | limits.isNot()}
}

// agreed is what the judgements of one figure in several phases have in common.
type agreed struct {
	yes, not condition.Band
	some     bool // one of the phases had a say
}

// everything is what no judgement has narrowed down yet.
var everything = agreed{yes: ^condition.Band(0), not: ^condition.Band(0)}

func (a *agreed) take(w condition.Word, says bool) {
	if !says {
		a.yes &^= condition.Normal
		a.not = 0
		return
	}
	a.yes &= w.True
	a.not &= w.False
	a.some = true
}

// so is what is so, and isNot what is not, as long as some phase had a say.
func (a *agreed) so() condition.Band {
	if !a.some {
		return 0
	}
	return a.yes
}

func (a *agreed) isNot() condition.Band {
	if !a.some {
		return 0
	}
	return a.not
}

// nothingShare is how far up its dial a needle may stand and still show
// nothing to speak of; common practice, no source.
const nothingShare = .03

// inBand holds a figure between lo and hi against the band of one phase.
func inBand(g *rig.Gauge, b rig.Band, lo, hi float64) condition.Word {
	var w condition.Word
	if len(b.Answers) > 0 {
		return w
	}
	settle(&w, condition.Low, hi < b.Lo, lo >= b.Lo)
	settle(&w, condition.High, lo > b.Hi, hi <= b.Hi)
	settle(&w, condition.Normal, lo >= b.Lo && hi <= b.Hi, hi < b.Lo || lo > b.Hi)
	if nothing := b.Lo * nothingShare; b.Lo > 0 {
		if g.Dial != nil {
			nothing = math.Min(math.Abs(g.Dial[1])*nothingShare, b.Lo/2)
		}
		settle(&w, condition.None, hi <= nothing, lo > nothing)
	}
	return w
}

// withinLimit holds a figure between lo and hi against the limits of one phase.
func withinLimit(l rig.Limit, lo, hi float64) condition.Word {
	var w condition.Word
	if l.StopBelow != nil {
		settle(&w, condition.BelowStop, hi < *l.StopBelow, lo >= *l.StopBelow)
	}
	if l.StopAbove != nil {
		settle(&w, condition.OverStop, lo > *l.StopAbove, hi <= *l.StopAbove)
	}
	return w
}

// settle notes that a word is so, or that it is not, or neither.
func settle(w *condition.Word, b condition.Band, yes, no bool) {
	if yes {
		w.True |= b
	} else if no {
		w.False |= b
	}
}

// judgements are what each word that judges a reading says of the others.
var judgements = []struct {
	told     sheet.Judged
	yes, not condition.Band
}{
	// who calls it low has seen some of it
	{sheet.JudgedLow, condition.Low, condition.None | condition.Normal | condition.High | condition.OverStop},
	{sheet.JudgedNone, condition.None | condition.Low, condition.Normal | condition.High | condition.OverStop},
	{sheet.JudgedNormal, condition.Normal, condition.None | condition.Low | condition.High | condition.OverStop | condition.BelowStop | condition.Unsteady | condition.Dead},
	{sheet.JudgedHigh, condition.High, condition.None | condition.Low | condition.Normal | condition.BelowStop},
	{sheet.JudgedOverStop, condition.OverStop | condition.High, condition.None | condition.Low | condition.Normal | condition.BelowStop},
	{sheet.JudgedBelowStop, condition.BelowStop | condition.Low, condition.High | condition.Normal | condition.OverStop},
	{sheet.JudgedRising, condition.Rising, condition.Falling | condition.Dead},
	{sheet.JudgedFalling, condition.Falling, condition.Rising | condition.Dead},
	{sheet.JudgedUnsteady, condition.Unsteady, condition.Dead},
	{sheet.JudgedDead, condition.Dead, condition.Rising | condition.Falling | condition.Unsteady},
}

// judge notes what a person's word for a reading says. A word stands over a
// band: the person may know better than the figures what is usual.
func (e *Engine) judge(m *condition.Moment, reading int, told sheet.Judged) {
	rd := &e.fitted.Readings[reading]
	if told == 0 || len(rd.Answers) > 0 {
		return
	}
	w := &m.Word[rd.Slot]
	for _, j := range judgements {
		if told&j.told != 0 {
			w.True = w.True&^j.not | j.yes
			w.False = w.False&^j.yes | j.not
		}
	}
	w.False &^= w.True
}

// say turns what is said of parts into statements, and into the signs and
// trials that they amount to.
func (e *Engine) say(t *telling) {
	for i := range t.account.Statements {
		s := &t.account.Statements[i]
		st := relate.Statement{Parts: s.Parts}
		switch s.Manner {
		case sheet.WorkedOn:
			st.Told, st.How, st.When = "worked_on", s.Text, s.When.String()
		case sheet.Changed:
			st.Told, st.How = "changed", s.Outcome.String()
			if tr := e.trialOf(s); tr >= 0 { // it says more than the part alone
				t.world.Whole[e.fitted.Trials[tr].Slot] = condition.True
				if same := e.fitted.Trials[tr].Same; same >= 0 {
					t.world.Whole[e.fitted.Signs[same].Slot] = condition.True
				}
				continue
			}
		case sheet.LookedAt:
			st.Told, st.How = "looked_at", s.Text
			if s.Good {
				st.How = "good"
			}
			if s.Sign >= 0 {
				t.world.Whole[e.fitted.Signs[s.Sign].Slot] = condition.True
			}
		case sheet.Leaks:
			st.Told, st.How = "leaks", s.Fluid.String()
		case sheet.Felt:
			st.Told, st.How = "felt", s.Feeling.String()
		case sheet.Flows:
			st.Told, st.Flow = "flow", e.fitted.Kinds.Flows[s.Flow].ID
			st.Parts, st.GoodA, st.GoneB = nil, s.Parts, s.Gone
		}
		for _, sign := range e.implied(st) {
			if slot := e.fitted.Signs[sign].Slot; t.world.Whole[slot] == condition.Unknown {
				t.world.Whole[slot] = condition.True
			}
		}
		t.statements = append(t.statements, st)
	}
	for i := range t.account.Moments {
		for _, r := range t.account.Moments[i].Unread {
			if g, ok := e.fitted.Rig.Gauge(e.fitted.Readings[r].ID); ok {
				t.statements = append(t.statements, relate.Statement{Told: "could_not_read", Parts: e.falsifiers(r, g)})
			}
		}
	}
}

// trialOf returns the trial that a part changed amounts to, or -1: the part, or
// all that goes by its name, has a trial for the outcome, and everything of its
// kind on the rig was changed.
func (e *Engine) trialOf(s *sheet.Said) int {
	r := e.fitted.Rig
	trials, kinds := e.fitted.Kinds.TrialsOf(s.Part)
	if kinds == nil && len(s.Parts) > 0 {
		trials, kinds = e.fitted.Kinds.TrialsOf(r.Parts[s.Parts[0]].Kind)
	}
	for _, k := range kinds {
		for _, p := range r.OfKind(k) {
			if !contains(s.Parts, p) {
				return -1
			}
		}
	}
	id := ""
	switch s.Outcome {
	case sheet.Cured:
		id = trials.Cured
	case sheet.NoBetter:
		id = trials.NoChange
	}
	return slices.IndexFunc(e.fitted.Trials, func(t knowledge.Trial) bool { return id != "" && t.ID.Value == id })
}

// falsifiers lists the parts whose causes make a reading untrue.
func (e *Engine) falsifiers(reading int, g *rig.Gauge) []int {
	var out []int
	for _, inst := range e.fitted.Causes {
		if contains(e.fitted.Base.Causes[inst.Cause].Falsifies, reading) && !contains(out, inst.Part) && !contains(g.Taps, inst.Part) {
			out = append(out, inst.Part)
		}
	}
	return out
}

// implied lists the signs that a statement about a part amounts to.
func (e *Engine) implied(st relate.Statement) []int {
	var out []int
	for _, im := range e.fitted.Implied {
		if im.Told != st.Told || !word(im.How, st.How) {
			continue
		}
		if len(im.Kinds) > 0 {
			fits := false
			for _, p := range st.Parts {
				fits = fits || word(im.Kinds, e.fitted.Rig.Parts[p].Kind)
			}
			if !fits {
				continue
			}
		}
		out = append(out, im.Sign)
	}
	return out
}

func word(list []string, w string) bool {
	for _, x := range list {
		if x == w {
			return true
		}
	}
	return false
}
