package load

// This file reads sheets and other files that a person names.

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// StandardInput is the name that stands for the file in places of what was
// read from standard input.
const StandardInput = "standard input"

// IsFile says whether a word names a file rather than a thing by its name: it
// ends in .yaml or .yml, or holds a stroke.
func IsFile(word string) bool {
	ext := strings.ToLower(filepath.Ext(word))
	return ext == ".yaml" || ext == ".yml" || strings.ContainsAny(word, `/\`)
}

// ReadFile returns the text of a file, no more than one byte over what is read
// of a sheet, so that a file without end comes to one.
func ReadFile(name string) ([]byte, problem.List) {
	whole := problem.Pos{File: name}
	info, err := os.Stat(name)
	switch {
	case err != nil:
		return nil, problem.List{{Pos: whole, Check: "unreadable", Text: reason(err), Hint: nearFile(name)}}
	case info.IsDir():
		return nil, problem.List{{Pos: whole, Check: "not-a-file", Text: "it is a folder, not a file", Hint: "name one file in it"}}
	case info.Size() > document.MaxBytes:
		return nil, problem.List{{Pos: whole, Check: "too-large", Text: fmt.Sprintf("the file has %d bytes", info.Size()),
			Hint: fmt.Sprintf("at most %d are read", document.MaxBytes)}}
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, problem.List{{Pos: whole, Check: "unreadable", Text: reason(err)}}
	}
	defer f.Close()
	return Read(f, name)
}

// Read returns what a stream holds, with the same bound.
func Read(r io.Reader, name string) ([]byte, problem.List) {
	text, err := readSome(r, document.MaxBytes+1)
	if err != nil {
		return nil, problem.List{{Pos: problem.Pos{File: name}, Check: "unreadable", Text: reason(err)}}
	}
	return text, nil
}

// readSome reads all there is, but no more than most bytes.
func readSome(r io.Reader, most int64) ([]byte, error) {
	return io.ReadAll(io.LimitReader(r, most))
}

// reason says in plain words why a file could not be read.
func reason(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "there is no such file"
	case errors.Is(err, fs.ErrPermission):
		return "it may not be read"
	}
	var in *fs.PathError
	if errors.As(err, &in) {
		err = in.Err
	}
	return err.Error()
}

// mostNames bounds how many names of a folder are looked through for a near one.
const mostNames = 1000

// nearFile returns a hint at a file of nearly the same name in the same folder.
func nearFile(name string) string {
	dir, err := os.Open(filepath.Dir(name))
	if err != nil {
		return ""
	}
	defer dir.Close()
	names, err := dir.Readdirnames(mostNames)
	if err != nil {
		return ""
	}
	slices.Sort(names)
	near := problem.Near(filepath.Base(name), names)
	if near == "" {
		return ""
	}
	return fmt.Sprintf("did you mean %q?", filepath.Join(filepath.Dir(name), near))
}

// RigBeside returns the file of the rig that a sheet brings along: rigs/NAME.yaml
// in the folder of the sheet or the one above it. It is "" where there is none,
// and for a sheet that is no file.
func RigBeside(sheet, name string) string {
	if name == "" || strings.Trim(name, "abcdefghijklmnopqrstuvwxyz0123456789_") != "" {
		return "" // no id, so no file's name
	}
	if info, err := os.Stat(sheet); err != nil || info.IsDir() {
		return ""
	}
	dir := filepath.Dir(sheet)
	for _, dir := range []string{dir, filepath.Join(dir, "..")} {
		file := filepath.Join(dir, "rigs", name+".yaml")
		if info, err := os.Stat(file); err == nil && !info.IsDir() {
			return file
		}
	}
	return ""
}
