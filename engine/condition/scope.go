package condition

import (
	"fmt"
	"math"
	"strings"
	"sync"

	"github.com/expr-lang/expr/conf"

	"snagwise/engine/problem"
	"snagwise/engine/quantity"
)

// A Kind says what sort of value a name stands for.
type Kind uint8

// The kinds of names.
const (
	NumberKind Kind = iota // a reading told as a figure
	TruthKind              // a sign, fact, circumstance, course, trial or phase word
	TextKind               // a control, the phase or a reading told as an answer
)

// String returns "number", "truth" or "text".
func (k Kind) String() string {
	switch k {
	case NumberKind:
		return "number"
	case TruthKind:
		return "truth"
	}
	return "text"
}

// A Span says where a truth name is read.
type Span uint8

// The spans of a truth.
const (
	Sometimes  Span = iota // told at moments: within at(...) and its like as known at that moment, else over the whole
	Throughout             // holds for the whole sheet, such as a circumstance: always read from World.Whole
	Momentary              // such as "at idle": always read at the moment in hand
)

// A Name is something that a condition may speak of.
type Name struct {
	ID     string
	Kind   Kind
	Dim    quantity.Dimension // of a number
	Values []string           // of a text: all it can be, at most 64
	Banded bool               // of a number: band words such as low(x) may be said of it
	Span   Span               // of a truth
	Slot   int                // place in Moment's list of its kind; given by NewScope
}

// A Scope is the set of names that conditions may use. It may be shared by
// many goroutines.
type Scope struct {
	names  []Name
	index  map[string]int32
	byKind [3][]int32 // indexes of names, by kind and slot
	mark   uint64     // tells one scope from another

	once   sync.Once
	mu     sync.Mutex // expr's checker keeps a cache in its configuration
	config *conf.Config
}

// maxValues is how many values a text can have: they are kept as bits.
const maxValues = 64

// maxSlots is how many names of a kind there can be: the flat program keeps
// slots in 16 bits.
const maxSlots = 60000

// NewScope makes a scope and gives every name its slot, counting per kind in
// the order given. It refuses a name that stands twice, is a word of the
// condition language, or could not stand in a condition.
func NewScope(names []Name) (*Scope, error) {
	s := &Scope{names: make([]Name, len(names)), index: make(map[string]int32, len(names))}
	h := mark(fnvStart)
	for i, n := range names {
		if err := fit(n); err != nil {
			return nil, err
		}
		if _, twice := s.index[n.ID]; twice {
			return nil, fmt.Errorf("name %q stands twice", n.ID)
		}
		if n.Slot = len(s.byKind[n.Kind]); n.Slot == maxSlots {
			return nil, fmt.Errorf("more than %d names of the %s kind", maxSlots, n.Kind)
		}
		s.byKind[n.Kind] = append(s.byKind[n.Kind], int32(i))
		s.names[i], s.index[n.ID] = n, int32(i)
		h = h.byte(byte(n.Kind)).byte(byte(n.Dim)).byte(byte(n.Span)).byte(byte(of(n.Banded))).text(n.ID)
		for _, v := range n.Values {
			h = h.byte(0).text(v)
		}
		h = h.byte('\n')
	}
	s.mark = uint64(h)
	return s, nil
}

// A mark is a running FNV-1a hash, which is the same on every machine.
//
// Source: G. Fowler, L. C. Noll, K.-P. Vo, draft-eastlake-fnv (from memory).
type mark uint64

const fnvStart, fnvPrime = 14695981039346656037, 1099511628211

func (h mark) byte(b byte) mark { return (h ^ mark(b)) * fnvPrime }

func (h mark) text(s string) mark {
	for i := range len(s) {
		h = h.byte(s[i])
	}
	return h
}

// fit says why a name cannot stand in a condition.
func fit(n Name) error {
	switch {
	case !identifier(n.ID):
		return fmt.Errorf("name %q is not made of letters, digits and underscores", n.ID)
	case reserved(n.ID):
		return fmt.Errorf("name %q is a word of the condition language", n.ID)
	case n.Kind > TextKind:
		return fmt.Errorf("name %q has no kind", n.ID)
	case len(n.Values) > maxValues:
		return fmt.Errorf("name %q has %d values, more than %d", n.ID, len(n.Values), maxValues)
	}
	return nil
}

func identifier(s string) bool {
	for i, r := range s {
		letter := r == '_' || 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z'
		if !letter && (i == 0 || r < '0' || r > '9') {
			return false
		}
	}
	return s != ""
}

// Lookup returns the name with this id.
func (s *Scope) Lookup(id string) (Name, bool) {
	i, ok := s.index[id]
	if !ok {
		return Name{}, false
	}
	return s.names[i], true
}

// Names returns the names of one kind, by slot.
func (s *Scope) Names(k Kind) []Name {
	list := make([]Name, len(s.byKind[k]))
	for slot, i := range s.byKind[k] {
		list[slot] = s.names[i]
	}
	return list
}

// Near returns the id that a person most likely meant, or "".
func (s *Scope) Near(id string) string {
	ids := make([]string, len(s.names))
	for i, n := range s.names {
		ids[i] = n.ID
	}
	return problem.Near(id, ids)
}

// NewWorld returns a world of so many moments in which nothing is known.
func (s *Scope) NewWorld(moments int) *World {
	w := &World{Moments: make([]Moment, moments), Whole: make([]Truth, len(s.byKind[TruthKind]))}
	for i := range w.Moments {
		m := &w.Moments[i]
		m.Num = make([]float64, len(s.byKind[NumberKind]))
		m.Word = make([]Word, len(m.Num))
		m.Truth = make([]Truth, len(w.Whole))
		m.Text = make([]uint64, len(s.byKind[TextKind]))
		for k := range m.Num {
			m.Num[k] = math.NaN()
		}
	}
	return w
}

// named returns the name in a slot.
func (s *Scope) named(k Kind, slot int32) *Name { return &s.names[s.byKind[k][slot]] }

// reservedWords are the words of the language, with those that expr keeps.
var reservedWords = sync.OnceValue(func() map[string]bool {
	words := map[string]bool{}
	for _, w := range strings.Fields("true false nil and or not in let if else matches contains startsWith endsWith") {
		words[w] = true
	}
	for w := range functions {
		words[w] = true
	}
	for w := range refusedBuiltins {
		words[w] = true
	}
	for w := range makerIndex {
		words[w] = true
	}
	return words
})

func reserved(id string) bool { return reservedWords()[id] }
