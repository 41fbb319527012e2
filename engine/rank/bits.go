package rank

// bits is a set of small integers.
type bits []uint64

func newBits(n int) bits { return make(bits, (n+63)/64) }

func (b bits) set(i int32)      { b[i>>6] |= 1 << (i & 63) }
func (b bits) has(i int32) bool { return b[i>>6]&(1<<(i&63)) != 0 }

// meets says whether the two sets have a member in common.
func (b bits) meets(o bits) bool {
	for i, w := range b {
		if w&o[i] != 0 {
			return true
		}
	}
	return false
}
