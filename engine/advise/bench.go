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

	weights []float64   // by set, summing to 1
	only    []int32     // by set, the look at its cause if it has just one, else -1
	part    []float64   // by set, 1 / number of its causes
	floor   []float64   // by set, minutes to cure it if it were known
	look    []int32     // by cause: what inspects it
	looks   [][]float64 // by state and look: minutes from there; one row where there are no states
	moves   [][]float64
	left    [][][]float64 // by check and outcome: the chances by set, 0 where it settles a cause of the set
	lasts   [][]float64   // by check: the sum of these over the outcomes
	minimum float64       // the expected minutes as things stand

	rate   float64   // minutes that the best inspection brings for each of its own
	first  []bool    // by check: it comes before the best inspection
	second []float64 // by check: minutes to expect of the one that follows it, where one was tried

	chance []float64 // by look, of the weights last spread
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
		moves:   shortest(s),
		branch:  make([]float64, n),
		twig:    make([]float64, n),
	}
	if len(s.States) == 0 {
		b.state = AnyState
	}
	b.noShortCuts()
	b.setLooks()
	b.first, b.second = make([]bool, len(s.Checks)), make([]float64, len(s.Checks))
	var sum float64
	for i := range s.Sets {
		sum += s.Sets[i].Weight
	}
	for i := range s.Sets {
		b.set(i, sum)
	}
	b.setLeft()
	b.minimum = b.repair(b.weights, b.state)
	b.items.keep(len(b.chance))
	b.rate = b.inspectionRate()
	return b
}

// leastLook is the least minutes of a look, so that a chance per minute is
// always a number.
const leastLook = 1e-3

// setLooks finds what inspects each cause, and the minutes of that from each
// state of the rig.
//
// Every inspection in another state pays the way there. That it be paid once for
// all of them was tried: 160 drawn hunts took 82.8 minutes for 82.8, and two deep
// took some three times as long to work out. Trying second checks by what they save
// once the rig is in their state was worth 1 % there and nothing on the kept cases.
func (b *bench) setLooks() {
	s := b.snag
	b.look = make([]int32, len(s.Causes))
	b.looks = make([][]float64, max(1, len(s.States)))
	of := make(map[int]int32) // by check
	n := int32(0)
	for c := range s.Causes {
		by := s.Causes[c].By
		if by > 0 && !b.doable(by-1) {
			by = 0
		}
		if at, ok := of[by]; ok && by > 0 {
			b.look[c] = at
			continue
		}
		of[by], b.look[c] = n, n
		n++
		for from := range b.looks {
			m := s.Causes[c].Minutes
			if by > 0 {
				m = s.Checks[by-1].Minutes
				if len(s.States) > 0 {
					m += b.move(from, s.Checks[by-1].State)
				}
			}
			b.looks[from] = append(b.looks[from], max(m, leastLook))
		}
	}
	b.chance = make([]float64, n)
}

// doable says whether a check may be done now.
func (b *bench) doable(check int) bool {
	c := &b.snag.Checks[check]
	return !barred(b.now.Facts, b.snag.hazards(c, b.state)) && b.missing(c) == nil && (!c.Engineer || b.now.EngineerHere) && !math.IsInf(b.move(b.state, c.State), 1)
}

// minutes returns the minutes of each look from a state.
func (b *bench) minutes(state int) []float64 { return b.looks[max(state, 0)] }

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
		b.only[i] = b.look[set.Causes[0]]
	}
	b.part[i] = 1 / float64(len(set.Causes))
	for _, c := range set.Causes {
		m := math.Inf(1)
		for _, row := range b.looks {
			m = min(m, row[b.look[c]])
		}
		if b.snag.Help > 0 {
			m = min(m, b.snag.Help)
		}
		b.floor[i] += b.part[i] * m
	}
}

// setLeft works out what each outcome of each check leaves to look for.
func (b *bench) setLeft() {
	b.left, b.lasts = make([][][]float64, len(b.snag.Checks)), make([][]float64, len(b.snag.Checks))
	for i := range b.snag.Checks {
		c := &b.snag.Checks[i]
		b.left[i], b.lasts[i] = c.Outcomes, make([]float64, len(b.weights))
		if len(c.Finds) > 0 {
			b.left[i] = slices.Clone(c.Outcomes)
		}
		for v, found := range c.Finds {
			if len(found) > 0 {
				row := slices.Clone(c.Outcomes[v])
				for set := range row {
					if slices.ContainsFunc(b.snag.Sets[set].Causes, func(k int) bool { return slices.Contains(found, k) }) {
						row[set] = 0
					}
				}
				b.left[i][v] = row
			}
		}
		for _, row := range b.left[i] {
			for set, p := range row {
				b.lasts[i][set] += p
			}
		}
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

// noShortCuts sees to it that going to one state to get sooner into another never
// seems to pay: a state from which the minutes are few as a rule (cold, where it
// was only cranked) need not be so when it is come to from here.
func (b *bench) noShortCuts() {
	if b.state == AnyState {
		return
	}
	here := b.moves[b.state]
	for via := range b.moves {
		for to := range b.moves {
			if via != to && !math.IsInf(here[via], 1) && !math.IsInf(here[to], 1) {
				b.moves[via][to] = max(b.moves[via][to], here[to]-here[via])
			}
		}
	}
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
			b.chance[b.look[c]] += w
		}
	}
	return none
}

// repair returns the expected minutes for weights of any sum, with the rig in a
// state.
func (b *bench) repair(weights []float64, state int) float64 {
	none := b.spread(weights)
	b.items.fill(b.chance, b.minutes(state), none, b.snag.Help)
	least, _ := b.items.cost(b.minutes(state), b.snag.Help)
	return least
}

// shares returns the chance of each cause and of none, for weights of any sum.
func (b *bench) shares(weights []float64) (causes []Share, none float64) {
	by := make([]float64, len(b.look))
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
	minutes := b.minutes(b.state)
	order, _ := Repair(b.chance, minutes, none, b.snag.Help)
	all, _ := Repair(b.chance, minutes, none, 0)
	shares, _ := b.shares(b.weights)
	for at, look := range all {
		for _, s := range shares { // the likeliest of one look first
			if b.look[s.Cause] != int32(look) {
				continue
			}
			m := minutes[look]
			a.Inspections = append(a.Inspections, Inspection{
				Cause: s.Cause, Chance: s.Chance, Minutes: m,
				Engineer: b.snag.Causes[s.Cause].Engineer && !b.now.EngineerHere,
				TooLong:  b.tooLong(m),
			})
		}
		if at+1 == len(order) {
			a.HelpAfter = len(a.Inspections)
		}
	}
}

// alone returns the minutes that a check saves with nothing to follow it.
func (b *bench) alone(check int) float64 {
	c := &b.snag.Checks[check]
	cost := c.Minutes + b.move(b.state, c.State)
	if math.IsInf(cost, 1) {
		return math.Inf(-1)
	}
	return b.minimum - cost - b.after(check, b.state, b.weights, math.Inf(1))
}

// after returns the expected minutes once the check has given its answer, for
// weights of any sum, begun with the rig in a state. It gives up, with a figure
// no smaller than enough, once the sum is bound to reach enough: what has not
// been added up yet cannot cost less than if the cause were known.
func (b *bench) after(check, state int, weights []float64, enough float64) float64 {
	c := &b.snag.Checks[check]
	if c.State != AnyState {
		state = c.State
	}
	told := 1 - c.CouldNotTell
	sum := 0.0
	if c.CouldNotTell > 0 {
		sum = c.CouldNotTell * b.repair(weights, state)
	}
	lasts := b.lasts[check]
	for i, w := range weights {
		sum += told * w * lasts[i] * b.floor[i]
	}
	for _, row := range b.left[check] {
		if sum >= enough {
			break
		}
		var known float64
		for i, w := range weights {
			w *= row[i]
			b.twig[i] = w
			known += w * b.floor[i]
		}
		sum += told * (b.repair(b.twig, state) - known)
	}
	return sum
}
