package knowledge

// This file finds things of a base by id and by slot.

// OwnerKind says what a truth slot belongs to.
type OwnerKind uint8

// What may own a truth slot.
const (
	OwnSign OwnerKind = iota
	OwnFact
	OwnPattern
	OwnCircumstance
	OwnCourse
	OwnNormal
	OwnTrial
)

// An Owner is what a truth slot belongs to.
type Owner struct {
	Kind  OwnerKind
	Index int
	ID    string
}

// Owner returns what a truth slot belongs to.
func (b *Base) Owner(slot int) Owner { return b.slotOwner[slot] }

// Truths returns how many truth slots there are.
func (b *Base) Truths() int { return b.truths }

// Sign returns the index of a sign by id, or -1.
func (b *Base) Sign(id string) int { return find(b.signAt, id) }

// Reading returns the index of a reading by id, or -1.
func (b *Base) Reading(id string) int { return find(b.readingAt, id) }

// Cause returns the index of a cause by id, or -1.
func (b *Base) Cause(id string) int { return find(b.causeAt, id) }

// State returns the index of a state by id, or -1.
func (b *Base) State(id string) int { return find(b.stateAt, id) }

// Check returns the index of a check by id, or -1.
func (b *Base) Check(id string) int { return find(b.checkAt, id) }

func find(m map[string]int, id string) int {
	if i, ok := m[id]; ok {
		return i
	}
	return -1
}
