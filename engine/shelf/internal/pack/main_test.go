package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestPackWritesOnceAndSaysWhatIsStale(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("parts.yaml", "system: fuel\nflows: [{id: fuel, means: Fuel.}]\nparts: [{id: tank, means: Tank., carries: [fuel]}]\n")
	write(".hidden.yaml", "system: [\n")
	file := filepath.Join(dir, "base.bin")
	if err := run([]string{"-check", dir, file}); err == nil || !strings.Contains(err.Error(), "go generate") {
		t.Errorf("-check with no file: %v, want a word on go generate", err)
	}
	if err := run([]string{dir, file}); err != nil {
		t.Fatal(err)
	}
	if err := run([]string{"-check", dir, file}); err != nil {
		t.Errorf("-check of a file just written: %v", err)
	}
	write("courses.yaml", "system: fuel\ncourses:\n  - {id: slowly, means: slowly, speaks_for: {}}\n")
	if err := run([]string{"-check", dir, file}); err == nil {
		t.Error("-check after a change of the rules finds nothing")
	}
	write("courses.yaml", "system: fuel\ncourses:\n  - {id: slowly}\n")
	if err := run([]string{dir, file}); err == nil || !strings.Contains(err.Error(), "courses.yaml:3") {
		t.Errorf("faulty rules: %v, want their place", err)
	}
	if err := run([]string{dir}); err == nil {
		t.Error("one argument is taken")
	}
}
