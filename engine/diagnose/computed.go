package diagnose

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/knowledge"
	"snagwise/engine/physics"
	"snagwise/engine/problem"
	"snagwise/engine/quantity"
	"snagwise/engine/rig"
	"snagwise/engine/sheet"
)

// A reckoner works out, on one rig, the computed readings that conditions ask
// for. It says where each place of package physics is found: in a moment, in
// the weather or on the rig.
type reckoner struct {
	fitted *knowledge.Fitted
	list   []reckoned
	slots  map[string]int // by reading that gives a number: its slot
	airs   []int          // slots of the readings that are the same for a whole sheet
}

// A reckoned is one computed reading that the rig has all for but the readings.
type reckoned struct {
	*physics.Computed
	reading int
	slot    int
	needs   [][]int                 // slots of readings, one of each of which must be known
	given   map[string]physics.Term // what the rig gives, by place
	tables  map[string][][2]float64
}

// newReckoner finds out what can be worked out on a rig. A computed reading
// that package physics does not know, or knows as another quantity, is a
// problem.
func newReckoner(f *knowledge.Fitted) (*reckoner, problem.List) {
	var l problem.List
	k := &reckoner{fitted: f, slots: map[string]int{}}
	var computed []int
	for i := range f.Readings {
		rd := &f.Readings[i]
		if len(rd.Answers) == 0 {
			k.slots[rd.ID] = rd.Slot
		}
		if rd.Computed && rd.Elapsed == nil {
			computed = append(computed, i)
		}
	}
	if len(computed) == 0 {
		return k, nil
	}
	asked := askedFor(f.Base)
	for _, i := range computed {
		rd := &f.Readings[i]
		c, err := physics.Find(rd.ID)
		switch {
		case err != nil:
			l.Add(rd.At, "not-computed", fmt.Sprintf("nothing works out the reading %q", rd.ID), problem.DidYouMean(rd.ID, physics.Names()))
		case len(rd.Answers) > 0 || c.Dim != rd.Dim:
			l.Add(rd.At, "not-computed", fmt.Sprintf("the reading %q is worked out as a %v", rd.ID, c.Dim), fmt.Sprintf("say quantity: %v", c.Dim))
		case asked[rd.Slot]:
			if r, ok := k.prepare(c, i); ok {
				k.list = append(k.list, r)
			}
		}
	}
	return k, l
}

// askedFor marks the number slots that any condition of a base reads.
func askedFor(b *knowledge.Base) map[int]bool {
	asked := map[int]bool{}
	ask := func(p *condition.Program) {
		if p == nil {
			return
		}
		p.Numbers(func(slot int) { asked[slot] = true })
	}
	for i := range b.Rules {
		ask(b.Rules[i].Program)
	}
	for i := range b.Patterns {
		ask(b.Patterns[i].Program)
	}
	for i := range b.Circumstances {
		ask(b.Circumstances[i].Program)
	}
	for i := range b.FirstActions {
		ask(b.FirstActions[i].Program)
	}
	for i := range b.NormalThings {
		ask(b.NormalThings[i].Program)
	}
	for i := range b.Hazards {
		ask(b.Hazards[i].When)
		ask(b.Hazards[i].Clear)
	}
	return asked
}

// prepare gathers what the rig gives to a computed reading. It is false when
// the rig lacks something that no reading can stand for.
func (k *reckoner) prepare(c *physics.Computed, reading int) (reckoned, bool) {
	r := reckoned{Computed: c, reading: reading, slot: k.fitted.Readings[reading].Slot, given: map[string]physics.Term{}, tables: map[string][][2]float64{}}
	for i := range c.Inputs {
		in := &c.Inputs[i]
		must := in.Default == "" && !in.Optional
		var slots []int
		for _, p := range in.From {
			if slot, ok := k.source(&r, p); ok && slot >= 0 {
				slots = append(slots, slot)
			} else if ok {
				must = false
			}
		}
		if must && len(slots) == 0 {
			return r, false
		}
		if must {
			r.needs = append(r.needs, slots)
		}
	}
	return r, true
}

// source says whether a place is there on this rig: as a reading, by the slot
// that must be known, or as what the rig gives, which is kept; then the slot is
// below nothing.
func (k *reckoner) source(r *reckoned, p physics.Place) (slot int, ok bool) {
	switch p.Kind {
	case physics.Reading, physics.Weather:
		slot, ok = k.slots[p.Name]
		if ok && p.Kind == physics.Weather && !contains(k.airs, slot) {
			k.airs = append(k.airs, slot)
		}
		return slot, ok
	case physics.Phase:
		return -1, true
	case physics.RigTable:
		rows, there := k.fitted.Rig.Table(p.Name)
		if slot, ok = k.slots[p.At]; ok && there {
			r.tables[p.Name] = rows
			return slot, true
		}
		return -1, false
	case physics.RigFact:
		if w := k.fitted.Rig.Fact(p.Name); w != "" {
			r.given[p.Name] = physics.Term{Word: w}
			return -1, true
		}
		return -1, false
	case physics.RigFigure:
		return -1, r.keep(p.Name, k.fitted.Rig.Figures)
	case physics.RigRatio:
		return -1, r.keep(p.Name, k.fitted.Rig.Ratios)
	case physics.RigCapacity:
		return -1, r.keep(p.Name, k.fitted.Rig.Capacities)
	}
	return -1, false
}

func (r *reckoned) keep(name string, figures []rig.Figure) bool {
	i := slices.IndexFunc(figures, func(f rig.Figure) bool { return f.Name == name })
	if i >= 0 {
		r.given[name] = physics.Term{Quantity: figures[i].Value}
	}
	return i >= 0
}

// air is what is known of the weather over the whole sheet, by slot: what was
// read at some moments, where all of them agree.
func (k *reckoner) air(w *condition.World) map[int]float64 {
	out := map[int]float64{}
	for _, slot := range k.airs {
		x, agree := math.NaN(), true
		for i := range w.Moments {
			if v := w.Moments[i].Num[slot]; !math.IsNaN(v) {
				agree = agree && (math.IsNaN(x) || x == v)
				x = v
			}
		}
		if agree && !math.IsNaN(x) {
			out[slot] = x
		}
	}
	return out
}

// reckon works out at each moment what can be worked out from what is known. A
// computed reading that was told stands as told.
func (e *Engine) reckon(t *telling) {
	if len(e.reckoner.list) == 0 {
		return
	}
	air := e.reckoner.air(t.world)
	t.reckoned = make([][]bool, len(t.world.Moments))
	for i := range t.world.Moments {
		m := &t.world.Moments[i]
		t.reckoned[i] = make([]bool, len(e.reckoner.list))
		var phases sheet.PhaseSet
		if i < len(t.account.Moments) {
			phases = t.account.Moments[i].Phases
		}
		for j := range e.reckoner.list {
			r := &e.reckoner.list[j]
			if m.Word[r.slot] != (condition.Word{}) || !math.IsNaN(m.Num[r.slot]) || !r.ready(m, air) {
				continue
			}
			v, ok := e.reckoner.work(r, m, air, phases)
			if !ok {
				continue
			}
			m.Num[r.slot], t.reckoned[i][j] = v.Quantity.SI, true
			if g, fitted := e.fitted.Rig.Gauge(r.ID); fitted {
				m.Word[r.slot] = e.against(g, phases, v.Quantity.SI, v.Quantity.SI)
			}
			for _, a := range v.Assumed {
				t.assumed = append(t.assumed, fmt.Sprintf("%s: %s taken as %s", r.Means, strings.ReplaceAll(a.Name, "_", " "), a.Value))
			}
		}
	}
}

// ready says whether every input that must be known may be.
func (r *reckoned) ready(m *condition.Moment, air map[int]float64) bool {
	for _, slots := range r.needs {
		if !slices.ContainsFunc(slots, func(s int) bool { return !math.IsNaN(m.Num[s]) || known(air, s) }) {
			return false
		}
	}
	return true
}

func known(air map[int]float64, slot int) bool {
	_, ok := air[slot]
	return ok
}

// work works one reading out at a moment. Where the moment may be one of
// several phases it must come to the same in all of them.
func (k *reckoner) work(r *reckoned, m *condition.Moment, air map[int]float64, phases sheet.PhaseSet) (physics.Value, bool) {
	list := phases.List()
	if len(list) == 0 {
		list = []int{-1}
	}
	var out physics.Value
	for i, p := range list {
		phase := ""
		if p >= 0 {
			phase = k.fitted.Phases[p]
		}
		v, err := r.Work(func(in *physics.Input) (physics.Term, bool) {
			return in.Seek(phase, func(p physics.Place) (physics.Term, bool) { return k.find(r, in, p, m, air, phase) })
		})
		if err != nil || i > 0 && v.Quantity.SI != out.Quantity.SI {
			return out, false
		}
		out = v
	}
	return out, true
}

// find returns what is known at a place.
func (k *reckoner) find(r *reckoned, in *physics.Input, p physics.Place, m *condition.Moment, air map[int]float64, phase string) (physics.Term, bool) {
	switch p.Kind {
	case physics.Reading:
		return k.read(p.Name, m)
	case physics.Weather:
		if t, ok := k.read(p.Name, m); ok {
			return t, ok
		}
		if x, ok := air[k.slots[p.Name]]; ok {
			return k.term(p.Name, x), true
		}
	case physics.Phase:
		return physics.Term{Word: phase}, phase != ""
	case physics.RigTable:
		at, ok := k.read(p.At, m)
		if rows := r.tables[p.Name]; ok && len(rows) > 0 {
			t, err := in.FromTable(rows, at.Quantity)
			return t, err == nil
		}
	case physics.RigFact, physics.RigFigure, physics.RigRatio, physics.RigCapacity:
		t, ok := r.given[p.Name]
		return t, ok
	}
	return physics.Term{}, false
}

// read returns the figure of a reading at a moment.
func (k *reckoner) read(id string, m *condition.Moment) (physics.Term, bool) {
	slot, ok := k.slots[id]
	if !ok || math.IsNaN(m.Num[slot]) {
		return physics.Term{}, false
	}
	return k.term(id, m.Num[slot]), true
}

func (k *reckoner) term(id string, si float64) physics.Term {
	rd := &k.fitted.Readings[k.fitted.Reading(id)]
	return physics.Term{Quantity: quantity.Quantity{SI: si, Dim: rd.Dim}}
}

// idWord is a name as it may stand in the text of a clause.
var idWord = regexp.MustCompile(`[a-z][a-z_0-9]*`)

// workedOut lists the readings in a clause that were worked out, with the
// figures found at its moment; for a clause of the whole sheet at the first
// moment that has one.
func (s *session) workedOut(c condition.Clause) []WorkedOut {
	if s.told.reckoned == nil {
		return nil
	}
	var out []WorkedOut
	names := idWord.FindAllString(c.Text, -1)
	for j := range s.reckoner.list {
		r := &s.reckoner.list[j]
		if !slices.Contains(names, r.ID) {
			continue
		}
		at := c.Moment
		if at < 0 {
			at = slices.IndexFunc(s.told.reckoned, func(m []bool) bool { return m[j] })
		}
		if at < 0 || !s.told.reckoned[at][j] {
			continue
		}
		if v, ok := shown(s.state.World.Moments[at].Num[r.slot], r.Dim, r.Unit); ok {
			out = append(out, WorkedOut{ID: r.ID, Means: r.Means, Value: v, Formula: r.Formula, Caution: r.Caution, Source: r.Source})
		}
	}
	return out
}

// proves says whether the ground of a truth belongs to the ground of a cause: of
// every sign, of a circumstance that nobody told, and of a pattern that rests
// on what was worked out.
func (s *session) proves(n condition.Name) bool {
	if n.Kind != condition.TruthKind {
		return false
	}
	switch s.fitted.Owner(n.Slot).Kind {
	case knowledge.OwnSign:
		return true
	case knowledge.OwnCircumstance:
		return s.state.Told(chain.Whole, n.Slot) == condition.Unknown
	case knowledge.OwnPattern:
		return slices.ContainsFunc(s.state.Proof(chain.Whole, n.Slot).Clauses, func(c condition.Clause) bool { return len(s.workedOut(c)) > 0 })
	}
	return false
}
