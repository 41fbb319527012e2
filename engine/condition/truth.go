package condition

// A Truth is one of three values: a reading that nobody took makes a condition
// neither true nor false but Unknown, and unknown argues for nothing.
//
// Source: S. C. Kleene, Introduction to Metamathematics, 1952, section 64, the
// strong tables (from memory).
type Truth int8

// The three values, in the order in which And and Or are minimum and maximum.
const (
	False   Truth = -1
	Unknown Truth = 0
	True    Truth = 1
)

// And is true when both are, false as soon as one is, else unknown.
func And(a, b Truth) Truth { return min(a, b) }

// Or is false when both are, true as soon as one is, else unknown.
func Or(a, b Truth) Truth { return max(a, b) }

// Not swaps true and false and leaves unknown as it is.
func Not(a Truth) Truth { return -a }

// String returns "true", "false" or "unknown".
func (t Truth) String() string {
	switch {
	case t > 0:
		return "true"
	case t < 0:
		return "false"
	}
	return "unknown"
}

// of turns a two-valued answer into a Truth.
func of(b bool) Truth {
	if b {
		return True
	}
	return False
}
