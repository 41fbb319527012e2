package knowledge

// This file checks that what a cause shows on a gauge can get there: that the
// parts of a rig are joined between the cause's part and where the gauge taps.

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"snagwise/engine/problem"
	"snagwise/engine/rig"
)

// Loose is a cause that tells on a reading although nothing joins its part to
// where the reading taps.
type Loose struct {
	Cause, Reading int // indices in Base.Causes and Base.Readings
	Sign           int // the sign by which it would tell
}

// Loose lists what is loose on the rig, in the order of causes. Every reading
// that a sign's rules read wants a way, but for one that the cause itself makes
// untrue. Ways run whichever way the flows do, and not through the kinds of
// [Base.NoWayThrough].
func (f *Fitted) Loose() []Loose {
	var out []Loose
	ways := f.ways()
	done := map[[2]int]bool{}
	for _, inst := range f.Causes {
		c := &f.Base.Causes[inst.Cause]
		for _, s := range f.shown(c) {
			for _, r := range f.Signs[s].Readings {
				key := [2]int{inst.Cause, r}
				if ways[r] == nil || ways[r][inst.Part] || done[key] || slices.Contains(c.Falsifies, r) {
					continue
				}
				done[key] = true
				out = append(out, Loose{inst.Cause, r, s})
			}
		}
	}
	return out
}

// shown lists the signs that a cause shows itself or through its states, in
// order.
func (f *Fitted) shown(c *Cause) []int {
	signs := map[int]bool{}
	seen := map[int]bool{}
	var state func(i int)
	state = func(i int) {
		if seen[i] {
			return
		}
		seen[i] = true
		for _, k := range f.States[i].Shows {
			signs[k.To] = true
		}
		for _, k := range f.States[i].LeadsTo {
			state(k.To)
		}
	}
	for _, g := range c.Gives {
		state(g.To)
	}
	for _, d := range c.Direct {
		signs[d.To] = true
	}
	for _, n := range c.Never {
		delete(signs, n)
	}
	return slices.Sorted(maps.Keys(signs))
}

// ways says, by reading, which parts are joined to where it taps; nil for a
// reading that is not fitted or taps nowhere, such as the weather.
func (f *Fitted) ways() [][]bool {
	out := make([][]bool, len(f.Readings))
	for i, rd := range f.Readings {
		g, ok := f.Rig.Gauge(rd.ID)
		if !ok || len(g.Taps) == 0 {
			continue
		}
		out[i] = joined(f.Rig, g.Taps, f.NoWayThrough)
	}
	return out
}

// joined marks the parts from which a way leads to one of the taps, whichever
// way the flows run. A tap that hangs on nothing but a hub, as the drive of a
// counter does with its gauge, measures the hub: there ways go on.
func joined(r *rig.Rig, taps []int, hubs []string) []bool {
	hub := func(p int) bool { return slices.Contains(hubs, r.Parts[p].Kind) }
	seen := make([]bool, len(r.Parts))
	var open []int
	take := func(p int) {
		if !seen[p] {
			seen[p] = true
			open = append(open, p)
		}
	}
	for _, p := range taps {
		take(p)
		near := slices.DeleteFunc(r.Neighbours(p), func(q int) bool { return len(r.Neighbours(q)) == 1 }) // its own gauge
		if !slices.ContainsFunc(near, func(q int) bool { return !hub(q) }) {
			for _, q := range near {
				take(q)
			}
		}
	}
	for first := len(open); len(open) > 0; first-- {
		p := open[0]
		open = open[1:]
		if first <= 0 && hub(p) {
			continue
		}
		for _, q := range r.Neighbours(p) {
			take(q)
		}
	}
	return seen
}

// CheckTies reports every cause that is loose on a rig and not excused under
// untied, and every excuse that is needed on none of the rigs.
func (b *Base) CheckTies(rigs ...*rig.Rig) problem.List {
	var l problem.List
	excused := map[[2]int]int{}
	used := make([]bool, len(b.Untied))
	for i, u := range b.Untied {
		excused[[2]int{b.Cause(u.Cause.Value), b.Reading(u.Reading.Value)}] = i
	}
	for _, r := range rigs {
		for _, loose := range b.On(r).Loose() {
			if i, ok := excused[[2]int{loose.Cause, loose.Reading}]; ok {
				used[i] = true
				continue
			}
			c, rd := &b.Causes[loose.Cause], b.Readings[loose.Reading].ID
			l.Add(c.At, "untied", fmt.Sprintf("cause %q tells on %q by %q, and on the %s no way joins %s to its tap",
				c.ID, rd, b.Signs[loose.Sign].ID, r.Name, strings.ReplaceAll(c.Kind, "_", " ")),
				"join the parts in parts.yaml or the rig, or give the reason under untied")
		}
	}
	for i, u := range b.Untied {
		if !used[i] {
			l.Add(u.Cause.Pos(), "tied", fmt.Sprintf("cause %q needs no excuse for %q: they are joined, or it does not tell on it",
				u.Cause.Value, u.Reading.Value), "take the excuse out")
		}
	}
	return l.Sorted()
}
