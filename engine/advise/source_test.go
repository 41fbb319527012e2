package advise

// Checks against published examples and theorems.

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// near says whether two figures agree to the places printed.
func near(got, want, within float64) bool { return math.Abs(got-want) <= within }

// TestBitsOutlook holds Bits against the 14 days of J. R. Quinlan, "Induction
// of decision trees", Machine Learning 1, 1986: 9 of class P, 5 of class N.
// The paper rounds on the way, hence the tolerance of .0015.
func TestBitsOutlook(t *testing.T) {
	days := [][5]string{
		{"sunny", "hot", "high", "f", "N"}, {"sunny", "hot", "high", "t", "N"},
		{"overcast", "hot", "high", "f", "P"}, {"rain", "mild", "high", "f", "P"},
		{"rain", "cool", "normal", "f", "P"}, {"rain", "cool", "normal", "t", "N"},
		{"overcast", "cool", "normal", "t", "P"}, {"sunny", "mild", "high", "f", "N"},
		{"sunny", "cool", "normal", "f", "P"}, {"rain", "mild", "normal", "f", "P"},
		{"sunny", "mild", "normal", "t", "P"}, {"overcast", "mild", "high", "t", "P"},
		{"overcast", "hot", "normal", "f", "P"}, {"rain", "mild", "high", "t", "N"},
	}
	classes := []string{"P", "N"}
	weights := []float64{9, 5}
	for column, tt := range []struct {
		name string
		want float64
	}{{"outlook", .246}, {"temperature", .029}, {"humidity", .151}, {"windy", .048}} {
		var values []string
		for _, d := range days {
			if !slices.Contains(values, d[column]) {
				values = append(values, d[column])
			}
		}
		var rows [][]float64
		for _, v := range values {
			row := make([]float64, 2)
			for _, d := range days {
				if d[column] == v {
					class := slices.Index(classes, d[4])
					row[class] += 1 / weights[class]
				}
			}
			rows = append(rows, row)
		}
		if got := Bits(weights, rows, 0); !near(got, tt.want, .0015) {
			t.Errorf("Bits(%s) = %.4f, want %.3f", tt.name, got, tt.want)
		}
	}
	// A perfect check tells the whole entropy, .940 bits there.
	if got := Bits(weights, [][]float64{{1, 0}, {0, 1}}, 0); !near(got, .940, .0005) {
		t.Errorf("Bits(class itself) = %.4f, want .940", got)
	}
	if got := Bits(weights, [][]float64{{1, 0}, {0, 1}}, .25); !near(got, .75*.940, .0005) {
		t.Errorf("Bits(class, a quarter not told) = %.4f, want .705", got)
	}
}

// TestBitsRestaurant holds Bits against S. Russell, P. Norvig, Artificial
// Intelligence: A Modern Approach, section 18.3 (3rd edition): 6 for and 6
// against; one question gains .541 bits, the other nothing.
func TestBitsRestaurant(t *testing.T) {
	weights := []float64{6, 6}
	patrons := [][]float64{{0, 2. / 6}, {4. / 6, 0}, {2. / 6, 4. / 6}}
	kind := [][]float64{{1. / 6, 1. / 6}, {1. / 6, 1. / 6}, {2. / 6, 2. / 6}, {2. / 6, 2. / 6}}
	if got := Bits(weights, patrons, 0); !near(got, .541, .0005) {
		t.Errorf("Bits(patrons) = %.4f, want .541", got)
	}
	if got := Bits(weights, kind, 0); !near(got, 0, 1e-12) {
		t.Errorf("Bits(kind) = %v, want 0", got)
	}
}

// permute calls f with every order of the first n numbers.
func permute(n int, f func([]int)) {
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	var walk func(k int)
	walk = func(k int) {
		if k == n {
			f(order)
			return
		}
		for i := k; i < n; i++ {
			order[k], order[i] = order[i], order[k]
			walk(k + 1)
			order[k], order[i] = order[i], order[k]
		}
	}
	walk(0)
}

// inOrder returns the expected minutes of inspecting in the given order and
// then fetching help, counted in the plainest way: fault by fault.
func inOrder(order []int, p, c []float64, none, help float64) float64 {
	var all float64
	for _, i := range order {
		all += c[i]
	}
	sum := none * (all + help)
	for fault := range p {
		var spent float64
		at := slices.Index(order, fault)
		for k, i := range order {
			if at < 0 || k <= at {
				spent += c[i]
			}
		}
		if at < 0 {
			spent += help
		}
		sum += p[fault] * spent
	}
	return sum
}

// TestRepairOrder checks the theorem of J. Kadane, H. Simon, "Optimal
// strategies for a class of constrained sequential problems", Ann. Statist. 5,
// 1977: inspecting in the order of falling chance per cost is cheapest. All
// 720 orders of six inspections, 500 cases.
func TestRepairOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for n := range 500 {
		p, c := make([]float64, 6), make([]float64, 6)
		var sum float64
		for i := range p {
			p[i], c[i] = r.Float64(), .5+20*r.Float64()
			sum += p[i]
		}
		for i := range p {
			p[i] /= sum
		}
		least := math.Inf(1)
		permute(6, func(order []int) { least = min(least, inOrder(order, p, c, 0, 0)) })
		order, got := Repair(p, c, 0, 0)
		if !near(got, least, 1e-9) || !near(inOrder(order, p, c, 0, 0), least, 1e-9) {
			t.Fatalf("case %d: Repair(%v, %v) = %v, %v, want %v", n, p, c, order, got, least)
		}
	}
}

// TestRepairHelp checks that with help to fetch no order of any of the causes
// is cheaper: all 1957 ordered choices out of six, 100 cases. Help as the last
// resort is the "service call" of D. Heckerman, J. Breese, K. Rommelse,
// "Decision-theoretic troubleshooting", CACM 38, 1995; the count is our own.
func TestRepairHelp(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	cuts := make(map[int]int)
	for n := range 100 {
		p, c := make([]float64, 6), make([]float64, 6)
		none, help := r.Float64(), 5+60*r.Float64()
		sum := none
		for i := range p {
			p[i], c[i] = math.Pow(r.Float64(), 2), .5+30*r.Float64()
			sum += p[i]
		}
		for i := range p {
			p[i] /= sum
		}
		none /= sum
		least := math.Inf(1)
		permute(6, func(order []int) {
			for k := range 7 {
				least = min(least, inOrder(order[:k], p, c, none, help))
			}
		})
		order, got := Repair(p, c, none, help)
		if !near(got, least, 1e-9) || !near(inOrder(order, p, c, none, help), least, 1e-9) {
			t.Fatalf("case %d: Repair(%v, %v, %v, %v) = %v, %v, want %v", n, p, c, none, help, order, got, least)
		}
		cuts[len(order)]++
	}
	if len(cuts) < 4 {
		t.Errorf("orders of only %d lengths came up: %v, want a mixture", len(cuts), cuts)
	}
}

// TestRepairVector is worked by hand: .1 in 1 minute and .2 in 2 tie, then
// .25 in 5 and .45 in 20. By falling chance it would be 23.45 minutes.
// 1 + .9*2 + .7*5 + .45*20 = 15.30.
func TestRepairVector(t *testing.T) {
	p, c := []float64{.45, .25, .20, .10}, []float64{20, 5, 2, 1}
	order, got := Repair(p, c, 0, 0)
	if want := []int{2, 3, 1, 0}; !slices.Equal(order, want) || !near(got, 15.30, 1e-9) {
		t.Errorf("Repair = %v, %v, want %v, 15.30", order, got, want)
	}
	if got := inOrder([]int{0, 1, 2, 3}, p, c, 0, 0); !near(got, 23.45, 1e-9) {
		t.Errorf("by chance = %v, want 23.45", got)
	}
}

// single returns a snag in which each cause stands alone, with a wrong
// inspection so dear that finding out comes first.
func single(weights []float64, minutes float64, fails [][]int) *Snag {
	s := &Snag{}
	for i, w := range weights {
		s.Causes = append(s.Causes, Cause{Minutes: minutes})
		s.Sets = append(s.Sets, Set{Causes: []int{i}, Weight: w})
	}
	for _, f := range fails {
		yes, no := make([]float64, len(weights)), make([]float64, len(weights))
		for i := range weights {
			if slices.Contains(f, i) {
				yes[i] = 1
			} else {
				no[i] = 1
			}
		}
		s.Checks = append(s.Checks, Check{Minutes: 1, State: AnyState, Outcomes: [][]float64{yes, no}})
	}
	return s
}

// byMinutes chooses the first check of the advice, -1 if none pays.
func byMinutes(t *testing.T, opt Options) func(*Snag) int {
	return func(s *Snag) int {
		a, err := Next(s, &Situation{}, opt)
		if err != nil {
			t.Fatal(err)
		}
		if a.InspectFirst {
			return -1
		}
		return a.Checks[0].Check
	}
}

// byBits chooses the check that tells most.
func byBits(s *Snag) int {
	weights := make([]float64, len(s.Sets))
	for i := range s.Sets {
		weights[i] = s.Sets[i].Weight
	}
	best, most := -1, 1e-9
	for i, c := range s.Checks {
		if b := Bits(weights, c.Outcomes, 0); b > most+1e-9 {
			best, most = i, b
		}
	}
	return best
}

// testsUsed follows a way of choosing to the end on perfect checks and returns
// the number of checks to expect and the first one.
func testsUsed(s *Snag, choose func(*Snag) int) (expected float64, first int) {
	first = choose(s)
	if first < 0 {
		return 0, first
	}
	expected = 1
	var sum float64
	for _, set := range s.Sets {
		sum += set.Weight
	}
	for _, row := range s.Checks[first].Outcomes {
		part := *s
		part.Sets = slices.Clone(s.Sets)
		var mass float64
		for i := range part.Sets {
			part.Sets[i].Weight *= row[i]
			mass += part.Sets[i].Weight
		}
		if mass == 0 {
			continue
		}
		more, _ := testsUsed(&part, choose)
		expected += mass / sum * more
	}
	return expected, first
}

// TestTwoStepsReachOptimum is the test sequencing example of K. Pattipati,
// M. Alexandridis, "Application of heuristic search and information theory to
// sequential fault diagnosis", IEEE Trans. SMC 20, 1990 (table and optimum of
// 2.18 tests, beginning with t2, from memory). What the two shorter-sighted
// ways spend is our own count.
func TestTwoStepsReachOptimum(t *testing.T) {
	s := single([]float64{.70, .01, .02, .10, .05, .12}, 1000,
		[][]int{{3, 4, 5}, {1, 4, 5}, {2, 5}, {2, 3, 5}, {1, 3}})
	for _, tt := range []struct {
		way    string
		choose func(*Snag) int
		want   float64
		first  int
	}{
		{"minutes, two deep", byMinutes(t, Options{}), 2.18, 1},
		{"minutes, one deep", byMinutes(t, Options{Ahead: -1}), 2.78, 1},
		{"bits, one deep", byBits, 2.86, 0},
	} {
		if got, first := testsUsed(s, tt.choose); !near(got, tt.want, 1e-9) || first != tt.first {
			t.Errorf("%s: %.4f tests beginning with t%d, want %.2f beginning with t%d",
				tt.way, got, first+1, tt.want, tt.first+1)
		}
	}
}

// TestHalfSplit follows a chain of n equal stages with a test point between
// each two: the choice must be the middle, and the number of tests to expect
// that of the best search, log2 n for powers of two by coding theory. Method:
// US Navy, Troubleshooting Electronic Equipment, NavPers 93083A-1; counts for
// other n are exact and our own.
func TestHalfSplit(t *testing.T) {
	for _, tt := range []struct {
		n    int
		want float64
	}{{2, 1}, {4, 2}, {8, 3}, {10, 3.4}, {12, 3.6667}, {16, 4}, {32, 5}} {
		t.Run(fmt.Sprint(tt.n), func(t *testing.T) {
			weights := make([]float64, tt.n)
			for i := range weights {
				weights[i] = 1
			}
			var fails [][]int
			for k := 1; k < tt.n; k++ {
				bad := make([]int, k) // wrong at point k: one of the stages before it
				for i := range bad {
					bad[i] = i
				}
				fails = append(fails, bad)
			}
			s := single(weights, 100, fails)
			for _, ahead := range []int{8, -1} {
				got, first := testsUsed(s, byMinutes(t, Options{Ahead: ahead}))
				if first != tt.n/2-1 {
					t.Errorf("ahead %d: first test after stage %d, want %d", ahead, first+1, tt.n/2)
				}
				if !near(got, tt.want, 5e-5) {
					t.Errorf("ahead %d: %.4f tests, want %.4f", ahead, got, tt.want)
				}
			}
		})
	}
}
