package advise

// What a check tells: in bits, and as outcomes made of several findings.

import "math"

// Bits returns how much the outcomes of a check tell of which set holds: the
// fall of entropy to expect, in bits. Weights are by set and may have any
// sum; outcomes are chances by outcome and set, as in [Check]; the share that
// could not tell brings nothing. It is shown beside a check; the order of
// checks goes by minutes.
//
// Source: J. R. Quinlan, "Induction of decision trees", Machine Learning 1,
// 1986 (gain of a test).
func Bits(weights []float64, outcomes [][]float64, couldNotTell float64) float64 {
	var sum float64
	for _, w := range weights {
		sum += w
	}
	if sum <= 0 {
		return 0
	}
	var gain float64
	for _, row := range outcomes {
		var chance float64
		for i, w := range weights {
			chance += w / sum * row[i]
		}
		for i, w := range weights {
			if joint := w / sum * row[i]; joint > 0 {
				gain += joint * math.Log2(row[i]/chance)
			}
		}
	}
	return max(gain*(1-couldNotTell), 0)
}

// FirstFound makes the outcomes of a check that looks for several findings,
// one after another: outcome k is that finding k is the first to be there, the
// last outcome that none is. Each row of found holds the chance of one finding
// by set; given the set they are taken as independent. It returns one row
// more than it is given.
func FirstFound(found [][]float64) [][]float64 {
	if len(found) == 0 {
		return nil
	}
	rows := make([][]float64, len(found)+1)
	left := make([]float64, len(found[0]))
	for i := range left {
		left[i] = 1
	}
	for k, row := range found {
		rows[k] = make([]float64, len(left))
		for i, p := range row {
			rows[k][i] = left[i] * p
			left[i] -= rows[k][i]
		}
	}
	rows[len(found)] = left
	return rows
}
