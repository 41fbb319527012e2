package examine

// This file looks at what tells of causes and states.

import (
	"fmt"
	"math"
	"slices"

	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
)

// third is the least difference by which a sign tells two causes apart: the
// project's own choice.
const third = 1.0 / 3

// parts finds pairs of causes of one rig that no sign which can be told on it
// shows differently. A pair is looked at on the first rig that can have both.
func (x *examiner) parts() {
	done := map[[2]int]bool{}
	for _, e := range x.Engines {
		f := e.Fitted()
		var causes []int
		shown := map[int][]float64{}
		for _, c := range f.Causes {
			if shown[c.Cause] == nil {
				causes = append(causes, c.Cause)
				shown[c.Cause] = e.Shown(c.Cause)
			}
		}
		for i, a := range causes {
			for _, b := range causes[:i] {
				key := [2]int{min(a, b), max(a, b)}
				if done[key] {
					continue
				}
				done[key] = true
				sign, by := widest(f, shown[a], shown[b])
				if by >= third {
					continue
				}
				x.alike(e, key, sign, by)
			}
		}
	}
}

// widest returns the sign of a rig that two causes show most differently.
func widest(f *knowledge.Fitted, a, b []float64) (sign int, by float64) {
	sign = -1
	for s := range a {
		if d := math.Abs(a[s] - b[s]); d > by && f.SignOn[s] && len(f.Signs[s].Covers) == 0 {
			if sign, by = s, d; by >= third {
				return
			}
		}
	}
	return
}

func (x *examiner) alike(e *diagnose.Engine, key [2]int, sign int, by float64) {
	f := e.Fitted()
	one, other := &x.Base.Causes[key[0]], &x.Base.Causes[key[1]]
	text := fmt.Sprintf("on the rig %q nothing tells %q from %q", f.Rig.ID, other.ID, one.ID)
	hint := "give one of them a sign found by a check that only it has"
	if sign >= 0 {
		text += fmt.Sprintf("; the most is %q, by %.2f", f.Signs[sign].ID, by)
		hint = fmt.Sprintf("say more of %q for one of them, or give one a sign found by a check that only it has", f.Signs[sign].ID)
	}
	x.add(other.At, pair(other.ID, one.ID), text, hint)
}

// witnesses finds states that a single sign tells of, through the states they
// lead to as well.
func (x *examiner) witnesses() {
	for i := range x.Base.States {
		s := &x.Base.States[i]
		var signs []int
		seen := map[int]bool{}
		var visit func(k int)
		visit = func(k int) {
			if seen[k] {
				return
			}
			seen[k] = true
			for _, l := range x.Base.States[k].Shows {
				if !slices.Contains(signs, l.To) {
					signs = append(signs, l.To)
				}
			}
			for _, l := range x.Base.States[k].LeadsTo {
				visit(l.To)
			}
		}
		visit(i)
		if len(signs) == 1 {
			x.add(s.At, s.ID, fmt.Sprintf("only %q tells of the state %q", x.Base.Signs[signs[0]].ID, s.ID), "say what else it shows, or let the causes show that sign themselves")
		}
	}
}

// covers finds vague signs of which nothing can be told on any rig.
func (x *examiner) covers() {
	for i := range x.Base.Signs {
		s := &x.Base.Signs[i]
		if len(s.Covers) == 0 {
			continue
		}
		if !slices.ContainsFunc(x.Engines, func(e *diagnose.Engine) bool {
			return slices.ContainsFunc(s.Covers, func(k int) bool { return e.Fitted().SignOn[k] })
		}) {
			x.add(s.At, s.ID, fmt.Sprintf("no rig can show anything that the vague sign %q covers", s.ID), "let it cover a sign that some cause shows, or take it out")
		}
	}
}
