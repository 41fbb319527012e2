package physics

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"snagwise/engine/quantity"
)

const rulesDir = "../../rules"

// readingQuantities returns the quantity of each reading of the shipped rules.
func readingQuantities(t *testing.T) map[string]string {
	t.Helper()
	files, err := filepath.Glob(rulesDir + "/*/readings*.yaml")
	if err != nil || len(files) < 8 {
		t.Fatalf("found %d files of readings, %v", len(files), err)
	}
	quantityLine := regexp.MustCompile(`\n\s+quantity: (.+)`)
	found := map[string]string{}
	for _, name := range files {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, entry := range strings.Split(string(text), "- id: ")[1:] {
			id, rest, _ := strings.Cut(entry, "\n")
			if m := quantityLine.FindStringSubmatch("\n" + rest); m != nil {
				found[strings.TrimSpace(id)] = strings.TrimSpace(m[1])
			}
		}
	}
	return found
}

// Every reading that an input may come from is one of the shipped rules, and
// measures what the input wants.
func TestReadingsExist(t *testing.T) {
	quantities := readingQuantities(t)
	for _, c := range All() {
		for i := range c.Inputs {
			in := &c.Inputs[i]
			for _, p := range in.From {
				if p.Kind != Reading && p.Kind != Weather {
					continue
				}
				q, ok := quantities[p.Name]
				if !ok {
					t.Errorf("%s: %s comes from %q, which is no reading", c.ID, in.Name, p.Name)
					continue
				}
				if dim, ok := quantity.DimensionNamed(q); !ok || dim != in.Dim {
					t.Errorf("%s: %s is a %v, but %s gives a %s", c.ID, in.Name, in.Dim, p.Name, q)
				}
				for _, phase := range p.Phases {
					if !slices.Contains(phaseWords, phase) {
						t.Errorf("%s: %s comes in phase %q", c.ID, in.Name, phase)
					}
				}
			}
		}
	}
}

// The figures that an input may come from stand in the first demo rig, with the
// dimension that is wanted, but for those that rigs seldom give.
func TestRigFiguresExist(t *testing.T) {
	text, err := os.ReadFile(rulesDir + "/rigs/hollin.yaml")
	if err != nil {
		t.Fatal(err)
	}
	_, figures, _ := strings.Cut(string(text), "\nratios:")
	seldom := []string{"priming_most_strokes", "oil_relief", "full_gravity", "fuel_kind"}
	found := 0
	for _, c := range All() {
		for i := range c.Inputs {
			in := &c.Inputs[i]
			for _, p := range in.From {
				if p.Kind < RigFigure || p.Kind == RigTable || slices.Contains(seldom, p.Name) {
					continue
				}
				m := regexp.MustCompile(`[\s{]` + p.Name + `: ([^,}\n]+)[,}\n]`).FindStringSubmatch(figures)
				if m == nil {
					t.Errorf("%s: %s comes from %v %q, which the rig lacks", c.ID, in.Name, p.Kind, p.Name)
					continue
				}
				found++
				if p.Kind == RigFact {
					if _, ok := in.Match(m[1]); !ok {
						t.Errorf("%s: %s is %q on the rig, which is none of its words", c.ID, in.Name, m[1])
					}
					continue
				}
				if q, err := quantity.Parse(m[1]); err != nil || q.Dim != in.Dim {
					t.Errorf("%s: %s is a %v, but the rig's %s is %v, %v", c.ID, in.Name, in.Dim, p.Name, q, err)
				}
			}
		}
	}
	if found < 30 {
		t.Errorf("%d figures of the rig were looked at, want all", found)
	}
	if !strings.Contains(figures, "boost_for_rpm: [[1000, -8.5]") {
		t.Error("the rig has no table boost_for_rpm in rpm and psi")
	}
}
