package casebook_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snagwise/engine/casebook"
)

// Worked out by hand: of the six pairs of 1 2 4 3 five stand in order and one
// does not.
func TestKendall(t *testing.T) {
	for _, tt := range []struct {
		places []int
		want   float64
	}{
		{[]int{1, 2, 3, 4}, 1},
		{[]int{9, 7, 4}, -1},
		{[]int{1, 2, 4, 3}, 4. / 6},
		{[]int{5, 5, 6}, 2. / 3},
		{[]int{8}, 0},
		{nil, 0},
	} {
		if got := casebook.Kendall(tt.places); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%v: tau %v, want %v", tt.places, got, tt.want)
		}
	}
}

// The order of a table is its author's: some put the likeliest first, some what
// is easiest to look at, some go by parts. So no likeness is asked for, and the
// comparison is printed; but rules that stood against the tables more than an
// order by chance would (twice its spread) would be wrong.
func TestOrderBesideThatOfTheTables(t *testing.T) {
	if testing.Short() {
		t.Skip("ranks every entry of the tables and would take minutes with the race detector, for which -short is there")
	}
	engine := usual(t)
	var all, chance comparisons
	variance := 0.0
	for _, r := range shipped(t).Rigs {
		e, err := engine(r.ID)
		if err != nil {
			t.Fatal(err)
		}
		for _, table := range tables(t) {
			var own comparisons
			for _, entry := range table.Entries {
				if !entry.InScope || !entry.On(e.Fitted()) {
					continue
				}
				c, err := entry.Compare(e)
				if err != nil {
					t.Fatal(err)
				}
				if c.Rows < 2 {
					continue
				}
				own.add(c)
				all.add(c)
				n := float64(c.Rows)
				variance += 2 * (2*n + 5) / (9 * n * (n - 1)) // Kendall 1938
				chance.among += harmonic(c.Rows) / n
			}
			if own.n > 0 {
				t.Logf("%-28s %-7s %s", table.ID.Value, r.ID, own)
			}
		}
	}
	spread := math.Sqrt(variance) / all.n
	t.Logf("all: %s, where an order by chance gives tau 0 with a spread of %.3f, and %.3f among those of the entry", all, spread, chance.among/all.n)
	if all.n < 150 {
		t.Errorf("%.0f comparisons, want at least 150", all.n)
	}
	if all.tau/all.n < -2*spread {
		t.Errorf("mean tau %+.3f, where chance has a spread of %.3f: the rules stand against the tables", all.tau/all.n, spread)
	}
}

// harmonic returns 1 + 1/2 + ... + 1/n: over n it is the mean reciprocal rank
// of one of n in an order by chance.
func harmonic(n int) float64 {
	sum := 0.0
	for i := range n {
		sum += 1 / float64(i+1)
	}
	return sum
}

// comparisons sums comparisons up.
type comparisons struct{ n, tau, first, among float64 }

func (m *comparisons) add(c casebook.Comparison) {
	m.n++
	m.tau += c.Tau
	m.first += 1 / float64(c.First)
	m.among += 1 / float64(c.Among)
}

func (m comparisons) String() string {
	return fmt.Sprintf("%3.0f entries: mean tau %+.3f; mean reciprocal rank of the first cause %.3f among all causes, %.3f among those of the entry",
		m.n, m.tau/m.n, m.first/m.n, m.among/m.n)
}

// Somebody with the tables alone, for the accounts told in public: the rules
// must do better, or they are not worth having.
func TestRulesBeatTheTablesOnRealAccounts(t *testing.T) {
	if testing.Short() {
		t.Skip("ranks every real account and would take minutes with the race detector, for which -short is there")
	}
	engine := usual(t)
	list := tables(t)
	var byTables casebook.Expected
	var rules []casebook.Outcome
	spoken := 0
	for _, s := range scored(t, kept(t, "real"), engine) {
		e, err := engine(s.Case.Sheet.Rig.Value)
		if err != nil {
			t.Fatal(err)
		}
		levels := casebook.TableOrder(list, e, s.Account)
		if len(levels) > 0 {
			spoken++
		}
		x := casebook.Expect(levels, s.Accepted...)
		byTables.Top1 += x.Top1
		byTables.Top3 += x.Top3
		byTables.Top5 += x.Top5
		byTables.MRR += x.MRR
		rules = append(rules, s.Outcome)
	}
	n := float64(len(rules))
	m := casebook.Measure(rules)
	t.Logf("%d real accounts, of which the tables speak to %d: by the tables first %.3f, among three %.3f, among five %.3f, mean reciprocal rank %.3f; by the rules %.3f, %.3f, %.3f, %.3f",
		len(rules), spoken, byTables.Top1/n, byTables.Top3/n, byTables.Top5/n, byTables.MRR/n, m.Top1, m.Top3, m.Top5, m.MRR)
	if spoken*2 < len(rules) {
		t.Errorf("the tables speak to %d accounts of %d, want at least half", spoken, len(rules))
	}
	if m.MRR <= byTables.MRR/n {
		t.Errorf("mean reciprocal rank %.3f by the rules, %.3f by the tables", m.MRR, byTables.MRR/n)
	}
}

// Of low oil pressure one table names eight causes (FAA-H-8083-32B Figure
// 10-52), a second three (Airplane Flying Handbook, abnormal indications); in
// both too little oil is among the first two.
func TestTableOrderOfOneTrouble(t *testing.T) {
	e, err := usual(t)("hollin")
	if err != nil {
		t.Fatal(err)
	}
	list := tables(t)
	var entry casebook.Trouble
	inScope(list, func(x casebook.Trouble) {
		if x.ID.Value == "fa_06" {
			entry = x
		}
	})
	a, l := e.Read(entry.Sheet("hollin"))
	if len(l) > 0 {
		t.Fatal(l)
	}
	levels := casebook.TableOrder(list, e, a)
	if len(levels) == 0 || !slices.Equal(levels[0], []string{"oil_tank_low"}) {
		t.Errorf("the tables put %v first, want oil_tank_low", levels[:min(1, len(levels))])
	}
	if diff := cmp.Diff(levels, casebook.TableOrder(list, e, a)); diff != "" {
		t.Errorf("a second time the order differs (-first +second):\n%s", diff)
	}
	seen := map[string]bool{}
	for _, level := range levels {
		for _, id := range level {
			if seen[id] || !casebook.Can(e.Fitted(), id) {
				t.Errorf("%s is there twice or cannot be on this rig", id)
			}
			seen[id] = true
		}
	}
}
