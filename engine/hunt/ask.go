package hunt

// This file chooses the question.

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"snagwise/engine/diagnose"
)

// waiting is the question about the first phrase that waits, if any does.
func (h *Hunt) waiting(x *Finder) (Question, bool) {
	if len(h.pending) == 0 {
		return Question{}, false
	}
	w := h.pending[0]
	q := Question{About: Pick, Waiting: w}
	switch {
	case w.Part != nil:
		for _, c := range x.Parts(w.Text) {
			q.Options = append(q.Options, Option{Choice: c})
		}
	case w.Reading == "" && len(w.Values) > 0:
		for _, c := range x.gauges(w.Text) {
			q.Options = append(q.Options, Option{Choice: c})
		}
	case w.Reading == "":
		for _, c := range x.Find(w.Text) {
			if w.Denied && c.Kind != Seen {
				continue
			}
			q.Options = append(q.Options, Option{Choice: c})
		}
	case len(w.Values) == 0:
		q.About = Figure
	default:
		q.About = Phase_
		for _, p := range h.engine.Fitted().Rig.Phases {
			q.Options = append(q.Options, Option{Choice: Choice{ID: p, Means: Phase(p)}})
		}
	}
	return q, true
}

// ask chooses what is asked next.
func (h *Hunt) ask(r *diagnose.Result, checks []diagnose.Check, dangers []Danger) (Question, []diagnose.Check) {
	switch {
	case h.want != "" && h.want != h.rig && len(h.Forbids(h.want)) == 0:
		if ask := h.blocks(h.want); len(ask) > 0 {
			return h.danger(ask), checks
		}
		if m, ok := h.move(h.want); ok {
			return Question{About: Moving, Move: m}, checks
		}
	case h.asking && len(dangers) > 0:
		return h.danger(dangers), checks
	case len(h.facts) == 0:
		return Question{About: Start}, nil
	}
	if q, ok := h.recall(r); ok {
		return q, checks
	}
	if q, ok := h.opening(r); ok {
		return q, checks
	}
	if len(checks) == 0 {
		if len(dangers) > 0 && r.Opens.Check != "" && r.Opens.All >= leastSaved*float64(len(r.Opens.Ask)) {
			return h.danger(dangers), nil
		}
		return Question{About: Closing}, nil
	}
	checks = h.settled(checks)
	if len(checks) == 0 {
		return Question{About: Closing}, nil
	}
	c := checks[0]
	if !h.stands(c.RigState) {
		if m, ok := h.move(c.RigState); ok {
			return Question{About: Moving, Move: m, Check: c, For: true}, checks[1:]
		}
	}
	return Question{About: Looking, Check: c, Options: h.outcomes(&c)}, checks[1:]
}

// Figures of what is asked from memory and of what questions cost; the
// project's own choice.
const (
	mostRecalled   = 8  // signs in one question
	recalls        = 4  // such questions in one hunt
	looksBetween   = 2  // checks and questions between two of them
	sureEnough     = .5 // chance of the first cause from which none is asked
	recallTells    = .5 // bits that the signs of one must tell between them
	tellsAtOnce    = 1  // bits from which it need not wait for a look
	askCostsInEach = 3  // minutes that a question about a danger must bring
	leastSaved     = 2  // minutes that a check must save to be asked for at all
)

// recall asks what else was noticed while no cause stands out: it costs no
// minutes and nothing is touched.
func (h *Hunt) recall(r *diagnose.Result) (Question, bool) {
	if len(r.Causes) > 0 && r.Causes[0].Chance >= sureEnough {
		return Question{}, false
	}
	n, looked := 1, 0
	for _, f := range h.facts {
		switch {
		case f.Kind == Left && strings.HasPrefix(f.Name, recalled):
			n++
			looked = 0
		case f.Kind == Checked:
			looked++
		}
	}
	q := Question{About: Recall, Waiting: Pending{Text: RecallName(n)}}
	var bits float64
	for _, s := range r.Noticed {
		q.Options = append(q.Options, Option{Choice: Choice{Seen, s.ID, plain(s.Means)}, Gauge: s.Gauge})
		bits += s.Bits
	}
	slices.SortStableFunc(q.Options, func(a, b Option) int { // the panel last
		switch {
		case a.Gauge == b.Gauge:
			return 0
		case b.Gauge:
			return -1
		}
		return 1
	})
	least := recallTells
	if n > 1 && looked < looksBetween {
		least = tellsAtOnce
	}
	return q, len(q.Options) > 1 && n <= recalls && bits >= least
}

// put lists the signs that were asked for from memory.
func (h *Hunt) put() []string {
	var out []string
	for _, f := range h.facts {
		if f.Kind == Left && strings.HasPrefix(f.Name, recalled) {
			out = append(out, f.Shown...)
		}
	}
	return out
}

// recalled begins the names of the questions from memory.
const recalled = "noticed_"

// RecallName is the name under which the nth question from memory, from 1, is
// left once it was put.
func RecallName(n int) string { return recalled + strconv.Itoa(n) }

// opening asks about dangers before further checks where that opens a check
// that is worth the questions.
func (h *Hunt) opening(r *diagnose.Result) (Question, bool) {
	var open []Danger
	for _, d := range h.dangersOf(r.Opens.Ask) {
		if h.was(Left, d.ID) {
			return Question{}, false // not to be opened
		}
		open = append(open, d)
	}
	if len(open) == 0 || r.Opens.Saves < askCostsInEach*float64(len(open)) {
		return Question{}, false
	}
	q := h.danger(open)
	q.Opens = h.Means(Checked, r.Opens.Check)
	return q, true
}

// blocks returns the dangers that forbid a state and were not asked for yet.
func (h *Hunt) blocks(state string) []Danger {
	var out []Danger
	a, l := h.Account()
	if len(l) > 0 {
		return nil
	}
	for _, d := range h.engine.Dangers(a) {
		if d.LookedAt || h.was(Left, d.ID) || !(d.Running && h.running(state) || d.Turning && h.turning(state)) {
			continue
		}
		if hz, ok := h.hazard(d.ID); ok {
			out = append(out, h.dangerOf(hz))
		}
	}
	return out
}

// Figures of one screen about dangers: one key for each sign.
const (
	mostDangers = 3
	mostSigns   = 9
)

// danger asks about the first of several dangers, and about as many of the
// others as go on one screen with it unless they are to be asked one by one.
func (h *Hunt) danger(list []Danger) Question {
	q := Question{About: Dangers}
	for i, d := range list {
		if i > 0 && (h.each || i == mostDangers || len(q.Options)+len(d.Open) > mostSigns) {
			break
		}
		q.Dangers = append(q.Dangers, d)
		for _, id := range d.Open {
			q.Options = append(q.Options, Option{Choice: Choice{Seen, id, h.Means(Seen, id)}})
		}
	}
	q.Danger = q.Dangers[0]
	return q
}

// mostOutcomes is how many outcomes of a check are named, one key each.
const mostOutcomes = 7

// tells lists the signs that a check settles: where it looks at a cause, what
// settles that before all, then what the cause shows more often, so that what it is
// done for is named however many others it settles.
func (h *Hunt) tells(c *diagnose.Check) []int {
	f := h.engine.Fitted()
	i, cause := f.Check(c.ID), f.Base.Cause(c.Inspects)
	if i < 0 {
		return nil
	}
	list := slices.Clone(f.Checks[i].Settles)
	if cause < 0 {
		return list
	}
	own, shown := h.engine.Findings()[cause].Sign, h.engine.Shown(cause)
	slices.SortStableFunc(list, func(a, b int) int {
		switch {
		case a == own:
			return -1
		case b == own:
			return 1
		}
		return cmp.Compare(shown[b], shown[a])
	})
	return list
}

// outcomes lists what a check may show: what the advice reckons with, or else
// whatever it settles here that is not told.
func (h *Hunt) outcomes(c *diagnose.Check) []Option {
	f := h.engine.Fitted()
	var out []Option
	for _, a := range c.Answers {
		o := Option{Choice: Choice{Seen, a.ID, plain(a.Means)}, Chance: a.Chance}
		for _, id := range a.Leads {
			o.Leads = append(o.Leads, h.Cause(id))
		}
		if f.Sign(a.ID) < 0 {
			o.Kind = NotSeen // nothing of this is found
		}
		out = append(out, o)
	}
	if len(out) == 0 {
		for _, k := range h.tells(c) {
			if id := f.Signs[k].ID; f.SignOn[k] && !h.was(Seen, id) && !h.was(NotSeen, id) {
				out = append(out, Option{Choice: Choice{Seen, id, plain(f.Signs[k].Means)}})
			}
		}
		out = append(out, Option{Choice: Choice{Kind: NotSeen, ID: "nothing_found", Means: "nothing of this is found"}})
	}
	nothing := slices.IndexFunc(out, func(o Option) bool { return o.Kind == NotSeen })
	if nothing >= 0 { // always last, whatever its chance
		o := out[nothing]
		out = slices.Delete(out, nothing, nothing+1)
		out = append(out[:min(mostOutcomes, len(out))], o)
	}
	return out
}
