package shelf

// This file writes and reads the compact form of what ships.

import (
	"encoding/binary"
	"errors"
	"hash/crc32"
	"io"
	"io/fs"
	"path"

	"snagwise/engine/compact"
	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/rig"
)

// The parts of the form, after its sum.
const (
	kindsPart = iota
	rigsPart
	basePart
	sourcePart = basePart + knowledge.FormParts
)

// sumBytes is how long the sum of the files at the head of the form is.
const sumBytes = 8

// Pack reads all rules and rigs of a file system and returns their compact
// form: the same files give the same bytes.
func Pack(fsys fs.FS) ([]byte, problem.List) {
	s := &Shelf{want: Want{Layers: []fs.FS{fsys}}}
	if l := s.read(); len(l) > 0 {
		return nil, l
	}
	src, l := s.Source()
	if len(l) > 0 {
		return nil, l
	}
	var w compact.Writer
	head, err := sum(fsys)
	if err := errors.Join(err, s.Kinds.Put(&w), rig.Put(&w, s.Rigs), s.Base.Put(&w), src.Put(&w)); err != nil {
		l.Addf(problem.Pos{}, "no-compact-form", "%v", err)
		return nil, l
	}
	return append(head, w.Bytes()...), nil
}

// sum tells the rule files of a file system from any others: how many bytes
// they have, and a checksum over their names and texts.
func sum(fsys fs.FS) ([]byte, error) {
	h := crc32.New(crc32.MakeTable(crc32.Castagnoli))
	size := uint32(0)
	room := make([]byte, 64<<10)
	err := fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ".yaml" {
			return err
		}
		f, err := fsys.Open(name)
		if err != nil {
			return err
		}
		defer f.Close()
		io.WriteString(h, name)
		n, err := io.CopyBuffer(h, struct{ io.Reader }{f}, room)
		size += uint32(n)
		return err
	})
	return binary.LittleEndian.AppendUint32(binary.LittleEndian.AppendUint32(nil, size), h.Sum32()), err
}

// A form is a compact form that was made from the files it stands for.
type form struct{ r *compact.Reader }

// open returns the form, or nil where it was made from other files.
func open(text string, fsys fs.FS) *form {
	if len(text) < sumBytes {
		return nil
	}
	head, err := sum(fsys)
	if err != nil || string(head) != text[:sumBytes] {
		return nil
	}
	r, err := compact.Open(text[sumBytes:])
	if err != nil {
		return nil
	}
	return &form{r}
}

func (f *form) kinds(fsys fs.FS) (*rig.Kinds, error) {
	return rig.GetKinds(f.r, kindsPart, func() *rig.Kinds {
		k, l := kinds([]fs.FS{fsys})
		if len(l) > 0 {
			return nil
		}
		return k
	})
}

func (f *form) rigs(k *rig.Kinds) ([]*rig.Rig, error) { return rig.Get(f.r, rigsPart, k) }

func (f *form) base(k *rig.Kinds) (*knowledge.Base, error) {
	return knowledge.GetBase(f.r, basePart, k)
}

func (f *form) source() (*knowledge.Source, error) { return knowledge.GetSource(f.r, sourcePart) }
