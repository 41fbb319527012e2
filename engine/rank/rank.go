// Package rank turns what is known of an engine into ranked causes.
//
// It is mathematics over small integers and knows no part by name. Causes
// give states, a state leads to further states and shows signs; a state is
// there, and a sign is seen, by noisy-OR over what brings it. Sets of no
// cause, one cause, two or more compete: the weight of a set is the product
// of the prior odds of its causes and of the likelihood of everything known,
// summed over the states in between. Two signs that come through one state
// are therefore one witness told twice, and a second fault must earn its place by
// explaining something. A sign that is not known has no factor at all.
//
// The door: fill a [Builder], call [Builder.Build] once, then [Net.Posterior]
// for each [Evidence], from as many goroutines as wanted. The [Result] holds
// the causes in order, [Result.Ledger] says why in points, [Result.Predict] what
// the signs not yet looked at would be.
//
// Sources of the method: Y. Peng, J. Reggia, "A probabilistic causal model
// for diagnostic problem solving", IEEE Trans. SMC 17, 1987; D. Heckerman, "A
// tractable inference algorithm for diagnosing multiple diseases", 1989;
// D. Spiegelhalter, R. Knill-Jones, "Statistical and knowledge-based approaches to
// clinical decision-support systems", 1984 (the ledger); I. J. Good,
// "Probability and the Weighing of Evidence", 1950 (points).
package rank

// Options are the settings of a net. The zero value does the usual thing;
// a figure left at zero takes the default named beside it. None of the
// defaults has a published source: they are the project's own.
type Options struct {
	PriorSum     float64 // what the prior odds of all causes are scaled to add up to: .35
	EmptyWeight  float64 // weight of "none of those listed" before any sign: .035
	Unscaled     bool    // take the priors as given and weigh the empty set 1
	LeakFraction float64 // what is left of a sign's leak where a state that is there speaks against it: .2
	Sure         float64 // how strongly a state must be reached to speak against a sign: .75
	Earn         float64 // how many times likelier a set must make what is known than it is with one cause less, to count, at the first look and in full: 0, always
	Faintest     float64 // how strongly a state must be led to along one path to be taken into account: 0, all that are reached
	MaxSize      int     // most causes in one set: 3, but 2 as soon as more than 60 causes touch what is known
	Budget       int     // numbers worth writing to sum one set: 1 << 18
	Unbudgeted   bool    // sum in full every set that passes the first look, however little it weighs and whatever it takes; for tests and comparisons
	Unscreened   bool    // sum every set of two in full, whatever the first look says of it; for tests and comparisons
	FullSets     int     // sets of one size summed in full, the rest being estimated: 20000

	// Combine settles what a pattern does to a set; nil is [Stronger].
	Combine Combine
}

// withDefaults fills what was left at zero.
func (o Options) withDefaults() Options {
	usual := func(v *float64, d float64) {
		if *v == 0 {
			*v = d
		}
	}
	usual(&o.PriorSum, .35)
	usual(&o.EmptyWeight, .035)
	usual(&o.LeakFraction, .2)
	usual(&o.Sure, .75)
	if o.Budget <= 0 {
		o.Budget = 1 << 18
	}
	if o.FullSets <= 0 {
		o.FullSets = 20000
	}
	if o.Combine == nil {
		o.Combine = Stronger
	}
	return o
}
