package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// layers are the rooms of the engine from the lowest up. A room may import the
// rooms of lines above its own, not its neighbours in the line.
var layers = [][]string{
	{"problem", "quantity", "rank", "compact"},
	{"document", "advise", "physics"},
	{"condition"},
	{"rig"},
	{"knowledge"},
	{"sheet", "relate", "shelf"},
	{"chain"},
	{"diagnose"},
	{"casebook", "examine", "hunt"},
	{"simulate"},
}

// alone are rooms that import nothing of ours but what is named.
var alone = map[string][]string{
	"problem": {}, "quantity": {}, "rank": {}, "compact": {}, "physics": {"quantity", "problem"}, "advise": {"rank"}, "document": {"problem"},
}

func level(room string) int {
	return slices.IndexFunc(layers, func(l []string) bool { return slices.Contains(l, room) })
}

// TestRoomsImportDownwards walks the imports of every room of the engine.
func TestRoomsImportDownwards(t *testing.T) {
	rooms := 0
	eachFile(t, "engine", func(name string, f *ast.File) {
		room := strings.Split(filepath.ToSlash(name), "/")[1]
		if level(room) < 0 {
			t.Errorf("%s: the room %q has no place among the layers", name, room)
			return
		}
		rooms++
		for _, what := range upward(room, f) {
			t.Errorf("%s: %s", name, what)
		}
	})
	if rooms < 50 {
		t.Errorf("%d files looked at, want all of the engine", rooms)
	}
	for _, dir := range []string{"rules", "cases"} {
		eachFile(t, dir, func(name string, f *ast.File) {
			for _, im := range imports(f) {
				if strings.HasPrefix(im, "snagwise/") {
					t.Errorf("%s imports %s; rules and cases import nothing of ours", name, im)
				}
			}
		})
	}
}

// TestEngineIsQuiet: the engine prints nothing, reads no clock, no chance and
// no environment. Programs that write its files are apart.
func TestEngineIsQuiet(t *testing.T) {
	eachFile(t, "engine", func(name string, f *ast.File) {
		if f.Name.Name == "main" {
			return
		}
		for _, what := range loud(f) {
			t.Errorf("%s: %s", name, what)
		}
	})
}

// TestLayersFindFaults: what the two tests above look for is found when it is
// there.
func TestLayersFindFaults(t *testing.T) {
	parse := func(text string) *ast.File {
		f, err := parser.ParseFile(token.NewFileSet(), "x.go", text, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	for _, tt := range []struct {
		room, text string
		want       int
	}{
		{"rig", `package rig; import "snagwise/engine/knowledge"`, 1},
		{"rig", `package rig; import ("snagwise/engine/problem"; "snagwise/engine/document")`, 0},
		{"rank", `package rank; import "snagwise/engine/problem"`, 1},
		{"diagnose", `package diagnose; import "snagwise/cmd/snagwise/internal/screen"`, 1},
		{"diagnose", `package diagnose; import "snagwise/rules"`, 1},
	} {
		if got := upward(tt.room, parse(tt.text)); len(got) != tt.want {
			t.Errorf("upward(%s, %s) = %q, want %d", tt.room, tt.text, got, tt.want)
		}
	}
	for _, tt := range []struct {
		text string
		want int
	}{
		{`package x; import "os"`, 1},
		{`package x; import "fmt"; func f() { fmt.Println(1); fmt.Printf("") }`, 2},
		{`package x; import "time"; func f() { _ = time.Now(); _ = time.Second }`, 1},
		{`package x; import "fmt"; func f() string { return fmt.Sprint(1) }`, 0},
		{`package x; func f() { println(1) }`, 1},
	} {
		if got := loud(parse(tt.text)); len(got) != tt.want {
			t.Errorf("loud(%s) = %q, want %d", tt.text, got, tt.want)
		}
	}
}

// upward lists the imports of a file that run up through the layers.
func upward(room string, f *ast.File) []string {
	var out []string
	for _, im := range imports(f) {
		inner, ok := strings.CutPrefix(im, "snagwise/engine/")
		if !ok {
			if strings.HasPrefix(im, "snagwise/") {
				out = append(out, "imports "+im+"; the engine imports rooms of the engine alone")
			}
			continue
		}
		other, _, _ := strings.Cut(inner, "/")
		only, isAlone := alone[room]
		switch {
		case other == room:
		case isAlone && !slices.Contains(only, other):
			out = append(out, room+" imports "+other+"; it stands alone")
		case level(other) >= level(room):
			out = append(out, room+" imports "+other+", which is no lower")
		}
	}
	return out
}

// loud lists what a file does that the engine may not.
func loud(f *ast.File) []string {
	var out []string
	for _, im := range imports(f) {
		if slices.Contains([]string{"os", "os/exec", "log", "log/slog", "math/rand", "math/rand/v2", "crypto/rand", "net", "net/http", "syscall", "io/ioutil"}, im) {
			out = append(out, "imports "+im)
		}
	}
	ast.Inspect(f, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		switch fun := call.Fun.(type) {
		case *ast.Ident:
			if fun.Name == "print" || fun.Name == "println" {
				out = append(out, "calls "+fun.Name)
			}
		case *ast.SelectorExpr:
			if x, ok := fun.X.(*ast.Ident); ok {
				name := x.Name + "." + fun.Sel.Name
				if strings.HasPrefix(name, "fmt.Print") || name == "time.Now" || name == "time.Since" {
					out = append(out, "calls "+name)
				}
			}
		}
		return true
	})
	return out
}

func imports(f *ast.File) []string {
	var out []string
	for _, im := range f.Imports {
		if p, err := strconv.Unquote(im.Path.Value); err == nil {
			out = append(out, p)
		}
	}
	return out
}

// eachFile parses every Go file below a folder of the project, tests aside.
func eachFile(t *testing.T, dir string, visit func(name string, f *ast.File)) {
	t.Helper()
	root := os.DirFS("../..")
	err := fs.WalkDir(root, dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ".go" || strings.HasSuffix(name, "_test.go") {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), filepath.Join("../..", name), nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		visit(name, f)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
