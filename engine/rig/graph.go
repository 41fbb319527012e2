package rig

// This file walks the connections of a rig.

import (
	"slices"
)

// lanes are the links of one flow, both ways, by part.
type lanes struct{ next, back [][]int }

func newLanes(parts int) *lanes {
	return &lanes{next: make([][]int, parts), back: make([][]int, parts)}
}

func (l *lanes) join(from, to int) {
	l.next[from] = insert(l.next[from], to)
	l.back[to] = insert(l.back[to], from)
}

// insert adds x to a sorted list without doubles.
func insert(list []int, x int) []int {
	i, found := slices.BinarySearch(list, x)
	if found {
		return list
	}
	return slices.Insert(list, i, x)
}

// index prepares the walks; Links must be complete.
func (r *Rig) index() {
	r.lanes = map[string]*lanes{"": newLanes(len(r.Parts))}
	r.Flows = nil
	for _, k := range r.Links {
		if r.lanes[k.Flow] == nil {
			r.lanes[k.Flow] = newLanes(len(r.Parts))
			r.Flows = append(r.Flows, k.Flow)
		}
		r.lanes[k.Flow].join(k.From, k.To)
		r.lanes[""].join(k.From, k.To)
	}
	slices.Sort(r.Flows)
	r.group = make([]int, len(r.Parts))
	for i := range r.group {
		r.group[i] = -1
	}
	for i := range r.Parts {
		if r.group[i] < 0 {
			r.flood(i)
		}
	}
}

// flood marks all that is joined to part i in any direction.
func (r *Rig) flood(i int) {
	all := r.lanes[""]
	stack := []int{i}
	r.group[i] = i
	for len(stack) > 0 {
		p := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for _, list := range [][]int{all.next[p], all.back[p]} {
			for _, q := range list {
				if r.group[q] < 0 {
					r.group[q] = i
					stack = append(stack, q)
				}
			}
		}
	}
}

// reach marks what can be reached from start over next, start aside unless a
// way leads back to it. It does not go on from a part for which ends is true.
func reach(next [][]int, start int, ends func(int) bool) []bool {
	seen := make([]bool, len(next))
	stack := []int{start}
	for len(stack) > 0 {
		p := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		for _, q := range next[p] {
			if !seen[q] {
				seen[q] = true
				if !ends(q) {
					stack = append(stack, q)
				}
			}
		}
	}
	return seen
}

func indices(in []bool) []int {
	var list []int
	for i, yes := range in {
		if yes {
			list = append(list, i)
		}
	}
	return list
}

func (r *Rig) valid(flow string, parts ...int) (*lanes, bool) {
	l := r.lanes[flow]
	for _, p := range parts {
		if p < 0 || p >= len(r.Parts) {
			return nil, false
		}
	}
	return l, l != nil
}

// Between returns the parts after a, up to and including b, on some way of the
// flow from a to b that meets a and b only at its ends; side loops on the way, such as
// relief valve back to its pump belong to the way. It is sorted, and empty when
// no way leads from a to b. The flow "" takes any flow.
func (r *Rig) Between(flow string, a, b int) []int {
	l, ok := r.valid(flow, a, b)
	if !ok || a == b {
		return nil
	}
	ends := func(p int) bool { return p == a || p == b }
	ahead := reach(l.next, a, ends)
	behind := reach(l.back, b, ends)
	if !ahead[b] {
		return nil
	}
	for i := range ahead {
		ahead[i] = i == b || ahead[i] && behind[i] && i != a
	}
	return indices(ahead)
}

// Upstream returns the parts from which the flow reaches p, sorted, p itself
// aside. The flow "" takes any flow.
func (r *Rig) Upstream(flow string, p int) []int {
	l, ok := r.valid(flow, p)
	if !ok {
		return nil
	}
	seen := reach(l.back, p, func(int) bool { return false })
	seen[p] = false
	return indices(seen)
}

// Downstream returns the parts that the flow reaches from p, sorted, p itself
// aside. The flow "" takes any flow.
func (r *Rig) Downstream(flow string, p int) []int {
	l, ok := r.valid(flow, p)
	if !ok {
		return nil
	}
	seen := reach(l.next, p, func(int) bool { return false })
	seen[p] = false
	return indices(seen)
}

// Neighbours returns the parts joined to p by any flow, either way, sorted.
func (r *Rig) Neighbours(p int) []int {
	l, ok := r.valid("", p)
	if !ok {
		return nil
	}
	var list []int
	for _, q := range slices.Concat(l.next[p], l.back[p]) {
		if q != p {
			list = insert(list, q)
		}
	}
	return list
}

// Connected says whether any way over any flow, whichever way it runs, joins
// two parts. A part is connected with itself.
func (r *Rig) Connected(a, b int) bool {
	_, ok := r.valid("", a, b)
	return ok && r.group[a] == r.group[b]
}

// FlowsBetween returns the flows in which b can be reached from a, sorted.
func (r *Rig) FlowsBetween(a, b int) []string {
	var found []string
	for _, f := range r.Flows {
		if len(r.Between(f, a, b)) > 0 {
			found = append(found, f)
		}
	}
	return found
}
