package simulate

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"snagwise/engine/condition"
	"snagwise/engine/sheet"
)

// A Hunt is one way through a world: what has been told, how the rig stands,
// and the minutes spent.
type Hunt struct {
	world                   *World
	rig                     *Rig
	so, not                 []int // signs told to be there and not to be there, sorted
	state                   int
	done                    []int         // checks that told something, sorted
	unsure                  []unsure      // checks that could not tell, in the order tried
	tries                   map[int]int   // by check
	order                   []int         // checks tried, each once, in the order of the last try
	absent                  []int         // causes of the base put right without effect, sorted
	recalled                [][]int       // signs asked for from memory, question by question
	since                   int           // looks since the last of them
	moved                   int           // how often the rig was moved for nothing since
	barred                  map[int]bool  // by check; made anew when something is told
	account                 sheet.Account // of what is told
	minutes                 float64
	looks                   int
	saidByCheck, saidByCase int // signs
	ended                   bool
}

// An unsure check could not tell; since counts the looks from then on.
type unsure struct{ check, since int }

// rests is how many other looks stand between a check that could not tell and
// the next try of it: it wants another light, another tool, another pair of eyes.
const rests = 3

// An Act is what a keeper does next: a check, or where that is -1 the remedy of
// a cause of the base, or where that is -1 too the signs that are asked for from
// memory or, where there are none, the way into a state of the rig.
type Act struct {
	Check, Cause int
	Recall       []int
	State        int
}

// A Strategy says what to do next, and false when it knows nothing more.
type Strategy func(h *Hunt) (Act, bool)

// An Outcome is how a hunt went.
type Outcome struct {
	Minutes float64 // at most the budget
	Looks   int     // checks and remedies
	Found   bool    // before the minutes were spent
	// Told counts the signs that checks told, Given those of them that a kept
	// case says.
	Told, Given int
}

// play goes through a world until what was told first is put right, the budget
// of minutes is spent, or nothing more is known.
func play(w *World, s Strategy, budget float64) Outcome {
	h := begun(w)
	for !h.ended && h.minutes < budget {
		act, ok := s(h)
		if !ok {
			h.minutes = budget
			break
		}
		h.do(act)
	}
	return Outcome{math.Min(h.minutes, budget), h.looks, h.ended && h.minutes <= budget, h.saidByCheck, h.saidByCase}
}

// begun returns a hunt with what is told first, and the questions about
// dangers answered: they stand before any check that runs or turns the engine,
// whoever looks for the fault.
func begun(w *World) *Hunt {
	h := &Hunt{world: w, rig: w.rig, state: w.rig.usual, tries: map[int]int{}}
	h.afresh()
	return h
}

// afresh forgets all that was told but what came first.
func (h *Hunt) afresh() {
	h.so, h.not, h.done, h.unsure, h.recalled, h.order, h.moved = nil, nil, nil, nil, nil, nil, 0
	for _, s := range h.world.start.Signs {
		h.tell(s, true)
	}
	for _, s := range h.world.start.NotSeen {
		h.tell(s, false)
	}
	for _, s := range h.rig.asked {
		if !h.told(s) {
			h.tell(s, h.world.so[s])
		}
	}
	h.settle()
}

func put(list *[]int, x int) {
	if at, ok := slices.BinarySearch(*list, x); !ok {
		*list = slices.Insert(slices.Clip(*list), at, x)
	}
}

func has(list []int, x int) bool {
	_, ok := slices.BinarySearch(list, x)
	return ok
}

func (h *Hunt) tell(sign int, so bool) {
	if so {
		put(&h.so, sign)
	} else {
		put(&h.not, sign)
	}
}

func (h *Hunt) told(sign int) bool { return has(h.so, sign) || has(h.not, sign) }

// settle makes the account of what is told, and the checks that dangers
// forbid.
func (h *Hunt) settle() {
	first := h.world.start
	first.Signs, first.NotSeen = nil, nil
	h.account = sheet.Account{Rig: h.rig.ID(), Moments: []sheet.Told{first}}
	m := &h.account.Moments[0]
	if len(first.Readings)+len(first.Controls) > 0 || first.Phases != 0 {
		first.Signs, first.NotSeen = h.world.start.Signs, h.world.start.NotSeen
		h.account.Moments = []sheet.Told{first, {}}
		m = &h.account.Moments[1]
	}
	m.Signs, m.NotSeen = h.so, h.not
	h.barred = h.rig.barred(&h.account)
}

// barred returns the checks that dangers forbid.
func (r *Rig) barred(a *sheet.Account) map[int]bool {
	running, turning, out, full := false, false, false, false
	for i, d := range r.engine.Dangers(a) {
		if d.So || !d.LookedAt {
			running, turning = running || d.Running, turning || d.Turning
		}
		out = out || d.So && r.fitted.Hazards[i].LetOut
		full = full || d.So && r.fitted.Hazards[i].Prime
	}
	barred := map[int]bool{}
	for i := range r.fitted.Checks {
		c := &r.fitted.Checks[i]
		runs, turns, lets, primes := false, false, false, false
		for _, st := range r.fitted.RigStates {
			if st.ID.Value == c.RigState.Value {
				runs, turns = st.Running, st.Turning || st.Running
			}
		}
		for _, d := range c.Dangers {
			runs, turns = runs || d.Value == "running", turns || d.Value == "turning"
			lets, primes = lets || d.Value == "let_out", primes || d.Value == "prime"
		}
		if runs && running || turns && turning || lets && out || primes && full {
			barred[i] = true
		}
	}
	return barred
}

// waits says whether a check could not tell just now.
func (h *Hunt) waits(check int) bool {
	return slices.ContainsFunc(h.unsure, func(u unsure) bool { return u.check == check })
}

// open says whether a check may be done and can still tell something.
func (h *Hunt) open(check int) bool {
	f := h.rig.fitted
	if !f.CheckOn[check] || h.waits(check) || h.barred[check] || math.IsInf(h.rig.cost(check, h.state), 1) {
		return false
	}
	return slices.ContainsFunc(f.Checks[check].Settles, func(s int) bool { return f.SignOn[s] && !h.told(s) })
}

// recallMinutes is what a question from memory takes; the project's own choice.
const recallMinutes = 1

// recall asks for signs from memory. A tenth of them nobody can tell.
func (h *Hunt) recall(signs []int) {
	h.minutes += recallMinutes
	h.recalled, h.since, h.moved = append(slices.Clip(h.recalled), signs), 0, 0
	for _, s := range signs {
		if !h.told(s) && share(h.world.chance.seed, ofMemory, uint64(s)) >= couldNotTell {
			h.tell(s, h.world.so[s])
		}
	}
	h.settle()
}

// do does what a keeper chose.
func (h *Hunt) do(a Act) {
	switch {
	case a.Check < 0 && a.Cause < 0 && len(a.Recall) > 0:
		h.looks++
		h.recall(a.Recall)
		return
	case a.Check < 0 && a.Cause < 0:
		h.minutes += h.rig.moves[h.state][a.State]
		h.state = a.State
		h.moved++
		return
	}
	h.looks++
	h.since++
	h.moved = 0
	for i := range h.unsure {
		h.unsure[i].since++
	}
	h.unsure = slices.DeleteFunc(h.unsure, func(u unsure) bool { return u.since > rests })
	if a.Check < 0 {
		h.minutes += h.rig.remedy(a.Cause, h.state)
		h.state = h.rig.usual
		if h.world.has(a.Cause) {
			h.cured(a.Cause)
		} else {
			put(&h.absent, a.Cause)
		}
		return
	}
	h.minutes += h.rig.cost(a.Check, h.state)
	h.state = h.rig.to(a.Check, h.state)
	h.tries[a.Check]++
	h.order = append(slices.DeleteFunc(slices.Clone(h.order), func(c int) bool { return c == a.Check }), a.Check)
	if share(h.world.chance.seed, ofAnswer, uint64(a.Check), uint64(h.tries[a.Check])) < couldNotTell {
		h.unsure = append(h.unsure, unsure{check: a.Check})
		return
	}
	put(&h.done, a.Check)
	f := h.rig.fitted
	var found []int
	for _, s := range f.Checks[a.Check].Settles {
		if !f.SignOn[s] || h.told(s) {
			continue
		}
		h.tell(s, h.world.so[s])
		h.saidByCheck++
		if h.world.fixed != nil && h.world.fixed[s] != condition.Unknown {
			h.saidByCase++
		}
		if h.world.so[s] {
			for _, c := range h.world.causes {
				if k := f.Causes[c].Cause; h.rig.findings[k].Sign == s {
					found = append(found, k)
				}
			}
		}
	}
	h.settle()
	for _, c := range found {
		if !h.ended && h.world.has(c) {
			h.cured(c)
		}
	}
}

// cured puts a cause right. What was told first may be there still where there
// was a second cause: then all is asked anew.
func (h *Hunt) cured(cause int) {
	if h.world.kept {
		h.ended = true
		return
	}
	h.world = h.world.without(cause)
	if len(h.world.causes) == 0 || !h.world.so[h.world.first] {
		h.ended = true
		return
	}
	put(&h.absent, cause)
	h.afresh()
}

// key tells apart what may be told.
func (h *Hunt) key(all bool) string {
	var b strings.Builder
	write := func(mark byte, list []int) {
		b.WriteByte(mark)
		for _, x := range list {
			b.WriteString(strconv.Itoa(x))
			b.WriteByte(' ')
		}
	}
	b.WriteString(h.rig.ID())
	b.WriteString(h.world.startKey())
	write('+', h.so)
	write('-', h.not)
	if all {
		write('@', []int{h.state})
		write('d', h.done)
		for _, u := range h.unsure {
			write('u', []int{u.check})
		}
		write('a', h.absent)
	}
	return b.String()
}
