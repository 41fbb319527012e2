package knowledge

// This file looks up what an item names: other items, words of a scale,
// sources.

import (
	"fmt"
	"slices"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// lookup finds a name in an index or reports it with a near one.
func (c *compiler) lookup(t Text, what string, at map[string]int) (int, bool) {
	if i, ok := at[t.Value]; ok {
		return i, true
	}
	known := make([]string, 0, len(at))
	for k := range at {
		known = append(known, k)
	}
	slices.Sort(known)
	c.l.Add(t.Pos(), "unknown-name", fmt.Sprintf("unknown %s %q", what, t.Value), problem.DidYouMean(t.Value, known))
	return -1, false
}

// links resolves a map of names to words against a scale.
func (c *compiler) links(pairs []document.Pair, what string, at map[string]int, scale map[string]float64, words []string) []Link {
	var out []Link
	for _, p := range pairs {
		i, ok := c.lookup(p.Key, what, at)
		if by, known := c.word(p.Value, scale, words); ok && known {
			out = append(out, Link{To: i, By: by})
		}
	}
	return out
}

func (c *compiler) word(t Text, scale map[string]float64, words []string) (float64, bool) {
	by, ok := scale[t.Value]
	if !ok {
		c.l.Add(t.Pos(), "unknown-word", fmt.Sprintf("%q is not on the scale", t.Value), problem.DidYouMean(t.Value, words))
	}
	return by, ok
}

func (c *compiler) list(ts []Text, what string, at map[string]int) []int {
	var out []int
	for _, t := range ts {
		if i, ok := c.lookup(t, what, at); ok {
			out = append(out, i)
		}
	}
	return out
}

// stateOrCause sorts names that may be a state, a cause or both.
func (c *compiler) stateOrCause(pairs []document.Pair, scale map[string]float64, words []string) (states, causes []Link) {
	for _, p := range pairs {
		by, ok := c.word(p.Value, scale, words)
		s, isState := c.base.stateAt[p.Key.Value]
		k, isCause := c.base.causeAt[p.Key.Value]
		if !isState && !isCause {
			c.lookup(p.Key, "state or cause", c.statesAndCauses())
			continue
		}
		if ok && isState {
			states = append(states, Link{s, by})
		}
		if ok && isCause {
			causes = append(causes, Link{k, by})
		}
	}
	return states, causes
}

func (c *compiler) stateOrCauseList(ts []Text) (states, causes []int) {
	for _, t := range ts {
		s, isState := c.base.stateAt[t.Value]
		k, isCause := c.base.causeAt[t.Value]
		if !isState && !isCause {
			c.lookup(t, "state or cause", c.statesAndCauses())
			continue
		}
		if isState {
			states = append(states, s)
		}
		if isCause {
			causes = append(causes, k)
		}
	}
	return states, causes
}

func (c *compiler) statesAndCauses() map[string]int {
	m := map[string]int{}
	for k, v := range c.base.stateAt {
		m[k] = v
	}
	for k, v := range c.base.causeAt {
		m[k] = v
	}
	return m
}

// sources checks that each cited source is listed: the id is the first word,
// the rest is the place in it; the two phrases of the trade stand as they are.
func (c *compiler) sources(ts []Text) {
	for _, t := range ts {
		if id := c.sourceID(t.Value); !c.given[id] {
			known := make([]string, 0, len(c.given))
			for k := range c.given {
				known = append(known, k)
			}
			slices.Sort(known)
			c.l.Add(t.Pos(), "unknown-source", fmt.Sprintf("source %q is not listed", id), problem.DidYouMean(id, known))
		}
	}
}

// Values returns the words of a list.
func Values(ts []Text) []string { return values(ts) }

func values(ts []Text) []string {
	var out []string
	for _, t := range ts {
		out = append(out, t.Value)
	}
	return out
}
