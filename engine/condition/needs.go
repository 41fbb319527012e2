package condition

import (
	"maps"
	"math/bits"
	"slices"
)

// Needs returns the names worth knowing when the condition is undecided at a
// moment: the smallest set that could make it true, in the order in which they
// stand in the condition. What could no longer change the answer is left out.
// It is empty once the condition is decided.
func (p *Program) Needs(w *World, now int) []string {
	if len(w.Moments) == 0 {
		now = -1
	}
	if p.tree(w, now, p.root) != Unknown {
		return nil
	}
	s := &seeker{p: p, w: w}
	need := s.node(p.root, now, True)
	var ids []string
	for _, n := range p.Reads() {
		if need[n.ID] {
			ids = append(ids, n.ID)
		}
	}
	return ids
}

type nameSet map[string]bool

type seeker struct {
	p *Program
	w *World
}

// node returns the smallest set found of names that could give node i, which
// is not decided the other way, the value wanted. Nil is "nothing needed".
func (s *seeker) node(i int32, now int, want Truth) nameSet {
	n := &s.p.nodes[i]
	if s.p.tree(s.w, now, i) == want {
		return nil
	}
	switch n.op {
	case opNot:
		return s.node(n.a, now, -want)
	case opAnd, opOr:
		if (n.op == opAnd) == (want == True) {
			return union(s.node(n.a, now, want), s.node(n.b, now, want))
		}
		return s.least([]int32{n.a, n.b}, 1, now, want)
	case opCount:
		need := int(n.k)
		if want == False {
			need = int(n.b) - need + 1
		}
		return s.least(s.p.kids(n), need, now, want)
	}
	return s.all(i, now)
}

// least returns the union of the smallest sets for so many of the kids.
func (s *seeker) least(kids []int32, need, now int, want Truth) nameSet {
	var sets []nameSet
	for _, kid := range kids {
		switch s.p.tree(s.w, now, kid) {
		case want:
			need--
		case Unknown:
			sets = append(sets, s.node(kid, now, want))
		}
	}
	slices.SortStableFunc(sets, func(a, b nameSet) int { return len(a) - len(b) })
	var all nameSet
	for _, set := range sets[:max(0, min(need, len(sets)))] {
		all = union(all, set)
	}
	return all
}

// all returns the names that a leaf reads and that are not known where it
// reads them; a leaf over moments may need any of its names.
func (s *seeker) all(i int32, now int) nameSet {
	u := &uses{p: s.p, at: map[[2]int32]int{}}
	u.node(i, up)
	all, missing := nameSet{}, nameSet{}
	m := s.w.moment(now)
	for _, use := range u.list {
		all[use.ID] = true
		slot := int32(use.Slot)
		if use.Kind == NumberKind && m.num(slot) != m.num(slot) || use.Kind == TextKind && bits.OnesCount64(m.text(slot)) != 1 {
			missing[use.ID] = true
		}
	}
	if n := &s.p.nodes[i]; n.op >= opLT && n.op <= opNE && s.p.readsMoment(i) && len(missing) > 0 {
		return missing
	}
	return all
}

func union(a, b nameSet) nameSet {
	if len(a) == 0 {
		return b
	}
	all := maps.Clone(a)
	maps.Copy(all, b)
	return all
}
