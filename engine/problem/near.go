package problem

import (
	"fmt"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"
)

// Near returns the known name that a person most likely meant by word, or ""
// when none is close: at most a third of its letters may differ, swapped
// words or letters count as near, and the first in the list wins a tie.
func Near(word string, known []string) string {
	w := fold(word)
	if w == "" || len(w) > 200 {
		return ""
	}
	best, bestDist := "", 1+max(1, len([]rune(w))/3)
	for _, k := range known {
		f := fold(k)
		if f == w {
			return k
		}
		d := levenshtein.ComputeDistance(w, f)
		if swapped(w) == swapped(f) || sortedLetters(w) == sortedLetters(f) {
			d = 1
		}
		if d < bestDist {
			best, bestDist = k, d
		}
	}
	return best
}

// DidYouMean returns the hint for a wrong word: the near name, or the whole
// list when it is short, or "".
func DidYouMean(word string, known []string) string {
	if n := Near(word, known); n != "" {
		return fmt.Sprintf("did you mean %q?", n)
	}
	if len(known) > 0 && len(known) <= 12 {
		return "one of: " + strings.Join(known, ", ")
	}
	return ""
}

func fold(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '-' || r == ' ' {
			return '_'
		}
		return r
	}, strings.ToLower(strings.TrimSpace(s)))
}

// swapped gives the words of a name in a fixed order, so that delivery_fuel
// and fuel_delivery compare equal.
func swapped(s string) string {
	parts := strings.Split(s, "_")
	for i := range parts {
		for j := i; j > 0 && parts[j] < parts[j-1]; j-- {
			parts[j], parts[j-1] = parts[j-1], parts[j]
		}
	}
	return strings.Join(parts, "_")
}

func sortedLetters(s string) string {
	r := []rune(s)
	slices.Sort(r)
	return string(r)
}
