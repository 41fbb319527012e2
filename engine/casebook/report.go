package casebook

// This file sums scores up by what the cases are of.

import (
	"maps"
	"path"
	"slices"
	"strings"

	"snagwise/engine/diagnose"
	"snagwise/engine/sheet"
)

// A Group is a set of cases with how well they were answered, beside what other
// orders would have scored.
type Group struct {
	Name        string   `json:"group"`
	Measures    Measures `json:"measures"`
	ByFrequency Expected `json:"by_frequency"` // the commonest first, whatever was told
	ByTables    Expected `json:"by_tables"`    // by the published tables
}

// Folder returns the last folder that a case lies in, which says of what sort
// it is.
func (s Score) Folder() string { return path.Base(path.Dir(s.Case.File)) }

// Told counts what was told: signs seen and not seen, readings, things in
// order, statements about parts and trials.
func (s Score) Told() int {
	n := len(s.Account.Statements) + len(s.Account.Trials) + len(s.Account.Normals)
	for i := range s.Account.Moments {
		m := &s.Account.Moments[i]
		n += len(m.Signs) + len(m.NotSeen) + len(m.Readings) + len(m.Normals)
	}
	return n
}

// A grouping is a choice of cases by a name.
type grouping struct {
	name     string
	keep     func(Score) bool
	bySystem bool
}

// groupings returns the groups into which cases fall, in order.
func groupings(scores []Score) []grouping {
	folders := map[string]bool{}
	for _, s := range scores {
		folders[s.Folder()] = true
	}
	var out []grouping
	for _, folder := range slices.Sorted(maps.Keys(folders)) {
		in := func(s Score) bool { return s.Folder() == folder }
		out = append(out, grouping{folder + ", all", in, false})
		for _, e := range []sheet.Evidence{sheet.Rich, sheet.Medium, sheet.Thin} {
			out = append(out, grouping{folder + ", " + e.String(), func(s Score) bool { return in(s) && s.Account.Case.Evidence == e }, false})
		}
		systems := map[string]bool{}
		for _, s := range scores {
			if in(s) {
				systems[s.System] = true
			}
		}
		for _, system := range slices.Sorted(maps.Keys(systems)) {
			out = append(out, grouping{folder + ", " + system, func(s Score) bool { return in(s) && s.System == system }, true})
		}
	}
	return out
}

// Report sums scores up: for each folder all its cases, then by how much
// evidence they give where that is said, else by the system of what was found.
// The real accounts, being few and of every kind, are split by system as well.
func Report(scores []Score) []Group {
	var out []Group
	for _, g := range groupings(scores) {
		out = append(out, group(g.name, scores, g.keep))
	}
	return slices.DeleteFunc(out, func(g Group) bool { return g.Measures.N == 0 })
}

func group(name string, scores []Score, keep func(Score) bool) Group {
	g := Group{Name: name, Measures: Of(scores, keep)}
	var frequency, tables []Expected
	for _, s := range scores {
		if keep(s) {
			frequency = append(frequency, s.ByFrequency)
			tables = append(tables, s.ByTables)
		}
	}
	g.ByFrequency, g.ByTables = mean(frequency), mean(tables)
	return g
}

// Beside sets what the order of published tables would have scored.
func Beside(scores []Score, tables []Table, engine func(rig string) (*diagnose.Engine, error)) error {
	for i := range scores {
		s := &scores[i]
		e, err := engine(s.Case.Sheet.Rig.Value)
		if err != nil {
			return err
		}
		s.ByTables = Expect(TableOrder(tables, e, s.Account), s.Accepted...)
	}
	return nil
}

// Whole says whether a group is all cases of a folder.
func (g Group) Whole() bool { return strings.HasSuffix(g.Name, ", all") }
