package knowledge

// This file keeps a base in a compact form that loads without YAML and without
// compiling a condition.

import (
	"errors"
	"reflect"
	"slices"
	"sync"

	"snagwise/engine/compact"
	"snagwise/engine/condition"
	"snagwise/engine/rig"
)

// namesForm is what a base needs before its conditions can be read.
type namesForm struct {
	Names     []condition.Name
	Owners    []Owner
	SameWords []SameWordsSource
	Fillers   []string
}

// FormParts is how many parts of a compact form a base takes.
const FormParts = 2

// programs keeps conditions in their own compact form.
func programs(scope *condition.Scope) compact.Custom {
	return compact.Custom{
		Type: reflect.TypeFor[*condition.Program](),
		Write: func(v any) ([]byte, error) {
			if p := v.(*condition.Program); p != nil {
				return p.MarshalBinary()
			}
			return nil, nil
		},
		Read: func(text []byte) (any, error) {
			if len(text) == 0 {
				return nil, nil
			}
			return scope.Load(text)
		},
	}
}

// Put writes the base as the next parts of a compact form.
func (b *Base) Put(w *compact.Writer) error {
	f := namesForm{Owners: b.slotOwner, SameWords: b.sameWords, Fillers: b.fillers}
	for _, k := range []condition.Kind{condition.NumberKind, condition.TruthKind, condition.TextKind} {
		f.Names = append(f.Names, b.Scope.Names(k)...)
	}
	bare := *b
	bare.Kinds, bare.Scope = nil, nil
	return errors.Join(w.Add(&f), w.Add(&bare, programs(b.Scope)))
}

// GetBase reads a base from the parts of a compact form that begin at first.
// The kinds must be those that it was compiled with; what Compile checks is
// not checked again.
func GetBase(r *compact.Reader, first int, kinds *rig.Kinds) (*Base, error) {
	var f namesForm
	if err := r.Read(first, &f); err != nil {
		return nil, err
	}
	scope, err := condition.NewScope(f.Names)
	if err != nil {
		return nil, err
	}
	b := &Base{}
	if err := r.Read(first+1, b, programs(scope)); err != nil {
		return nil, err
	}
	b.Kinds, b.Scope = kinds, scope
	b.slotOwner, b.truths, b.sameWords, b.fillers = f.Owners, len(f.Owners), f.SameWords, f.Fillers
	b.readingAt = places(b.Readings, func(k *Reading) string { return k.ID })
	b.signAt = places(b.Signs, func(k *Sign) string { return k.ID })
	b.stateAt = places(b.States, func(k *State) string { return k.ID })
	b.causeAt = places(b.Causes, func(k *Cause) string { return k.ID })
	b.checkAt = places(b.Checks, func(k *Check) string { return k.ID.Value })
	b.kindAt = places(kinds.Parts, func(k *rig.Kind) string { return k.ID })
	b.like, b.words = sync.OnceValue(b.foldWords), sync.OnceValue(b.indexWords)
	return b, nil
}

func places[T any](list []T, id func(*T) string) map[string]int {
	at := make(map[string]int, len(list))
	for i := range list {
		at[id(&list[i])] = i
	}
	return at
}

// Put writes the source as the next part of a compact form.
func (s *Source) Put(w *compact.Writer) error { return w.Add(s) }

// GetSource reads a source from a part of a compact form. Its texts have their
// places; only for a text written in quotes or over several lines the places
// within it are not exact.
func GetSource(r *compact.Reader, part int) (*Source, error) {
	var s Source
	err := r.Read(part, &s)
	return &s, err
}

// SameControls says whether the levers and switches are those of the base, so
// that its conditions hold for rigs with these.
func (b *Base) SameControls(controls []Control) bool {
	have := make(map[string]*Control, len(b.Controls))
	for i := range b.Controls {
		have[b.Controls[i].ID] = &b.Controls[i]
	}
	for i := range controls {
		c := &controls[i]
		if _, read := b.readingAt[c.ID]; read {
			continue
		}
		h := have[c.ID]
		if h == nil || !slices.Equal(h.Positions, c.Positions) || !slices.Equal(h.Words, c.Words) || !reflect.DeepEqual(h.Also, c.Also) {
			return false
		}
		delete(have, c.ID)
	}
	return len(have) == 0
}
