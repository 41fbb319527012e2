package rig_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"snagwise/engine/rig"
	"snagwise/engine/rig/rigtest"
)

// waysBetween gathers, by trying every way of at most n steps, the parts after
// a and up to b on ways that meet a and b only at their ends.
func waysBetween(r *rig.Rig, flow string, a, b int) []int {
	n := len(r.Parts)
	// steps[k][p]: p can be reached from a in k steps without meeting a or b
	// again before; left[k][p] the same towards b.
	walk := func(start int, from, to func(rig.Link) int) []bool {
		seen := make([]bool, n)
		edge := []int{start}
		for range n + 1 {
			var next []int
			for _, p := range edge {
				for _, l := range r.Links {
					if l.Flow == flow && from(l) == p && !seen[to(l)] {
						seen[to(l)] = true
						if q := to(l); q != a && q != b {
							next = append(next, q)
						}
					}
				}
			}
			edge = next
		}
		return seen
	}
	ahead := walk(a, func(l rig.Link) int { return l.From }, func(l rig.Link) int { return l.To })
	behind := walk(b, func(l rig.Link) int { return l.To }, func(l rig.Link) int { return l.From })
	if !ahead[b] {
		return nil
	}
	var on []int
	for p := range n {
		if p == b || p != a && ahead[p] && behind[p] {
			on = append(on, p)
		}
	}
	return on
}

// reaches says by plain search whether to can be reached from from.
func reaches(n int, links [][2]int, from, to int) bool {
	seen := make([]bool, n)
	for edge := []int{from}; len(edge) > 0; {
		p := edge[0]
		edge = edge[1:]
		for _, l := range links {
			if l[0] == p && !seen[l[1]] {
				seen[l[1]] = true
				edge = append(edge, l[1])
			}
		}
	}
	return seen[to]
}

func TestBetweenLeavesJustWhatLiesBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rigtest.Rig(t, rigtest.Kinds(t))
		for _, flow := range r.Flows {
			for a := range r.Parts {
				for b := range r.Parts {
					if a == b {
						continue
					}
					got, want := r.Between(flow, a, b), waysBetween(r, flow, a, b)
					if !slices.Equal(got, want) {
						t.Fatalf("Between(%s, %d, %d) = %v, want %v of %+v", flow, a, b, got, want, r.Links)
					}
				}
			}
		}
	})
}

// Taking out a part between a and b for good, one at a time, is the second
// opinion: whatever cuts every way from a to b must lie between them.
func TestWhatCutsTheWayLiesBetween(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rigtest.Rig(t, rigtest.Kinds(t))
		for _, flow := range r.Flows {
			var links [][2]int
			for _, l := range r.Links {
				if l.Flow == flow {
					links = append(links, [2]int{l.From, l.To})
				}
			}
			for a := range r.Parts {
				for b := range r.Parts {
					if a == b || !reaches(len(r.Parts), links, a, b) {
						continue
					}
					between := r.Between(flow, a, b)
					for cut := range r.Parts {
						if cut == a || cut == b {
							continue
						}
						rest := slices.DeleteFunc(slices.Clone(links), func(l [2]int) bool { return l[0] == cut || l[1] == cut })
						if !reaches(len(r.Parts), rest, a, b) && !slices.Contains(between, cut) {
							t.Fatalf("%d cuts %d from %d but is not in %v", cut, b, a, between)
						}
					}
				}
			}
		}
	})
}

func TestBridgingMissingKindsKeepsReach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rigtest.Kinds(t)
		r := rigtest.Rig(t, k)
		for _, flow := range k.Flows {
			var usual, fitted [][2]int
			for _, u := range k.Usual {
				if u.Flow == flow.ID {
					usual = append(usual, [2]int{u.From, u.To})
				}
			}
			own := false
			for _, l := range r.Links {
				if l.Flow == flow.ID {
					own = own || !l.Assumed
					from, _ := k.Kind(r.Parts[l.From].Kind)
					to, _ := k.Kind(r.Parts[l.To].Kind)
					fitted = append(fitted, [2]int{from, to})
				}
			}
			if own {
				continue
			}
			for a := range k.Parts {
				for b := range k.Parts {
					if a == b || len(r.OfKind(k.Parts[a].ID)) == 0 || len(r.OfKind(k.Parts[b].ID)) == 0 {
						continue
					}
					got, want := reaches(len(k.Parts), fitted, a, b), reaches(len(k.Parts), usual, a, b)
					if want && !got && len(fitted) == 0 {
						continue // the flow is given by the rig, and given as empty
					}
					if got != want {
						t.Fatalf("flow %s from %s to %s: reached %v, want %v", flow.ID, k.Parts[a].ID, k.Parts[b].ID, got, want)
					}
				}
			}
		}
	})
}

func TestUpstreamAndDownstreamMirrorEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := rigtest.Rig(t, rigtest.Kinds(t))
		for _, flow := range append(r.Flows, "") {
			for a := range r.Parts {
				for b := range r.Parts {
					down, up := slices.Contains(r.Downstream(flow, a), b), slices.Contains(r.Upstream(flow, b), a)
					if down != up {
						t.Fatalf("flow %q: %d downstream of %d is %v, the other way %v", flow, b, a, down, up)
					}
					if down && !r.Connected(a, b) {
						t.Fatalf("%d reaches %d but is not connected with it", a, b)
					}
					if down && a != b && len(r.Between(flow, a, b)) == 0 {
						t.Fatalf("%d reaches %d but nothing lies between", a, b)
					}
				}
			}
		}
	})
}
