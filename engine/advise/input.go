package advise

// Looking over what the caller gave.

import (
	"fmt"
	"math"
)

// check returns the first contradiction in the input.
func (s *Snag) check(now *Situation) error {
	if !(s.Help >= 0) || math.IsInf(s.Help, 1) {
		return fmt.Errorf("help: minutes are %v, want 0 or more", s.Help)
	}
	for i, c := range s.Causes {
		if !(c.Minutes > 0) || math.IsInf(c.Minutes, 1) {
			return fmt.Errorf("cause %d: minutes are %v, want above 0", i, c.Minutes)
		}
		if c.By < 0 || c.By > len(s.Checks) {
			return fmt.Errorf("cause %d: no check %d", i, c.By-1)
		}
	}
	if err := s.checkSets(); err != nil {
		return err
	}
	if err := s.checkStates(now); err != nil {
		return err
	}
	for i := range s.Checks {
		if err := s.checkCheck(&s.Checks[i]); err != nil {
			return fmt.Errorf("check %d: %w", i, err)
		}
	}
	if !(now.Limit >= 0) {
		return fmt.Errorf("limit: minutes are %v, want 0 or more", now.Limit)
	}
	return nil
}

func (s *Snag) checkSets() error {
	var sum float64
	seen := make([]int, len(s.Causes)) // the last set, from 1, that held the cause
	for i, set := range s.Sets {
		if !(set.Weight >= 0) || math.IsInf(set.Weight, 1) {
			return fmt.Errorf("set %d: weight is %v, want 0 or more", i, set.Weight)
		}
		sum += set.Weight
		for _, c := range set.Causes {
			if c < 0 || c >= len(s.Causes) {
				return fmt.Errorf("set %d: no cause %d", i, c)
			}
			if seen[c] == i+1 {
				return fmt.Errorf("set %d: cause %d twice", i, c)
			}
			seen[c] = i + 1
		}
	}
	if !(sum > 0) || math.IsInf(sum, 1) {
		return fmt.Errorf("sets: weights add up to %v, want above 0", sum)
	}
	return nil
}

func (s *Snag) checkStates(now *Situation) error {
	n := len(s.States)
	if len(s.Moves) != n {
		return fmt.Errorf("moves: %d rows for %d states", len(s.Moves), n)
	}
	for i, row := range s.Moves {
		if len(row) != n {
			return fmt.Errorf("moves from state %d: %d figures for %d states", i, len(row), n)
		}
		for j, m := range row {
			if !(m >= 0) {
				return fmt.Errorf("move from state %d to %d: minutes are %v, want 0 or more", i, j, m)
			}
		}
	}
	if n > 0 && (now.State < 0 || now.State >= n) {
		return fmt.Errorf("situation: no state %d", now.State)
	}
	return nil
}

func (s *Snag) checkCheck(c *Check) error {
	if !(c.Minutes >= 0) || math.IsInf(c.Minutes, 1) {
		return fmt.Errorf("minutes are %v, want 0 or more", c.Minutes)
	}
	if c.State != AnyState && (c.State < 0 || c.State >= len(s.States)) {
		return fmt.Errorf("no state %d", c.State)
	}
	if !(c.CouldNotTell >= 0 && c.CouldNotTell <= 1) {
		return fmt.Errorf("could not tell: share is %v, want 0 to 1", c.CouldNotTell)
	}
	if len(c.Outcomes) == 0 {
		return fmt.Errorf("no outcomes")
	}
	if len(c.Finds) > len(c.Outcomes) {
		return fmt.Errorf("finds: %d lists for %d outcomes", len(c.Finds), len(c.Outcomes))
	}
	for v, list := range c.Finds {
		for _, k := range list {
			if k < 0 || k >= len(s.Causes) {
				return fmt.Errorf("outcome %d: finds no cause %d", v, k)
			}
		}
	}
	for v, row := range c.Outcomes {
		if len(row) != len(s.Sets) {
			return fmt.Errorf("outcome %d: %d chances for %d sets", v, len(row), len(s.Sets))
		}
		for set, p := range row {
			if !(p >= 0 && p <= 1) {
				return fmt.Errorf("outcome %d: chance in set %d is %v, want 0 to 1", v, set, p)
			}
		}
	}
	for set := range s.Sets {
		var sum float64
		for _, row := range c.Outcomes {
			sum += row[set]
		}
		if math.Abs(sum-1) > 1e-6 {
			return fmt.Errorf("chances of the outcomes in set %d add up to %v, want 1", set, sum)
		}
	}
	return nil
}
