package diagnose

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/quantity"
	"snagwise/engine/rank"
)

// cause tells one cause in full, by its likeliest instance.
func (s *session) cause(m mergedCause) Cause {
	c := &s.fitted.Base.Causes[m.cause]
	best := m.instances[0]
	l := s.rank.Ledger(best.ID)
	part := &s.fitted.Rig.Parts[s.fitted.Causes[best.ID].Part]
	out := Cause{
		ID: c.ID, Name: s.causeName(m.cause, part.Name, len(m.instances) > 1), System: c.System, Part: part.ID, Chance: round(m.chance, 4), ChanceInWords: ChanceWord(round(m.chance, 4)),
		Total: round(l.Total, 2), Who: c.Who, RunOn: c.RunOn, RunOnWhy: c.RunOnWhy, SettledBy: c.SettledBy, Remedy: c.Remedy,
		RemedyMinutes: c.RemedyMinutes, HoldsIf: c.HoldsIf, Source: c.Source,
		For: []Line{}, Against: []Line{}, NotLookedAt: []Unknown{}, Ledger: []Line{},
	}
	if len(m.instances) > 1 {
		for _, i := range m.instances {
			out.Places = append(out.Places, Place{s.fitted.Rig.Parts[s.fitted.Causes[i.ID].Part].ID, round(i.Chance, 4)})
		}
	}
	s.lines(&out, l)
	for _, sg := range l.Unexplained {
		out.NotExplained = append(out.NotExplained, s.fitted.Signs[sg].ID)
	}
	for _, u := range l.Unseen {
		if len(out.NotLookedAt) == notLookedAt {
			break
		}
		sg := &s.fitted.Signs[u.Sign]
		if !s.fitted.SignOn[u.Sign] {
			continue
		}
		out.NotLookedAt = append(out.NotLookedAt, Unknown{ID: sg.ID, Means: sg.Means, Check: s.quickest(sg.Checks)})
	}
	if l.NeededLess >= 0 {
		other := s.fitted.Causes[l.NeededLess].Cause
		if other != m.cause {
			out.FellBecause = s.fitted.Base.Causes[other].ID
		}
	}
	return out
}

// notLookedAt is how many unknown signs are listed for a cause.
const notLookedAt = 5

// causeName names a cause as a person would: the part, then how it fails; the
// part is left out where the way it fails names it already. The side of a
// paired part is left out where both are weighed together.
func (s *session) causeName(cause int, part string, paired bool) string {
	c := &s.fitted.Base.Causes[cause]
	if k, ok := s.fitted.Kinds.Kind(c.Kind); ok && paired {
		part = strings.TrimSuffix(s.fitted.Kinds.Parts[k].Means, ".")
	}
	if part == "" || strings.EqualFold(part, "operator") || c.Class == "operator error" || namesPart(c.FailsBy, part) {
		return upper(c.FailsBy)
	}
	return upper(part) + ": " + c.FailsBy
}

// namesPart says whether the first words of how a cause fails name its part.
func namesPart(failsBy, part string) bool {
	begin := strings.Fields(strings.ToLower(failsBy))
	for _, w := range strings.Fields(strings.ToLower(part)) {
		w = strings.TrimSuffix(strings.Trim(w, "(),"), "s")
		if len(w) < 4 {
			continue
		}
		for _, b := range begin[:min(3, len(begin))] {
			if strings.HasPrefix(b, w) {
				return true
			}
		}
	}
	return false
}

func upper(t string) string {
	if t == "" {
		return t
	}
	return strings.ToUpper(t[:1]) + t[1:]
}

// lines fills in what speaks for and against a cause, and the ledger.
func (s *session) lines(out *Cause, l rank.Ledger) {
	share := func(sh rank.Share) Line {
		sg := &s.fitted.Signs[sh.Sign]
		return Line{ID: sg.ID, Means: s.signMeans(sh.Sign), Points: round(sh.Points, 2), How: s.how(sg.Slot)}
	}
	for _, sh := range l.For {
		if sh.Points >= leastPoints {
			out.For = append(out.For, share(sh))
		}
	}
	for _, sh := range l.Against {
		if sh.Points <= -leastPoints {
			out.Against = append(out.Against, share(sh))
		}
	}
	for _, ln := range l.Lines {
		line := Line{Points: round(ln.Points, 2)}
		switch ln.Kind {
		case rank.Start:
			line.ID, line.Means, line.How = "start", "how common it is", "before anything was told"
			out.Start = line.Points
		case rank.Adjusted:
			lb := s.evidence.say(ln.ID)
			line.ID, line.Means, line.How = lb.id, lb.means, lb.how
			if n, ok := s.fitted.Scope.Lookup(lb.id); ok && lb.how == "" {
				line.How = s.how(n.Slot)
			}
			s.extra(out, line)
		case rank.Holds:
			line.ID, line.Means, line.How = s.patternOf(ln.ID)
			s.extra(out, line)
		default:
			var ids, means []string
			for _, sg := range ln.Signs {
				ids = append(ids, s.fitted.Signs[sg].ID)
				means = append(means, s.signMeans(sg))
			}
			line.ID, line.Means, line.How = strings.Join(ids, " "), strings.Join(means, "; "), "taken together"
		}
		out.Ledger = append(out.Ledger, line)
	}
	sortLines(out.For)
	sortLines(out.Against)
}

// leastPoints is what a sign must be worth to be named.
const leastPoints = .2

// extra files a line that is no sign under for or against.
func (s *session) extra(out *Cause, line Line) {
	switch {
	case line.Points >= leastPoints:
		out.For = append(out.For, line)
	case line.Points <= -leastPoints:
		out.Against = append(out.Against, line)
	}
}

// sortLines puts what counts most first.
func sortLines(list []Line) {
	slices.SortStableFunc(list, func(a, b Line) int { return cmp.Compare(math.Abs(b.Points), math.Abs(a.Points)) })
}

func (s *session) patternOf(n int) (id, means, how string) {
	for i, at := range s.patterns {
		if at == n {
			p := &s.fitted.Patterns[i]
			how = "these things together"
			for _, c := range s.state.Proof(chain.Whole, p.Slot).Clauses {
				if len(s.workedOut(c)) > 0 {
					how += "; " + s.clause(c)
				}
			}
			return p.ID, p.Means, how
		}
	}
	return "pattern", "", ""
}

// signMeans says what a sign is, and that it was not seen where it was not.
func (s *session) signMeans(i int) string {
	sg := &s.fitted.Signs[i]
	if s.state.Truth(chain.Whole, sg.Slot) == condition.True {
		return sg.Means
	}
	return "not: " + sg.Means
}

// means says what a name of a condition is.
func (s *session) means(id string) string {
	if i := s.fitted.Sign(id); i >= 0 {
		return s.fitted.Signs[i].Means
	}
	if i := s.fitted.Reading(id); i >= 0 {
		return s.fitted.Readings[i].Means
	}
	for i := range s.fitted.Circumstances {
		if c := &s.fitted.Circumstances[i]; c.ID == id {
			return c.Means
		}
	}
	for i := range s.fitted.Patterns {
		if p := &s.fitted.Patterns[i]; p.ID == id {
			return p.Means
		}
	}
	return strings.ReplaceAll(id, "_", " ")
}

// how says where a truth comes from: told, said to be normal, or the rule with
// its figures.
func (s *session) how(slot int) string {
	n := s.state.Proof(chain.Whole, slot)
	switch n.How {
	case chain.Told:
		return "told" + at(n.Moment)
	case chain.ByRule:
		var parts []string
		for _, c := range n.Clauses {
			if c.Name == "phase" {
				continue
			}
			parts = append(parts, s.clause(c))
		}
		return strings.Join(parts, "; ") + at(n.Moment)
	}
	return "what was said to be in order"
}

func at(moment int) string {
	if moment < 0 {
		return ""
	}
	return fmt.Sprintf(" (moment %d)", moment+1)
}

// clause says one decided part of a condition with the figure found, in the
// unit of the gauge.
func (s *session) clause(c condition.Clause) string {
	text := c.Text
	if c.Truth == condition.False {
		text = "not " + text
	}
	var found []string
	i := s.fitted.Reading(c.Name)
	if i >= 0 && !math.IsNaN(c.Value) {
		if v, ok := shown(c.Value, c.Dim, s.fitted.Readings[i].Unit); ok {
			found = append(found, v)
		}
	} else if c.Word != "" {
		found = append(found, c.Word)
	}
	for _, w := range s.workedOut(c) {
		if w.ID != c.Name || !slices.Contains(found, w.Value) {
			found = append(found, w.ID+" "+w.Value)
		}
	}
	if len(found) == 0 {
		return text
	}
	return fmt.Sprintf("%s (%s)", text, strings.Join(found, "; "))
}

// shown writes an SI value in a unit as a gauge would be read.
func shown(si float64, dim quantity.Dimension, unit string) (string, bool) {
	u, ok := quantity.UnitFor(unit, dim)
	if !ok {
		return "", false
	}
	return quantity.Quantity{SI: si, Dim: dim, Unit: u}.Shown(), true
}

func (s *session) proof(n *chain.Node) Proof {
	p := Proof{Ground: Ground{ID: n.ID, Means: s.means(n.ID), Truth: truthWord(n.Truth), How: string(n.How)}}
	if n.Moment >= 0 {
		p.Moment = n.Moment + 1
	}
	if len(n.Rules) > 0 && n.How == chain.ByRule {
		p.How = "by the rule " + strings.Join(n.Rules, ", ")
	}
	for _, c := range n.Clauses {
		p.Clauses = append(p.Clauses, s.clause(c))
		for _, w := range s.workedOut(c) {
			if !slices.Contains(p.WorkedOut, w) {
				p.WorkedOut = append(p.WorkedOut, w)
			}
		}
	}
	for _, f := range n.From {
		p.From = append(p.From, s.proof(f))
	}
	return p
}

func truthWord(t condition.Truth) string {
	switch t {
	case condition.True:
		return "true"
	case condition.False:
		return "false"
	}
	return "not known"
}

// ChanceWord returns the round word for a chance, judged to the nearest 5 % as
// it is shown, so that a word and its figure never part. The bounds are the
// project's own.
func ChanceWord(p float64) string {
	switch n := math.Round(p * 20); {
	case n >= 18:
		return "nearly certain"
	case n > 12:
		return "likely"
	case n >= 8:
		return "even"
	case n >= 3:
		return "possible"
	}
	return "unlikely"
}
