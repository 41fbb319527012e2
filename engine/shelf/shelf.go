// Package shelf makes knowledge and rigs ready for use: the rules that ship, a
// keeper's own folders laid over them, a rig file that somebody names.
//
// What ships is also kept in a compact form, written by [Pack] when the program
// is built, that loads without reading YAML and without compiling a condition.
// [Open] takes it where it was made from the very files it stands for, and
// reads the files where it was not. Both ways give the same, which a test holds
// them to; whatever is wrong with a keeper's files is found in the files.
//
//	s, problems := shelf.Open(shelf.Want{Layers: []fs.FS{rules}, Compact: form})
//	fitted := s.Base.On(s.Rigs[0])
package shelf

import (
	"io/fs"
	"slices"
	"strings"
	"sync"

	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/rig"
)

// A Want says what to make ready.
type Want struct {
	// Layers are the rules that ship and the folders laid over them, each over
	// the ones before. No two files of all layers may have one name.
	Layers []fs.FS
	// Compact is the compact form of the first layer; "" for none.
	Compact string
	// Rig is a rig file beside those of the layers, or nil.
	Rig *rig.File
	// Beside are more rig files: those that kept cases bring along.
	Beside []rig.File
}

// A Shelf is all knowledge with every rig it may be used on. It is not changed
// once open.
type Shelf struct {
	Kinds *rig.Kinds
	Rigs  []*rig.Rig // sorted by id, each once, the last loaded of those with one id
	Own   *rig.Rig   // the rig of the file that was wanted, or nil
	// Beside are the rigs that kept cases bring along, sorted by id; none of
	// them is among Rigs.
	Beside []*rig.Rig
	Base   *knowledge.Base

	want Want
	form *form      // nil when the files are read
	held []*rig.Rig // the rigs of the first layer, to which causes are held
}

// Open makes ready what is wanted. All problems of all files are reported;
// with any there is no base.
func Open(w Want) (*Shelf, problem.List) {
	if len(w.Layers) > 0 {
		if f := open(w.Compact, w.Layers[0]); f != nil {
			s := &Shelf{want: w, form: f}
			if l, ok := s.take(); ok {
				return s, l
			}
		}
	}
	s := &Shelf{want: w}
	return s, s.read()
}

// take takes from the compact form what holds of it. It is not ok where the
// form is damaged, or where the files must be read to say what is wrong.
func (s *Shelf) take() (problem.List, bool) {
	if len(s.want.Layers) > 1 {
		l := s.read()
		return l, len(l) == 0
	}
	var err, baseErr error
	if s.Kinds, err = s.form.kinds(s.want.Layers[0]); err != nil {
		return nil, false
	}
	var base *knowledge.Base
	var meanwhile sync.WaitGroup
	meanwhile.Go(func() { base, baseErr = s.form.base(s.Kinds) })
	s.Rigs, err = s.form.rigs(s.Kinds)
	if meanwhile.Wait(); err != nil || baseErr != nil {
		return nil, false
	}
	s.held = slices.Clone(s.Rigs)
	if l := s.own(); len(l) > 0 {
		return l, true
	}
	s.Base = base
	if s.Own == nil && len(s.Beside) == 0 {
		return nil, true
	}
	if controls := s.controls(); !s.Base.SameControls(controls) {
		l := s.compile(controls)
		return l, len(l) == 0
	}
	return nil, true
}

// read reads everything from the files.
func (s *Shelf) read() problem.List {
	var l problem.List
	if s.Kinds, l = kinds(s.want.Layers); len(l) > 0 {
		return l
	}
	s.held, l = rigs(s.Kinds, s.want.Layers[:min(1, len(s.want.Layers))])
	s.Rigs = slices.Clone(s.held)
	if len(s.want.Layers) > 1 {
		s.Rigs, l = rigs(s.Kinds, s.want.Layers)
	}
	if l = append(l, s.own()...); len(l) > 0 {
		_, more := s.Source() // what the rules get wrong is said too, as far as it needs no rig
		return append(l, more...)
	}
	return s.compile(s.controls())
}

// All returns the rigs with those that kept cases bring along after them.
func (s *Shelf) All() []*rig.Rig { return slices.Concat(s.Rigs, s.Beside) }

// controls returns the levers and switches of all rigs.
func (s *Shelf) controls() []knowledge.Control {
	return knowledge.ControlsOf(s.All()...)
}

// own loads the rig files that are wanted beside those of the layers.
func (s *Shelf) own() problem.List {
	var l problem.List
	for _, f := range s.want.Beside {
		r, more := rig.Load(s.Kinds, f.Name, f.Text)
		if l = append(l, more...); r != nil {
			s.Beside = put(s.Beside, r)
		}
	}
	if s.want.Rig == nil {
		return l
	}
	r, more := rig.Load(s.Kinds, s.want.Rig.Name, s.want.Rig.Text)
	if s.Own = r; r != nil {
		s.Rigs = put(s.Rigs, r)
	}
	return append(l, more...)
}

// compile makes the rules as written into a base.
func (s *Shelf) compile(controls []knowledge.Control) problem.List {
	src, l := s.Source()
	if len(l) > 0 {
		return l
	}
	if s.Base, l = knowledge.Compile(src, s.Kinds, controls); len(l) > 0 {
		return l
	}
	if l = s.Base.CheckTies(s.held...); len(l) > 0 {
		s.Base = nil
	}
	return l
}

// Source returns the rules as written, for what the base does not keep.
func (s *Shelf) Source() (*knowledge.Source, problem.List) {
	var all problem.List
	src := &knowledge.Source{}
	for i, y := range s.want.Layers {
		if i == 0 && s.form != nil {
			if shipped, err := s.form.source(); err == nil {
				src = shipped
				continue
			}
		}
		over, l := knowledge.Read(y)
		all = append(all, l...)
		if i == 0 {
			src = over
			continue
		}
		src = knowledge.Layer(src, over)
	}
	return src, all
}

// put adds a rig, in place of one with the same id.
func put(rigs []*rig.Rig, r *rig.Rig) []*rig.Rig {
	i, found := slices.BinarySearchFunc(rigs, r.ID, func(a *rig.Rig, id string) int { return strings.Compare(a.ID, id) })
	if found {
		rigs[i] = r
		return rigs
	}
	return slices.Insert(rigs, i, r)
}
