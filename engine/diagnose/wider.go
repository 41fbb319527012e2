package diagnose

import (
	"cmp"
	"math"
	"slices"

	"snagwise/engine/advise"
	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
)

// This file looks past the checks that may be done now: to what answering the
// questions about dangers would open, and to what may have been noticed and
// not told.

// An Opening is a check that is held back by nothing but dangers nobody has
// looked for. The zero value means that there is none.
type Opening struct {
	Check string   // id of the best of them
	Saves float64  // minutes by which it beats the best that may be done now
	Ask   []string // the questions that open it if nothing dangerous is found
}

// A Noticed is a sign that may have been noticed and was not told.
type Noticed struct {
	ID, Means string
	Bits      float64 // how much knowing it would tell
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
	c, more := best(then)
	at := slices.IndexFunc(advice.Gated, func(g advise.Gated) bool { return g.Check == c })
	if c < 0 || at < 0 {
		return Opening{}
	}
	o := Opening{Check: a.fitted.Checks[a.checks[c]].ID.Value, Saves: round(more-saves, 1)}
	for _, f := range advice.Gated[at].Unknown {
		o.Ask = append(o.Ask, a.fitted.Hazards[a.hazards[f]].Ask)
	}
	return o
}

// leastBits is what a sign must tell to be asked for from memory, and alike
// how near two may be in every set to be one question.
const (
	leastBits = .02
	alike     = .1
)

// noticed lists up to n signs that a person sees, hears, feels or smells
// without a check and that can be met in what was told, or that say more
// exactly what was told in a vague word; none known yet, those that tell most
// first.
func (a *adviser) noticed(n int) []Noticed {
	type one struct {
		Noticed
		row []float64
	}
	weights := make([]float64, len(a.snag.Sets))
	for i, s := range a.snag.Sets {
		weights[i] = s.Weight
	}
	closer := a.closer()
	var list []one
	for i := range a.fitted.Signs {
		s := &a.fitted.Signs[i]
		if len(s.Covers) > 0 || !a.fitted.SignOn[i] || a.state.Truth(chain.Whole, s.Slot) != condition.Unknown ||
			!closer[i] && (s.Kind != knowledge.SeenSign || !a.met(s)) {
			continue
		}
		row := a.rank.Predict(i)[:a.kept]
		not := make([]float64, len(row))
		for k, p := range row {
			not[k] = 1 - p
		}
		if bits := advise.Bits(weights, [][]float64{row, not}, couldNotTell); bits >= leastBits {
			list = append(list, one{Noticed{s.ID, s.Means, bits}, row})
		}
	}
	slices.SortStableFunc(list, func(x, y one) int { return cmp.Compare(y.Bits, x.Bits) })
	var out []Noticed
	var kept []one
	for _, s := range list {
		if len(out) == n {
			break
		}
		if !slices.ContainsFunc(kept, func(k one) bool { return near(k.row, s.row) }) {
			kept = append(kept, s)
			out = append(out, s.Noticed)
		}
	}
	return out
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

func near(a, b []float64) bool {
	for i := range a {
		if math.Abs(a[i]-b[i]) > alike {
			return false
		}
	}
	return true
}

// met says whether a sign can be met in a phase that was told of, or no phase
// was.
func (a *adviser) met(s *knowledge.Sign) bool {
	told := false
	for i := range a.told.account.Moments {
		for _, p := range a.told.account.Moments[i].Phases.List() {
			told = true
			if word(s.Phases, a.fitted.Phases[p]) {
				return true
			}
		}
	}
	return !told || len(s.Phases) == 0
}
