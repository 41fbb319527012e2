package advise_test

import (
	"fmt"

	"snagwise/engine/advise"
)

// Two causes, the likelier one dear to inspect, and two checks: one may be
// done now, the other needs the engine running while nobody has looked for a
// leak.
func ExampleNext() {
	snag := &advise.Snag{
		Causes: []advise.Cause{{Minutes: 60}, {Minutes: 25}},
		Sets: []advise.Set{
			{Causes: []int{0}, Weight: 6},
			{Causes: []int{1}, Weight: 3},
			{Weight: 1}, // none of those listed
		},
		Checks: []advise.Check{
			{Minutes: 3, State: advise.AnyState, Outcomes: [][]float64{{.95, .1, .5}, {.05, .9, .5}}},
			{Minutes: 1, State: advise.AnyState, Hazard: advise.Running, Outcomes: [][]float64{{1, 0, 0}, {0, 1, 1}}},
		},
		Help: 120,
	}
	leak := advise.Fact{Known: advise.Unknown, Blocks: advise.Running}
	a, err := advise.Next(snag, &advise.Situation{Facts: []advise.Fact{leak}}, advise.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	c := a.Checks[0]
	fmt.Printf("check %d takes %.0f min, saves %.0f of %.0f\n", c.Check, c.Minutes, c.Saves, a.Minutes)
	for _, o := range c.Outcomes {
		fmt.Printf("answer %d, chance %.2f: cause %d at %.2f\n", o.Outcome, o.Chance, o.Causes[0].Cause, o.Causes[0].Chance)
	}
	fmt.Printf("not before somebody has looked at fact %d: check %d\n", a.Gated[0].Unknown[0], a.Gated[0].Check)
	// Output:
	// check 0 takes 3 min, saves 11 of 79
	// answer 0, chance 0.65: cause 0 at 0.88
	// answer 1, chance 0.35: cause 1 at 0.77
	// not before somebody has looked at fact 0: check 1
}
