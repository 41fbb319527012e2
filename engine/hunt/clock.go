package hunt

// This file holds the decisions that hang on the time left.

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"snagwise/engine/diagnose"
)

// A Clock is how long there is. The zero value means that nobody waits.
type Clock struct {
	Set  bool
	Left float64 // minutes to the slot; below 0 when it has passed
}

// Figures of the decisions that no rule gives; the project's own choice.
const (
	leastCure    = 5    // minutes to inspect and cure anything
	usualCure    = 60   // the same for a cause that gives no figure
	likelyEnough = .15  // a cause below it is no reason to hope for a quick cure
	stopsRun     = .012 // a cause from here on that forbids a run forbids it: claimed so, it is ranked at .05
	worthNaming  = .03  // a cause below it is not counted among what is known
	tooUnsure    = .3   // chance of none of the causes from which nothing is run on
	knownEnough  = .65  // chance in all of causes worth naming from which a run may go on
	oneMatters   = .5   // a cause from here on that only an engineer cures ends the day
)

// RunOn says whether a run may go on with things as they are.
type RunOn uint8

// Whether a run may go on. Nothing says that it may without limits.
const (
	Unsaid        RunOn = iota // nothing is known to rest it on
	No                         // not until it is settled
	InsideReduced              // inside reduced limits, watching
)

// A Verdict is what the minutes left allow.
type Verdict struct {
	Clock
	// Stand is the minutes from now to the last moment to stand down: later
	// than that no likely cause that an operator may cure is found, cured and
	// the engine warm in time. Possible is false when that holds of none.
	Stand    float64
	Possible bool
	Way      float64 // minutes from the rig as it stands to a warm engine
	RunOn    RunOn
	RunOnWhy []string
	// NotToday is why this is a snag to stand down for and to call the engineer,
	// empty while it is not.
	NotToday []string
}

// warmUp returns the minutes from how the rig must stand for work to running.
func (h *Hunt) warmUp() float64 {
	for _, st := range h.engine.Fitted().RigStates {
		if st.Running {
			return st.MinutesFrom[usualState]
		}
	}
	return 0
}

// between returns the minutes from one state to another; "" and any cost
// nothing. A way that nobody gave is endless.
func (h *Hunt) between(from, to string) float64 {
	if from == to || from == "" || to == "" || from == "any" || to == "any" {
		return 0
	}
	for _, st := range h.engine.Fitted().RigStates {
		if m, ok := st.MinutesFrom[from]; ok && st.ID.Value == to {
			return m
		}
	}
	return math.Inf(1)
}

// cure returns the minutes to put a cause right, endless if that is not the
// operator's to do.
func cure(minutes float64, who string) float64 {
	if who != "operator" && who != "" {
		return math.Inf(1)
	}
	if minutes == 0 {
		minutes = usualCure
	}
	return math.Max(minutes, leastCure)
}

// cureOf is cure for a cause of the base; one with which a run may be finished
// need not be cured first.
func (h *Hunt) cureOf(id string) float64 {
	b := h.engine.Fitted().Base
	i := b.Cause(id)
	if i < 0 {
		return usualCure
	}
	c := &b.Causes[i]
	if c.RunOn == "note" || c.RunOn == "finish the run" {
		return 0
	}
	return cure(c.RemedyMinutes, c.Who)
}

// pays says whether a check can still change what happens before the slot:
// done, one of the causes that it may put first can be cured and the engine
// be warm in time.
func (h *Hunt) pays(c *diagnose.Check, clock Clock) bool {
	if !clock.Set {
		return true
	}
	least := math.Inf(1)
	for _, a := range c.Answers {
		for _, id := range a.Leads {
			least = math.Min(least, h.cureOf(id))
		}
	}
	if c.Inspects != "" {
		least = math.Min(least, h.cureOf(c.Inspects))
	}
	return h.reach(c)+least+h.wayBack(c) <= clock.Left
}

// reach is the minutes of a check with the way to the state it needs.
func (h *Hunt) reach(c *diagnose.Check) float64 { return c.Minutes + h.between(h.rig, c.RigState) }

// wayBack is the minutes from where a check leaves the rig to a warm engine.
func (h *Hunt) wayBack(c *diagnose.Check) float64 {
	if h.running(c.RigState) {
		return 0
	}
	return h.warmUp()
}

// verdict decides what the minutes left allow.
func (h *Hunt) verdict(r *diagnose.Result, clock Clock, checks []diagnose.Check) Verdict {
	v := Verdict{Clock: clock, Way: h.warmUp(), Stand: math.Inf(-1)}
	quickest := math.Inf(1)
	for _, c := range checks {
		quickest = math.Min(quickest, h.reach(&c))
	}
	if len(checks) == 0 {
		quickest = 0 // nothing is left to look at: it is cured as it stands
	}
	for i, c := range r.Causes {
		if i > 2 || i > 0 && c.Chance < likelyEnough {
			break
		}
		need := cure(c.RemedyMinutes, c.Who) + quickest + v.Way + h.between(h.rig, usualState)
		if stand := clock.Left - need; !math.IsInf(need, 1) && stand > v.Stand {
			v.Stand, v.Possible = stand, true
		}
	}
	v.RunOn, v.RunOnWhy = h.runOn(r)
	v.NotToday = h.notToday(r, &v)
	return v
}

// runOn says whether a run may go on: never while something must be done at
// once or a danger is open, and only where every cause with a real chance
// leaves it.
func (h *Hunt) runOn(r *diagnose.Result) (RunOn, []string) {
	if len(h.facts) == 0 || len(r.Causes) == 0 {
		return Unsaid, nil
	}
	var no, yes []string
	var known float64
	if len(r.FirstActions) > 0 {
		no = append(no, "something must be done at once")
	}
	no = append(no, open(r.Dangers)...)
	for _, c := range r.Causes {
		if c.Chance >= worthNaming {
			known += c.Chance
		}
		switch {
		case c.Chance >= stopsRun && c.RunOn == "stop now":
			no = append(no, joined(c.Name, c.RunOnWhy))
		case c.Chance >= worthNaming && c.RunOn == "finish the run":
			yes = append(yes, joined(c.Name, c.RunOnWhy))
		case c.Chance >= likelyEnough && c.RunOn == "":
			no = append(no, joined(c.Name, "nothing is written of running on with it"))
		}
	}
	switch {
	case r.NoneOfThese >= tooUnsure:
		no = append(no, "it may be none of the causes known here")
	case known < knownEnough:
		no = append(no, "too little is known of what is wrong")
	}
	if len(no) > 0 {
		return No, no
	}
	return InsideReduced, yes
}

// open lists the dangers that forbid a run and are so or not looked at.
func open(dangers []diagnose.Danger) []string {
	var out []string
	for _, d := range dangers {
		if d.Running && !d.LookedAt {
			out = append(out, "not looked at: "+lower(plain(d.Means)))
		} else if d.Running && d.So {
			out = append(out, "it is so: "+lower(plain(d.Means)))
		}
	}
	return out
}

// notToday says why this is a snag to stand down for.
func (h *Hunt) notToday(r *diagnose.Result, v *Verdict) []string {
	var out []string
	if len(h.facts) == 0 {
		return nil
	}
	for _, c := range r.Causes {
		if c.Chance >= oneMatters && c.Who != "operator" && c.RunOn == "stop now" {
			out = append(out, fmt.Sprintf("%s: for the %s, and no run until it is settled", c.Name, c.Who))
		}
	}
	if v.Set && v.RunOn != InsideReduced {
		switch {
		case v.Left <= 0:
			out = append(out, "the slot has come and the snag is not settled")
		case !v.Possible:
			out = append(out, "none of the likely causes is one that an operator may cure before the slot")
		case v.Stand < 0:
			out = append(out, "none of the likely causes can still be found, cured and the engine be warm in time")
		}
	}
	return out
}

func joined(a, b string) string {
	if b == "" {
		return a
	}
	return a + ": " + b
}

func lower(t string) string {
	if t == "" {
		return t
	}
	return strings.ToLower(t[:1]) + t[1:]
}

// turns is 1 for a check of which some answer would put another cause first
// than the rest, or that looks straight at a cause; 0 for one that at most
// moves chances.
func turns(c *diagnose.Check) int {
	first := ""
	for _, a := range c.Answers {
		switch {
		case len(a.Leads) == 0:
		case first == "":
			first = a.Leads[0]
		case a.Leads[0] != first:
			return 1
		}
	}
	if c.Inspects != "" {
		return 1
	}
	return 0
}

// here parts the checks that can still pay off into those worth asking for and
// those that hardly are, and says how many cannot.
func (h *Hunt) here(list []diagnose.Check, clock Clock, chances map[string]float64) (pay, hardly []diagnose.Check, late int) {
	for _, c := range list {
		switch {
		case !h.pays(&c, clock):
			late++
		case h.worth(&c, chances):
			pay = append(pay, c)
		default:
			hardly = append(hardly, c)
		}
	}
	slices.SortStableFunc(pay, func(a, b diagnose.Check) int { return cmp.Compare(turns(&b), turns(&a)) })
	return pay, hardly, late
}

// worth says whether a check is worth asking an operator for: it saves minutes,
// or it looks straight at a cause that is likely enough for the minutes that it
// takes, as those to fetch help would be saved. By one measure for both: with
// other bounds, from half a minute to five, 120 drawn hunts took as long within
// two parts in a hundred.
func (h *Hunt) worth(c *diagnose.Check, chances map[string]float64) bool {
	switch {
	case c.Who != "operator" && c.Who != "":
		return false
	case c.Inspects == "":
		return c.MinutesSaved >= leastSaved
	}
	return chances[c.Inspects]*diagnose.HelpMinutes-h.reach(c) >= leastSaved
}
