package diagnose

import (
	"cmp"
	"slices"

	"snagwise/engine/advise"
	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
)

// This file looks past the checks that may be done now: to what answering the
// questions about dangers would open, and to what may have been noticed and
// not told.

// HelpMinutes is what it takes to fetch a licensed engineer who will find and
// cure a snag: what a check must save to be worth more than that is less.
const HelpMinutes = helpMinutes

// An Opening is a check that is held back by nothing but dangers nobody has
// looked for. The zero value means that there is none.
type Opening struct {
	Check string   // id of the best of them
	Saves float64  // minutes by which it beats the best that may be done now; 0 where it does not
	All   float64  // minutes by which all that may be done then is the better way
	Ask   []string // the questions that open it if nothing dangerous is found
}

// A Noticed is a sign that may have been noticed and was not told.
type Noticed struct {
	ID, Means string
	Bits      float64 // how much knowing it would tell beyond those before it
	Gauge     bool    // it stands on the panel
}

// opening finds what the advice would be with every danger that was not looked
// for looked for and not there.
func (a *adviser) opening(advice *advise.Advice) Opening {
	now := a.now
	now.Facts = slices.Clone(a.now.Facts)
	open := false
	for i := range now.Facts {
		if now.Facts[i].Known == advise.Unknown {
			now.Facts[i].Known, open = advise.False, true
		}
	}
	if !open {
		return Opening{}
	}
	then, err := advise.Next(&a.snag, &now, advise.Options{Ahead: -1})
	if err != nil {
		panic("diagnose: advice: " + err.Error()) // the input is ours throughout
	}
	// One check deep on both sides: two deep would cost as much as the advice.
	best := func(ad *advise.Advice) (int, float64) {
		at, saves := -1, 0.
		for _, c := range ad.Checks {
			if c.Saves > saves {
				at, saves = c.Check, c.Saves
			}
		}
		return at, saves
	}
	_, saves := best(advice)
	first, more := best(then)
	c := a.opened(advice, then)
	at := slices.IndexFunc(advice.Gated, func(g advise.Gated) bool { return g.Check == c })
	if c < 0 || at < 0 {
		return Opening{}
	}
	o := Opening{Check: a.fitted.Checks[a.checks[c]].ID.Value, All: round(advice.Minutes-saves-(then.Minutes-more), 1)}
	if first == c {
		o.Saves = round(more-saves, 1)
	}
	for _, f := range advice.Gated[at].Unknown {
		o.Ask = append(o.Ask, a.fitted.Hazards[a.hazards[f]].Ask)
	}
	return o
}

// opened returns the check that answering the questions about dangers opens: of
// those held back now the one that saves most alone, else the first that looks
// straight at a cause; -1 for none.
func (a *adviser) opened(advice, then *advise.Advice) int {
	best, saves := -1, 0.
	for _, c := range then.Checks {
		if c.Saves > saves && a.gated(advice, c.Check) {
			best, saves = c.Check, c.Saves
		}
	}
	for _, in := range then.Inspections[:then.HelpAfter] {
		if by := a.snag.Causes[in.Cause].By; best < 0 && by > 0 && a.gated(advice, by-1) {
			best = by - 1
		}
	}
	return best
}

// leastBits is what a sign must tell to be asked for from memory, and tried how
// many of those that tell most are weighed against one another.
const (
	leastBits = .02
	tried     = 60
)

// noticed lists up to n signs that a person sees, hears, feels, smells or reads
// off the panel without a check and that can be met in what was told, or that
// say more exactly what was told in a vague word; none known yet or put before.
// Each is the one that tells most beyond those before it.
func (a *adviser) noticed(n int, put []string) []Noticed {
	type one struct {
		Noticed
		rows   [][]float64 // it is there, it is not
		alone  float64     // bits by itself
		beyond float64     // bits beyond the chosen one that tells most of the same
		held   int         // how many of the chosen it was held against
	}
	weights := make([]float64, len(a.snag.Sets))
	for i, s := range a.snag.Sets {
		weights[i] = s.Weight
	}
	closer := a.closer()
	var list []one
	for i := range a.fitted.Signs {
		s := &a.fitted.Signs[i]
		if len(s.Covers) > 0 || !a.fitted.SignOn[i] || word(put, s.ID) || a.state.Truth(chain.Whole, s.Slot) != condition.Unknown ||
			!closer[i] && (!a.plainly(s) || !a.met(s)) {
			continue
		}
		row := a.rank.Predict(i)[:a.kept]
		not := make([]float64, len(row))
		for k, p := range row {
			not[k] = 1 - p
		}
		rows := [][]float64{row, not}
		if bits := advise.Bits(weights, rows, couldNotTell); bits >= leastBits {
			list = append(list, one{Noticed{s.ID, s.Means, bits, s.Kind == knowledge.ReadingSign}, rows, bits, bits, 0})
		}
	}
	slices.SortStableFunc(list, func(x, y one) int { return cmp.Compare(y.Bits, x.Bits) })
	list = list[:min(len(list), tried)]
	var out []Noticed
	var chosen []one
	for len(out) < n && len(list) > 0 {
		best := 0
		for i := range list {
			if list[i].beyond > list[best].beyond {
				best = i
			}
		}
		c := &list[best]
		if c.held < len(chosen) { // what it tells beyond the others only falls: weighed when it comes up
			for _, o := range chosen[c.held:] {
				c.beyond = min(c.beyond, advise.Bits(weights, together(o.rows, c.rows), couldNotTell)-o.alone)
			}
			c.held = len(chosen)
			continue
		}
		if c.beyond < leastBits {
			break
		}
		c.Noticed.Bits = c.beyond
		out = append(out, c.Noticed)
		chosen = append(chosen, *c)
		list = slices.Delete(list, best, best+1)
	}
	return out
}

// together are the outcomes of two signs looked for at once.
func together(x, y [][]float64) [][]float64 {
	var out [][]float64
	for _, a := range x {
		for _, b := range y {
			row := make([]float64, len(a))
			for i := range row {
				row[i] = a[i] * b[i]
			}
			out = append(out, row)
		}
	}
	return out
}

// plainly says whether a sign shows without a check: a person notices it, or it
// stands on gauges of the rig that need no more than a look.
func (a *adviser) plainly(s *knowledge.Sign) bool {
	if s.Kind != knowledge.ReadingSign {
		return s.Kind == knowledge.SeenSign
	}
	for _, r := range s.Readings {
		g, ok := a.fitted.Rig.Gauge(a.fitted.Readings[r].ID)
		if !ok || g.By != "" && g.By != "gauge" {
			return false
		}
	}
	return len(s.Readings) > 0
}

// closer marks the signs that say more exactly what a vague word told, those
// that a check finds aside.
func (a *adviser) closer() map[int]bool {
	out := map[int]bool{}
	for i := range a.fitted.Signs {
		s := &a.fitted.Signs[i]
		if a.state.Truth(chain.Whole, s.Slot) != condition.True {
			continue
		}
		for _, c := range s.Covers {
			out[c] = a.fitted.Signs[c].Kind != knowledge.CheckSign
		}
	}
	return out
}

// met says whether a sign can be met in a phase that was told of; where none
// was, in a phase of what was seen; where that has none either, it can.
func (a *adviser) met(s *knowledge.Sign) bool {
	var told, seen []string
	for i := range a.told.account.Moments {
		m := &a.told.account.Moments[i]
		for _, p := range m.Phases.List() {
			told = append(told, a.fitted.Phases[p])
		}
		for _, sg := range m.Signs {
			seen = append(seen, a.fitted.Signs[sg].Phases...)
		}
	}
	if len(told) == 0 {
		told = seen
	}
	return len(told) == 0 || len(s.Phases) == 0 || slices.ContainsFunc(s.Phases, func(p string) bool { return word(told, p) })
}
