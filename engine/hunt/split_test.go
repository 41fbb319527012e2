package hunt_test

import (
	"fmt"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"snagwise/engine/diagnose"
	"snagwise/engine/hunt"
	"snagwise/engine/shelf"
)

// A testBench is a small world of causes and tests that fail with some of them,
// as a folder of knowledge.
type testBench struct {
	causes []string // by cause: how common it is
	fails  [][]int  // by test: the causes with which it fails
	rest   string   // more rules
	said   []string // of the parts, as it is typed
	cure   int      // minutes to put a cause right
}

// benchMinutes is what a test takes: next to nothing beside the hours of a cure,
// so that it is worth telling the causes apart to the end.
const benchMinutes = .1

// files writes the bench as knowledge: every cause shows "gone", each test is a
// check that finds its own sign.
func (b testBench) files() fs.FS {
	var rules, causes strings.Builder
	rules.WriteString("system: fuel\nsources:\n  - {id: practice, what: common practice, kind: practice}\nsigns:\n  - {id: gone, means: it is dead, kind: seen}\n")
	for k := range b.fails {
		for _, id := range b.signs(k) {
			fmt.Fprintf(&rules, "  - {id: %s, means: %s, kind: check}\n", id, strings.ReplaceAll(id, "_", " "))
		}
	}
	rules.WriteString("rig_states:\n  - {id: earthed, means: stopped, minutes_from: {}, source: practice}\n")
	rules.WriteString(b.rest)
	rules.WriteString("checks:\n")
	for k := range b.fails {
		fmt.Fprintf(&rules, "  - {id: t%d, do: Do test %d., tells: [%s], rig_state: earthed, minutes: %g, who: operator, source: practice}\n", k+1, k+1, strings.Join(b.signs(k), ", "), benchMinutes)
	}
	causes.WriteString("system: fuel\ncauses:\n")
	for i, line := range b.causes {
		direct := []string{"gone: almost always"}
		var never []string
		for k, list := range b.fails {
			for _, id := range b.signs(k) {
				if slices.Contains(list, i) {
					direct = append(direct, id+": almost always")
				} else {
					never = append(never, id)
				}
			}
		}
		fmt.Fprintf(&causes, "  - {id: s%d, part: stage_%d, fails_by: s%d, %s, direct: {%s}, never: [%s], remedy_minutes: %d, who: operator, source: practice}\n",
			i, i, i, line, strings.Join(direct, ", "), strings.Join(never, ", "), b.cure)
	}
	var parts, names []string
	for i := range b.causes {
		parts = append(parts, fmt.Sprintf("  - {id: stage_%d, means: Stage %d., carries: [fuel]}\n", i, i))
		names = append(names, fmt.Sprintf("stage_%d", i))
	}
	kinds := "system: fuel\nflows:\n  - {id: fuel, means: Fuel.}\nparts:\n" + strings.Join(parts, "") + "usually:\n  fuel: [[" + strings.Join(names, ", ") + "]]\n"
	rig := "rig: bench\nname: Bench\nmeans: A chain of stages.\ninvented: true\nphases: [rest]\nparts: [" + strings.Join(names, ", ") + "]\n"
	files := fstest.MapFS{}
	for name, text := range map[string]string{"fuel/parts.yaml": kinds, "fuel/rest.yaml": rules.String(), "fuel/causes.yaml": causes.String(), "rigs/bench.yaml": rig} {
		files[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return files
}

// signs are what a test shows when it fails: a lamp and a meter, so that a
// fault hides from both in one case of 400, where from one it hides in 20.
func (b testBench) signs(test int) []string {
	return []string{fmt.Sprintf("lamp_%d_dark", test+1), fmt.Sprintf("meter_%d_dead", test+1)}
}

func (b testBench) engine(t *testing.T) *diagnose.Engine {
	t.Helper()
	sh, l := shelf.Open(shelf.Want{Layers: []fs.FS{b.files()}})
	if len(l) > 0 {
		t.Fatal(l)
	}
	e, l := diagnose.New(sh.Base.On(sh.Rigs[0]), diagnose.Settings{})
	if len(l) > 0 {
		t.Fatal(l)
	}
	return e
}

// tests goes through the hunt for one cause and returns the tests asked for, in
// order, until what they showed leaves one cause.
func (b testBench) tests(t *testing.T, e *diagnose.Engine, cause int) []int {
	t.Helper()
	x := hunt.NewFinder(e.Fitted())
	h := told(hunt.New(e, nil).After(hunt.Record{Steps: []hunt.Step{{Rig: "earthed"}}}), []hunt.Fact{{Kind: hunt.Seen, Name: "gone"}})
	facts, wait, l := h.Statements(b.said)
	if len(l)+len(wait) > 0 {
		t.Fatal(wait, l)
	}
	h = told(h, facts)
	left := make([]int, len(b.causes))
	for i := range left {
		left[i] = i
	}
	var asked []int
	for len(left) > 1 {
		turn, l := h.Turn(x, hunt.Clock{})
		if len(l) > 0 {
			t.Fatal(l)
		}
		q := turn.Question
		var k int
		if _, err := fmt.Sscanf(q.Check.ID, "t%d", &k); q.About != hunt.Looking || err != nil {
			t.Fatalf("cause %d: after %v it asks about %v (%q), and %v are left", cause, asked, q.About, q.Check.ID, left)
		}
		asked = append(asked, k)
		failed := slices.Contains(b.fails[k-1], cause)
		f := hunt.Fact{Kind: hunt.Checked, Name: q.Check.ID}
		if signs := b.signs(k - 1); failed {
			f.Shown = signs
		} else {
			f.Denied = signs
		}
		h = h.After(hunt.Record{Steps: []hunt.Step{{Tell: &f}}})
		left = slices.DeleteFunc(left, func(c int) bool { return slices.Contains(b.fails[k-1], c) != failed })
	}
	return asked
}

// expected is the mean number of tests over the causes by their weight, and the
// first test.
func (b testBench) expected(t *testing.T, weights []float64) (mean float64, first int) {
	e := b.engine(t)
	var sum float64
	for i, w := range weights {
		asked := b.tests(t, e, i)
		t.Logf("s%d: tests %v", i, asked)
		mean += w * float64(len(asked))
		sum += w
		first = asked[0]
	}
	return mean / sum, first
}

// best is the least mean number of tests, worked out over all orders: for each
// set of causes that are left the best next test.
func (b testBench) best(weights []float64) float64 {
	known := map[uint64]float64{}
	var least func(set uint64) float64 // weight times tests
	least = func(set uint64) float64 {
		if set&(set-1) == 0 {
			return 0
		}
		if v, ok := known[set]; ok {
			return v
		}
		var mass float64
		for i, w := range weights {
			if set>>i&1 == 1 {
				mass += w
			}
		}
		v := math.Inf(1)
		for _, list := range b.fails {
			var bad uint64
			for _, c := range list {
				bad |= 1 << c
			}
			if bad &= set; bad != 0 && bad != set {
				v = min(v, mass+least(bad)+least(set&^bad))
			}
		}
		known[set] = v
		return v
	}
	var sum float64
	for _, w := range weights {
		sum += w
	}
	return least(1<<len(weights)-1) / sum
}

// TestHalfSplit: on a chain of equal stages with a tap after each, the hunt asks
// in the middle, and so on in the half that is left; the mean number of tests is
// the least possible, worked out here over all orders. For 2, 4, 8 and 16 stages
// that is 1, 2, 3 and 4 by coding theory. Method: US Navy, Troubleshooting
// Electronic Equipment, NavPers 93083A-1.
func TestHalfSplit(t *testing.T) {
	for _, n := range []int{2, 4, 8, 10, 12, 16} {
		b := testBench{cure: 10}
		weights := make([]float64, n)
		for i := range n {
			b.causes = append(b.causes, "how_common: rare")
			weights[i] = 1
		}
		for k := 1; k < n; k++ { // dead at the tap after stage k: one of the k before it
			var bad []int
			for i := range k {
				bad = append(bad, i)
			}
			b.fails = append(b.fails, bad)
		}
		got, first := b.expected(t, weights)
		want := b.best(weights)
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%d stages: %.4f tests, want %.4f", n, got, want)
		}
		if power := n&(n-1) == 0; power && math.Abs(want-math.Log2(float64(n))) > 1e-9 {
			t.Errorf("%d stages: %.4f tests at best, want %v", n, want, math.Log2(float64(n)))
		}
		if off := first - n/2; off < -1 || off > 1 || off != 0 && n&(n-1) == 0 {
			t.Errorf("%d stages: first tap after stage %d, want the middle", n, first)
		}
	}
}

// TestSequencing is the test sequencing example of K. Pattipati,
// M. Alexandridis, "Application of heuristic search and information theory to
// sequential fault diagnosis", IEEE Trans. SMC 20, 1990 (table and optimum of
// 2.18 tests from memory; the optimum is worked out again here over all
// orders). How likely each cause is comes from what was done to its part.
func TestSequencing(t *testing.T) {
	b := testBench{cure: 30, fails: [][]int{{3, 4, 5}, {1, 4, 5}, {2, 5}, {2, 3, 5}, {1, 3}}}
	weights := []float64{.70, .01, .02, .10, .05, .12}
	b.rest = "relations:\n"
	for i, w := range weights {
		b.causes = append(b.causes, "how_common: very rare")
		b.rest += fmt.Sprintf("  - {told: worked_on, how: [way %d], own: %g, source: practice}\n", i, 10*w)
		b.said = append(b.said, fmt.Sprintf("stage_%d.worked_on=way %d", i, i))
	}
	if got := b.best(weights); math.Abs(got-2.18) > 1e-9 {
		t.Fatalf("the optimum over all orders is %.4f tests, want 2.18", got)
	}
	if got, first := b.expected(t, weights); math.Abs(got-2.18) > 1e-9 || first != 2 {
		t.Errorf("%.4f tests beginning with t%d, want 2.18 beginning with t2", got, first)
	}
}
