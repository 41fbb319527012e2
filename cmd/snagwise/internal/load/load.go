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
	"slices"
	"strings"

	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/rig"
	"snagwise/engine/shelf"
	"snagwise/rules"
)

// A Choice says what to load.
type Choice struct {
	Rules string // a keeper's own folder, laid over the rules that ship; "" for none
	Rig   string // name or file of a rig; "" for the first that ships
	// Beside are rig files that kept cases bring along.
	Beside []rig.File
}

// A Library is all knowledge with every rig it may be used on. It is not
// changed once open.
type Library struct {
	Base *knowledge.Base
	Rigs []*rig.Rig // sorted by id, each once: the keeper's own over those that ship

	shelf  *shelf.Shelf
	own    *rig.Rig // the rig of a file named in the choice, or nil
	beside []*rig.Rig
	layers []layer
}

// Usual is the id of the rig that is meant when nobody says which.
const Usual = "hollin"

// Open loads the rules that ship, the keeper's folder over them, and all rigs.
// All problems of all files are reported; with any there is no library.
func Open(c Choice) (*Library, problem.List) {
	lib := &Library{layers: []layer{{shown: rules.Folder, stored: rules.Folder, fsys: rules.Files}}}
	if c.Rules != "" {
		own, l := folder(c.Rules)
		if len(l) > 0 {
			return nil, l
		}
		lib.layers = append(lib.layers, own)
	}
	want := shelf.Want{Compact: rules.Compact, Beside: c.Beside}
	for _, y := range lib.layers {
		want.Layers = append(want.Layers, y)
	}
	var unread problem.List
	if IsFile(c.Rig) {
		var text []byte
		if text, unread = ReadFile(c.Rig); len(unread) == 0 {
			want.Rig = &rig.File{Name: c.Rig, Text: text}
		}
	}
	var l problem.List
	lib.shelf, l = shelf.Open(want)
	lib.Base, lib.Rigs, lib.own, lib.beside = lib.shelf.Base, lib.shelf.Rigs, lib.shelf.Own, lib.shelf.Beside
	return lib, lib.shown(append(l, unread...))
}

// Source returns the rules as written, for what the base does not keep.
func (lib *Library) Source() (*knowledge.Source, problem.List) {
	src, l := lib.shelf.Source()
	return src, lib.shown(l)
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
	for _, r := range slices.Concat(lib.beside, lib.Rigs) {
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
