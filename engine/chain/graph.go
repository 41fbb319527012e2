// The graph of which concluded slot reads which: its circles, an order of
// evaluation, and the refusal of circles through "not".
package chain

import (
	"fmt"
	"slices"
	"strings"

	"snagwise/engine/condition"
	"snagwise/engine/problem"
)

// An edge says that a slot's rule reads another concluded slot.
type edge struct {
	to   int32
	rule int32
	turn bool // a rise of the slot read may lower the conclusion
}

// arrange groups the concluded slots into circles and single slots, each
// group after all that it reads, and refuses circles with a turning edge.
func (p *Plan) arrange() (l problem.List) {
	edges := p.edges()
	p.groupOf, p.place = make([]int32, len(p.names)), make([]int32, len(p.names))
	for i := range p.groupOf {
		p.groupOf[i] = -1
	}
	for _, slots := range components(edges, func(slot int32) bool { return len(p.of(slot)) > 0 }) {
		slices.Sort(slots)
		g := group{slots: slots, circle: len(slots) > 1}
		for k, slot := range slots {
			p.groupOf[slot], p.place[slot] = int32(len(p.groups)), int32(k)
		}
		for _, e := range edges[slots[0]] {
			g.circle = g.circle || e.to == slots[0]
		}
		if g.circle {
			l = append(l, p.close(&g, edges)...)
		}
		p.groups = append(p.groups, g)
	}
	return l
}

// edges lists, by truth slot, the concluded slots that its rules read.
func (p *Plan) edges() [][]edge {
	edges := make([][]edge, len(p.names))
	for i, r := range p.rules {
		for _, use := range r.uses {
			if use.Kind == condition.TruthKind && len(p.of(int32(use.Slot))) > 0 {
				e := edge{to: int32(use.Slot), rule: int32(i), turn: !use.Rising}
				edges[r.Slot] = append(edges[r.Slot], e)
			}
		}
	}
	return edges
}

// close fills in a circle's rules and readers, or says why it is refused.
func (p *Plan) close(g *group, edges [][]edge) (l problem.List) {
	g.inner = make([][]int32, len(g.slots))
	var inside, turning []int32
	for _, slot := range g.slots {
		for i := p.span[slot][0]; i < p.span[slot][1]; i++ {
			g.rules = append(g.rules, i)
		}
		for _, e := range edges[slot] {
			k, in := slices.BinarySearch(g.slots, e.to)
			if !in {
				continue
			}
			inside = append(inside, e.rule)
			g.inner[k] = append(g.inner[k], e.rule)
			if e.turn {
				turning = append(turning, e.rule)
			}
		}
	}
	for k := range g.inner {
		slices.Sort(g.inner[k])
		g.inner[k] = slices.Compact(g.inner[k])
	}
	if len(turning) > 0 {
		l = append(l, p.refuse(inside, turning))
	}
	return l
}

// refuse words the problem of a circle through "not": its rules by name, each
// with its place, at the first place of a rule that turns.
func (p *Plan) refuse(inside, turning []int32) problem.Problem {
	at := func(a, b int32) int { return p.rules[a].Pos.Compare(p.rules[b].Pos) }
	first := slices.MinFunc(turning, at)
	names := make([]string, 0, len(inside))
	for _, i := range inside {
		name := fmt.Sprintf("%q", p.rules[i].ID)
		if place := p.rules[i].Pos.String(); place != "" {
			name += " (" + place + ")"
		}
		names = append(names, name)
	}
	slices.Sort(names)
	names = slices.Compact(names)
	return problem.Problem{
		Pos: p.rules[first].Pos, Check: "circle-through-not",
		Text: "rules that deny one another in a circle: " + strings.Join(names, ", "),
		Hint: `let one of them rest on readings alone, or take out the "not", "seen" or "at" that closes the circle`,
	}
}

// components returns the strongly connected sets of the nodes, each after the
// sets it has edges to (Tarjan's algorithm; SIAM Journal on Computing 1, 1972,
// from memory).
func components(edges [][]edge, node func(int32) bool) [][]int32 {
	var (
		sets  [][]int32
		stack []int32
		count int32
		seen  = make([]int32, len(edges)) // order of first visit, from 1
		low   = make([]int32, len(edges))
		on    = make([]bool, len(edges))
		visit func(v int32)
	)
	visit = func(v int32) {
		count++
		seen[v], low[v], on[v] = count, count, true
		stack = append(stack, v)
		for _, e := range edges[v] {
			if seen[e.to] == 0 {
				visit(e.to)
				low[v] = min(low[v], low[e.to])
			} else if on[e.to] {
				low[v] = min(low[v], seen[e.to])
			}
		}
		if low[v] != seen[v] {
			return
		}
		from := len(stack)
		for on[v] {
			from--
			on[stack[from]] = false
		}
		sets = append(sets, slices.Clone(stack[from:]))
		stack = stack[:from]
	}
	for v := range edges {
		if seen[v] == 0 && node(int32(v)) {
			visit(int32(v))
		}
	}
	return sets
}
