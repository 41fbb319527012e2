package hunt

// This file finds the things whose words are most like a phrase that names
// none of them.

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"github.com/agnivade/levenshtein"

	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
)

// A phraseIndex holds every phrase for what can be told on a rig as stems.
type phraseIndex struct {
	known   map[string]bool // words as the rules have them
	words   []string        // the same, sorted
	phrases []stemmed
	with    map[string][]int // by stem: the phrases that hold it
	all     []Choice
	weight  []float64 // by thing: how much likelier people tell this sort
	alone   []float64 // by thing: the same where one word is all they say
}

type stemmed struct {
	thing  int
	stems  []string
	weight float64 // of all its stems
}

// tellWeight is how much of its likeness counts for a sort of thing: most of
// what is told at first is what was noticed. The project's own choice.
var tellWeight = map[Kind]float64{Seen: 1, Read: .9, Circumstance: .85, Course: .85, Normal: .8, Trial: .7}

// ofCheck is the same for signs that only a check shows.
const ofCheck = .85

// A word that stands alone, such as "drop", is a vague sign or a gauge before it
// is anything with a manner or a history. The project's own choice.
const (
	aloneVague = 2
	aloneGauge = 1.6
	aloneOther = .6 // what went before, was tried and the like
)

func newPhraseIndex() *phraseIndex {
	return &phraseIndex{known: map[string]bool{}, with: map[string][]int{}}
}

// add takes a thing with its phrases into the index.
func (n *phraseIndex) add(fold func(string) string, kind Kind, weight float64, id, means string, words []string) {
	n.all = append(n.all, Choice{kind, id, plain(means)})
	n.weight, n.alone = append(n.weight, weight), append(n.alone, 1)
	for _, w := range append([]string{id, means}, words...) {
		p := stemmed{thing: len(n.all) - 1}
		for t := range strings.FieldsSeq(fold(w)) {
			n.known[t] = true
			if st := stem(t); !slices.Contains(p.stems, st) {
				p.stems = append(p.stems, st)
				n.with[st] = append(n.with[st], len(n.phrases))
			}
		}
		n.phrases = append(n.phrases, p)
	}
}

// settle weighs the phrases once all are there.
func (n *phraseIndex) settle() {
	for w := range n.known {
		n.words = append(n.words, w)
	}
	slices.Sort(n.words)
	for i := range n.phrases {
		for _, st := range n.phrases[i].stems {
			n.phrases[i].weight += n.says(st)
		}
	}
}

// indexed makes the index of what can be told.
func (x *Finder) indexed() *phraseIndex {
	n := newPhraseIndex()
	add := func(kind Kind, weight float64, id, means string, words []string) {
		n.add(x.f.Base.Fold, kind, weight, id, means, words)
	}
	for i, s := range x.f.Signs {
		if x.f.SignOn[i] {
			w := tellWeight[Seen]
			if s.Kind == knowledge.CheckSign {
				w = ofCheck
			}
			add(Seen, w, s.ID, s.Means, s.Words)
			if s.Kind == knowledge.VagueSign {
				n.alone[len(n.alone)-1] = aloneVague
			}
		}
	}
	for i, r := range x.f.Readings {
		if x.f.ReadOn[i] {
			add(Read, tellWeight[Read], r.ID, r.Means, r.Words)
			n.alone[len(n.alone)-1] = aloneGauge
		}
	}
	for _, c := range x.f.Circumstances {
		add(Circumstance, tellWeight[Circumstance], c.ID, c.Means, c.Words)
	}
	for _, c := range x.f.Courses {
		add(Course, tellWeight[Course], c.ID, c.Means, c.Words)
	}
	for _, c := range x.f.Normals {
		add(Normal, tellWeight[Normal], c.ID, c.Means, c.Words)
	}
	for _, c := range x.f.Trials {
		add(Trial, tellWeight[Trial], c.ID.Value, c.Means, knowledge.Values(c.Words))
	}
	for i, c := range n.all {
		if c.Kind != Seen && c.Kind != Read {
			n.alone[i] = aloneOther
		}
	}
	n.settle()
	return n
}

// says is how much a stem says: the rarer the more.
func (n *phraseIndex) says(st string) float64 {
	return math.Log(1 + float64(len(n.phrases))/float64(1+len(n.with[st])))
}

// leastLike is how like a phrase must be to be offered, and the share of the
// best likeness that the others must have.
const (
	leastLike  = .3
	nearToBest = .55
)

// like returns the things whose phrases share most with the words.
func (n *phraseIndex) like(words []string) []Choice {
	var stems []string
	var asked float64
	for _, w := range words {
		if st := stem(w); !slices.Contains(stems, st) {
			stems = append(stems, st)
			asked += n.says(st)
		}
	}
	shared := map[int]float64{}
	for _, st := range stems {
		for _, p := range n.with[st] {
			shared[p] += n.says(st)
		}
	}
	best := map[int]float64{}
	for p, s := range shared {
		ph := &n.phrases[p]
		// Half for what of the phrase was said, half for what of what was said it holds.
		like := 2 * s / (asked + ph.weight) * n.weight[ph.thing]
		if len(stems) == 1 {
			like *= n.alone[ph.thing]
		}
		if like > best[ph.thing] {
			best[ph.thing] = like
		}
	}
	things := make([]int, 0, len(best))
	for t := range best {
		things = append(things, t)
	}
	slices.SortFunc(things, func(a, b int) int { return cmp.Or(cmp.Compare(best[b], best[a]), cmp.Compare(a, b)) })
	var out []Choice
	for _, t := range things {
		if len(out) == mostFound || best[t] < leastLike || best[t] < nearToBest*best[things[0]] {
			break
		}
		out = append(out, n.all[t])
	}
	return out
}

// near returns a word as it is spelt in the rules.
func (n *phraseIndex) near(word string) string {
	if n.known[word] || len(word) < 4 || len(n.with[stem(word)]) > 0 {
		return word
	}
	near := problem.Near(word, n.words)
	d := levenshtein.ComputeDistance(word, near)
	if near != "" && letters(word) == letters(near) {
		return near // letters swapped
	}
	if near == "" || near[0] != word[0] && d > 1 || d > 2 || d == 2 && len(word) < 7 {
		return word
	}
	return near
}

func letters(w string) string {
	r := []rune(w)
	slices.Sort(r)
	return string(r)
}

// stem takes the usual endings off a word.
func stem(w string) string {
	for _, end := range []string{"ing", "ed", "es", "s", "ly", "y", "e"} {
		if t := strings.TrimSuffix(w, end); t != w && len(t) >= 3 {
			if len(t) > 3 && t[len(t)-1] == t[len(t)-2] { // dripping, dropped
				t = t[:len(t)-1]
			}
			return t
		}
	}
	return w
}
