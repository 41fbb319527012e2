package rank

import (
	"encoding/binary"
	"math"
)

// Kin are causes of which what is known tells the same: they give the same
// states and have the same words on what is known, so that they differ in how common
// they are and in nothing else. One of them is summed for all; on a rig with two of
// everything, and with little known, half of the causes are kin of others.
type kin struct {
	first []int32   // the first cause of each kind, in order
	of    [][]int32 // by place in first: all of that kind, in order
	odds  []float64 // by place in first: the prior odds of all of them
}

func (v *view) kin() kin {
	var k kin
	at := map[string]int{}
	var key []byte
	for c := range v.odds {
		key = v.kind(key[:0], int32(c))
		i, known := at[string(key)]
		if !known {
			i = len(k.first)
			at[string(key)] = i
			k.first, k.of, k.odds = append(k.first, int32(c)), append(k.of, nil), append(k.odds, 0)
		}
		k.of[i] = append(k.of[i], int32(c))
		k.odds[i] += v.odds[c]
	}
	return k
}

// kind appends all that the likelihood of a set can depend on of a cause.
func (v *view) kind(key []byte, c int32) []byte {
	n := v.net
	number := func(x float64) { key = binary.LittleEndian.AppendUint64(key, math.Float64bits(x)) }
	whole := func(x int32) { key = binary.LittleEndian.AppendUint32(key, uint32(x)) }
	for _, r := range n.reach[c] {
		if v.bearing[r.to] {
			whole(r.to)
		}
	}
	whole(-1)
	for _, g := range n.gives[c] {
		if v.bearing[g.to] {
			whole(g.to)
			number(g.s)
		}
	}
	whole(-1)
	for _, o := range v.over[c] {
		whole(o.obs)
		number(o.false)
		for _, f := range v.obs[o.obs].members {
			whole(int32(b2i(n.hasWord[c].has(f))))
		}
	}
	whole(-1)
	for _, h := range v.held[c] {
		whole(h.to)
		number(h.s)
	}
	whole(-1)
	for _, t := range v.coins[c] {
		whole(t.sign)
		number(t.p)
		number(t.share)
	}
	for _, h := range v.holding {
		m := n.naming(h.pattern)
		number(m.points[c])
		number(m.excludes[c])
	}
	return key
}
