package rig

// This file fits the usual connections of the kinds to the kinds that a rig
// has: a kind that it lacks is bridged over.

import (
	"cmp"
	"slices"
)

// kindLink joins two kinds, by index in a Kinds, over some missing ones.
type kindLink struct{ from, to, over int }

// contract returns the links of one usual flow among the kinds present. What
// could be reached before can be reached after, and nothing else; a link that
// bridges missing kinds is kept only where no other way leads, so that an
// alternative that is not fitted makes no by-pass round the one that is.
func contract(n int, links []kindLink, present []bool) []kindLink {
	next := make([][]int, n)
	for _, k := range links {
		next[k.from] = insert(next[k.from], k.to)
	}
	var kept []kindLink
	for a := range n {
		if present[a] {
			kept = append(kept, bridges(next, a, present)...)
		}
	}
	return reduce(n, kept)
}

// bridges returns the links from a to the first present kinds on each way.
func bridges(next [][]int, a int, present []bool) []kindLink {
	over := map[int]int{a: 0}
	queue := []int{a}
	var found []kindLink
	for len(queue) > 0 {
		p := queue[0]
		queue = queue[1:]
		for _, q := range next[p] {
			if _, seen := over[q]; seen {
				continue
			}
			if present[q] {
				over[q] = over[p]
				found = append(found, kindLink{a, q, over[p]})
				continue
			}
			over[q] = over[p] + 1
			queue = append(queue, q)
		}
	}
	return found
}

// reduce drops bridging links, those over most missing kinds first, for which
// another way is left.
func reduce(n int, links []kindLink) []kindLink {
	if len(links) > maxLinks/10 {
		return links // far past any engine; only the neatness is lost
	}
	slices.SortFunc(links, func(a, b kindLink) int {
		return cmp.Or(cmp.Compare(b.over, a.over), cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to))
	})
	gone := make([]bool, len(links))
	for i, k := range links {
		if k.over == 0 {
			break
		}
		gone[i] = true
		next := make([][]int, n)
		for j, o := range links {
			if !gone[j] {
				next[o.from] = append(next[o.from], o.to)
			}
		}
		gone[i] = reach(next, k.from, func(int) bool { return false })[k.to]
	}
	var kept []kindLink
	for i, k := range links {
		if !gone[i] {
			kept = append(kept, k)
		}
	}
	return kept
}
