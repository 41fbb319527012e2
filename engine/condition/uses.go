package condition

// A Use is a name that a condition reads. Rising says that a truth can only
// lift the condition: turning it from false to unknown or true, or from unknown
// to true, never turns the condition the other way.
type Use struct {
	Name
	Rising bool
}

// Reads returns the names that the condition reads, each once, in the order in
// which they first stand in it.
func (p *Program) Reads() []Name {
	var list []Name
	for _, u := range p.Uses() {
		list = append(list, u.Name)
	}
	return list
}

// Uses returns the names that the condition reads and how, each once, in the
// order in which they first stand in it. A name is rising only if it is so
// wherever it stands.
func (p *Program) Uses() []Use {
	u := &uses{p: p}
	u.node(p.root, up)
	return u.list
}

// Numbers calls do for the slot of every number that the condition reads, some
// of them more than once.
func (p *Program) Numbers(do func(slot int)) {
	for i := range p.nodes {
		switch n := &p.nodes[i]; {
		case n.op == opNum, n.op == opBand, n.op == opSeen && Kind(n.b) == NumberKind:
			do(int(n.a))
		case n.op == opAtBand:
			do(int(n.b))
		}
	}
}

// A way is what a rise of a part may do to the whole.
type way int8

const (
	down   way = -1
	either way = 0
	up     way = 1
)

type uses struct {
	p    *Program
	list []Use
	at   map[[2]int32]int // by kind and slot, once there are many
}

// many is from how many names on a map is faster than looking through them;
// most conditions have fewer than ten.
const many = 24

func (u *uses) name(k Kind, slot int32, rising bool) {
	i := u.find(k, slot)
	if i < 0 {
		u.list = append(u.list, Use{Name: *u.p.scope.named(k, slot), Rising: rising})
		if u.at != nil {
			u.at[[2]int32{int32(k), slot}] = len(u.list) - 1
		}
		return
	}
	u.list[i].Rising = u.list[i].Rising && rising
}

// find returns where a name stands in the list, or -1.
func (u *uses) find(k Kind, slot int32) int {
	if len(u.list) < many {
		for i := range u.list {
			if n := &u.list[i].Name; n.Kind == k && n.Slot == int(slot) {
				return i
			}
		}
		return -1
	}
	if u.at == nil {
		u.at = make(map[[2]int32]int, 2*many)
		for i, n := range u.list {
			u.at[[2]int32{int32(n.Kind), int32(n.Slot)}] = i
		}
	}
	if i, old := u.at[[2]int32{int32(k), slot}]; old {
		return i
	}
	return -1
}

func (u *uses) node(i int32, w way) {
	n := &u.p.nodes[i]
	switch n.op {
	case opTruth, opWhole:
		u.name(TruthKind, n.a, w == up)
	case opText:
		u.name(TextKind, n.a, false)
	case opBand, opNum:
		u.name(NumberKind, n.a, false)
	case opSeen:
		u.name(Kind(n.b), n.a, false)
	case opNot:
		u.node(n.a, -w)
	case opCount:
		for _, kid := range u.p.kids(n) {
			u.node(kid, w)
		}
	case opAt, opAtNum: // which moments count turns with the condition
		u.node(n.a, either)
		u.node(n.b, w)
	case opAtBand:
		u.node(n.a, either)
		u.name(NumberKind, n.b, false)
	default:
		a, b := n.op.kids()
		if a {
			u.node(n.a, w)
		}
		if b {
			u.node(n.b, w)
		}
	}
}
