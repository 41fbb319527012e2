package rank

import (
	"cmp"
	"math"
	"slices"
)

// A Ledger is why one cause stands where it does, in points: ten times the
// decimal logarithm of a ratio, so that 3 points double the odds and 10 are ten
// times. It weighs the cause alone against "none of those listed".
type Ledger struct {
	Cause int
	Total float64
	// Lines add up to Total exactly. Signs that hang together through the cause's states are one line, for
	// they are witnesses of one thing.
	Lines []Line
	// For and Against are the known signs one by one, the most telling first: what
	// the total would lose, or gain, without that one sign. They do not add up,
	// for two witnesses of one thing each add little to the other.
	For, Against []Share
	Unexplained  []int    // signs that are there and no likelier with this cause than without
	Unseen       []Unseen // signs of this cause that are not known, the most telling first
	// NeededLess is the cause that explains what this one does and stands
	// before it, or -1. A cause whose chance fell without a line of its own fell for that.
	NeededLess int
}

// LineKind says what a line of the ledger counts.
type LineKind uint8

// The kinds of line.
const (
	Start    LineKind = iota // how common the cause is
	Adjusted                 // ID is the label of an adjustment or a telling
	Group                    // Signs that hang together
	Holds                    // ID is a pattern: what it adds to its parts
)

// A Line is one entry of a ledger, in points.
type Line struct {
	Kind   LineKind
	ID     int
	Signs  []int
	Points float64
}

// A Share is what one known sign is worth, in points.
type Share struct {
	Sign   int
	Points float64
}

// Unseen is a sign not known, with its chance if the cause is there alone, and
// what it would be worth in points, found or looked for and not found.
type Unseen struct {
	Sign            int
	Chance          float64
	IfTrue, IfFalse float64
}

// Ledger returns the ledger of one cause.
func (r *Result) Ledger(cause int) Ledger {
	v := r.view
	c := int32(cause)
	a := &account{v: v, set: []int32{c}, w: newWorker(v)}
	l := Ledger{Cause: cause, NeededLess: -1}
	l.Lines = append(l.Lines, Line{Kind: Start, Points: points * math.Log(v.net.odds[c]/v.net.empty)})
	l.Lines = append(l.Lines, v.lines[c]...)
	l.Lines = append(l.Lines, a.groups()...)
	l.Lines = append(l.Lines, a.patterns()...)
	for _, line := range l.Lines {
		l.Total += line.Points
	}
	l.For, l.Against = a.shares()
	l.Unexplained = r.unexplained(cause)
	l.Unseen = r.unseen(c)
	l.NeededLess = r.neededLess(cause, l.For)
	return l
}

// An account weighs one cause against the empty set with parts of what is known.
type account struct {
	v    *view
	set  []int32
	w    *worker
	mine [][]int32 // observations that hang together
}

// ratio returns the points of the cause against the empty set with some
// observations left out.
func (a *account) ratio(without []int32) float64 {
	return points * math.Log(a.v.likelihood(a.w, a.set, without)/a.v.likelihood(a.w, nil, without))
}

// groups returns a line for each group of observations that hang together,
// leaving them out one group after another so that the lines add up.
func (a *account) groups() []Line {
	v := a.v
	a.together()
	var lines []Line
	var out []int32
	last := a.ratio(nil)
	for _, g := range a.mine {
		out = append(out, g...)
		next := a.ratio(out)
		line := Line{Kind: Group, Points: last - next}
		for _, i := range g {
			line.Signs = append(line.Signs, int(v.obs[i].sign))
		}
		if last == next || math.IsNaN(line.Points) {
			line.Points = 0
		}
		lines = append(lines, line)
		last = next
	}
	slices.SortStableFunc(lines, func(a, b Line) int { return cmp.Compare(math.Abs(b.Points), math.Abs(a.Points)) })
	return lines
}

// together finds the observations that something of the cause, or a state
// that is there by itself, bears on, and which of them hang together.
func (a *account) together() {
	v := a.v
	head := make([]int32, len(v.obs)) // of each group, itself until joined
	for i := range head {
		head[i] = int32(i)
	}
	find := func(i int32) int32 {
		for head[i] != i {
			head[i] = head[head[i]]
			i = head[i]
		}
		return i
	}
	borne := newBits(len(v.obs))
	for _, set := range [][]int32{a.set, nil} {
		s := &a.w.solver.scene
		s.set(v, set, nil)
		first := make([]int32, len(s.node)) // of each state, an observation + 1 that hangs on it
		for i := len(s.node) - 1; i >= 0; i-- {
			x := &s.node[i]
			for _, l := range s.links[x.links:x.stop] {
				if first[i] > 0 {
					head[find(l.obs)] = find(first[i] - 1)
				}
				first[i] = find(l.obs) + 1
			}
			for _, e := range s.parents[x.parents:x.end] {
				switch {
				case first[i] == 0:
				case first[e.node] > 0:
					head[find(first[i]-1)] = find(first[e.node] - 1)
				default:
					first[e.node] = first[i]
				}
			}
		}
		for i := range s.touched {
			borne.set(s.touched[i].obs)
		}
		s.clear()
	}
	at := map[int32]int{}
	for i := range v.obs {
		if !borne.has(int32(i)) {
			continue
		}
		h := find(int32(i))
		if _, ok := at[h]; !ok {
			at[h] = len(a.mine)
			a.mine = append(a.mine, nil)
		}
		a.mine[at[h]] = append(a.mine[at[h]], int32(i))
	}
}

// patterns returns what each pattern that holds does beyond its parts.
func (a *account) patterns() []Line {
	v := a.v
	if len(v.holding) == 0 {
		return nil
	}
	sum := map[int]float64{}
	for sign, set := range [][]int32{a.set, nil} {
		_, _, steps := v.combined(a.w, set, v.likelihood(a.w, set, nil))
		for _, s := range steps {
			sum[s.pattern] += float64(1-2*sign) * points * math.Log(s.ratio)
		}
	}
	var lines []Line
	for _, h := range v.holding {
		if p := sum[h.pattern]; p != 0 {
			lines = append(lines, Line{Kind: Holds, ID: h.pattern, Points: p})
		}
	}
	return lines
}

// shares weighs each observation by leaving it out.
func (a *account) shares() (up, down []Share) {
	whole := a.ratio(nil)
	for _, g := range a.mine {
		for _, i := range g {
			s := Share{int(a.v.obs[i].sign), whole - a.ratio([]int32{i})}
			switch {
			case s.Points > 1e-9:
				up = append(up, s)
			case s.Points < -1e-9:
				down = append(down, s)
			}
		}
	}
	slices.SortFunc(up, func(a, b Share) int { return cmp.Or(cmp.Compare(b.Points, a.Points), cmp.Compare(a.Sign, b.Sign)) })
	slices.SortFunc(down, func(a, b Share) int { return cmp.Or(cmp.Compare(a.Points, b.Points), cmp.Compare(a.Sign, b.Sign)) })
	return up, down
}

// unexplained lists the signs that are there and hardly likelier with the cause
// than without.
func (r *Result) unexplained(cause int) []int {
	var out []int
	j := 0
	x, none := &r.singles[cause], &r.empty
	for i, o := range r.view.obs {
		if j == len(x.seen) || r.odd[j] != int32(i) {
			continue
		}
		if o.truth && x.seen[j] < 1.5*none.seen[j] {
			out = append(out, int(o.sign))
		}
		j++
	}
	return out
}

// unseen lists the plain signs that the cause shows, itself or through states, and that
// nobody has looked at.
func (r *Result) unseen(c int32) []Unseen {
	v := r.view
	n := v.net
	w := newWorker(v)
	set := []int32{c}
	states, none := v.present(w, set), v.present(w, nil)
	asked := newBits(len(n.leak))
	for _, x := range n.words[c] {
		asked.set(x.sign)
	}
	for _, s := range n.reach[c] {
		for _, t := range n.shows[s.to] {
			asked.set(t.to)
		}
	}
	var out []Unseen
	for f := range int32(len(n.leak)) {
		if !asked.has(f) {
			continue
		}
		if _, known := r.settles(f); known || v.isTold(f) {
			continue
		}
		self := []int32{f}
		p, q := v.shows(f, self, set, states), v.shows(f, self, nil, none)
		u := Unseen{int(f), p, points * math.Log(p/q), points * math.Log((1-p)/(1-q))}
		if u.IfTrue > .5 || u.IfTrue < -.5 || u.IfFalse < -.5 {
			out = append(out, u)
		}
	}
	tells := func(u Unseen) float64 { return max(math.Abs(u.IfTrue)*u.Chance, math.Abs(u.IfFalse)*(1-u.Chance)) }
	slices.SortFunc(out, func(a, b Unseen) int { return cmp.Or(cmp.Compare(tells(b), tells(a)), cmp.Compare(a.Sign, b.Sign)) })
	return out
}

// neededLess finds the likeliest cause before this one that explains a sign
// that speaks for this one.
func (r *Result) neededLess(cause int, signs []Share) int {
	for _, x := range r.Causes {
		if x.ID == cause {
			return -1
		}
		for _, s := range signs {
			i, ok := r.view.obsOf(int32(s.Sign))
			if !ok || !r.view.obs[i].truth {
				continue
			}
			if j := slices.Index(r.odd, i); j >= 0 && r.singles[x.ID].seen[j] > 2*r.empty.seen[j] {
				return x.ID
			}
		}
	}
	return -1
}
