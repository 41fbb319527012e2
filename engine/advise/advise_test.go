package advise

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Rig states of the test snags.
const (
	cold = iota
	earthed
	running
)

// Tools of the test snags.
const (
	spanner = iota
	testGauge
)

// watched are facts that bar nothing: every danger was looked for.
func watched() []Fact { return []Fact{{Known: False, Blocks: Running | Turning | HotPart | Open}} }

// splits returns the rows of a check that is yes with chance p[i] in set i.
func splits(p ...float64) [][]float64 {
	no := make([]float64, len(p))
	for i := range p {
		no[i] = 1 - p[i]
	}
	return [][]float64{p, no}
}

// testSnag returns a small snag: three causes, one pair, none of those listed.
func testSnag() *Snag {
	return &Snag{
		Causes: []Cause{{Minutes: 25}, {Minutes: 60}, {Minutes: 40, Engineer: true}},
		Sets: []Set{
			{Causes: []int{0}, Weight: 4}, {Causes: []int{1}, Weight: 3},
			{Causes: []int{2}, Weight: 2}, {Causes: []int{0, 1}, Weight: .5}, {Weight: .5},
		},
		States: []State{cold: {}, earthed: {Reach: 0}, running: {Being: Running, Reach: Turning}},
		Moves:  [][]float64{{0, 1, 8}, {40, 0, 5}, {45, 4, 0}},
		Help:   150,
		Checks: []Check{
			{Minutes: 1, State: running, Outcomes: splits(.95, .05, .05, .95, .1)},
			{Minutes: 3, State: earthed, Tools: []int{spanner, testGauge}, Outcomes: splits(.9, .1, .1, .9, .1)},
			{Minutes: 2, State: earthed, Outcomes: splits(.1, .8, .1, .8, .1), CouldNotTell: .2},
			{Minutes: 2, State: AnyState, Outcomes: splits(.5, .5, .5, .5, .5)},
		},
	}
}

func mustNext(t testing.TB, s *Snag, now *Situation, opt Options) *Advice {
	t.Helper()
	a, err := Next(s, now, opt)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func offered(a *Advice) []int {
	var ids []int
	for _, s := range a.Checks {
		ids = append(ids, s.Check)
	}
	slices.Sort(ids)
	return ids
}

// TestGainByHand works the gain of one check out on paper. Two causes .6 and
// .4, each 10 minutes, no help: without a check 10 + .4*10 = 14 minutes. A
// check of 1 minute, yes with .9 and .2: P(yes) = .62, and after yes the first
// is .54/.62, after no the second is .32/.38:
// 1 + (6.2 + .8) + (3.8 + .6) = 12.4 minutes, so it saves 1.6.
// A tenth of the tries telling nothing takes a tenth of 2.6 away: 1.34.
func TestGainByHand(t *testing.T) {
	s := &Snag{
		Causes: []Cause{{Minutes: 10}, {Minutes: 10}},
		Sets:   []Set{{Causes: []int{0}, Weight: 6}, {Causes: []int{1}, Weight: 4}},
		Checks: []Check{{Minutes: 1, State: AnyState, Outcomes: splits(.9, .2)}},
	}
	a := mustNext(t, s, &Situation{}, Options{})
	if got := a.Minutes; !near(got, 14, 1e-9) {
		t.Errorf("minutes = %v, want 14", got)
	}
	got := a.Checks[0]
	if !near(got.Saves, 1.6, 1e-9) || !got.Pays || a.InspectFirst {
		t.Errorf("saves %v, pays %v, inspect first %v, want 1.6, true, false", got.Saves, got.Pays, a.InspectFirst)
	}
	if yes := got.Outcomes[0]; !near(yes.Chance, .62, 1e-9) || yes.Causes[0].Cause != 0 ||
		!near(yes.Causes[0].Chance, .54/.62, 1e-9) {
		t.Errorf("yes = %+v, want .62 and cause 0 at %.4f", yes, .54/.62)
	}
	if no := got.Outcomes[1]; no.Causes[0].Cause != 1 || !near(no.Causes[0].Chance, .32/.38, 1e-9) {
		t.Errorf("no = %+v, want cause 1 at %.4f", no, .32/.38)
	}
	s.Checks[0].CouldNotTell = .1
	if got := mustNext(t, s, &Situation{}, Options{}).Checks[0]; !near(got.Saves, 1.34, 1e-9) || len(got.Outcomes) != 3 {
		t.Errorf("saves %v with %d outcomes, want 1.34 with 3", got.Saves, len(got.Outcomes))
	}
}

// TestPerfectCheck: a check that names the cause saves all that inspecting in
// vain would cost: for n equal causes of one minute, (n+1)/2 - 1 minutes, less
// its own.
func TestPerfectCheck(t *testing.T) {
	for _, n := range []int{2, 5, 10} {
		weights := make([]float64, n)
		rows := make([][]float64, n)
		for i := range weights {
			weights[i] = 1
			rows[i] = make([]float64, n)
			rows[i][i] = 1
		}
		s := single(weights, 1, nil)
		s.Checks = []Check{{Minutes: .25, State: AnyState, Outcomes: rows}}
		a := mustNext(t, s, &Situation{}, Options{})
		if got, want := a.Checks[0].Saves, float64(n+1)/2-1-.25; !near(got, want, 1e-9) {
			t.Errorf("%d causes: saves %v, want %v", n, got, want)
		}
		if got, want := a.Checks[0].Bits, math.Log2(float64(n)); !near(got, want, 1e-9) {
			t.Errorf("%d causes: %v bits, want %v", n, got, want)
		}
	}
}

// TestNotTwice: a check is not thought of as following itself, since doing it
// again brings the same answer. Here one yes leaves the order as it was, and a
// second, if it were news, would turn it round.
func TestNotTwice(t *testing.T) {
	s := single([]float64{.8, .2}, 40, nil)
	s.Checks = []Check{{Minutes: .01, State: AnyState, Outcomes: splits(.3, .9)}}
	if c := mustNext(t, s, &Situation{}, Options{}).Checks[0]; c.Pays || c.SavesAhead != c.Saves || c.Outcomes[0].Then != Inspect {
		t.Errorf("%+v, want nothing to follow", c)
	}
}

// TestPairShares: two causes that are there together share their chance for
// the minutes, 10 + .5*10, while each is shown as certain.
func TestPairShares(t *testing.T) {
	s := &Snag{
		Causes: []Cause{{Minutes: 10}, {Minutes: 10}},
		Sets:   []Set{{Causes: []int{0, 1}, Weight: 2}},
	}
	a := mustNext(t, s, &Situation{}, Options{})
	if !near(a.Minutes, 15, 1e-9) || a.Inspections[1].Chance != 1 || !a.InspectFirst {
		t.Errorf("%+v, want 15 minutes, chance 1", a)
	}
}

func TestToolMovesCheck(t *testing.T) {
	s := testSnag()
	now := &Situation{State: earthed, Facts: watched(), Tools: []int{spanner}}
	a := mustNext(t, s, now, Options{})
	if len(a.Apart) != 1 || a.Apart[0].Check != 1 || !slices.Equal(a.Apart[0].Missing, []int{testGauge}) {
		t.Fatalf("apart = %+v, want check 1 for want of tool %d", a.Apart, testGauge)
	}
	if !(a.Apart[0].Saves > 0) {
		t.Errorf("apart saves %v, want above 0: it is worth fetching the tool", a.Apart[0].Saves)
	}
	now.Tools = []int{spanner, testGauge}
	if a := mustNext(t, s, now, Options{}); len(a.Apart) != 0 || !slices.Contains(offered(a), 1) {
		t.Errorf("with the tool: offered %v, apart %+v, want check 1 offered", offered(a), a.Apart)
	}
	now.Tools = []int{} // at hand: nothing, which is not the same as not said
	if a := mustNext(t, s, now, Options{}); len(a.Apart) != 1 || len(a.Apart[0].Missing) != 2 {
		t.Errorf("without tools: apart %+v, want check 1 for want of two tools", a.Apart)
	}
	now.Tools = nil
	if a := mustNext(t, s, now, Options{}); len(a.Apart) != 0 {
		t.Errorf("tools not said: apart %+v, want none", a.Apart)
	}
}

func TestGates(t *testing.T) {
	fire, lock := Running|Turning, Turning
	for _, tt := range []struct {
		name  string
		state int
		facts []Fact
		gated []int // checks
		true_ []int // facts named for the first of them
		unk   []int
		unw   Hazard
	}{
		{"all looked for", earthed, watched(), nil, nil, nil, 0},
		{"fire true", earthed, []Fact{{True, fire}, {False, lock}}, []int{0}, []int{0}, nil, 0},
		{"fire not looked for", earthed, []Fact{{Unknown, fire}, {False, lock}}, []int{0}, nil, []int{0}, 0},
		{"lock not looked for, must be started", earthed, []Fact{{False, fire}, {Unknown, lock}}, []int{0}, nil, []int{1}, 0},
		{"lock not looked for, runs already", running, []Fact{{False, fire}, {Unknown, lock}}, nil, nil, nil, 0},
		{"both", earthed, []Fact{{True, fire}, {Unknown, lock}}, []int{0}, []int{0}, []int{1}, 0},
		{"nothing said of turning", earthed, []Fact{{False, Running}}, []int{0}, nil, nil, Turning},
		{"nothing said at all", earthed, nil, []int{0}, nil, nil, Running | Turning},
	} {
		a := mustNext(t, testSnag(), &Situation{State: tt.state, Facts: tt.facts}, Options{})
		var gated []int
		for _, g := range a.Gated {
			gated = append(gated, g.Check)
		}
		if !slices.Equal(gated, tt.gated) {
			t.Errorf("%s: gated %v, want %v", tt.name, gated, tt.gated)
			continue
		}
		if slices.Contains(offered(a), 0) == (len(gated) > 0) {
			t.Errorf("%s: offered %v, gated %v", tt.name, offered(a), gated)
		}
		if len(gated) == 0 {
			continue
		}
		if g := a.Gated[0]; !slices.Equal(g.True, tt.true_) || !slices.Equal(g.Unknown, tt.unk) || g.Unwatched != tt.unw {
			t.Errorf("%s: gated by %v, %v, %b, want %v, %v, %b",
				tt.name, g.True, g.Unknown, g.Unwatched, tt.true_, tt.unk, tt.unw)
		}
	}
}

// TestHotPart: hands off hot parts until it is known that they have cooled.
func TestHotPart(t *testing.T) {
	s := testSnag()
	s.Checks[2].Hazard = HotPart
	for _, tt := range []struct {
		hot  Truth
		open bool
	}{{True, false}, {Unknown, false}, {False, true}} {
		now := &Situation{State: earthed, Facts: []Fact{{False, Running | Turning}, {tt.hot, HotPart}}}
		if a := mustNext(t, s, now, Options{}); slices.Contains(offered(a), 2) != tt.open {
			t.Errorf("hot %v: offered %v, want check 2 offered: %v", tt.hot, offered(a), tt.open)
		}
	}
}

// TestSecondCheckNotThroughGate: a check that stops the engine must not be
// thought of as followed by one that would need it started again, while a
// liquid lock has not been looked for.
func TestSecondCheckNotThroughGate(t *testing.T) {
	s := testSnag()
	// The running check is worthless now but would settle all after check 2.
	s.Checks[0].Outcomes = splits(1, 0, 1, 1, 0)
	follows := func(lock Truth) bool {
		now := &Situation{State: running, Facts: []Fact{{False, Running}, {lock, Turning}}}
		for _, c := range mustNext(t, s, now, Options{}).Checks {
			for _, o := range c.Outcomes {
				if c.Check == 2 && o.Then == 0 {
					return true
				}
			}
		}
		return false
	}
	if !follows(False) {
		t.Errorf("lock looked for: running check never follows, want it to")
	}
	if follows(Unknown) {
		t.Errorf("lock not looked for: running check follows a stop, want not")
	}
}

// TestSetUpPaidOnce: two checks, each worthless alone when forty minutes of
// cooling are charged to it, pay together as the second finds the rig cold.
func TestSetUpPaidOnce(t *testing.T) {
	s := single([]float64{1, 1, 1, 1}, 40, [][]int{{0, 1}, {0, 2}})
	s.States = make([]State, 2)
	s.Moves = [][]float64{{0, 30}, {0, 0}}
	for i := range s.Checks {
		s.Checks[i].State = 1
	}
	a := mustNext(t, s, &Situation{State: 0}, Options{})
	// Alone 100 - (1 + 30 + 60) = 9 minutes, together 100 - (2 + 30 + 40) = 28.
	if c := a.Checks[0]; !near(c.SetUp, 30, 1e-9) || !near(c.Saves, 9, 1e-9) || !near(c.SavesAhead, 28, 1e-9) {
		t.Errorf("from hot: %+v, want set-up 30, saves 9, ahead 28", c)
	}
	for _, c := range mustNext(t, s, &Situation{State: 0, Limit: 31.5}, Options{}).Checks {
		if c.SavesAhead != c.Saves || c.Outcomes[0].Then != Inspect { // no time for both
			t.Errorf("31.5 minutes left: %+v, want nothing to follow", c)
		}
	}
	if c := mustNext(t, s, &Situation{State: 1}, Options{}).Checks[0]; c.SetUp != 0 || !near(c.Saves, 39, 1e-9) {
		t.Errorf("cold already: %+v, want set-up 0, saves 39", c)
	}
	s.Moves[0][1] = 45
	a = mustNext(t, s, &Situation{State: 0}, Options{})
	// Alone -6, together 13: it pays because of the other.
	if c := a.Checks[0]; !near(c.Saves, -6, 1e-9) || !near(c.SavesAhead, 13, 1e-9) || !c.Pays || c.Outcomes[0].Then != 1-c.Check {
		t.Errorf("dear set-up: %+v, want -6 alone, 13 with the other, pays", c)
	}
	s.Moves[0][1] = math.Inf(1)
	a = mustNext(t, s, &Situation{State: 0}, Options{})
	if len(a.Checks) != 0 || len(a.Apart) != 2 || !a.Apart[0].NoWay || !a.InspectFirst {
		t.Errorf("no way: %+v apart %+v, want both apart", a.Checks, a.Apart)
	}
}

// TestWayThrough: a quicker way through a third state is found, but not
// through one that is dangerous.
func TestWayThrough(t *testing.T) {
	s := single([]float64{1, 1}, 100, [][]int{{0}})
	s.States = make([]State, 3)
	s.Moves = [][]float64{{0, 5, 60}, {60, 0, 2}, {60, 60, 0}}
	s.Checks[0].State = 2
	if got := mustNext(t, s, &Situation{Facts: watched()}, Options{}).Checks[0].SetUp; got != 7 {
		t.Errorf("set-up = %v, want 7", got)
	}
	s.States[1].Reach = Turning
	if got := mustNext(t, s, &Situation{Facts: watched()}, Options{}).Checks[0].SetUp; got != 60 {
		t.Errorf("set-up past a dangerous state = %v, want 60", got)
	}
}

func TestLimitAndEngineer(t *testing.T) {
	s := testSnag()
	s.Checks[3].Engineer = true
	now := &Situation{State: cold, Facts: watched(), Limit: 5}
	a := mustNext(t, s, now, Options{})
	if got, want := offered(a), []int{1, 2}; !slices.Equal(got, want) {
		t.Errorf("offered %v, want %v", got, want)
	}
	for _, p := range a.Apart {
		if p.TooLong != (p.Check == 0) || p.Engineer != (p.Check == 3) {
			t.Errorf("apart %+v, want 0 too long and 3 for the engineer", p)
		}
	}
	for _, i := range a.Inspections {
		if !i.TooLong || i.Engineer != (i.Cause == 2) {
			t.Errorf("inspection %+v, want too long, the engineer for 2", i)
		}
	}
	now.EngineerHere, now.Limit = true, 0
	if a := mustNext(t, s, now, Options{}); len(a.Apart) != 0 {
		t.Errorf("engineer here: apart %+v, want none", a.Apart)
	}
}

func TestPenaltyBreaksTies(t *testing.T) {
	s := single([]float64{1, 1, 1}, 50, [][]int{{0}, {0}, {0}})
	s.Checks[0].Hazard = HotPart
	now := &Situation{Facts: watched()}
	if got := mustNext(t, s, now, Options{}).Checks; got[0].Check != 1 || got[2].Check != 0 {
		t.Errorf("order %v, want the hot one last", []int{got[0].Check, got[1].Check, got[2].Check})
	}
	s.Checks[0].Minutes = .5 // half a minute saved is not worth the danger
	if got := mustNext(t, s, now, Options{}).Checks[0].Check; got != 1 {
		t.Errorf("half a minute quicker: first %d, want 1", got)
	}
	if got := mustNext(t, s, now, Options{Penalty: -1}).Checks[0].Check; got != 0 {
		t.Errorf("no penalty: first %d, want 0", got)
	}
}

func TestFirstFound(t *testing.T) {
	got := FirstFound([][]float64{{.5, 0}, {.5, 1}})
	want := [][]float64{{.5, 0}, {.25, 1}, {.25, 0}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("FirstFound (-want +got):\n%s", diff)
	}
	if got := FirstFound(nil); got != nil {
		t.Errorf("FirstFound(nil) = %v, want nil", got)
	}
}

func TestBadInput(t *testing.T) {
	for _, tt := range []struct {
		name string
		harm func(*Snag, *Situation)
		want string
	}{
		{"no sets", func(s *Snag, _ *Situation) { s.Sets = nil }, "add up to 0"},
		{"weight", func(s *Snag, _ *Situation) { s.Sets[1].Weight = math.NaN() }, "set 1: weight is NaN"},
		{"cause", func(s *Snag, _ *Situation) { s.Sets[1].Causes = []int{7} }, "set 1: no cause 7"},
		{"cause twice", func(s *Snag, _ *Situation) { s.Sets[3].Causes = []int{0, 0} }, "set 3: cause 0 twice"},
		{"minutes", func(s *Snag, _ *Situation) { s.Causes[2].Minutes = 0 }, "cause 2: minutes are 0"},
		{"help", func(s *Snag, _ *Situation) { s.Help = -1 }, "help: minutes are -1"},
		{"moves", func(s *Snag, _ *Situation) { s.Moves = s.Moves[:2] }, "2 rows for 3 states"},
		{"moves row", func(s *Snag, _ *Situation) { s.Moves[1] = nil }, "from state 1: 0 figures"},
		{"move", func(s *Snag, _ *Situation) { s.Moves[1][2] = -1 }, "from state 1 to 2: minutes are -1"},
		{"state", func(_ *Snag, n *Situation) { n.State = 3 }, "no state 3"},
		{"limit", func(_ *Snag, n *Situation) { n.Limit = math.NaN() }, "limit: minutes are NaN"},
		{"check state", func(s *Snag, _ *Situation) { s.Checks[1].State = 5 }, "check 1: no state 5"},
		{"check minutes", func(s *Snag, _ *Situation) { s.Checks[1].Minutes = math.Inf(1) }, "check 1: minutes are +Inf"},
		{"share", func(s *Snag, _ *Situation) { s.Checks[1].CouldNotTell = 2 }, "check 1: could not tell"},
		{"none", func(s *Snag, _ *Situation) { s.Checks[0].Outcomes = nil }, "check 0: no outcomes"},
		{"row", func(s *Snag, _ *Situation) { s.Checks[0].Outcomes[1] = nil }, "outcome 1: 0 chances for 5 sets"},
		{"chance", func(s *Snag, _ *Situation) { s.Checks[0].Outcomes[1][2] = 1.5 }, "chance in set 2 is 1.5"},
		{"sum", func(s *Snag, _ *Situation) { s.Checks[0].Outcomes[1][2] = .5 }, "in set 2 add up to 0.55"},
	} {
		s, now := testSnag(), &Situation{}
		tt.harm(s, now)
		if _, err := Next(s, now, Options{}); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: error %v, want %q in it", tt.name, err, tt.want)
		}
	}
}
