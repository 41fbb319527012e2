package sheet

// This file finds the things of one list by id and by everyday word.

import (
	"slices"
	"strings"
	"sync"
)

// index finds the things of one list. What folding needs is made only when a
// word is no id: most sheets are written in ids, and folding every word of the
// rules took 34 ms (2 cores, 2026-11-25).
type index struct {
	list  []Named
	ids   []string
	exact map[string]int
	plain func() map[string][]int // by fold
	loose func() map[string][]int // by the fold of the vocabulary
	alike func(string) string
}

func newIndex(list []Named, alike func(string) string) *index {
	x := &index{list: list, ids: make([]string, len(list)), exact: make(map[string]int, len(list)), alike: alike}
	for i, n := range list {
		x.ids[i] = n.ID
		x.exact[n.ID] = i
	}
	x.plain = sync.OnceValue(func() map[string][]int { return x.by(fold) })
	if alike != nil {
		x.loose = sync.OnceValue(func() map[string][]int { return x.by(alike) })
	}
	return x
}

// by indexes every id and word under its folded form.
func (x *index) by(fold func(string) string) map[string][]int {
	m := make(map[string][]int, 2*len(x.list))
	for i, n := range x.list {
		x.each(n, func(w string) {
			if key := fold(w); key != "" && !slices.Contains(m[key], i) {
				m[key] = append(m[key], i)
			}
		})
	}
	return m
}

// each calls do for the id and the words of n.
func (x *index) each(n Named, do func(string)) {
	do(n.ID)
	for _, w := range n.Words {
		if w != "" {
			do(w)
		}
	}
}

// known returns every id and word, for near matches.
func (x *index) known() []string {
	var all []string
	for _, n := range x.list {
		x.each(n, func(w string) { all = append(all, w) })
	}
	return all
}

// Levels of a find: the lower, the surer.
const (
	byID = iota
	byWord
	byLikeWord
	notFound
)

// find returns what a word names and how surely: by its id, by a word, by a
// like word. Only the surest level counts. The list must not be changed.
func (x *index) find(word string) ([]int, int) {
	if i, ok := x.exact[strings.TrimSpace(word)]; ok {
		return []int{i}, byID
	}
	if len(x.list) == 0 {
		return nil, notFound
	}
	if found := x.plain()[fold(word)]; len(found) > 0 {
		return found, byWord
	}
	if x.loose != nil {
		if found := x.loose()[x.alike(word)]; len(found) > 0 {
			return found, byLikeWord
		}
	}
	return nil, notFound
}

// fold brings a name to one form: lower case, UK spelling, one space for every
// hyphen, underscore and space.
func fold(s string) string {
	if isFolded(s) {
		return s
	}
	words := strings.FieldsFunc(strings.ToLower(s), func(r rune) bool {
		return r == ' ' || r == '_' || r == '-' || r == '\t' || r == '\n' || r == '\u00a0'
	})
	for i, w := range words {
		if uk, ok := spellings[w]; ok {
			words[i] = uk
		}
	}
	return strings.Join(words, " ")
}

// isFolded reports whether fold would leave s as it is, for plain words with
// one space between them: most words of the rules are.
func isFolded(s string) bool {
	from := 0
	for i := 0; i <= len(s); i++ {
		if i < len(s) && ('a' <= s[i] && s[i] <= 'z' || '0' <= s[i] && s[i] <= '9') {
			continue
		}
		if i < len(s) && s[i] != ' ' || i == from {
			return false
		}
		if _, us := spellings[s[from:i]]; us {
			return false
		}
		from = i + 1
	}
	return true
}

// spellings turn a US word, or an older one, into the UK one; from memory.
var spellings = map[string]string{
	"carburetor": "carburettor", "carburetors": "carburettors", "carburetter": "carburettor", "carburetters": "carburettors",
	"color": "colour", "colors": "colours", "colored": "coloured", "discolored": "discoloured", "odor": "odour", "odors": "odours",
	"vapor": "vapour", "vapors": "vapours", "gray": "grey", "center": "centre", "centered": "centred", "fiber": "fibre", "fibers": "fibres",
	"liter": "litre", "liters": "litres", "labored": "laboured", "laboring": "labouring", "aluminum": "aluminium", "sulfur": "sulphur",
	"mold": "mould", "moldy": "mouldy", "plow": "plough", "tire": "tyre", "tires": "tyres", "smolders": "smoulders", "smoldering": "smouldering",
}
