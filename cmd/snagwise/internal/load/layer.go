package load

// This file holds a folder of rules as a file system, and what its files are
// called in a message.

import (
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// A layer is one folder of rules. In it every file stands below the folder
// named stored, so that files of two layers never share a name; a person is
// shown the name below shown.
type layer struct {
	shown, stored string
	fsys          fs.FS
}

// own is where the files of a keeper's folder stand. A character that no
// shipped folder has keeps it apart.
const own = "~own"

// folder returns the layer of a keeper's own folder.
func folder(dir string) (layer, problem.List) {
	info, err := os.Stat(dir)
	switch {
	case err != nil:
		return layer{}, problem.List{{Pos: problem.Pos{File: dir}, Check: "unreadable", Text: "folder of rules: " + reason(err), Hint: nearFile(dir)}}
	case !info.IsDir():
		return layer{}, problem.List{{Pos: problem.Pos{File: dir}, Check: "not-a-folder", Text: "it is a file; --rules wants a folder of rules",
			Hint: "it has the shape of the rules that ship: a folder for each system, and rigs"}}
	}
	return layer{shown: dir, stored: own, fsys: os.DirFS(dir)}, nil
}

// Open opens a file or folder of the layer.
func (y layer) Open(name string) (fs.File, error) {
	if name == "." {
		return top{y}, nil
	}
	inner, ok := y.inner(name)
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return y.fsys.Open(inner)
}

// ReadFile returns the text of a file, no more than one byte over what is read
// of a file.
func (y layer) ReadFile(name string) ([]byte, error) {
	inner, ok := y.inner(name)
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	f, err := y.fsys.Open(inner)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return readSome(f, document.MaxBytes+1)
}

// inner returns the name in the folder of a name in the layer.
func (y layer) inner(name string) (string, bool) {
	if name == y.stored {
		return ".", true
	}
	return strings.CutPrefix(name, y.stored+"/")
}

// odd are files that hold no text of their own; reading one might never end.
const odd = fs.ModeNamedPipe | fs.ModeSocket | fs.ModeDevice | fs.ModeIrregular

// ReadDir lists a folder of the layer. Kept cases may lie beside a keeper's
// rules; they are sheets and are left out, and so is what is hidden.
func (y layer) ReadDir(name string) ([]fs.DirEntry, error) {
	if name == "." {
		info, err := fs.Stat(y.fsys, ".")
		if err != nil {
			return nil, err
		}
		return []fs.DirEntry{named{fs.FileInfoToDirEntry(info), y.stored}}, nil
	}
	inner, ok := y.inner(name)
	if !ok {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	entries, err := fs.ReadDir(y.fsys, inner)
	entries = slices.DeleteFunc(entries, func(e fs.DirEntry) bool {
		return inner == "." && e.Name() == "cases" || strings.HasPrefix(e.Name(), ".") || e.Type()&odd != 0
	})
	return entries, err
}

// top is the folder that holds nothing but the layer's own.
type top struct{ y layer }

func (t top) Stat() (fs.FileInfo, error) { return fs.Stat(t.y.fsys, ".") }
func (t top) Read([]byte) (int, error)   { return 0, fs.ErrInvalid }
func (t top) Close() error               { return nil }

// named is an entry under another name.
type named struct {
	fs.DirEntry
	name string
}

func (n named) Name() string { return n.name }

// Shown gives the places of problems the names that a person knows the files by.
func (lib *Library) Shown(l problem.List) problem.List { return lib.shown(l) }

// shown gives the places of problems the names that a person knows the files by.
func (lib *Library) shown(l problem.List) problem.List {
	for i := range l {
		l[i].Pos.File = lib.fileShown(l[i].Pos.File)
		for _, y := range lib.layers { // a hint may point at another place
			l[i].Hint = strings.ReplaceAll(l[i].Hint, " "+y.stored+"/", " "+y.shown+"/")
		}
	}
	return l.Sorted()
}

func (lib *Library) fileShown(file string) string {
	for _, y := range lib.layers {
		if inner, ok := y.inner(file); ok {
			return filepath.Join(y.shown, filepath.FromSlash(inner))
		}
	}
	return file
}

// Text returns the text of a file of the library by the name that a problem
// gives it, or nil.
func (lib *Library) Text(file string) []byte {
	for _, y := range lib.layers {
		inner, ok := strings.CutPrefix(filepath.ToSlash(file), strings.TrimSuffix(filepath.ToSlash(filepath.Clean(y.shown)), "/")+"/")
		if !ok {
			continue
		}
		if text, err := y.ReadFile(y.stored + "/" + inner); err == nil {
			return text
		}
	}
	return nil
}
