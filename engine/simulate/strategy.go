package simulate

import (
	"math"
	"slices"
	"sync"

	"snagwise/engine/diagnose"
)

// A Memory keeps what was worked out, for hunts that come to the same place.
// What is worked out depends on the place alone, so it is all the same who came
// there first.
type Memory struct {
	mu      sync.Mutex
	chances map[string][]float32
	acts    map[string][]Act
}

// NewMemory returns an empty memory.
func NewMemory() *Memory {
	return &Memory{chances: map[string][]float32{}, acts: map[string][]Act{}}
}

// likely returns the chance of each cause of the base as things stand; 0 for
// those put right without effect.
func (m *Memory) likely(h *Hunt) []float32 {
	key := h.key(false)
	m.mu.Lock()
	list := m.chances[key]
	m.mu.Unlock()
	if list == nil {
		list = m.keep(key, h.rig.engine.Chances(&h.account))
	}
	if len(h.absent) > 0 {
		list = slices.Clone(list)
		for _, c := range h.absent {
			list[c] = 0
		}
	}
	return list
}

func (m *Memory) keep(key string, chances []float64) []float32 {
	list := make([]float32, len(chances))
	for i, p := range chances {
		list[i] = float32(p)
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	m.chances[key] = list
	return list
}

// advised returns what is advised as things stand, in the order of a hunt.
func (m *Memory) advised(h *Hunt) []Act {
	key := h.key(true)
	m.mu.Lock()
	list, ok := m.acts[key]
	m.mu.Unlock()
	if ok {
		return list
	}
	f := h.rig.fitted
	now := diagnose.Situation{State: h.rig.states[h.state], EngineerHere: true}
	for i := range f.Checks {
		if has(h.done, i) || h.waits(i) {
			now.Skip = append(now.Skip, f.Checks[i].ID.Value)
		}
	}
	for _, c := range h.absent {
		now.NotThese = append(now.NotThese, f.Base.Causes[c].ID)
	}
	chances, checks, remedy := h.rig.engine.Advise(&h.account, now)
	m.keep(h.key(false), chances)
	if remedy >= 0 {
		list = append(list, Act{Check: -1, Cause: remedy})
	}
	for _, c := range checks {
		list = append(list, Act{Check: f.Check(c.ID), Cause: -1})
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	m.acts[key] = list
	return list
}

// Tool does what the tool's own hunt asks for next, and where nothing is
// advised goes on as [Memory.PerMinute].
func (m *Memory) Tool(h *Hunt) (Act, bool) {
	for _, a := range m.advised(h) {
		if a.Check < 0 || h.open(a.Check) {
			return a, true
		}
	}
	return m.PerMinute(h)
}

// settling returns the act that settles a cause, and its minutes: its own
// check, again where that could not tell, and else its remedy.
func (h *Hunt) settling(cause int) (Act, float64) {
	if k := h.rig.findings[cause]; k.Sign >= 0 && !h.told(k.Sign) {
		for _, c := range k.Checks {
			if h.open(c) {
				return Act{Check: c, Cause: -1}, h.rig.cost(c, h.state)
			}
		}
	}
	return Act{Check: -1, Cause: cause}, h.rig.remedy(cause, h.state)
}

// Likeliest settles the likeliest cause that a check can settle, then tries
// remedies by chance per minute.
func (m *Memory) Likeliest(h *Hunt) (Act, bool) {
	best, act := float32(0), Act{}
	for c, p := range m.likely(h) {
		if p > best {
			if a, _ := h.settling(c); a.Check >= 0 {
				best, act = p, a
			}
		}
	}
	if best > 0 {
		return act, true
	}
	return m.PerMinute(h)
}

// PerMinute settles the cause with the most chance per minute.
func (m *Memory) PerMinute(h *Hunt) (Act, bool) {
	best, act := 0.0, Act{}
	for c, p := range m.likely(h) {
		if p == 0 {
			continue
		}
		a, minutes := h.settling(c)
		if ratio := float64(p) / math.Max(minutes, .01); ratio > best {
			best, act = ratio, a
		}
	}
	return act, best > 0
}

// InOrder returns the strategy that settles causes in a given order, each by
// its check, then again from the top by their remedies.
func InOrder(order []int) Strategy {
	return func(h *Hunt) (Act, bool) {
		for _, c := range order {
			if a, _ := h.settling(c); a.Check >= 0 {
				return a, true
			}
		}
		for _, c := range order {
			if !has(h.absent, c) {
				return Act{Check: -1, Cause: c}, true
			}
		}
		return Act{}, false
	}
}

// Knowing settles, of the causes that are there, the one that takes the fewest
// minutes of those that end the hunt, by a check that shows it or by its remedy.
// It is no way to look for a fault: it is what is left where nothing has to be
// looked for.
func Knowing(h *Hunt) (Act, bool) {
	best, least, ends := Act{}, math.Inf(1), false
	for _, in := range h.world.causes {
		c := h.rig.fitted.Causes[in].Cause
		act, minutes := Act{Check: -1, Cause: c}, h.rig.remedy(c, h.state)
		if k := h.rig.findings[c]; k.Sign >= 0 && !h.told(k.Sign) && h.world.so[k.Sign] {
			for _, check := range k.Checks {
				if m := h.rig.cost(check, h.state); h.open(check) && m < minutes {
					act, minutes = Act{Check: check, Cause: -1}, m
				}
			}
		}
		end := h.world.kept || !h.world.without(c).so[h.world.first]
		if end && !ends || end == ends && minutes < least {
			best, least, ends = act, minutes, end
		}
	}
	return best, len(h.world.causes) > 0
}
