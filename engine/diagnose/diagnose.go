package diagnose

import (
	"fmt"
	"math"

	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
	"snagwise/engine/rank"
	"snagwise/engine/sheet"
)

// A Situation is how things stand at the rig when advice is asked for. The
// zero value means: stopped and earthed, every tool at hand, no limit, no
// licensed engineer there.
type Situation struct {
	State        string   // state of the rig now, by id; "" for stopped and earthed
	Tools        []string // tools at hand; nil for all
	EngineerHere bool
	Minutes      float64 // left for checks; 0 for no limit
	// Skip names checks that are not to be offered, by id: tried without an
	// answer, or not possible here.
	Skip []string
	// NotThese names causes known not to be there, by id: put right without
	// effect. The ranking still lists them, the advice leaves them out.
	NotThese []string
	// Wider asks for what answering the questions about dangers would open, and
	// for up to so many signs that may have been noticed and not told.
	Wider int
	// Sure is the chance of the first cause from which nothing is noticed; 0
	// for none.
	Sure float64
	// Put names signs that were asked for and that nobody could tell: they are
	// not noticed again.
	Put []string
	// Causes is how many causes are told in full; 0 means 8, below 0 all that
	// anything bears on.
	Causes int
}

// A session is one sheet worked through.
type session struct {
	*Engine
	told     *telling
	state    *chain.State
	evidence gathered
	rank     *rank.Result
}

func (e *Engine) session(a *sheet.Account) *session {
	s := &session{Engine: e, told: e.tell(a)}
	s.state = e.follow(s.told)
	s.evidence = e.gather(s.told, s.state)
	s.rank = e.weigh(s.evidence.Evidence)
	return s
}

// Diagnose goes the whole way from an account to a result. The same account
// and situation give the same result.
func (e *Engine) Diagnose(a *sheet.Account, now Situation) *Result {
	s := e.session(a)
	list, none := e.claimed(s.rank)
	r := &Result{
		Rig:          RigRef{e.fitted.Rig.ID, e.fitted.Rig.Name},
		FirstActions: s.firstActions(),
		NoneOfThese:  round(none, 4),
		NormalThings: s.normalThings(),
		Disagree:     s.disagreements(),
		Notes:        a.Notes, LeftOutChance: round(s.rank.Estimated, 6),
		Assumed: s.assumed(now),
	}
	for i := range a.Moments {
		r.Notes = append(r.Notes, a.Moments[i].Notes...)
	}
	r.Chances = make(map[string]float64, len(list))
	for _, m := range list {
		r.Chances[e.fitted.Base.Causes[m.cause].ID] = m.chance
	}
	for i := range e.fitted.Hazards {
		r.Dangers = append(r.Dangers, e.danger(i, s.state))
	}
	for i, m := range list {
		if now.Causes == 0 && i >= usualCauses || now.Causes > 0 && i >= now.Causes || m.ranked < leastChance {
			break
		}
		r.Causes = append(r.Causes, s.cause(m))
	}
	s.advise(r, now)
	r.CallEngineer = s.callEngineer(r)
	return r.filled()
}

// usualCauses is how many causes are told in full where nothing else is said;
// leastChance is what the ranking must give a cause for it to be listed at all.
const (
	usualCauses = 8
	leastChance = .0005
)

// Why returns the whole ground of one cause, by id, or an error when the rig
// cannot have it.
func (e *Engine) Why(a *sheet.Account, id string) (*Why, error) {
	k := e.fitted.Base.Cause(id)
	if k < 0 {
		return nil, fmt.Errorf("unknown cause %q", id)
	}
	s := e.session(a)
	list, _ := e.claimed(s.rank)
	for _, m := range list {
		if m.cause != k {
			continue
		}
		w := &Why{Cause: s.cause(m)}
		seen := map[string]bool{}
		for _, l := range append(append([]Line{}, w.Cause.For...), w.Cause.Against...) {
			if n, ok := e.fitted.Scope.Lookup(l.ID); ok && !seen[l.ID] && s.proves(n) {
				seen[l.ID] = true
				w.Proofs = append(w.Proofs, s.proof(s.state.Proof(chain.Whole, n.Slot)))
			}
		}
		return w, nil
	}
	return nil, fmt.Errorf("the %s cannot have the cause %q: it lacks the part", e.fitted.Rig.Name, id)
}

// filled gives every list that is empty a list, so that the JSON form never
// holds null.
func (r *Result) filled() *Result {
	if r.FirstActions == nil {
		r.FirstActions = []FirstAction{}
	}
	if r.Causes == nil {
		r.Causes = []Cause{}
	}
	for _, list := range []*[]Check{&r.NextChecks, &r.NeedsTools} {
		if *list == nil {
			*list = []Check{}
		}
	}
	if r.HeldBack == nil {
		r.HeldBack = []HeldBack{}
	}
	if r.NormalThings == nil {
		r.NormalThings = []NormalThing{}
	}
	if r.Disagree == nil {
		r.Disagree = []Disagree{}
	}
	for _, list := range []*[]string{&r.AskFirst, &r.CallEngineer, &r.Assumed, &r.Notes} {
		if *list == nil {
			*list = []string{}
		}
	}
	return r
}

// firstActions lists what is due at once. It rests on what is known alone and
// never on the ranking.
func (s *session) firstActions() []FirstAction {
	var out []FirstAction
	for i := range s.fitted.FirstActions {
		fa := &s.fitted.FirstActions[i]
		if !s.fitted.ActionOn[i] || whole(fa.Program, s.state) != condition.True {
			continue
		}
		out = append(out, FirstAction{ID: fa.ID, Do: fa.Do, Because: s.grounds(fa.Program), Source: fa.Source})
	}
	return out
}

// grounds lists what makes a condition true that holds somewhere.
func (s *session) grounds(p *condition.Program) []Ground {
	out := []Ground{}
	at := -1
	for m := range s.state.World.Moments {
		if p.Eval(s.state.World, m) == condition.True {
			at = m
			break
		}
	}
	seen := map[string]bool{}
	for _, c := range p.Explain(s.state.World, max(at, 0)) {
		if c.Name == "" || seen[c.Name] || c.Truth != condition.True {
			continue
		}
		seen[c.Name] = true
		g := Ground{ID: c.Name, Means: s.means(c.Name), Truth: "true", How: s.clause(c)}
		if sg := s.fitted.Sign(c.Name); sg >= 0 {
			g.How = s.how(s.fitted.Signs[sg].Slot)
		}
		if c.Moment >= 0 && len(s.told.account.Moments) > 0 {
			g.Moment = c.Moment + 1
		}
		out = append(out, g)
	}
	return out
}

func (s *session) normalThings() []NormalThing {
	var out []NormalThing
	for i := range s.fitted.NormalThings {
		n := &s.fitted.NormalThings[i]
		if n.Program != nil && whole(n.Program, s.state) == condition.True {
			out = append(out, NormalThing{Seen: n.Seen, Why: n.Why, NotNormalIf: n.NotNormalIf})
		}
	}
	return out
}

func (s *session) disagreements() []Disagree {
	var out []Disagree
	for _, d := range s.state.Disagreements() {
		if k := s.fitted.Owner(d.Slot).Kind; k != knowledge.OwnSign && k != knowledge.OwnCircumstance {
			continue
		}
		why := "told not to be so, while the readings say it is"
		if d.Told == condition.True {
			why = "told to be so, while the readings say it is not"
		}
		out = append(out, Disagree{ID: d.ID, Means: s.means(d.ID), Why: why})
	}
	return out
}

// assumed says what was taken for granted.
func (s *session) assumed(now Situation) []string {
	var out []string
	if now.State == "" {
		out = append(out, "the rig is stopped and its magnetos are earthed")
	}
	for i := range s.told.account.Moments {
		m := &s.told.account.Moments[i]
		if m.Phases == 0 && len(m.Readings) > 0 {
			out = append(out, fmt.Sprintf("moment %d has no phase: a reading is judged only where its bands agree in all phases", i+1))
		}
		for _, v := range m.Readings {
			rd := &s.fitted.Readings[v.Reading]
			switch g, ok := s.fitted.Rig.Gauge(rd.ID); {
			case !ok && v.IsFigure:
				out = append(out, fmt.Sprintf("%s: no such gauge is fitted, so the figure was held against nothing", rd.Means))
			case ok && v.IsFigure && (g.BandsAssumed || g.LimitsAssumed):
				out = append(out, fmt.Sprintf("%s: the bands are the usual ones, not this rig's own", rd.Means))
			}
		}
	}
	return unique(append(out, s.told.assumed...))
}

// callEngineer says why a licensed engineer is needed, if so.
func (s *session) callEngineer(r *Result) []string {
	var out []string
	for i, c := range r.Causes {
		if i < 3 && c.Chance >= .15 && c.Who == "licensed engineer" {
			out = append(out, fmt.Sprintf("%s: a licensed engineer puts it right, or oversees it and signs", c.Name))
		}
	}
	for _, c := range r.Causes {
		if c.Chance >= .25 && c.RunOn == "stop now" {
			out = append(out, fmt.Sprintf("%s: no run until it is settled", c.Name))
		}
	}
	return unique(out)
}

func unique(list []string) []string {
	var out []string
	for _, x := range list {
		if !word(out, x) {
			out = append(out, x)
		}
	}
	return out
}

// round cuts a figure to so many decimals, so that the last bits of a sum do
// not show.
func round(x float64, places int) float64 {
	p := math.Pow(10, float64(places))
	r := math.Round(x*p) / p
	if r == 0 {
		return 0 // never minus nothing
	}
	return r
}
