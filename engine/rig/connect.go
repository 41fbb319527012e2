package rig

// This file joins the parts of a rig.

import (
	"slices"
	"strings"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// takeConnections joins the parts. A flow that the file gives is as the file
// says; the rest is usual.
func (ld *loader) takeConnections(n *document.Node) {
	var given []string
	if n != nil {
		for _, key := range n.Keys {
			given = append(given, key.Value)
		}
	}
	eachChain(n, ld.kinds.flowNames(), &ld.l, func(flow string, chain []document.Text) {
		var last []int
		if len(ld.Links) > maxLinks {
			ld.add(chain[0].At, "too-many", "", "more than %d links", maxLinks)
			return
		}
		for _, name := range chain {
			here := ld.named(name)
			for _, a := range last {
				for _, b := range here {
					switch {
					case a == b:
						ld.add(name.At, "to-itself", "", "%q is joined to itself", name.Value)
					case ld.sameSide(a, b):
						ld.Links = append(ld.Links, Link{From: a, To: b, Flow: flow})
					}
				}
			}
			last = here
		}
	})
	for _, flow := range ld.kinds.flowNames() {
		if !slices.Contains(given, flow) {
			ld.joinUsual(flow)
		}
	}
	slices.SortFunc(ld.Links, func(a, b Link) int {
		if c := strings.Compare(a.Flow, b.Flow); c != 0 {
			return c
		}
		if a.From != b.From {
			return a.From - b.From
		}
		return a.To - b.To
	})
	ld.Links = slices.Compact(ld.Links)
}

// named returns the part with an id, or all parts of a kind.
func (ld *loader) named(t document.Text) []int {
	if i, ok := ld.byID[t.Value]; ok {
		return []int{i}
	}
	if of := ld.OfKind(t.Value); len(of) > 0 {
		return of
	}
	var known []string
	for _, p := range ld.Parts {
		known = append(known, p.ID)
	}
	hint := problem.DidYouMean(t.Value, known)
	if _, kind := ld.kinds.Kind(t.Value); kind {
		hint = "list it under parts, or leave it out"
	}
	ld.add(t.At, "unknown-name", hint, "this rig has no part %q", t.Value)
	return nil
}

// sameSide says whether two parts of kinds that are joined may be joined: a
// left one not with a right one.
func (ld *loader) sameSide(a, b int) bool {
	s, t := ld.Parts[a].Side, ld.Parts[b].Side
	return s == t || s == "" || t == ""
}

func (ld *loader) joinUsual(flow string) {
	k := ld.kinds
	present := make([]bool, len(k.Parts))
	for _, p := range ld.Parts {
		present[k.byID[p.Kind]] = true
	}
	var links []kindLink
	for _, u := range k.Usual {
		if u.Flow == flow {
			links = append(links, kindLink{from: u.From, to: u.To})
		}
	}
	for _, u := range contract(len(k.Parts), links, present) {
		for _, a := range ld.OfKind(k.Parts[u.from].ID) {
			for _, b := range ld.OfKind(k.Parts[u.to].ID) {
				if ld.sameSide(a, b) {
					ld.Links = append(ld.Links, Link{From: a, To: b, Flow: flow, Assumed: true})
				}
			}
		}
	}
}
