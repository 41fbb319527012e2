package advise

import (
	"math"
	"testing"
)

// found is a snag of causes with a chance each, and a check for each list of
// causes that shows which of them is there; each cause is inspected by the check
// that shows it, or else by itself in 100 minutes.
func found(chances []float64, minutes []float64, lists ...[]int) *Snag {
	s := &Snag{}
	for c, p := range chances {
		s.Causes = append(s.Causes, Cause{Minutes: 100})
		s.Sets = append(s.Sets, Set{Causes: []int{c}, Weight: p})
	}
	for k, list := range lists {
		c := Check{Minutes: minutes[k], State: AnyState}
		rest := make([]float64, len(chances))
		for i := range rest {
			rest[i] = 1
		}
		for _, i := range list {
			row := make([]float64, len(chances))
			row[i], rest[i] = 1, 0
			c.Outcomes = append(c.Outcomes, row)
			c.Finds = append(c.Finds, []int{i})
			s.Causes[i].By = k + 1
		}
		c.Outcomes = append(c.Outcomes, rest)
		s.Checks = append(s.Checks, c)
	}
	return s
}

// TestOneLookForSeveral: a check that shows several causes inspects them at
// once. By hand: it takes 4 minutes and finds half; the other half costs 10 more.
func TestOneLookForSeveral(t *testing.T) {
	s := found([]float64{.3, .2, .5}, []float64{4, 10}, []int{0, 1}, []int{2})
	a := mustNext(t, s, &Situation{}, Options{})
	if want := 4 + .5*10; math.Abs(a.Minutes-want) > 1e-9 {
		t.Errorf("minutes %v, want %v", a.Minutes, want)
	}
	if len(a.Inspections) != 3 || a.Inspections[0].Cause != 0 || a.Inspections[1].Cause != 1 || a.Inspections[1].Minutes != 4 {
		t.Errorf("inspections %+v, want causes 0 and 1 first, by one look of 4 minutes", a.Inspections)
	}
}

// TestWhatIsFoundCostsNothingMore: where a check finds the cause, nothing is left
// to do. By hand: the first check alone leaves .5·10 minutes and takes 4, as the
// inspections do, so that it saves nothing; it need not be paid for twice.
func TestWhatIsFoundCostsNothingMore(t *testing.T) {
	s := found([]float64{.3, .2, .5}, []float64{4, 10}, []int{0, 1}, []int{2})
	a := mustNext(t, s, &Situation{}, Options{Ahead: -1})
	for _, c := range a.Checks {
		if c.Check == 0 && math.Abs(c.Saves) > 1e-9 {
			t.Errorf("the best look saves %v beside itself, want 0", c.Saves)
		}
	}
	if !a.InspectFirst {
		t.Error("a check comes before the best inspection, want none")
	}
}

// TestWhatBringsMoreAMinuteComesFirst: a look that finds the fault one time in
// three in a minute is not put off for one that saves a little more than it
// costs, and is for one that saves much.
func TestWhatBringsMoreAMinuteComesFirst(t *testing.T) {
	chances := []float64{.34, .22, .22, .22}
	parts := func(minutes float64) *Snag {
		s := found(chances, []float64{1, 20, 20, 20}, []int{0}, []int{1}, []int{2}, []int{3})
		// One check more parts causes 0 and 1 from 2 and 3.
		s.Checks = append(s.Checks, Check{Minutes: minutes, State: AnyState, Outcomes: [][]float64{{1, 1, 0, 0}, {0, 0, 1, 1}}})
		return s
	}
	if a := mustNext(t, parts(5), &Situation{}, Options{}); !a.InspectFirst || a.Inspections[0].Cause != 0 {
		t.Errorf("5 minutes to part them: inspect first %v, inspections %+v; want cause 0 looked at first", a.InspectFirst, a.Inspections)
	}
	if a := mustNext(t, parts(.2), &Situation{}, Options{}); a.InspectFirst || a.Checks[0].Check != 4 {
		t.Errorf("a fifth of a minute to part them: inspect first %v, want the parting check", a.InspectFirst)
	}
}

// TestNoShortCuts: it does not pay to go into a state only because the next is
// near from there: cold is 30 minutes from here, whatever it is from cranked.
func TestNoShortCuts(t *testing.T) {
	s := found([]float64{.5, .5}, []float64{1, 1}, []int{0}, []int{1})
	s.States = make([]State, 3) // here, cranked, cold
	s.Moves = [][]float64{{0, 4, 30}, {1, 0, 2}, {5, 6, 0}}
	s.States[1].Being = Turning // nothing goes through it
	s.Checks[0].State, s.Checks[1].State = 2, 1
	now := &Situation{Facts: watched()}
	a := mustNext(t, s, now, Options{})
	// Cranked first: 4+1, then half the time cold with what is left of its 30.
	if want := 5 + .5*31; a.Minutes < want-1e-9 {
		t.Errorf("minutes %v, want at least %v", a.Minutes, want)
	}
	for _, c := range a.Checks {
		if c.Check == 1 && c.SavesAhead > a.Minutes-(5+.5*27)+1e-9 {
			t.Errorf("cranking first saves %v: the way to cold is taken for a short one", c.SavesAhead)
		}
	}
}
