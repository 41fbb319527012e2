// Package hunt goes through one snag answer by answer: what has been told so
// far, what to ask next, how the last answer moved the causes, and what the
// minutes left allow.
//
// A hunt is a list of [Record], one for each answer; everything else follows
// from that list. [Hunt.After] adds an answer and returns the hunt that it
// leads to, so that an answer taken back leaves exactly what was before, and a
// hunt read from its records is the hunt that was left:
//
//	h := hunt.New(engine, nil)
//	h = h.After(hunt.Record{Steps: steps})
//	turn := h.Turn(hunt.Clock{})
//
// The room prints nothing and reads no clock: minutes left are told to it.
package hunt

import (
	"slices"
	"strings"
	"sync"

	"snagwise/engine/diagnose"
	"snagwise/engine/problem"
	"snagwise/engine/sheet"
)

// A Kind says what sort of thing a fact is.
type Kind string

// The sorts of fact.
const (
	Seen         Kind = "seen"         // a symptom
	NotSeen      Kind = "not seen"     // looked for and not there
	Read         Kind = "read"         // a reading with its figure, answer or word
	Unread       Kind = "unread"       // a gauge that could not be read
	Circumstance Kind = "circumstance" // what went before
	Course       Kind = "course"       // how it came on
	Trial        Kind = "trial"        // what was tried and what came of it
	Normal       Kind = "normal"       // said to be in order
	Weather      Kind = "weather"      // a reading of the air
	Part         Kind = "part"         // a statement about a part
	Note         Kind = "note"         // fits no field: shown, not used
	Checked      Kind = "checked"      // a check with what it showed
	Left         Kind = "left"         // a check or question without an answer
	Lacking      Kind = "lacking"      // a tool that is not here
)

// Why a check or question was left.
const (
	CouldNotTell = "could not tell"
	NotHere      = "cannot be done here"
	NotNow       = "not now"
)

// A Moment says when something held: the zero value means nobody said. The
// fields are plain text so that moments can be compared.
type Moment struct {
	Nth    int    `json:"nth,omitempty"`    // of the sheet begun from, from 1
	Phase  string `json:"phase,omitempty"`  // ids parted by commas where it may be several
	Levers string `json:"levers,omitempty"` // such as booster=on, parted by commas
	After  string `json:"after,omitempty"`  // time since the moment before
}

// A Fact is one thing told.
type Fact struct {
	Kind   Kind     `json:"kind"`
	Name   string   `json:"name,omitempty"`   // id of the sign, reading, check, hazard ...
	Values []string `json:"values,omitempty"` // of a reading; text of a note; why a check was left
	At     Moment   `json:"at,omitzero"`
	// Of a check or a question about a danger: the signs it showed and the
	// signs it showed not to be there, and the minutes it took, 0 when not told.
	Shown   []string `json:"shown,omitempty"`
	Denied  []string `json:"denied,omitempty"`
	Minutes float64  `json:"minutes,omitempty"`
	// Part holds a statement about a part, by the keys of a sheet.
	Part map[string][]string `json:"part,omitempty"`
}

// subject is what a fact is about: of two facts with one subject the later one
// counts.
func (f *Fact) subject() string {
	kind := f.Kind
	switch kind {
	case Seen, NotSeen:
		kind = "sign"
	case Read, Unread:
		kind = "reading"
	case Checked, Left:
		return "check\x00" + f.Name
	case Note:
		return "note\x00" + strings.Join(f.Values, "\x00")
	case Part:
		return subjectOf(f.Part)
	case Circumstance, Trial, Lacking, Weather:
		return string(kind) + "\x00" + f.Name
	}
	return strings.Join([]string{string(kind), f.Name, f.At.Phase, f.At.Levers, string(rune('0' + f.At.Nth))}, "\x00")
}

// A Pending is a phrase that was told and waits for a question of its own:
// which thing it names, the figure of a gauge, or when it was read.
type Pending struct {
	Text    string   `json:"text"`
	Denied  bool     `json:"denied,omitempty"`
	Reading string   `json:"reading,omitempty"` // its id, once it is known
	Values  []string `json:"values,omitempty"`
	// Part is a statement in which Text names a part that is not known.
	Part map[string][]string `json:"part,omitempty"`
}

// A Step is one thing that an answer does. Exactly one field is set.
type Step struct {
	Tell   *Fact     `json:"tell,omitempty"`
	Take   int       `json:"take,omitempty"`   // the number of a fact taken back
	Wait   []Pending `json:"wait,omitempty"`   // phrases put before those that wait
	Done   bool      `json:"done,omitempty"`   // the first phrase that waits is dealt with
	Moment *Moment   `json:"moment,omitempty"` // when what follows held
	Rig    string    `json:"rig,omitempty"`    // the state that the rig is in now
	Want   string    `json:"want,omitempty"`   // the state it is to be brought into; "-" for none
	Ask    string    `json:"ask,omitempty"`    // "on": the dangers are asked now; "each": one by one; "off"
	Did    []string  `json:"did,omitempty"`    // first actions that were carried out
	Slot   string    `json:"slot,omitempty"`   // when the slot is; "-" for none
	End    string    `json:"end,omitempty"`    // how the hunt ended
}

// A Record is one answer with all that it does.
type Record struct {
	When  string `json:"when,omitempty"` // as the keeper's clock showed it
	Said  string `json:"said,omitempty"` // as it was typed
	Steps []Step `json:"steps,omitempty"`
}

// A Numbered is a fact with the number it is taken back by. Numbers count all
// facts ever told and are never used twice.
type Numbered struct {
	N int
	Fact
}

// A Hunt is one snag with the answers given so far. It does not change.
type Hunt struct {
	engine  *diagnose.Engine
	base    []Moment // moments of the sheet begun from
	records []Record

	facts   []Numbered // that hold now, in the order told
	told    int        // how many were ever told
	pending []Pending
	moment  Moment
	rig     string
	moved   int // how often the rig was moved since anything was told that holds
	want    string
	asking  bool
	each    bool // dangers are asked one by one
	slot    string
	end     string
	did     []string

	now  *past // this hunt, once causes are told of it
	last *past // as causes were last told before it; nil for never

	account func() (*sheet.Account, problem.List) // looked up once
}

// New returns a hunt without answers. Moments are those of a sheet that it
// begins from, in order; nil for none.
func New(e *diagnose.Engine, moments []Moment) *Hunt {
	return (&Hunt{engine: e, base: moments}).ready()
}

// ready makes what is worked out once, when it is first asked for.
func (h *Hunt) ready() *Hunt {
	h.account = sync.OnceValues(func() (*sheet.Account, problem.List) { return h.engine.Read(h.Sheet(false)) })
	h.now = pastOf(h)
	return h
}

// After returns the hunt with one more answer.
func (h *Hunt) After(r Record) *Hunt {
	n := h.with(append(slices.Clip(h.records), r))
	if n.last = h.last; len(h.pending) == 0 {
		n.last = h.now
	}
	return n
}

// with returns the hunt that these records lead to.
func (h *Hunt) with(records []Record) *Hunt {
	n := &Hunt{engine: h.engine, base: h.base, records: records}
	var all []Numbered
	gone := map[int]bool{}
	var moves []int // of the rig before each fact
	for _, r := range records {
		for _, s := range r.Steps {
			switch {
			case s.Tell != nil:
				n.told++
				moves = append(moves, n.moved)
				all = append(all, Numbered{n.told, *s.Tell})
			case s.Take > 0:
				gone[s.Take] = true
			default:
				n.step(s)
			}
		}
	}
	n.facts = holding(all, gone)
	if len(n.facts) > 0 { // they stand in the order told
		n.moved -= moves[n.facts[len(n.facts)-1].N-1]
	}
	return n.ready()
}

func (h *Hunt) step(s Step) {
	switch {
	case len(s.Wait) > 0:
		h.pending = append(slices.Clone(s.Wait), h.pending...)
	case s.Done:
		h.pending = h.pending[min(1, len(h.pending)):]
	case s.Moment != nil:
		h.moment = *s.Moment
	case s.Rig != "":
		h.rig, h.want = s.Rig, ""
		h.moved++
	case s.Want != "":
		h.want = strings.TrimPrefix(s.Want, "-")
	case s.Ask != "":
		h.asking, h.each = s.Ask != "off", s.Ask == "each"
	case len(s.Did) > 0:
		h.did = append(slices.Clip(h.did), s.Did...)
	case s.Slot != "":
		h.slot = strings.TrimPrefix(s.Slot, "-")
	case s.End != "":
		h.end = s.End
	}
}

// holding returns the facts that were not taken back, and of several with one
// subject the last.
func holding(all []Numbered, gone map[int]bool) []Numbered {
	last := map[string]int{}
	for _, f := range all {
		if !gone[f.N] {
			last[f.subject()] = f.N
		}
	}
	var out []Numbered
	for _, f := range all {
		if !gone[f.N] && last[f.subject()] == f.N {
			out = append(out, f)
		}
	}
	return out
}

// Facts returns what has been told and holds, in the order told. The list must
// not be changed.
func (h *Hunt) Facts() []Numbered { return h.facts }

// Last returns what the last answer told of which anything holds.
func (h *Hunt) Last() []Numbered {
	n := h.told
	for i := len(h.records) - 1; i >= 0; i-- {
		first := n
		for _, s := range h.records[i].Steps {
			if s.Tell != nil {
				first--
			}
		}
		var out []Numbered
		for _, f := range h.facts {
			if f.N > first && f.N <= n {
				out = append(out, f)
			}
		}
		if len(out) > 0 {
			return out
		}
		n = first
	}
	return nil
}

// Records returns the answers. The list must not be changed.
func (h *Hunt) Records() []Record { return h.records }

// Moment returns when what is told next holds.
func (h *Hunt) Moment() Moment { return h.moment }

// Rig returns the state that the rig is in, "" if nobody said.
func (h *Hunt) Rig() string { return h.rig }

// Slot returns when the slot is, as it was told; "" for no slot.
func (h *Hunt) Slot() string { return h.slot }

// Did says whether a first action was said to be carried out, by its id.
func (h *Hunt) Did(action string) bool { return slices.Contains(h.did, action) }

// End returns how the hunt ended, "" while it goes on.
func (h *Hunt) End() string { return h.end }

// Engine returns what the hunt reasons with.
func (h *Hunt) Engine() *diagnose.Engine { return h.engine }

// Begun returns the moments of the sheet that the hunt began from.
func (h *Hunt) Begun() []Moment { return h.base }

// A past is a hunt as far as the next turn looks back at it: what held and how
// likely each cause was.
type past struct {
	facts []Numbered
	once  sync.Once
	work  func() map[string]float64 // the chances, where no turn has told them
	by    map[string]float64
}

// pastOf makes it. It keeps nothing of the hunt but what it needs, so that a
// long hunt does not hold all that went before.
func pastOf(h *Hunt) *past {
	bare := &Hunt{engine: h.engine, base: h.base, facts: h.facts}
	return &past{facts: h.facts, work: func() map[string]float64 {
		a, l := bare.engine.Read(bare.Sheet(false))
		if len(l) > 0 || len(bare.facts) == 0 {
			return nil
		}
		out := map[string]float64{}
		ids, chances, _ := bare.engine.Ranked(a)
		for i, id := range ids {
			out[id] = chances[i]
		}
		return out
	}}
}

// chances returns the chance of each cause by id, nil where nothing was told.
func (p *past) chances() map[string]float64 {
	p.once.Do(func() { p.by, p.work = p.work(), nil })
	return p.by
}

// tell takes the chances that a turn worked out.
func (p *past) tell(by map[string]float64) {
	p.once.Do(func() {
		if len(p.facts) > 0 {
			p.by = by
		}
		p.work = nil
	})
}
