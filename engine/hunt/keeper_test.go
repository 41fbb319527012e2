package hunt_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"snagwise/cases"
	"snagwise/engine/hunt"
	"snagwise/engine/sheet"
)

// A keeper answers as one would who sees at each check what a kept snag showed:
// the signs of the case, or else those that its cause shows more often than not.
type keeper struct {
	h     *hunt.Hunt
	x     *hunt.Finder
	truth map[string]bool
	vague map[string]bool // nobody can say: it may be there with that cause or not
	found []string        // ids of what was found
	said  []string        // the talk, line by line
	first hunt.Fact
}

// keeperOf reads a kept snag. It is nil where no cause was found that the rig
// can have, or no symptom was told.
func keeperOf(t testing.TB, name string) *keeper {
	t.Helper()
	text, err := cases.Files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	text, _ = cases.Split(text)
	raw, l := sheet.Parse(name, text)
	if len(l) > 0 {
		t.Fatal(l)
	}
	e := engineOf(t, raw.Rig.Value)
	kept, l := e.Read(raw)
	if len(l) > 0 {
		t.Fatal(l)
	}
	f := e.Fitted()
	k := &keeper{h: hunt.New(e, nil), x: hunt.NewFinder(f), truth: map[string]bool{}, vague: map[string]bool{}}
	for _, c := range kept.Case.Found {
		k.found = append(k.found, f.Base.Causes[c].ID)
		for i, p := range e.Shown(c) {
			k.truth[f.Signs[i].ID] = k.truth[f.Signs[i].ID] || p > .5
			k.vague[f.Signs[i].ID] = k.vague[f.Signs[i].ID] || p > .25 && p <= .5
		}
	}
	tell := func(signs []int, so bool) {
		for _, s := range signs {
			k.truth[f.Signs[s].ID], k.vague[f.Signs[s].ID] = so, false
		}
	}
	for _, m := range kept.Moments {
		tell(m.Signs, true)
		tell(m.NotSeen, false)
		if k.first.Name == "" && len(m.Signs) > 0 {
			k.first = hunt.Fact{Kind: hunt.Seen, Name: f.Signs[m.Signs[0]].ID}
		}
	}
	for _, c := range kept.Case.Checks {
		tell(c.Shown, true)
		tell(c.Denied, false)
	}
	ids, _, _ := e.Ranked(kept)
	if k.first.Name == "" || !slices.ContainsFunc(k.found, func(c string) bool { return slices.Contains(ids, c) }) {
		return nil
	}
	return k
}

// note writes a line of the talk.
func (k *keeper) note(format string, words ...any) {
	k.said = append(k.said, fmt.Sprintf(format, words...))
}

// tell gives one answer.
func (k *keeper) tell(facts ...hunt.Fact) {
	var r hunt.Record
	for i := range facts {
		r.Steps = append(r.Steps, hunt.Step{Tell: &facts[i]})
	}
	k.h = k.h.After(r)
}

// A played hunt is how one of them went.
type played struct {
	answers int     // questions answered, each screen one
	rank    int     // of what was found, in the end, from 1; 0 for not listed
	first   int     // answers until it led; -1 for never
	minutes float64 // of the checks done
	settled bool    // it led with a chance of 80 % or more
}

// play answers until what was found leads plainly or nothing more is asked.
func (k *keeper) play(t testing.TB) played {
	p := played{first: -1}
	for range 60 {
		turn, l := k.h.Turn(k.x, hunt.Clock{})
		if len(l) > 0 {
			t.Fatal(l)
		}
		p.rank = 0
		for i, c := range turn.Result.Causes {
			if p.rank == 0 && slices.Contains(k.found, c.ID) {
				p.rank = i + 1
			}
		}
		if p.rank == 1 && p.first < 0 {
			p.first = p.answers
		}
		if p.rank == 1 && turn.Result.Causes[0].Chance >= .8 {
			p.settled = true
			break
		}
		if len(turn.Result.Causes) > 0 {
			k.note("    %s %.2f; found at %d", turn.Result.Causes[0].ID, turn.Result.Causes[0].Chance, p.rank)
		}
		q := turn.Question
		if !k.answer(&q) {
			return p
		}
		switch q.About {
		case hunt.Moving:
			p.minutes += q.Move.Minutes
			continue
		case hunt.Looking:
			p.minutes += q.Check.Minutes
		}
		p.answers++
	}
	return p
}

// answer answers a question, and says whether it was one to answer.
func (k *keeper) answer(q *hunt.Question) bool {
	switch q.About {
	case hunt.Moving:
		k.h = k.h.After(hunt.Record{Steps: []hunt.Step{{Rig: q.Move.To}}})
		k.note("rig %s", q.Move.To)
	case hunt.Dangers:
		k.danger(q)
	case hunt.Recall:
		k.recall(q)
	case hunt.Looking:
		k.look(q)
	default:
		return false
	}
	return true
}

func (k *keeper) danger(q *hunt.Question) {
	var facts []hunt.Fact
	for _, d := range q.Dangers {
		a := hunt.Fact{Kind: hunt.Checked, Name: d.ID, Denied: k.h.Denies(d)}
		for _, id := range d.Open {
			if k.truth[id] {
				a.Shown, a.Denied = append(a.Shown, id), nil
			}
		}
		k.note("danger %s: %v", d.ID, a.Shown)
		facts = append(facts, a)
	}
	k.tell(facts...)
}

func (k *keeper) recall(q *hunt.Question) {
	facts := []hunt.Fact{{Kind: hunt.Left, Name: q.Waiting.Text, Values: []string{hunt.NotNow}}}
	var so, not []string
	for _, o := range q.Options {
		facts[0].Shown = append(facts[0].Shown, o.ID)
		if k.vague[o.ID] && !k.truth[o.ID] {
			continue
		}
		facts = append(facts, k.h.Telling(o.Choice, hunt.Moment{}, !k.truth[o.ID]))
		if k.truth[o.ID] {
			so = append(so, o.ID)
		} else {
			not = append(not, o.ID)
		}
	}
	k.note("%s: %v, not %v", q.Waiting.Text, so, not)
	k.tell(facts...)
}

func (k *keeper) look(q *hunt.Question) {
	a := hunt.Fact{Kind: hunt.Checked, Name: q.Check.ID}
	var all []string
	for _, o := range q.Options {
		if o.Kind != hunt.Seen {
			continue
		}
		all = append(all, o.ID)
		if k.truth[o.ID] {
			a.Shown = append(a.Shown, o.ID)
		}
	}
	if len(a.Shown) == 0 {
		a.Denied = all
	}
	k.note("check %s (%g min, rig %s, saves %g): %v of %s", q.Check.ID, q.Check.Minutes, q.Check.RigState, q.Check.MinutesSaved, a.Shown, strings.Join(all, " "))
	k.tell(a)
}
