package knowledge

import (
	"io/fs"
	"os"
	"strings"
	"testing"

	"snagwise/engine/problem"
	"snagwise/engine/rig"
	"snagwise/rules"
)

// FuzzRuleFile lays a stranger's rule file over a small sound base: it is
// compiled or refused, and every problem says where it is. It never panics.
func FuzzRuleFile(f *testing.F) {
	seeds := 0
	for _, dir := range []fs.FS{os.DirFS("testdata"), rules.Files} {
		err := fs.WalkDir(dir, ".", func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(name, ".yaml") || strings.HasPrefix(name, "rigs/") {
				return err
			}
			text, err := fs.ReadFile(dir, name)
			if len(text) < 8<<10 { // small ones say as much, and faster
				f.Add(text)
				seeds++
			}
			return err
		})
		if err != nil {
			f.Fatal(err)
		}
	}
	if seeds < 20 {
		f.Fatalf("%d seeds, want at least 20", seeds)
	}
	soundFiles := os.DirFS("testdata/sound")
	kinds, l := rig.ReadKinds(soundFiles)
	if len(l) > 0 {
		f.Fatal(l)
	}
	src, l := Read(soundFiles)
	if len(l) > 0 {
		f.Fatal(l)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		over, l := Read(files(map[string]string{"own.yaml": string(text)}))
		if over == nil {
			t.Fatal("there is no source")
		}
		if len(l) > 0 {
			placed(t, l)
			return // what cannot be read is not compiled
		}
		base, more := Compile(Layer(src, over), kinds, nil)
		if base == nil && len(more) == 0 {
			t.Fatal("neither a base nor a problem")
		}
		if base != nil && len(more) > 0 {
			t.Fatal("both a base and problems")
		}
		placed(t, more)
	})
}

func placed(t *testing.T, l problem.List) {
	t.Helper()
	for _, p := range l {
		if p.Pos.File == "" || p.Text == "" || p.Check == "" {
			t.Fatalf("problem %#v lacks its file, text or check", p)
		}
	}
}
