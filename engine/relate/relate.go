// Package relate works out what statements about parts mean for the causes of
// a rig: a few general relations that serve every part of every rig, through
// the rig's own connections.
//
// Work on a part lifts its causes and, less, those of the parts joined to it;
// a part changed without cure clears its own causes and no other; a flow good
// as far as one part and gone at another leaves just what lies between. How
// much each is worth stands in the rule files.
//
//	shifts := relate.Shifts(rig, relations, causes, statements)
package relate

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"snagwise/engine/knowledge"
	"snagwise/engine/rig"
)

// A Statement is one thing said of parts of a rig. Told is the key of the
// relation: worked_on, changed, looked_at, leaks, felt, flow or could_not_read.
type Statement struct {
	Told  string
	How   string // its word: no better, good, oil, cold, ...
	When  string // when it was done, in a word of the sheet; "" when not told
	Parts []int  // parts of the rig that it is said of; a flow has none
	Flow  string
	GoodA []int // parts as far as which the flow is good
	GoneB []int // parts at which it is gone
}

// A Shift multiplies the odds of one cause for a stated reason.
type Shift struct {
	Cause     int     // index in the list of instances
	Factor    float64 // above 0; 1 changes nothing
	Statement int     // index in the list of statements
	Why       string
}

// Shifts returns what statements do to the odds of causes, in the order of
// causes and statements. Statements that are one witness (changed and looked at
// of one part) count once, the strongest; the order of statements never
// matters.
func Shifts(r *rig.Rig, relations []knowledge.RelationSource, causes []knowledge.Instance, statements []Statement) []Shift {
	var out []Shift
	for i, c := range causes {
		var witness, other []Shift
		for j, s := range statements {
			f, why := factor(r, relations, c.Part, s)
			if f == 1 {
				continue
			}
			sh := Shift{Cause: i, Factor: f, Statement: j, Why: why}
			if s.Told == "changed" || s.Told == "looked_at" {
				witness = append(witness, sh)
			} else {
				other = append(other, sh)
			}
		}
		out = append(out, strongest(witness)...)
		out = append(out, once(other, statements)...)
	}
	return out
}

// strongest keeps the shift that is furthest from 1.
func strongest(list []Shift) []Shift {
	if len(list) < 2 {
		return list
	}
	best := slices.MaxFunc(list, func(a, b Shift) int {
		x, y := math.Abs(math.Log(a.Factor)), math.Abs(math.Log(b.Factor))
		switch {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return []Shift{best}
}

// once keeps one shift of each kind of statement: the strongest.
func once(list []Shift, statements []Statement) []Shift {
	var out []Shift
	for _, s := range list {
		told := statements[s.Statement].Told
		k := slices.IndexFunc(out, func(o Shift) bool { return statements[o.Statement].Told == told })
		switch {
		case k < 0:
			out = append(out, s)
		case math.Abs(math.Log(s.Factor)) > math.Abs(math.Log(out[k].Factor)):
			out[k] = s
		}
	}
	return out
}

func factor(r *rig.Rig, relations []knowledge.RelationSource, part int, s Statement) (float64, string) {
	rel := relation(relations, s)
	if rel == nil {
		return 1, ""
	}
	if s.Told == "flow" {
		return flowFactor(r, rel, part, s)
	}
	if slices.Contains(s.Parts, part) {
		return or1(rel.Own), fmt.Sprintf("%s, %s", r.Parts[part].Name, told(s))
	}
	if or1(rel.Joined) != 1 {
		for _, p := range s.Parts {
			if slices.Contains(r.Neighbours(p), part) {
				return rel.Joined, fmt.Sprintf("%s is joined to %s, %s", r.Parts[part].Name, r.Parts[p].Name, told(s))
			}
		}
	}
	return 1, ""
}

func told(s Statement) string {
	switch s.Told {
	case "worked_on", "changed", "looked_at":
		return map[string]string{"worked_on": "worked on: ", "changed": "changed: ", "looked_at": "looked at: "}[s.Told] + s.How
	case "leaks":
		return "leaks " + s.How
	case "felt":
		return "felt " + s.How
	}
	return "could not be read"
}

// relation finds the relation for a statement: one for the time at which it was
// done, if there is any, else one for no time in particular.
func relation(relations []knowledge.RelationSource, s Statement) *knowledge.RelationSource {
	if s.When != "" {
		if rel := ofTime(relations, s, s.When); rel != nil {
			return rel
		}
	}
	return ofTime(relations, s, "")
}

// ofTime finds among the relations of one time that which names the word of a
// statement, else one of whose words stands in what was said, else one that
// names none.
func ofTime(relations []knowledge.RelationSource, s Statement, when string) *knowledge.RelationSource {
	var within, any *knowledge.RelationSource
	said := " " + strings.ToLower(s.How) + " "
	for i := range relations {
		rel := &relations[i]
		if rel.Told.Value != s.Told || !timely(rel, when) {
			continue
		}
		if len(rel.How) == 0 {
			any = rel
		}
		for _, h := range rel.How {
			if h.Value == s.How {
				return rel
			}
			if within == nil && s.Told == "worked_on" && strings.Contains(said, " "+h.Value+" ") {
				within = rel
			}
		}
	}
	if within != nil {
		return within
	}
	return any
}

// timely says whether a relation is for a time, or for no time in particular.
func timely(rel *knowledge.RelationSource, when string) bool {
	if when == "" {
		return len(rel.When) == 0
	}
	return slices.ContainsFunc(rel.When, func(w knowledge.Text) bool { return w.Value == when })
}

// flowFactor tells the parts between the last good place and the first bad one
// from the rest of those that the flow runs through.
func flowFactor(r *rig.Rig, rel *knowledge.RelationSource, part int, s Statement) (float64, string) {
	if slices.Contains(Left(r, s), part) {
		return or1(rel.Between), fmt.Sprintf("%s lies where %s is lost", r.Parts[part].Name, s.Flow)
	}
	if carries(r, s.Flow, part) {
		return or1(rel.Elsewhere), fmt.Sprintf("%s is good as far as %s", s.Flow, names(r, s.GoodA))
	}
	return 1, ""
}

// Left returns the parts of a rig in which a flow can have been lost: those
// after a place where it is good, up to and with the place where it is gone;
// with only one of the two known, all beyond the one or before the other.
func Left(r *rig.Rig, s Statement) []int {
	var out []int
	switch {
	case len(s.GoodA) > 0 && len(s.GoneB) > 0:
		for _, a := range s.GoodA {
			for _, b := range s.GoneB {
				out = append(out, r.Between(s.Flow, a, b)...)
			}
		}
	case len(s.GoodA) > 0:
		for _, a := range s.GoodA {
			out = append(out, r.Downstream(s.Flow, a)...)
		}
	default:
		for _, b := range s.GoneB {
			out = append(append(out, b), r.Upstream(s.Flow, b)...)
		}
	}
	slices.Sort(out)
	out = slices.Compact(out)
	return slices.DeleteFunc(out, func(p int) bool { return slices.Contains(s.GoodA, p) })
}

func carries(r *rig.Rig, flow string, part int) bool {
	for _, l := range r.Links {
		if l.Flow == flow && (l.From == part || l.To == part) {
			return true
		}
	}
	return false
}

func names(r *rig.Rig, parts []int) string {
	if len(parts) == 0 {
		return "nowhere told"
	}
	return r.Parts[parts[0]].Name
}

func or1(f float64) float64 {
	if f == 0 {
		return 1
	}
	return f
}
