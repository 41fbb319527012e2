package knowledge

// The words of strength and frequency are the project's own scale, chosen so
// that a person can tell the steps apart; no measurement stands behind them.
var strengths = map[string]float64{
	"almost always": .95,
	"often":         .75,
	"sometimes":     .40,
	"seldom":        .15,
	"hardly ever":   .02,
	"never":         0,
}

var frequencies = map[string]float64{
	"common":     .1,
	"occasional": .03,
	"rare":       .01,
	"very rare":  .003,
}

var factors = map[string]float64{"much": 8, "more": 3, "a bit": 1.5}

var strengthWords = []string{"almost always", "often", "sometimes", "seldom", "hardly ever", "never"}
var frequencyWords = []string{"common", "occasional", "rare", "very rare"}
var factorWords = []string{"much", "more", "a bit"}

// StrengthWord returns the nearest word for a chance between 0 and 1.
func StrengthWord(p float64) string {
	best := strengthWords[0]
	for _, w := range strengthWords {
		if abs(strengths[w]-p) < abs(strengths[best]-p) {
			best = w
		}
	}
	return best
}

// FrequencyWord returns the nearest word for how common a cause is, by ratio.
func FrequencyWord(p float64) string {
	switch {
	case p >= .055:
		return "common"
	case p >= .017:
		return "occasional"
	case p >= .0055:
		return "rare"
	}
	return "very rare"
}

func abs(x float64) float64 {
	if x < 0 {
		return -x
	}
	return x
}
