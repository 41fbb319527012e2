package casebook

// This file chooses the figures that no source gives by what kept cases say,
// and says what that is worth on a case that had no part in the choice.

import (
	"fmt"
	"math"
	"slices"

	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
)

// Figures are one way to set what no source gives: what the words of strength
// are worth, how much the words of frequency count, and how often signs come by
// themselves. Links and everything else stay as they are.
type Figures struct {
	Name     string
	Words    map[float64]float64 // strengths, by what they are in the rules
	Settings diagnose.Settings
}

// What is tried of each figure.
var (
	powers    = []float64{.5, .7, .9, 1.1}
	leaks     = []float64{.5, 1, 2, 4}
	sharp     = []float64{1, 1.25, 1.5, 1.75, 2}
	strengths = []struct {
		word string
		is   float64
		to   []float64
	}{
		{"almost always", .95, []float64{.9, .95, .98}},
		{"often", .75, []float64{.65, .75, .85}},
		{"sometimes", .4, []float64{.3, .4, .5}},
		{"seldom", .15, []float64{.1, .15, .2}},
		{"hardly ever", .02, []float64{.01, .02, .04}},
	}
)

// Ways returns the ways that are tried: the usual one first, then each figure
// moved by itself, then so many drawn by lot with all of them moved.
func Ways(drawn int) []Figures {
	ways := []Figures{{Name: "as they stand"}}
	usual := diagnose.Usual()
	for _, power := range powers {
		if power != usual.PriorPower {
			ways = append(ways, Figures{Name: fmt.Sprintf("frequencies to the power %g", power), Settings: diagnose.Settings{PriorPower: power}})
		}
	}
	for _, power := range sharp {
		if power != usual.Sharpness {
			ways = append(ways, Figures{Name: fmt.Sprintf("claims to the power %g", power), Settings: diagnose.Settings{Sharpness: power}})
		}
	}
	for _, by := range leaks {
		if by != 1 {
			ways = append(ways, Figures{Name: fmt.Sprintf("leaks times %g", by), Settings: leaking(usual, by)})
		}
	}
	for _, w := range strengths {
		for _, to := range w.to {
			if to != w.is {
				ways = append(ways, Figures{Name: fmt.Sprintf("%s %g", w.word, to), Words: map[float64]float64{w.is: to}})
			}
		}
	}
	rnd := Random("figures", 1)
	for range drawn {
		leak, power := leaks[rnd.IntN(len(leaks))], powers[rnd.IntN(len(powers))]
		f := Figures{Words: map[float64]float64{}, Settings: leaking(usual, leak)}
		f.Name = fmt.Sprintf("leaks times %g, frequencies to the power %g", leak, power)
		f.Settings.PriorPower = power
		for _, w := range strengths {
			f.Words[w.is] = w.to[rnd.IntN(len(w.to))]
			f.Name += fmt.Sprintf(", %s %g", w.word, f.Words[w.is])
		}
		ways = append(ways, f)
	}
	return ways
}

func leaking(usual diagnose.Settings, by float64) diagnose.Settings {
	return diagnose.Settings{Leak: usual.Leak * by, CheckLeak: usual.CheckLeak * by, VagueLeak: usual.VagueLeak * by}
}

// Reworded returns a base in which each strength that is a word's is what the
// figures make of the word. The base itself is not changed.
func Reworded(base *knowledge.Base, f Figures) *knowledge.Base {
	if len(f.Words) == 0 {
		return base
	}
	same := func(p float64) float64 { return p }
	return changed(base, same, same, same, func(p float64) float64 {
		for is, to := range f.Words {
			if math.Abs(p-is) < 1e-9 {
				return to
			}
		}
		return p
	})
}

// A Fit is what the choice of figures came to.
type Fit struct {
	Ways   int    `json:"ways"`
	Best   string `json:"best"`   // the way that did best on all cases
	Chosen int    `json:"chosen"` // cases for which it did best on all the others too
	// AsTheyStand scores the usual way, LeftOut each case by the way that did
	// best on all the others, InSample all by the way that did best on all.
	AsTheyStand Fitted `json:"as_they_stand"`
	LeftOut     Fitted `json:"left_out"`
	InSample    Fitted `json:"in_sample"`
	// Tried scores every way on all cases, in the order tried.
	Tried []Tried `json:"tried"`
}

// Tried is how well one way did.
type Tried struct {
	Name string `json:"name"`
	Fitted
}

// Fitted is how well one choice of figures did.
type Fitted struct {
	Measures
	// LogLoss is the mean of minus the natural logarithm of the chance given
	// to what was found, none being taken as less than a ten-thousandth.
	LogLoss float64 `json:"log_loss"`
}

// Choose scores the cases each way, the usual one first, and chooses by the
// chance that what was found was given: mere order would let chance decide.
func Choose(ways []Figures, score func(Figures) ([]Score, error)) (Fit, error) {
	loss := make([][]float64, len(ways)) // by way and case
	outcomes := make([][]Outcome, len(ways))
	whole := make([]float64, len(ways))
	for w, f := range ways {
		scores, err := score(f)
		if err != nil {
			return Fit{}, fmt.Errorf("%s: %w", f.Name, err)
		}
		for _, s := range scores {
			l := -math.Log(max(faintest, chanceOfFound(s.Outcome)))
			outcomes[w], loss[w] = append(outcomes[w], s.Outcome), append(loss[w], l)
			whole[w] += l
		}
		if len(loss[w]) != len(loss[0]) {
			return Fit{}, fmt.Errorf("%s: %d cases, and %d before", f.Name, len(loss[w]), len(loss[0]))
		}
	}
	best := least(whole)
	fit := Fit{Ways: len(ways), Best: ways[best].Name}
	var left []Outcome
	leftLoss := 0.0
	for i := range loss[0] {
		others := slices.Clone(whole)
		for w := range others {
			others[w] -= loss[w][i]
		}
		w := least(others)
		left, leftLoss = append(left, outcomes[w][i]), leftLoss+loss[w][i]
		if w == best {
			fit.Chosen++
		}
	}
	n := float64(max(1, len(left)))
	for w, f := range ways {
		fit.Tried = append(fit.Tried, Tried{f.Name, Fitted{Measure(outcomes[w]), whole[w] / n}})
	}
	fit.AsTheyStand = fit.Tried[0].Fitted
	fit.LeftOut = Fitted{Measure(left), leftLoss / n}
	fit.InSample = fit.Tried[best].Fitted
	return fit, nil
}

// faintest is the least chance that is told from none: one miss must not count
// for more than all the rest.
const faintest = 1e-4

// chanceOfFound is the highest chance given to what was found.
func chanceOfFound(o Outcome) float64 {
	p := 0.0
	for _, c := range o.Chances {
		if c.True {
			p = max(p, c.Chance)
		}
	}
	return p
}

// least returns the place of the least, the first of equal ones.
func least(list []float64) int {
	at := 0
	for i, x := range list {
		if x < list[at] {
			at = i
		}
	}
	return at
}
