package sheet

// This file reads a sheet from a file.

import (
	"fmt"
	"slices"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// Budgets for a sheet that a stranger may have written.
const (
	MaxValues   = 20000 // words and numbers in one sheet
	MaxProblems = 50    // reported; what follows is only counted
)

// momentKeys and statementKeys are the keys of a moment and of a statement, for
// a hint when one stands in the wrong place.
var (
	momentKeys    = []string{"phase", "after", "controls", "readings", "symptoms", "not_seen", "could_not_read"}
	statementKeys = []string{"part", "worked_on", "when", "changed", "looked_at", "leaks", "how_much", "felt", "flow", "good_as_far_as", "gone_at"}
	topKeys       = []string{"rig", "weather", "moments", "parts", "circumstances", "trials", "found", "also_right", "also_found", "remedy", "checks",
		"normal_thing", "about", "source", "evidence", "certainty", "phrases", "title", "what", "date"}
)

// Parse reads a sheet. It reports every unknown key and wrong type at once, with
// its place; the sheet holds what could be read, and is nil when the file is no
// YAML at all, or too large.
func Parse(file string, text []byte) (*Sheet, problem.List) {
	root, l := document.Parse(file, text)
	if root == nil {
		// Past the depth that is read, one place says as much as many.
		deep := false
		return nil, few(slices.DeleteFunc(l, func(p problem.Problem) bool {
			again := deep && p.Check == "too-deep"
			deep = deep || p.Check == "too-deep"
			return again
		}))
	}
	if n := values(root); n > MaxValues {
		l.Add(root.Pos(), "too-large", fmt.Sprintf("the sheet holds %d words and figures", n), fmt.Sprintf("at most %d are read", MaxValues))
		return nil, l
	}
	rename(root)
	for _, key := range []string{"moments", "parts"} {
		if list := root.Get(key); list != nil {
			for _, m := range list.Items {
				rename(m)
			}
		}
	}
	s := &Sheet{}
	l = append(l, document.Decode(root, s)...)
	place := map[problem.Pos]string{}
	misplaced(root, topKeys, place)
	for i := range l {
		if hint := place[l[i].Pos]; hint != "" && l[i].Check == "unknown-key" {
			l[i].Hint = hint
		}
	}
	return s, few(l)
}

// otherKeys are other words for keys of a sheet, taken where the usual one does
// not stand beside them.
var otherKeys = map[string]string{
	"normals": "normal", "courses": "course", "trial": "trials", "tried": "trials", "circumstance": "circumstances",
	"signs": "symptoms", "seen": "symptoms", "symptom": "symptoms", "moment": "moments", "part_statements": "parts", "note": "notes",
	"control": "controls", "reading": "readings",
}

// rename gives the keys of a map their usual names.
func rename(n *document.Node) {
	for _, k := range n.Keys {
		if usual, ok := otherKeys[k.Value]; ok && n.Get(usual) == nil {
			k.Value = usual
		}
	}
}

// values counts the scalars under a node.
func values(n *document.Node) int {
	count := 1
	for _, list := range [][]*document.Node{n.Items, n.Values} {
		for _, c := range list {
			count += values(c)
		}
	}
	return count
}

// misplaced notes, for each key that belongs elsewhere in a sheet, where.
func misplaced(n *document.Node, here []string, place map[problem.Pos]string) {
	for i, k := range n.Keys {
		if slices.Contains(here, k.Value) {
			switch v := n.Values[i]; k.Value {
			case "moments":
				for _, m := range v.Items {
					misplaced(m, momentKeys, place)
				}
			case "parts":
				for _, p := range v.Items {
					misplaced(p, statementKeys, place)
				}
			}
			continue
		}
		switch {
		case slices.Contains(momentKeys, k.Value):
			place[k.Pos()] = "it belongs in a moment, under moments"
		case slices.Contains(statementKeys, k.Value):
			place[k.Pos()] = "it belongs in a statement, under parts"
		case slices.Contains(topKeys, k.Value):
			place[k.Pos()] = "it belongs at the top of the sheet"
		}
	}
}

// few sorts the problems and leaves out what nobody would read.
func few(l problem.List) problem.List {
	l = l.Sorted()
	if len(l) <= MaxProblems {
		return l
	}
	more := len(l) - MaxProblems
	l = l[:MaxProblems:MaxProblems]
	l.Add(l[MaxProblems-1].Pos, "more", fmt.Sprintf("and %d more problems", more), "")
	return l
}
