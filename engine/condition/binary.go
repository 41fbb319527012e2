package condition

import (
	"encoding/binary"
	"errors"
	"fmt"
	"math"

	"snagwise/engine/quantity"
)

// formVersion is the first byte of a program's compact form.
const formVersion = 1

// errForm is what all errors of Load wrap but those of another version or
// other names.
var errForm = errors.New("not the compact form of a condition")

// MarshalBinary writes the program in a compact form, to be read by
// [Scope.Load] without expr. The form holds the condition's tree; the flat
// program is written anew at load. It fits only a scope of the same names.
func (p *Program) MarshalBinary() ([]byte, error) {
	b := make([]byte, 0, 16+6*len(p.nodes))
	b = append(b, formVersion)
	b = binary.LittleEndian.AppendUint64(b, p.scope.mark)
	b = binary.AppendUvarint(b, uint64(len(p.nodes)))
	for i := range p.nodes {
		n := &p.nodes[i]
		b = append(b, byte(n.op))
		a, two := n.op.kids()
		if a {
			b = binary.AppendUvarint(b, uint64(int32(i)-n.a)) // kids are near
		}
		if two {
			b = binary.AppendUvarint(b, uint64(int32(i)-n.b))
		}
		switch n.op {
		case opTruth, opWhole, opNum:
			b = binary.AppendUvarint(b, uint64(n.a))
		case opText:
			b = binary.AppendUvarint(b, uint64(n.a))
			b = binary.AppendUvarint(b, n.set)
		case opBand:
			b = binary.AppendUvarint(b, uint64(n.a))
			b = binary.AppendUvarint(b, uint64(n.band))
		case opAtBand:
			b = binary.AppendUvarint(b, uint64(n.b))
			b = binary.AppendUvarint(b, uint64(n.band))
		case opSeen:
			b = append(b, byte(n.b), byte(n.set))
			b = binary.AppendUvarint(b, uint64(n.a))
		case opConst:
			b = append(b, byte(int8(n.k)))
		case opK:
			b = append(b, n.unit, byte(n.dim))
			b = binary.LittleEndian.AppendUint64(b, math.Float64bits(n.k))
		case opCount:
			b = binary.AppendUvarint(b, uint64(n.k))
			b = binary.AppendUvarint(b, uint64(n.b))
			for _, kid := range p.kids(n) {
				b = binary.AppendUvarint(b, uint64(int32(i)-kid))
			}
		}
	}
	return b, nil
}

// Load reads what MarshalBinary wrote. It fails where the data are damaged or
// were written for other names; it never panics.
func (s *Scope) Load(data []byte) (*Program, error) {
	r := &reader{data: data, scope: s}
	if v := r.byte(); v != formVersion {
		return nil, fmt.Errorf("compact condition of version %d, want %d", v, formVersion)
	}
	if mark := r.fixed(); mark != s.mark && !r.broken {
		return nil, errors.New("compact condition written for other names")
	}
	count := r.number(16 * maxNodes)
	p := &Program{scope: s, root: int32(count) - 1}
	if count > 0 && count <= len(data) {
		p.nodes = make([]node, count)
	} else {
		r.broken = true
	}
	for i := range p.nodes {
		r.node(p, int32(i))
	}
	if r.broken || len(r.data) > 0 || p.nodes[p.root].op.number() || !p.isTree() {
		return nil, errForm
	}
	if !p.generate() {
		return nil, errForm
	}
	return p, nil
}

// isTree reports whether every node but the root has one parent, as a walk
// would else take twice as long at each level. Only a number that is compared
// with several figures may have more.
func (p *Program) isTree() bool {
	ok := true
	use := func(kid int32, parent op) {
		n := &p.nodes[kid]
		ok = ok && (n.ea == 0 || parent == opEQ && n.op.number() && n.eb == 0)
		n.ea = 1
		if parent != opEQ {
			n.eb = 1
		}
	}
	for i := range p.nodes {
		n := &p.nodes[i]
		a, b := n.op.kids()
		if a {
			use(n.a, n.op)
		}
		if b {
			use(n.b, n.op)
		}
		if n.op == opCount {
			for _, kid := range p.kids(n) {
				use(kid, n.op)
			}
		}
	}
	for i := range p.nodes {
		n := &p.nodes[i]
		ok = ok && (n.ea == 1) == (int32(i) != p.root)
		n.ea, n.eb = 0, 0
	}
	return ok
}

// A reader takes apart a compact form; broken is set once something is wrong.
type reader struct {
	data   []byte
	scope  *Scope
	broken bool
}

func (r *reader) byte() byte {
	if len(r.data) == 0 {
		r.broken = true
		return 0
	}
	b := r.data[0]
	r.data = r.data[1:]
	return b
}

func (r *reader) fixed() uint64 {
	if len(r.data) < 8 {
		r.broken = true
		return 0
	}
	v := binary.LittleEndian.Uint64(r.data)
	r.data = r.data[8:]
	return v
}

func (r *reader) varint() uint64 {
	if len(r.data) > 0 && r.data[0] < 0x80 {
		return uint64(r.byte())
	}
	v, size := binary.Uvarint(r.data)
	if size <= 0 {
		r.broken = true
		return 0
	}
	r.data = r.data[size:]
	return v
}

// number reads a number below limit.
func (r *reader) number(limit int) int {
	v := r.varint()
	if v >= uint64(limit) {
		r.broken = true
		return 0
	}
	return int(v)
}

func (r *reader) slot(k Kind) int32 { return int32(r.number(len(r.scope.byKind[k]))) }

// kid reads a kid of node i, which stands before it and is of the sort wanted.
func (r *reader) kid(p *Program, i int32, number bool) int32 {
	kid := i - int32(r.number(int(i)+1))
	if kid >= i || p.nodes[kid].op.number() != number {
		r.broken = true
		return 0
	}
	return kid
}

func (r *reader) node(p *Program, i int32) {
	if r.broken {
		return
	}
	n := &p.nodes[i]
	n.op = op(r.byte())
	if n.op >= opEnd {
		r.broken, n.op = true, opConst
		return
	}
	a, two := n.op.kids()
	if a {
		n.a = r.kid(p, i, n.op.takesNumber(false))
	}
	if two {
		n.b = r.kid(p, i, n.op.takesNumber(true))
	}
	switch n.op {
	case opTruth, opWhole:
		n.a = r.slot(TruthKind)
	case opNum:
		n.a = r.slot(NumberKind)
	case opText:
		n.a, n.set = r.slot(TextKind), r.varint()
	case opBand:
		n.a, n.band = r.slot(NumberKind), r.word()
	case opAtBand:
		n.b, n.band = r.slot(NumberKind), r.word()
	case opSeen:
		n.b, n.set = int32(r.byte()), uint64(r.byte())
		if Kind(n.b) > TextKind || n.set > 1 {
			r.broken = true
			return
		}
		n.a = r.slot(Kind(n.b))
	case opConst:
		n.k = float64(int8(r.byte()))
		r.broken = r.broken || n.k != 1 && n.k != -1
	case opK:
		n.unit, n.dim = r.byte(), quantity.Dimension(r.byte())
		n.k = math.Float64frombits(r.fixed())
		r.broken = r.broken || int(n.unit) > len(makers) || int(n.dim) >= dimCount || !finite(n.k)
	case opCount:
		n.k, n.b = float64(r.number(maxNodes)), int32(r.number(maxNodes))
		n.a = int32(len(p.list))
		r.broken = r.broken || n.k < 1 || int32(n.k) > n.b
		for range n.b {
			p.list = append(p.list, r.kid(p, i, false))
		}
	}
}

// word reads one band word.
func (r *reader) word() Band {
	b := Band(r.number(1 << len(bandWords)))
	r.broken = r.broken || b == 0 || b != b.lowest()
	return b
}

// takesNumber reports whether the first or second kid of a node is a number.
func (o op) takesNumber(second bool) bool {
	switch o {
	case opLT, opLE, opGT, opGE, opEQ, opNE, opHighest, opLowest:
		return true
	case opAtNum:
		return second
	}
	return o.number()
}
