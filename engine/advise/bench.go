package advise

// The workbench of one call: weights of the sets, chances of the causes, and
// memory used again for every outcome tried.

import (
	"cmp"
	"math"
	"slices"
)

type bench struct {
	snag  *Snag
	now   *Situation
	state int // rig state now; AnyState if the snag has no states

	weights []float64 // by set, summing to 1
	only    []int32   // by set, its cause if it has just one, else -1
	part    []float64 // by set, 1 / number of its causes
	floor   []float64 // by set, minutes to cure it if it were known
	minutes []float64 // by cause
	moves   [][]float64
	minimum float64 // the expected minutes as things stand
	lowest  float64 // the same if it were known what is wrong

	chance []float64 // by cause, of the weights last spread
	items  items
	branch []float64 // by set, weights after the first check's outcome
	twig   []float64 // by set, weights after the second check's outcome
}

func newBench(s *Snag, now *Situation) *bench {
	n := len(s.Sets)
	b := &bench{
		snag: s, now: now, state: now.State,
		weights: make([]float64, n),
		only:    make([]int32, n),
		part:    make([]float64, n),
		floor:   make([]float64, n),
		minutes: make([]float64, len(s.Causes)),
		moves:   shortest(s),
		chance:  make([]float64, len(s.Causes)),
		branch:  make([]float64, n),
		twig:    make([]float64, n),
	}
	if len(s.States) == 0 {
		b.state = AnyState
	}
	var sum float64
	for i := range s.Sets {
		sum += s.Sets[i].Weight
	}
	for i := range s.Sets {
		b.set(i, sum)
	}
	for i := range s.Causes {
		b.minutes[i] = s.Causes[i].Minutes
	}
	b.minimum = b.repair(b.weights)
	b.items.keep(len(b.chance))
	b.lowest = b.known(b.weights)
	return b
}

// set prepares one set; sum is the weight of all.
func (b *bench) set(i int, sum float64) {
	set := &b.snag.Sets[i]
	b.weights[i] = set.Weight / sum
	b.only[i] = -1
	if len(set.Causes) == 0 {
		b.floor[i] = b.snag.Help
		return
	}
	if len(set.Causes) == 1 {
		b.only[i] = int32(set.Causes[0])
	}
	b.part[i] = 1 / float64(len(set.Causes))
	for _, c := range set.Causes {
		m := b.snag.Causes[c].Minutes
		if b.snag.Help > 0 {
			m = min(m, b.snag.Help)
		}
		b.floor[i] += b.part[i] * m
	}
}

// shortest returns the least minutes from state to state, through others
// where that is quicker, but never through one that is dangerous to be in or
// to get into.
func shortest(s *Snag) [][]float64 {
	moves := make([][]float64, len(s.Moves))
	for i := range moves {
		moves[i] = slices.Clone(s.Moves[i])
		moves[i][i] = 0
	}
	for via := range moves {
		if s.States[via].Being|s.States[via].Reach != 0 {
			continue
		}
		for from := range moves {
			for to := range moves {
				moves[from][to] = min(moves[from][to], moves[from][via]+moves[via][to])
			}
		}
	}
	return moves
}

func (b *bench) move(from, to int) float64 {
	if to == AnyState || from == AnyState {
		return 0
	}
	return b.moves[from][to]
}

// spread shares the weights of the sets out among their causes, equally
// within a set, and returns the weight of "none of those listed". Sharing is
// linear in the weights, so that a check which costs nothing never seems to do
// harm; with the chances of the ranking, in which a set of two counts twice,
// it could.
func (b *bench) spread(weights []float64) (none float64) {
	clear(b.chance)
	for set, w := range weights {
		if c := b.only[set]; c >= 0 {
			b.chance[c] += w
			continue
		}
		causes := b.snag.Sets[set].Causes
		if len(causes) == 0 {
			none += w
			continue
		}
		w *= b.part[set]
		for _, c := range causes {
			b.chance[c] += w
		}
	}
	return none
}

// repair returns the expected minutes for weights of any sum.
func (b *bench) repair(weights []float64) float64 {
	none := b.spread(weights)
	b.items.fill(b.chance, b.minutes, none, b.snag.Help)
	least, _ := b.items.cost(b.minutes, b.snag.Help)
	return least
}

// shares returns the chance of each cause and of none, for weights of any sum.
func (b *bench) shares(weights []float64) (causes []Share, none float64) {
	by := make([]float64, len(b.minutes))
	var sum float64
	for set, w := range weights {
		sum += w
		causes := b.snag.Sets[set].Causes
		if len(causes) == 0 {
			none += w
		}
		for _, c := range causes {
			by[c] += w
		}
	}
	if sum <= 0 {
		return nil, 0
	}
	for c, w := range by {
		if w > 0 {
			causes = append(causes, Share{c, w / sum})
		}
	}
	slices.SortStableFunc(causes, func(x, y Share) int { return cmp.Compare(y.Chance, x.Chance) })
	return causes, none / sum
}

// inspections lists the direct way, all causes that are possible at all.
func (b *bench) inspections(a *Advice) {
	none := b.spread(b.weights)
	order, _ := Repair(b.chance, b.minutes, none, b.snag.Help)
	a.HelpAfter = len(order)
	all, _ := Repair(b.chance, b.minutes, none, 0)
	shares, _ := b.shares(b.weights)
	chance := make([]float64, len(b.minutes))
	for _, s := range shares {
		chance[s.Cause] = s.Chance
	}
	for _, c := range all {
		m := b.minutes[c]
		a.Inspections = append(a.Inspections, Inspection{
			Cause: c, Chance: chance[c], Minutes: m,
			Engineer: b.snag.Causes[c].Engineer && !b.now.EngineerHere,
			TooLong:  b.tooLong(m),
		})
	}
}

// alone returns the minutes that a check saves with nothing to follow it.
func (b *bench) alone(check int) float64 {
	c := &b.snag.Checks[check]
	cost := c.Minutes + b.move(b.state, c.State)
	if math.IsInf(cost, 1) {
		return math.Inf(-1)
	}
	return b.minimum - cost - b.after(c, b.weights, b.minimum, b.lowest, math.Inf(1))
}

// after returns the expected minutes once the check has given its answer, for
// weights of any sum, of which base is the repair. It gives up, with a figure
// no smaller than enough, once the sum is bound to reach enough: what has not
// been added up yet cannot cost less than if the cause were known. That is
// known for the weights as least.
func (b *bench) after(c *Check, weights []float64, base, least, enough float64) float64 {
	told := 1 - c.CouldNotTell
	sum := c.CouldNotTell*base + told*least
	for _, row := range c.Outcomes {
		if sum >= enough {
			break
		}
		var known float64
		for i, w := range weights {
			w *= row[i]
			b.twig[i] = w
			known += w * b.floor[i]
		}
		sum += told * (b.repair(b.twig) - known)
	}
	return sum
}

// known returns the expected minutes if it were known what is wrong: no check
// can bring them lower.
func (b *bench) known(weights []float64) float64 {
	var sum float64
	for i, w := range weights {
		sum += w * b.floor[i]
	}
	return sum
}
