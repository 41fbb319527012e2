package hunt

// This file keeps a hunt on disk: every answer is there before the next
// question shows.

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/hunt"
	"snagwise/engine/problem"
)

// A Header is the first line of a journal.
type Header struct {
	Hunt  int    `json:"hunt"` // version of the form
	Rig   string `json:"rig"`
	Rules string `json:"rules,omitempty"` // the keeper's own folder
	Began string `json:"began"`
	// Moments are those of the sheet that the hunt began from.
	Moments []hunt.Moment `json:"moments,omitempty"`
}

// form is the version of the journal.
const form = 1

// A Journal is the file of one hunt: a header and then one line for each
// answer. Only whole lines count.
type Journal struct {
	Name   string // of the file, without its ending
	Header Header
	Read   []hunt.Record // that it held when it was opened
	dir    string
	f      *os.File
}

const (
	ending  = ".jsonl"
	longest = 16 << 20 // bytes of a journal
)

// Create begins a journal in a folder, which is made if need be. The name is
// name, or name-2 and so on where that is taken.
func Create(dir, name string, h Header) (*Journal, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("making the folder for hunts: %w", err)
	}
	h.Hunt = form
	j := &Journal{Header: h, dir: dir}
	for n := 1; ; n++ {
		j.Name = name
		if n > 1 {
			j.Name = fmt.Sprintf("%s-%d", name, n)
		}
		f, err := os.OpenFile(j.path(), os.O_CREATE|os.O_EXCL|os.O_WRONLY|os.O_APPEND, 0o644)
		if errors.Is(err, fs.ErrExist) {
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("beginning a hunt: %w", err)
		}
		j.f = f
		break
	}
	if err := j.line(h); err != nil {
		return nil, err
	}
	return j, syncDir(dir)
}

func (j *Journal) path() string { return filepath.Join(j.dir, j.Name+ending) }

// Append puts one answer on disk.
func (j *Journal) Append(r hunt.Record) error { return j.line(r) }

func (j *Journal) line(v any) error {
	text, err := json.Marshal(v)
	if err == nil {
		_, err = j.f.Write(append(text, '\n'))
	}
	if err == nil {
		err = j.f.Sync()
	}
	if err != nil {
		return fmt.Errorf("keeping the answer in %s: %w", j.path(), err)
	}
	return nil
}

// Close closes the file.
func (j *Journal) Close() error { return j.f.Close() }

// Open opens a journal to go on with. What stands after its last whole line
// was never answered for and is cut off.
func Open(dir, name string) (*Journal, error) {
	j := &Journal{Name: strings.TrimSuffix(filepath.Base(name), ending), dir: dir}
	text, err := os.ReadFile(j.path())
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, notKept(dir, j.Name)
	case err != nil:
		return nil, fmt.Errorf("opening the hunt: %w", err)
	case len(text) > longest:
		return nil, fmt.Errorf("%s: larger than any hunt", j.path())
	}
	whole := bytes.LastIndexByte(text, '\n') + 1
	if err := j.parse(text[:whole]); err != nil {
		return nil, err
	}
	if j.f, err = os.OpenFile(j.path(), os.O_RDWR|os.O_APPEND, 0o644); err != nil {
		return nil, fmt.Errorf("opening the hunt: %w", err)
	}
	if whole < len(text) {
		if err := j.f.Truncate(int64(whole)); err != nil {
			return nil, fmt.Errorf("opening the hunt: %w", err)
		}
	}
	return j, nil
}

// notKept says that no hunt of that name is kept, with a name like it.
func notKept(dir, name string) error {
	files, err := filepath.Glob(filepath.Join(dir, "*"+ending))
	if err != nil {
		return fmt.Errorf("looking for hunts: %w", err)
	}
	for i, f := range files {
		files[i] = strings.TrimSuffix(filepath.Base(f), ending)
	}
	text := fmt.Sprintf("no hunt %q is kept in %s", screen.Clip(name, 60), dir)
	if hint := problem.DidYouMean(name, files); hint != "" {
		text += "; " + hint
	}
	return errors.New(text)
}

func (j *Journal) parse(text []byte) error {
	sc := bufio.NewScanner(bytes.NewReader(text))
	sc.Buffer(nil, longest)
	for n := 1; sc.Scan(); n++ {
		var r hunt.Record
		to := any(&r)
		if n == 1 {
			to = &j.Header
		}
		if err := json.Unmarshal(sc.Bytes(), to); err != nil {
			return fmt.Errorf("%s:%d:1: no line of a hunt: %w", j.path(), n, err)
		}
		if n > 1 {
			j.Read = append(j.Read, r)
		}
	}
	if err := sc.Err(); err != nil {
		return fmt.Errorf("%s: %w", j.path(), err)
	}
	if j.Header.Hunt != form || j.Header.Rig == "" {
		return fmt.Errorf("%s:1:1: no hunt that this program can go on with", j.path())
	}
	return nil
}

// Latest returns the name of the hunt in a folder that was begun last and has
// no end yet.
func Latest(dir string) (string, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*"+ending))
	if err != nil {
		return "", fmt.Errorf("looking for hunts: %w", err)
	}
	type begun struct{ began, name string }
	var list []begun
	for _, f := range files {
		j, err := Open(dir, f)
		if err != nil {
			continue // not ours, or killed before its first line
		}
		ended := slices.ContainsFunc(j.Read, func(r hunt.Record) bool {
			return slices.ContainsFunc(r.Steps, func(s hunt.Step) bool { return s.End != "" })
		})
		if err := j.Close(); err == nil && !ended {
			list = append(list, begun{j.Header.Began, j.Name})
		}
	}
	if len(list) == 0 {
		return "", fmt.Errorf("no hunt to go on with in %s", dir)
	}
	slices.SortFunc(list, func(a, b begun) int { return strings.Compare(a.began+" "+a.name, b.began+" "+b.name) })
	return list[len(list)-1].name, nil
}

// WriteWhole writes a file so that it is there whole or not at all.
func WriteWhole(name string, text []byte) (err error) {
	dir := filepath.Dir(name)
	f, err := os.CreateTemp(dir, ".part-*")
	if err != nil {
		return fmt.Errorf("writing %s: %w", name, err)
	}
	defer func() {
		if err != nil {
			err = errors.Join(fmt.Errorf("writing %s: %w", name, err), os.Remove(f.Name()))
		}
	}()
	if _, err = f.Write(text); err == nil {
		err = errors.Join(f.Chmod(0o644), f.Sync())
	}
	if err = errors.Join(err, f.Close()); err != nil {
		return err
	}
	if err = os.Rename(f.Name(), name); err != nil {
		return err
	}
	return syncDir(dir)
}
