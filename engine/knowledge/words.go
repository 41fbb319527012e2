package knowledge

import (
	"cmp"
	"slices"
	"strings"
	"unicode"
)

// A MeaningKind is what sort of thing a word names.
type MeaningKind uint8

// What a word may name.
const (
	MeansReading MeaningKind = iota
	MeansSign
	MeansFact
	MeansCircumstance
	MeansCourse
	MeansNormal
	MeansTrial
	MeansCause
	MeansCheck
	MeansKind
)

var meaningNames = [...]string{"reading", "symptom", "fact", "circumstance", "how it came on", "said to be normal", "trial", "cause", "check", "part"}

// String names the sort of thing as a person would.
func (k MeaningKind) String() string { return meaningNames[k] }

// A Meaning is one thing that a word may name.
type Meaning struct {
	Kind  MeaningKind
	ID    string
	Means string
}

// likeWords are the words that are one, and those that say nothing.
type likeWords struct {
	head   map[string]string // a word or words to the head of their group
	begins map[string]int    // the first word of these, to how many words they have at most
	filler map[string]bool
}

// wordIndex finds what is meant by everyday words.
type wordIndex struct {
	*likeWords
	phrase map[string][]Meaning // folded phrase to what it names
	all    []entry
}

// entry is one thing that can be searched for, with all its words folded.
type entry struct {
	Meaning
	tokens []string
}

func (b *Base) foldWords() *likeWords {
	x := &likeWords{head: map[string]string{}, begins: map[string]int{}, filler: map[string]bool{}}
	for _, g := range b.sameWords {
		head := strings.Join(tokens(g.Head), " ")
		for _, w := range g.Words {
			t := tokens(w)
			if len(t) == 0 || len(t) > longestHead {
				continue
			}
			x.head[strings.Join(t, " ")] = head
			x.begins[t[0]] = max(x.begins[t[0]], len(t))
		}
	}
	for _, f := range b.fillers {
		x.filler[strings.ToLower(f)] = true
	}
	return x
}

func (b *Base) indexWords() *wordIndex {
	x := &wordIndex{likeWords: b.like(), phrase: map[string][]Meaning{}}
	for _, r := range b.Readings {
		x.add(MeansReading, r.ID, r.Means, r.Words)
	}
	for _, s := range b.Signs {
		x.add(MeansSign, s.ID, s.Means, s.Words)
	}
	for _, s := range b.Circumstances {
		x.add(MeansCircumstance, s.ID, s.Means, s.Words)
	}
	for _, s := range b.Courses {
		x.add(MeansCourse, s.ID, s.Means, s.Words)
	}
	for _, s := range b.Normals {
		x.add(MeansNormal, s.ID, s.Means, s.Words)
	}
	for _, s := range b.Trials {
		x.add(MeansTrial, s.ID.Value, s.Means, values(s.Words))
	}
	for _, s := range b.Causes {
		x.add(MeansCause, s.ID, s.FailsBy, s.Words)
	}
	for _, s := range b.Checks {
		x.add(MeansCheck, s.ID.Value, s.Do, values(s.Words))
	}
	for _, s := range b.Kinds.Parts {
		x.add(MeansKind, s.ID, s.Means, s.Words)
	}
	return x
}

func (x *wordIndex) add(kind MeaningKind, id, means string, words []string) {
	m := Meaning{kind, id, means}
	e := entry{Meaning: m}
	for _, w := range append([]string{id}, words...) {
		key := x.fold(w)
		if key == "" {
			continue
		}
		if !slices.Contains(x.phrase[key], m) {
			x.phrase[key] = append(x.phrase[key], m)
		}
		e.tokens = append(e.tokens, strings.Fields(key)...)
	}
	e.tokens = append(e.tokens, strings.Fields(x.fold(means))...)
	slices.Sort(e.tokens)
	e.tokens = slices.Compact(e.tokens)
	x.all = append(x.all, e)
}

// tokens splits text into lower-case words; what joins words (hyphen,
// underscore, stroke) parts them, an apostrophe is dropped.
func tokens(text string) []string {
	if strings.ContainsAny(text, "'’") {
		text = strings.NewReplacer("'", "", "’", "").Replace(text)
	}
	return strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// longestHead is how many words a group of like words may have at most.
const longestHead = 4

// fold brings a phrase to the form in which it is looked up: like words, the
// longest first, to their head, fillers left out unless nothing would remain.
func (x *likeWords) fold(text string) string {
	in := tokens(text)
	out := x.heads(in, x.filler)
	if len(out) == 0 {
		out = x.heads(in, nil)
	}
	return strings.Join(out, " ")
}

// heads returns the words with like words brought to their head, some left
// out.
func (x *likeWords) heads(in []string, without map[string]bool) []string {
	out := make([]string, 0, len(in))
	for len(in) > 0 {
		word, n := in[0], 1
		for k := min(x.begins[word], len(in)); k > 0; k-- {
			if h, ok := x.head[strings.Join(in[:k], " ")]; ok {
				word, n = h, k
				break
			}
		}
		in = in[n:]
		if !without[word] {
			out = append(out, word)
		}
	}
	return out
}

// Fold brings a phrase to the form in which like words are one.
func (b *Base) Fold(phrase string) string { return b.like().fold(phrase) }

// Meanings returns what a word or phrase names: by id, or by any of the words
// for it. More than one means the phrase is ambiguous; nothing is guessed.
func (b *Base) Meanings(phrase string) []Meaning { return b.words().phrase[b.like().fold(phrase)] }

// Phrases returns every phrase that names something, sorted, for finding a
// near one.
func (b *Base) Phrases() []string {
	out := make([]string, 0, len(b.words().phrase))
	for p := range b.words().phrase {
		out = append(out, p)
	}
	slices.Sort(out)
	return out
}

// Find returns what a search for a few words finds, best first: every word
// must begin a word of the thing's id, words or meaning.
func (b *Base) Find(text string) []Meaning {
	want := strings.Fields(b.like().fold(text))
	if len(want) == 0 {
		return nil
	}
	type hit struct {
		Meaning
		score int
	}
	var hits []hit
	exact := b.words().phrase[b.like().fold(text)]
	for _, e := range b.words().all {
		score := 0
		for _, w := range want {
			best := 0
			for _, t := range e.tokens {
				switch {
				case t == w:
					best = max(best, 3)
				case strings.HasPrefix(t, w) && len(w) >= 3:
					best = max(best, 2)
				case len(w) >= 4 && strings.Contains(t, w):
					best = max(best, 1)
				}
			}
			if best == 0 {
				score = 0
				break
			}
			score += best
		}
		if score > 0 {
			if slices.Contains(exact, e.Meaning) {
				score += 100
			}
			hits = append(hits, hit{e.Meaning, score*64 - min(63, len(e.tokens))})
		}
	}
	slices.SortFunc(hits, func(a, b hit) int {
		return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.ID, b.ID))
	})
	out := make([]Meaning, len(hits))
	for i, h := range hits {
		out[i] = h.Meaning
	}
	return out
}
