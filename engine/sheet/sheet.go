// Package sheet reads what a person tells of one snag: moments in order, each
// with its phase, levers, readings and symptoms, and statements about parts.
//
// It works in two steps. [Parse] reads a file, and [ParseArgs] the words of a
// command line, into a [Sheet]: everything as it was written, each word with its
// place. [Lexicon.Resolve] then looks every word up in a [Vocabulary] and gives
// an [Account]: indices and quantities, sorted, so that the order in which things
// were said makes no difference; only moments keep theirs.
//
//	raw, problems := sheet.Parse("snag.yaml", text)
//	account, more := sheet.NewLexicon(vocabulary).Resolve(raw)
//
// Nothing is guessed: a word that means two things is a problem that names both,
// an unknown word one that names the nearest.
package sheet

import (
	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// Text is a word or sentence with its place.
type Text = document.Text

// A Sheet is one telling as it was written, before any name is looked up. The
// fields after Notes belong to a case: a sheet whose cause was found.
type Sheet struct {
	Title         Text        `yaml:"title"`
	What          Text        `yaml:"what"`
	Date          Text        `yaml:"date"`
	Rig           Text        `yaml:"rig"`
	Weather       Entries     `yaml:"weather"`
	Moments       []Moment    `yaml:"moments"`
	Parts         []Statement `yaml:"parts"`
	Circumstances []Text      `yaml:"circumstances"`
	Trials        []Text      `yaml:"trials"`
	Course        []Text      `yaml:"course"`
	Normal        []Text      `yaml:"normal"`
	Notes         []Text      `yaml:"notes"`

	About     Text   `yaml:"about"`      // invented, real or published
	Source    []Text `yaml:"source"`     // where it was told
	Evidence  Text   `yaml:"evidence"`   // rich, medium or thin
	Found     []Text `yaml:"found"`      // ids of the causes that were there
	AlsoRight []Text `yaml:"also_right"` // causes that would be as good an answer
	AlsoFound []Text `yaml:"also_found"` // causes that were there too, with no part in it
	Certainty Text   `yaml:"certainty"`  // confirmed or likely
	// Phrases counts what the source tells, beside what the sheet says of it.
	Phrases *Phrases `yaml:"phrases"`
	Remedy  Text     `yaml:"remedy"`
	// NormalThing is the id of what looked like a fault and was none, where
	// nothing was found.
	NormalThing Text   `yaml:"normal_thing"`
	Checks      []Done `yaml:"checks"` // in the order done

	At problem.Pos
}

// A Moment is one stretch of time in which what is told holds together.
type Moment struct {
	Phase        []Text  `yaml:"phase"` // several where it could be either
	After        Text    `yaml:"after"` // time since the moment before
	Controls     Entries `yaml:"controls"`
	Readings     Entries `yaml:"readings"`
	Symptoms     []Text  `yaml:"symptoms"`
	Course       []Text  `yaml:"course"`
	NotSeen      []Text  `yaml:"not_seen"`
	CouldNotRead []Text  `yaml:"could_not_read"`
	Normal       []Text  `yaml:"normal"`
	Notes        []Text  `yaml:"notes"`

	// Given and Bare are words of a command line that do not say of what sort
	// they are: name=value, and a name alone. [Lexicon.Settle] sorts them out.
	Given Entries
	Bare  []Text

	At problem.Pos
}

// An Entry is a name with what is said of it: usually one value, several where
// a reading was both read and judged.
type Entry struct {
	Name   Text
	Values []Text
}

// Entries are the entries of one map, in the order of the file.
type Entries []Entry

// DecodeNode fills the entries from a map of names to a value or a list of
// values.
func (e *Entries) DecodeNode(n *document.Node) problem.List {
	var l problem.List
	switch n.Kind {
	case document.Null:
		return nil
	case document.MapKind:
	default:
		l.Add(n.Pos(), "wrong-type", "this is not a map", "wanted names with values, such as {oil_pressure: 60 psi}")
		return l
	}
	for i, k := range n.Keys {
		var entry Entry
		l = append(l, document.Decode(k, &entry.Name)...)
		bad := document.Decode(n.Values[i], &entry.Values)
		l = append(l, bad...)
		if len(bad) > 0 {
			continue
		}
		if len(entry.Values) == 0 && n.Values[i].Kind == document.Null {
			l.Add(n.Values[i].Pos(), "missing-value", "the value is missing", "write a value, or the name under could_not_read")
			continue
		}
		*e = append(*e, entry)
	}
	return l
}

// A Statement is what is told of a part, or of how far along a flow all is well.
type Statement struct {
	Part        []Text `yaml:"part"`
	WorkedOn    []Text `yaml:"worked_on"` // refitted, cleaned, adjusted, ...
	When        Text   `yaml:"when"`
	Changed     Text   `yaml:"changed"`   // cured, better, better for a time, no better, worse
	LookedAt    []Text `yaml:"looked_at"` // good, a sign, or how it was found
	Leaks       []Text `yaml:"leaks"`     // oil, fuel, coolant, air, exhaust
	HowMuch     Text   `yaml:"how_much"`
	Felt        []Text `yaml:"felt"` // hot, cold, loose, stiff, ...
	Flow        Text   `yaml:"flow"`
	GoodAsFarAs []Text `yaml:"good_as_far_as"`
	GoneAt      []Text `yaml:"gone_at"`
	Notes       []Text `yaml:"notes"`
	At          problem.Pos
}

// Phrases counts the phrases that a source tells of a snag, figures, order and
// what was tried among them, and those that its sheet says where it counts. Of
// each that it cannot say it tells why; a note does not say it.
type Phrases struct {
	Told   Text     `yaml:"told,required"`
	Said   Text     `yaml:"said,required"`
	Cannot []Unsaid `yaml:"cannot"`
	At     problem.Pos
}

// Unsaid is a phrase that no field of a sheet can say.
type Unsaid struct {
	Phrase Text `yaml:"phrase,required"`
	Why    Text `yaml:"why,required"`
}

// Done is a check that was done, with the minutes it took and what came of it.
type Done struct {
	Check   Text   `yaml:"check,required"`
	Minutes Text   `yaml:"minutes"`
	Outcome Text   `yaml:"outcome"`
	Seen    []Text `yaml:"seen"`     // signs that the check showed
	NotSeen []Text `yaml:"not_seen"` // signs that it showed not to be there
	At      problem.Pos
}
