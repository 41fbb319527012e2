package screen

// Numbers told in words.

import (
	"fmt"
	"math"
	"strings"

	"snagwise/engine/problem"
)

// Chance tells a chance from 0 to 1 in a round word and to the nearest 5 %,
// such as "likely, 70 %". It is never 0 nor 100 %. The bounds of the words are
// the project's own.
func Chance(p float64) string {
	word, percent := ChanceWord(p), Percent(p)
	if percent == "" {
		return word
	}
	return word + ", " + percent
}

// ChanceWord tells a chance in a round word alone: nearly certain from 90 %
// on, likely above 60 %, even from 40 %, possible from 15 %, unlikely below;
// "not known" if it is not a number.
func ChanceWord(p float64) string {
	switch n := nearest5(p); {
	case math.IsNaN(p):
		return "not known"
	case n >= 90:
		return "nearly certain"
	case n > 60:
		return "likely"
	case n >= 40:
		return "even"
	case n >= 15:
		return "possible"
	}
	return "unlikely"
}

// Percent tells a chance to the nearest 5 %: "70 %", and at the ends "under
// 5 %" and "over 95 %"; empty if it is not a number.
func Percent(p float64) string {
	switch n := nearest5(p); {
	case math.IsNaN(p):
		return ""
	case n <= 0:
		return "under 5 %"
	case n >= 100:
		return "over 95 %"
	default:
		return fmt.Sprintf("%d %%", n)
	}
}

func nearest5(p float64) int {
	if math.IsNaN(p) {
		return 0
	}
	return int(math.Round(min(max(p, 0), 1)*20)) * 5
}

// Minutes tells a time in words: "half a minute", "12 minutes", "1 hour 20
// minutes", "6 hours". From three hours on it is rounded to a quarter of an
// hour, below that to the minute.
func Minutes(m float64) string {
	return spell(m, func(n int, word string) string { return Count(n, word, word+"s") }, "half a minute", "no time")
}

// ShortMinutes tells a time for a column of a table: "12 min", "1 h 20 min".
func ShortMinutes(m float64) string {
	return spell(m, func(n int, word string) string {
		if word == "hour" {
			return fmt.Sprintf("%d h", n)
		}
		return fmt.Sprintf("%d min", n)
	}, "1/2 min", "0 min")
}

func spell(m float64, unit func(int, string) string, half, none string) string {
	switch {
	case math.IsNaN(m):
		return "not known"
	case m < 0:
		return "minus " + spell(-m, unit, half, none)
	case m < .25:
		return none
	case m < .75:
		return half
	case m > 1e6:
		return "too long"
	case m >= 180:
		m = math.Round(m/15) * 15
	}
	n := int(math.Round(m))
	switch {
	case n < 60:
		return unit(n, "minute")
	case n%60 == 0:
		return unit(n/60, "hour")
	}
	return unit(n/60, "hour") + " " + unit(n%60, "minute")
}

// Points tells what a piece of evidence counts, with its sign and one place:
// "+4.6", "-9.5", "0". Three points double the odds, ten are ten times.
func Points(x float64) string {
	if math.IsNaN(x) {
		return "not known"
	}
	if math.Abs(x) < .05 {
		return "0"
	}
	return fmt.Sprintf("%+.1f", x)
}

// Count tells a number of things: "1 check", "3 checks", "no checks".
func Count(n int, one, many string) string {
	switch n {
	case 0:
		return "no " + many
	case 1:
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

// And joins words as they are spoken: "a", "a and b", "a, b and c".
func And(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " and " + words[last]
}

// Unknown returns the message for a word of the command line that is not
// known: what kind of word it was to be, and the near match, or all that would
// do if they are few.
func Unknown(kind, word string, known []string) string {
	text := fmt.Sprintf("unknown %s %q", kind, Clip(word, 60))
	if hint := problem.DidYouMean(word, known); hint != "" {
		text += "; " + hint
	}
	return text
}
