package rank_test

import (
	"fmt"

	"snagwise/engine/rank"
)

// A choked filter and worn plugs; low fuel pressure is a state in between.
func Example() {
	const (
		filter, plugs      = 0, 1    // causes
		pressureLow        = 0       // states
		gaugeLow, misfires = 0, 1    // signs
		common, occasional = .1, .03 // how often causes are there
	)
	b := rank.NewBuilder(2, 1, 2)
	b.Prior(filter, common)
	b.Prior(plugs, occasional)
	b.Give(filter, pressureLow, .95)
	b.Show(pressureLow, gaugeLow, .75)
	b.Show(pressureLow, misfires, .4)
	b.Direct(plugs, misfires, .95)
	net, err := b.Build(rank.Options{})
	if err != nil {
		fmt.Println(err)
		return
	}
	r := net.Posterior(rank.Evidence{Signs: []rank.Known{{Sign: misfires, True: true}, {Sign: gaugeLow}}})
	names := []string{"filter", "plugs"}
	for _, c := range r.Causes {
		fmt.Printf("%-7s %.2f\n", names[c.ID], c.Chance)
	}
	fmt.Printf("none    %.2f\n", r.None)
	for _, line := range r.Ledger(plugs).Lines {
		fmt.Printf("%+.1f points %v\n", line.Points, line.Signs)
	}
	// Output:
	// plugs   0.74
	// filter  0.31
	// none    0.01
	// +3.4 points []
	// +16.8 points [1]
}
