package rank

// LineKind says what a line of the ledger counts.
type LineKind uint8

// The kinds of line.
const (
	Start    LineKind = iota // how common the cause is
	Adjusted                 // ID is the label of an adjustment or a telling
	Group                    // signs that hang together
	Holds                    // ID is a pattern
)

// A Line is one entry of a ledger, in points.
type Line struct {
	Kind   LineKind
	ID     int
	Signs  []int
	Points float64
}
