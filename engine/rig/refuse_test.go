package rig_test

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"snagwise/engine/problem"
	"snagwise/engine/rig"
)

var wantText = regexp.MustCompile("(hint )?`([^`]+)`")

// checkWants holds problems against the "# want" marks in the lines of a file:
// a text, and after "hint" a hint, each as the beginning of what is said.
func checkWants(t *testing.T, text string, problems problem.List) {
	t.Helper()
	found := map[int][]problem.Problem{}
	for _, p := range problems {
		found[p.Pos.Line] = append(found[p.Pos.Line], p)
	}
	for i, line := range strings.Split(text, "\n") {
		_, marks, _ := strings.Cut(line, "# want ")
		said := found[i+1]
		wants := 0
		for _, m := range wantText.FindAllStringSubmatch(marks, -1) {
			if m[1] == "" {
				wants++
			}
			if !slices.ContainsFunc(said, func(p problem.Problem) bool {
				return m[1] == "" && strings.HasPrefix(p.Text, m[2]) || m[1] != "" && strings.HasPrefix(p.Hint, m[2])
			}) {
				t.Errorf("line %d: wanted %s%q, got %v", i+1, m[1], m[2], problem.List(said))
			}
		}
		if len(said) != wants {
			t.Errorf("line %d: %d problems, want %d:\n%v", i+1, len(said), wants, problem.List(said))
		}
	}
}

func TestBrokenRigIsRefusedWhereItHurts(t *testing.T) {
	text, err := os.ReadFile("testdata/broken.yaml")
	if err != nil {
		t.Fatal(err)
	}
	r, problems := rig.Load(shippedKinds(t), "broken.yaml", text)
	if r != nil {
		t.Error("a broken rig was loaded")
	}
	checkWants(t, string(text), problems)
}

func TestBrokenKindsAreRefusedWhereItHurts(t *testing.T) {
	text, err := os.ReadFile("testdata/broken_parts.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, problems := rig.LoadKinds(rig.File{Name: "parts.yaml", Text: text})
	checkWants(t, string(text), problems)
}

func TestHugeFilesAreGivenUpOn(t *testing.T) {
	var parts, chains strings.Builder
	for i := range 5000 {
		fmt.Fprintf(&parts, "  - {id: p%d, kind: plugs}\n", i)
		fmt.Fprintf(&chains, "    - [plgs, lead, %d]\n", i)
	}
	text := "rig: huge\nname: H\nmeans: H.\nparts:\n" + parts.String() + "connections:\n  fuel:\n" + chains.String()
	_, problems := rig.Load(shippedKinds(t), "huge.yaml", []byte(text))
	if len(problems) == 0 || len(problems) > 2000 {
		t.Errorf("%d problems", len(problems))
	}
}

func TestLoadIsDeterministic(t *testing.T) {
	first := fmt.Sprintf("%+v", pipit(t).Links)
	for range 5 {
		if got := fmt.Sprintf("%+v", pipit(t).Links); got != first {
			t.Fatalf("links differ from load to load:\n%s\n%s", first, got)
		}
	}
}

func FuzzLoad(f *testing.F) {
	seeds := 0
	for _, name := range []string{rulesDir + "/rigs/hollin.yaml", rulesDir + "/rigs/teasel.yaml", "testdata/pipit.yaml", "testdata/broken.yaml"} {
		if text, err := os.ReadFile(name); err == nil {
			f.Add(text)
			seeds++
		}
	}
	if seeds != 4 {
		f.Fatalf("%d of 4 seeds found", seeds)
	}
	kinds := shippedKinds(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		r, problems := rig.Load(kinds, "f", text)
		if (r == nil) == (len(problems) == 0) {
			t.Fatalf("rig %v with problems %v", r, problems)
		}
		if r == nil {
			return
		}
		for _, l := range r.Links {
			if b := r.Between(l.Flow, l.From, l.To); !slices.Contains(b, l.To) {
				t.Fatalf("%s does not lie at the end of its own link", r.Parts[l.To].ID)
			}
		}
	})
}

func FuzzLoadKinds(f *testing.F) {
	text, err := os.ReadFile("testdata/broken_parts.yaml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(text)
	fuel, err := os.ReadFile(rulesDir + "/fuel/parts.yaml")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(fuel)
	f.Fuzz(func(t *testing.T, text []byte) {
		k, _ := rig.LoadKinds(rig.File{Name: "f", Text: text})
		for _, u := range k.Usual {
			if u.From < 0 || u.To >= len(k.Parts) {
				t.Fatalf("usual link %+v of %d kinds", u, len(k.Parts))
			}
		}
	})
}

func ExampleRig_Between() {
	kinds, _ := rig.ReadKinds(os.DirFS(rulesDir))
	text, _ := os.ReadFile(rulesDir + "/rigs/hollin.yaml")
	r, problems := rig.Load(kinds, "hollin.yaml", text)
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	pump, _ := r.Gauge("fuel_pump_pressure")
	delivery, _ := r.Gauge("fuel_delivery_pressure")
	for _, p := range r.Between("fuel", pump.Taps[0], delivery.Taps[0]) {
		fmt.Println(r.Parts[p].Name)
	}
	// Output:
	// fuel fine filter
	// fuel regulator
	// fuel delivery pipe
}

func BenchmarkLoadHollin(b *testing.B) {
	kinds := shippedKinds(b)
	text, err := os.ReadFile(rulesDir + "/rigs/hollin.yaml")
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		rig.Load(kinds, "hollin.yaml", text)
	}
}

func BenchmarkBetween(b *testing.B) {
	r := demo(b, "hollin")
	from, to := at(b, r, "oil_tank"), at(b, r, "oil_gallery")
	b.ReportAllocs()
	for b.Loop() {
		r.Between("oil", from, to)
	}
}
