package knowledge

import (
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"snagwise/engine/problem"
	"snagwise/engine/rig"
)

var wantText = regexp.MustCompile("(hint )?`([^`]+)`")

// checkWants holds problems against the "# want" marks in all files of a
// folder: a text, and after "hint" a hint, each as the beginning of what is
// said. Missing and extra problems both fail.
func checkWants(t *testing.T, fsys fs.FS, problems problem.List) {
	t.Helper()
	type line struct {
		file string
		line int
	}
	found := map[line][]problem.Problem{}
	for _, p := range problems {
		at := line{p.Pos.File, p.Pos.Line}
		found[at] = append(found[at], p)
	}
	err := fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(fsys, name)
		for i, row := range strings.Split(string(text), "\n") {
			at := line{name, i + 1}
			_, marks, _ := strings.Cut(row, "# want ")
			wants := 0
			for _, m := range wantText.FindAllStringSubmatch(marks, -1) {
				if m[1] == "" {
					wants++
				}
				if !slices.ContainsFunc(found[at], func(p problem.Problem) bool {
					return m[1] == "" && strings.HasPrefix(p.Text, m[2]) || m[1] != "" && strings.HasPrefix(p.Hint, m[2])
				}) {
					t.Errorf("%s:%d: wanted %s%q, got %v", name, i+1, m[1], m[2], problem.List(found[at]))
				}
			}
			if len(found[at]) != wants {
				t.Errorf("%s:%d: %d problems, want %d: %v", name, i+1, len(found[at]), wants, problem.List(found[at]))
			}
			delete(found, at)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for at, list := range found {
		t.Errorf("%s:%d: problems in no file: %v", at.file, at.line, problem.List(list))
	}
}

func TestUnreadableRulesAreRefusedWhereItHurts(t *testing.T) {
	fsys := os.DirFS("testdata/unread")
	_, l := Read(fsys)
	checkWants(t, fsys, l)
}

func TestBrokenRulesAreRefusedWhereItHurts(t *testing.T) {
	fsys := os.DirFS("testdata/broken")
	kinds, l := rig.ReadKinds(fsys)
	if len(l) > 0 {
		t.Fatal(l)
	}
	src, l := Read(fsys)
	if len(l) > 0 {
		t.Fatal(l)
	}
	base, l := Compile(src, kinds, nil)
	if base != nil {
		t.Error("broken rules were compiled")
	}
	checkWants(t, fsys, l)
	if !slices.IsSortedFunc(l, func(a, b problem.Problem) int { return a.Pos.Compare(b.Pos) }) {
		t.Error("the problems do not come in the order of their places")
	}
}
