package rig

// This file keeps kinds and rigs in a compact form that loads without YAML.

import (
	"reflect"
	"sync"

	"snagwise/engine/compact"
	"snagwise/engine/quantity"
)

// kindsForm is what is kept of kinds. Usual gauges are not: they are needed
// only to load a rig file, and are read from the files then.
type kindsForm struct {
	Kinds    Kinds
	Readings []string
}

// Put writes the kinds as the next part of a compact form.
func (k *Kinds) Put(w *compact.Writer) error {
	return w.Add(&kindsForm{*k, k.readings})
}

// GetKinds reads kinds from a part of a compact form. The function again is
// called at most once, when a rig file is to be loaded with these kinds: it
// reads the same kinds from their files, or returns nil.
func GetKinds(r *compact.Reader, part int, again func() *Kinds) (*Kinds, error) {
	var f kindsForm
	if err := r.Read(part, &f); err != nil {
		return nil, err
	}
	k := &f.Kinds
	k.readings, k.again = f.Readings, sync.OnceValue(again)
	k.byID, k.words = make(map[string]int, len(k.Parts)), make(map[string][]string, 4*len(k.Parts))
	for i, p := range k.Parts {
		k.byID[p.ID] = i
		k.call(p.ID, append([]string{p.ID}, p.Words...))
	}
	for _, g := range k.Groups {
		for _, p := range g.Parts {
			k.call(p, append([]string{g.ID}, g.Words...))
		}
	}
	return k, nil
}

// units keeps a unit by its name: units are shared.
var units = compact.Custom{
	Type: reflect.TypeFor[*quantity.Unit](),
	Write: func(v any) ([]byte, error) {
		u := v.(*quantity.Unit)
		if u == nil {
			return nil, nil
		}
		return append([]byte{1 + byte(u.Dim)}, u.Name...), nil
	},
	Read: func(text []byte) (any, error) {
		if len(text) == 0 {
			return nil, nil
		}
		u, ok := quantity.UnitFor(string(text[1:]), quantity.Dimension(text[0]-1))
		if !ok {
			return nil, compact.ErrStale
		}
		return u, nil
	},
}

// Put writes rigs as the next part of a compact form.
func Put(w *compact.Writer, rigs []*Rig) error { return w.Add(&rigs, units) }

// Get reads rigs from a part of a compact form. They must have been loaded
// with the same kinds.
func Get(r *compact.Reader, part int, kinds *Kinds) ([]*Rig, error) {
	var rigs []*Rig
	if err := r.Read(part, &rigs, units); err != nil {
		return nil, err
	}
	for _, g := range rigs {
		if g == nil {
			return nil, compact.ErrStale
		}
		g.kinds, g.byID = kinds, make(map[string]int, len(g.Parts))
		for i, p := range g.Parts {
			g.byID[p.ID] = i
		}
		for _, l := range g.Links {
			if n := len(g.Parts); l.From < 0 || l.From >= n || l.To < 0 || l.To >= n {
				return nil, compact.ErrStale
			}
		}
		g.index()
	}
	return rigs, nil
}
