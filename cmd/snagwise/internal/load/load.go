// Package load brings knowledge, rigs and sheets from where people keep them
// to where the engine can use them: the rules that ship, a keeper's own folder
// over them, a rig by name or file, a sheet by file, standard input or typed.
//
// Whatever is wrong with a file comes back as problems, each with its place;
// [Library.Text] gives the text that a place lies in.
//
//	lib, problems := load.Open(load.Choice{Rules: "mine", Rig: "hollin"})
//	engine, more := lib.Engine(lib.Rigs[0])
package load

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/rig"
	"snagwise/rules"
)

// A Choice says what to load.
type Choice struct {
	Rules string // a keeper's own folder, laid over the rules that ship; "" for none
	Rig   string // name or file of a rig; "" for the first that ships
}

// A Library is all knowledge with every rig it may be used on. It is not
// changed once open.
type Library struct {
	Base *knowledge.Base
	Rigs []*rig.Rig // sorted by id, each once: the keeper's own over those that ship

	own    *rig.Rig // the rig of a file named in the choice, or nil
	layers []layer
}

// Usual is the id of the rig that is meant when nobody says which.
const Usual = "hollin"

// Open loads the rules that ship, the keeper's folder over them, and all rigs.
// All problems of all files are reported; with any there is no library.
func Open(c Choice) (*Library, problem.List) {
	lib := &Library{layers: []layer{{shown: "rules", stored: "rules", fsys: rules.Files}}}
	if c.Rules != "" {
		own, l := folder(c.Rules)
		if len(l) > 0 {
			return nil, l
		}
		lib.layers = append(lib.layers, own)
	}
	kinds, l := lib.kinds()
	if len(l) > 0 {
		return lib, lib.shown(l)
	}
	l = lib.rigs(kinds)
	if IsFile(c.Rig) {
		text, more := ReadFile(c.Rig)
		if len(more) == 0 {
			lib.own, more = rig.Load(kinds, c.Rig, text)
		}
		l = append(l, more...)
		if lib.own != nil {
			lib.put(lib.own)
		}
	}
	if len(l) > 0 { // what the rules themselves get wrong is said too, as far as it needs no rig
		_, more := source(lib.layers)
		return lib, lib.shown(append(l, more...))
	}
	lib.Base, l = base(lib.layers, kinds, lib.Rigs)
	return lib, lib.shown(l)
}

// base makes the knowledge of all layers one. It is the only place where rules
// are read for use, so that a form made ready beforehand can stand in for the
// files that ship.
func base(layers []layer, kinds *rig.Kinds, rigs []*rig.Rig) (*knowledge.Base, problem.List) {
	src, l := source(layers)
	if len(l) > 0 {
		return nil, l
	}
	return knowledge.Compile(src, kinds, knowledge.ControlsOf(rigs...))
}

// source reads the rules of all layers, the later over the earlier.
func source(layers []layer) (*knowledge.Source, problem.List) {
	var all problem.List
	var src *knowledge.Source
	for _, y := range layers {
		s, l := knowledge.Read(y)
		all = append(all, l...)
		if src == nil {
			src = s
		} else {
			src = knowledge.Layer(src, s)
		}
	}
	return src, all
}

// Source returns the rules as written, for what the base does not keep.
func (lib *Library) Source() (*knowledge.Source, problem.List) {
	src, l := source(lib.layers)
	return src, lib.shown(l)
}

// kinds reads the kinds of part of all layers; a keeper's are added.
func (lib *Library) kinds() (*rig.Kinds, problem.List) {
	var files []rig.File
	var l problem.List
	for _, y := range lib.layers {
		err := fs.WalkDir(y, ".", func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || path.Base(name) != "parts.yaml" {
				return err
			}
			text, err := y.ReadFile(name)
			files = append(files, rig.File{Name: name, Text: text})
			return err
		})
		if err != nil {
			l.Add(problem.Pos{File: y.shown}, "unreadable", reason(err), "")
		}
	}
	kinds, more := rig.LoadKinds(files...)
	return kinds, append(l, more...)
}

// rigs loads the rigs of all layers.
func (lib *Library) rigs(kinds *rig.Kinds) problem.List {
	var l problem.List
	for _, y := range lib.layers {
		dir := path.Join(y.stored, "rigs")
		entries, err := fs.ReadDir(y, dir)
		if err != nil {
			continue // a keeper's folder need not hold rigs
		}
		for _, e := range entries {
			if e.IsDir() || path.Ext(e.Name()) != ".yaml" {
				continue
			}
			name := path.Join(dir, e.Name())
			text, err := y.ReadFile(name)
			if err != nil {
				l.Add(problem.Pos{File: name}, "unreadable", reason(err), "")
				continue
			}
			r, more := rig.Load(kinds, name, text)
			l = append(l, more...)
			if r != nil {
				lib.put(r)
			}
		}
	}
	return l
}

// put adds a rig, in place of one with the same id.
func (lib *Library) put(r *rig.Rig) {
	i, found := slices.BinarySearchFunc(lib.Rigs, r.ID, func(a *rig.Rig, id string) int { return strings.Compare(a.ID, id) })
	if found {
		lib.Rigs[i] = r
		return
	}
	lib.Rigs = slices.Insert(lib.Rigs, i, r)
}

// Rig returns the rig that goes by a name: its id, its name or the file that
// the library was opened with. For "" it is the file's own, or the usual one.
func (lib *Library) Rig(name string) (*rig.Rig, problem.List) {
	if lib.own != nil && (name == "" || IsFile(name)) {
		return lib.own, nil
	}
	if name == "" {
		name = Usual
	}
	for _, r := range lib.Rigs {
		if strings.EqualFold(r.ID, name) || strings.EqualFold(r.Name, name) {
			return r, nil
		}
	}
	return nil, problem.List{{Check: "unknown-rig", Text: fmt.Sprintf("unknown rig %q", clip(name)), Hint: problem.DidYouMean(clip(name), lib.RigNames())}}
}

// RigNames returns the ids of the rigs, sorted.
func (lib *Library) RigNames() []string {
	names := make([]string, len(lib.Rigs))
	for i, r := range lib.Rigs {
		names[i] = r.ID
	}
	return names
}

// Engine makes the knowledge ready for one rig.
func (lib *Library) Engine(r *rig.Rig) (*diagnose.Engine, problem.List) {
	e, l := diagnose.New(lib.Base.On(r), diagnose.Settings{})
	return e, lib.shown(l)
}

// clip shortens a stranger's word so that a message stays a message.
func clip(word string) string {
	if r := []rune(word); len(r) > 60 {
		return string(r[:57]) + "..."
	}
	return word
}
