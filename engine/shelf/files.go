package shelf

// This file reads kinds and rigs from files.

import (
	"cmp"
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"

	"snagwise/engine/problem"
	"snagwise/engine/rig"
)

// each calls use with the name and text of every file that is wanted, in the
// order of the names, layer after layer. What cannot be read is a problem.
func each(layers []fs.FS, wanted func(name string) bool, use func(name string, text []byte)) (l problem.List) {
	for _, y := range layers {
		fs.WalkDir(y, ".", func(name string, d fs.DirEntry, err error) error {
			if err == nil && (d.IsDir() || !wanted(name)) {
				return nil
			}
			var text []byte
			if err == nil {
				text, err = fs.ReadFile(y, name)
			}
			if err != nil {
				l.Add(problem.Pos{File: name}, "unreadable", reason(err), "")
				return nil
			}
			use(name, text)
			return nil
		})
	}
	return l
}

// kinds reads the kinds of part of all layers; those of a later one are added.
func kinds(layers []fs.FS) (*rig.Kinds, problem.List) {
	var files []rig.File
	l := each(layers, func(name string) bool { return path.Base(name) == "parts.yaml" },
		func(name string, text []byte) { files = append(files, rig.File{Name: name, Text: text}) })
	k, more := rig.LoadKinds(files...)
	return k, append(l, more...)
}

// rigs loads the rigs of all layers: the files of every folder named rigs.
func rigs(k *rig.Kinds, layers []fs.FS) ([]*rig.Rig, problem.List) {
	var all []*rig.Rig
	var faults problem.List
	l := each(layers, func(name string) bool { return path.Base(path.Dir(name)) == "rigs" && path.Ext(name) == ".yaml" },
		func(name string, text []byte) {
			r, more := rig.Load(k, name, text)
			faults = append(faults, more...)
			if r != nil {
				all = put(all, r)
			}
		})
	return all, append(l, faults...)
}

// reason says in plain words why a file could not be read.
func reason(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file"
	case errors.Is(err, fs.ErrPermission):
		return "it may not be read"
	}
	if in, ok := errors.AsType[*fs.PathError](err); ok {
		err = in.Err
	}
	return err.Error()
}

// Below returns a file system that holds another below one folder, so that
// files of two folders do not share a name. As in an embedded folder, names
// that begin with a dot or an underscore are not listed.
func Below(folder string, fsys fs.FS) fs.FS { return below{folder, fsys} }

type below struct {
	folder string
	fsys   fs.FS
}

// Open opens a file or folder; the top holds nothing but the folder.
func (b below) Open(name string) (fs.File, error) {
	if name == b.folder {
		return b.fsys.Open(".")
	}
	inner, ok := strings.CutPrefix(name, b.folder+"/")
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return b.fsys.Open(inner)
}

// Stat describes a file; the top looks like the folder.
func (b below) Stat(name string) (fs.FileInfo, error) {
	if name == "." {
		name = b.folder
	}
	f, err := b.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return f.Stat()
}

// ReadDir lists a folder.
func (b below) ReadDir(name string) ([]fs.DirEntry, error) {
	if name == "." {
		info, err := fs.Stat(b.fsys, ".")
		if err != nil {
			return nil, err
		}
		return []fs.DirEntry{named{fs.FileInfoToDirEntry(info), b.folder}}, nil
	}
	inner, ok := strings.CutPrefix(name+"/", b.folder+"/")
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	entries, err := fs.ReadDir(b.fsys, cmp.Or(strings.TrimSuffix(inner, "/"), "."))
	return slices.DeleteFunc(entries, func(e fs.DirEntry) bool { return strings.HasPrefix(e.Name(), ".") || strings.HasPrefix(e.Name(), "_") }), err
}

// named is an entry under another name.
type named struct {
	fs.DirEntry
	name string
}

// Name returns the other name.
func (n named) Name() string { return n.name }
