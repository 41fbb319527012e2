package sheet

// This file holds the words that are the same on every rig: how a reading is
// judged, what came of a change, how a part felt. The synonyms are common
// practice, no source.

import (
	"math/bits"
	"strconv"
	"strings"
	"sync"
)

// Judged is a set of words by which a reading was judged.
type Judged uint16

// The words for a judged reading.
const (
	JudgedNone Judged = 1 << iota
	JudgedLow
	JudgedNormal
	JudgedHigh
	JudgedOverStop
	JudgedBelowStop
	JudgedRising
	JudgedFalling
	JudgedUnsteady
	JudgedDead
)

// choice is one word of a closed list with its synonyms.
type choice struct {
	word string
	also []string
}

// choices are a closed list of words, found by any of their spellings.
type choices struct {
	list   []choice
	folded func() map[string]int
}

func oneOf(list ...choice) *choices {
	return &choices{list: list, folded: sync.OnceValue(func() map[string]int {
		m := map[string]int{}
		for i, c := range list {
			m[fold(c.word)] = i
			for _, a := range c.also {
				m[fold(a)] = i
			}
		}
		return m
	})}
}

var judgedWords = oneOf(
	choice{"none", []string{"nothing", "nil", "zero", "no reading at all"}},
	choice{"low", []string{"too low", "down", "a bit low", "slightly low", "lower than usual", "below normal"}},
	choice{"normal", []string{"ok", "okay", "good", "fine", "in order", "right", "as usual", "usual"}},
	choice{"high", []string{"too high", "up", "a bit high", "slightly high", "higher than usual", "above normal"}},
	choice{"over the stop", []string{"over stop", "above the stop", "over the limit", "over limit", "above the limit"}},
	choice{"below the stop", []string{"below stop", "under the stop", "below the limit", "below limit", "under the limit"}},
	choice{"rising", []string{"rises", "rose", "climbing", "creeping up", "going up"}},
	choice{"falling", []string{"falls", "fell", "dropping", "creeping down", "going down", "fades", "fading"}},
	choice{"unsteady", []string{"swinging", "hunting", "fluctuating", "flickering", "surging", "jumping", "not steady", "wandering"}},
	choice{"dead", []string{"gauge dead", "not moving", "does not move", "stuck"}},
)

// String returns the words of j, parted by commas.
func (j Judged) String() string {
	var words []string
	for rest := j; rest != 0; rest &= rest - 1 {
		if i := bits.TrailingZeros16(uint16(rest)); i < len(judgedWords.list) {
			words = append(words, judgedWords.list[i].word)
		}
	}
	return strings.Join(words, ", ")
}

// clash returns two words of j that cannot both be so, and false when all can.
func (j Judged) clash() (Judged, Judged, bool) {
	const least, most = JudgedNone | JudgedLow | JudgedBelowStop, JudgedHigh | JudgedOverStop
	for _, pair := range [][2]Judged{{least, most}, {JudgedNormal, least}, {JudgedNormal, most}, {JudgedNormal, JudgedDead}, {JudgedRising, JudgedFalling}} {
		if a, b := j&pair[0], j&pair[1]; a != 0 && b != 0 {
			return a & -a, b & -b, true
		}
	}
	return 0, 0, false
}

// unreadWords say that a gauge was looked at and could not be read.
var unreadWords = oneOf(choice{"could not be read", []string{"?", "could not read", "unreadable", "cannot be read", "not readable"}})

// An Outcome says what came of a change.
type Outcome uint8

// The outcomes of a change; zero is none told.
const (
	NoOutcome Outcome = iota
	Cured
	Better
	BetterForATime
	NoBetter
	Worse
)

var outcomeWords = oneOf(
	choice{"cured", []string{"cured it", "fixed", "fixed it", "put right", "gone"}},
	choice{"better", []string{"improved", "a bit better", "some better"}},
	choice{"better for a time", []string{"better for a while", "cured for a time", "cured for a while", "good for a while", "good for a time"}},
	choice{"no better", []string{"no change", "no difference", "the same", "same", "not cured", "made no difference", "no good", "still there", "no help", "not better", "did not help", "didn't help"}},
	choice{"worse", []string{"made it worse", "much worse"}},
)

// String returns the outcome in words, such as "no better".
func (o Outcome) String() string { return nth(outcomeWords, int(o)-1) }

// A Feeling says how a part felt, looked or sounded.
type Feeling uint8

// The feelings; zero is none told.
const (
	NoFeeling Feeling = iota
	Hot
	Cold
	Loose
	Stiff
	Noisy
	Shaking
	Broken
	Missing
	Wet
	Seized
	Worn
	Blocked
	Rough
)

var feelingWords = oneOf(
	choice{"hot", []string{"too hot", "very hot", "burning", "overheated"}},
	choice{"cold", []string{"cool", "stone cold", "too cold"}},
	choice{"loose", []string{"slack", "came loose", "play", "too much play", "free play"}},
	choice{"stiff", []string{"tight", "hard to move", "sticky", "sticking", "heavy"}},
	choice{"noisy", []string{"noise", "knocking", "whining", "rattling", "grinding", "squealing"}},
	choice{"shaking", []string{"vibrating", "trembling"}},
	choice{"broken", []string{"cracked", "snapped", "split", "sheared", "bent", "burst", "torn"}},
	choice{"missing", []string{"gone", "not there", "lost", "fallen off", "came off"}},
	choice{"wet", []string{"damp", "soaked"}},
	choice{"seized", []string{"jammed", "stuck", "will not move", "locked"}},
	choice{"worn", []string{"worn out", "chafed"}},
	choice{"blocked", []string{"choked", "clogged"}},
	choice{"rough", []string{"notchy", "gritty"}},
)

// String returns the feeling in a word, such as "hot".
func (f Feeling) String() string { return nth(feelingWords, int(f)-1) }

// A Fluid is what leaks.
type Fluid uint8

// What may leak; zero is none told.
const (
	NoFluid Fluid = iota
	Oil
	Fuel
	Coolant
	Air
	Exhaust
)

var fluidWords = oneOf(
	choice{"oil", nil},
	choice{"fuel", []string{"petrol", "gasoline", "gas", "avgas"}},
	choice{"coolant", []string{"water", "glycol", "antifreeze"}},
	choice{"air", nil},
	choice{"exhaust", []string{"exhaust gas", "gases", "flame"}},
)

// String returns the fluid in a word, such as "oil".
func (f Fluid) String() string { return nth(fluidWords, int(f)-1) }

// An Amount says how much leaks.
type Amount uint8

// The amounts, rising; zero is not told, or told in other words.
const (
	AmountUnsaid Amount = iota
	Weeps
	Drips
	Runs
	Sprays
)

var amountWords = oneOf(
	choice{"weeps", []string{"weep", "weeping", "a film", "damp", "a stain", "traces", "a trace", "a smear"}},
	choice{"drips", []string{"drip", "dripping", "drops", "a few drops", "a drip", "slight", "a little"}},
	choice{"runs", []string{"run", "running", "a stream", "a trickle", "a pool", "a puddle", "a lot", "much", "pours", "pouring"}},
	choice{"sprays", []string{"spray", "spraying", "a jet", "a spray", "blows out", "gushes"}},
)

// String returns the amount in a word, such as "drips".
func (a Amount) String() string { return nth(amountWords, int(a)-1) }

// When says how work on a part lies to the trouble.
type When uint8

// When work was done; zero is not told, or told in other words.
const (
	WhenUnsaid When = iota
	JustBefore      // since the last good run
	LongBefore
	Afterwards // after the trouble showed
)

var whenWords = oneOf(
	choice{"before this run", []string{"just before", "before", "before the run", "before running", "today", "this morning", "yesterday", "last week",
		"since the last run", "just done", "recently", "just now"}},
	choice{"long before", []string{"long ago", "last year", "last season", "years ago", "months ago", "last overhaul", "at overhaul"}},
	choice{"after it showed", []string{"afterwards", "after", "after this run", "after the run", "since it showed", "to cure it", "after the trouble showed"}},
)

// Work within these is taken to be before this run, work further back to be long
// before: what was put together wrongly has shown itself by then. Common
// practice, no source.
const (
	freshHours = 50 // of running
	freshDays  = 60
)

// whenOf reads when work was done: one of the words, or how long ago in running
// hours ("11 h before", "1.6 running hours ago") or by the calendar ("4 days
// before", "2 years ago").
func whenOf(text string) When {
	if i := pick(whenWords, text); i >= 0 {
		return When(i + 1)
	}
	words := strings.Fields(strings.ToLower(text))
	if len(words) < 2 {
		return WhenUnsaid
	}
	n, err := strconv.ParseFloat(words[0], 64)
	last := words[len(words)-1]
	if err != nil || n < 0 || last != "before" && last != "ago" {
		return WhenUnsaid
	}
	fresh := 0.0
	switch strings.TrimSuffix(words[len(words)-2], "s") {
	case "h", "hour":
		fresh = freshHours
	case "day":
		fresh = freshDays
	case "week":
		fresh = freshDays / 7.
	case "month":
		fresh = freshDays / 30.
	case "year":
		fresh = freshDays / 365.
	default:
		return WhenUnsaid
	}
	if n <= fresh {
		return JustBefore
	}
	return LongBefore
}

// String returns it in words, such as "before this run".
func (w When) String() string { return nth(whenWords, int(w)-1) }

// An Evidence says how much a case tells.
type Evidence uint8

// How much a case tells; zero is not said.
const (
	EvidenceUnsaid Evidence = iota
	Rich
	Medium
	Thin
)

var evidenceWords = oneOf(choice{"rich", nil}, choice{"medium", nil}, choice{"thin", nil})

// String returns the evidence in a word, such as "rich".
func (e Evidence) String() string { return nth(evidenceWords, int(e)-1) }

// An About says whose snag a case tells.
type About uint8

// Whose snag it was; zero is not said.
const (
	AboutUnsaid About = iota
	Invented
	Real
	Published
)

var aboutWords = oneOf(choice{"invented", nil}, choice{"real", nil}, choice{"published", nil})

// String returns it in a word, such as "real".
func (a About) String() string { return nth(aboutWords, int(a)-1) }

// A Certainty says how sure the finding of a case is.
type Certainty uint8

// How sure a finding is; zero is not said.
const (
	CertaintyUnsaid Certainty = iota
	Confirmed
	Likely
)

var certaintyWords = oneOf(choice{"confirmed", nil}, choice{"likely", nil})

// String returns it in a word, such as "confirmed".
func (c Certainty) String() string { return nth(certaintyWords, int(c)-1) }

// goodWords are what is said of a part that was looked at and found good.
var goodWords = oneOf(choice{"good", []string{"ok", "okay", "fine", "in order", "all right", "nothing found", "clean", "clear", "sound", "normal", "nothing wrong"}})

func nth(c *choices, i int) string {
	if i < 0 || i >= len(c.list) {
		return ""
	}
	return c.list[i].word
}

// pick returns the number of the choice a word stands for, or -1.
func pick(c *choices, word string) int {
	if word == "" {
		return -1
	}
	if i, ok := c.folded()[fold(word)]; ok {
		return i
	}
	return -1
}

// heads returns the word of each choice.
func heads(c *choices) []string {
	words := make([]string, len(c.list))
	for i, k := range c.list {
		words[i] = k.word
	}
	return words
}

// spoken returns every word and synonym, for near matches.
func spoken(c *choices) []string {
	words := heads(c)
	for _, k := range c.list {
		words = append(words, k.also...)
	}
	return words
}
