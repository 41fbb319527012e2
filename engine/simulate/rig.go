package simulate

import (
	"cmp"
	"math"
	"slices"

	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/rank"
)

// A Rig is an engine of package diagnose with all that hunts on it share.
type Rig struct {
	engine   *diagnose.Engine
	fitted   *knowledge.Fitted
	net      *rank.Net
	findings []diagnose.Finding // by cause of the base
	causes   []int              // of the base, that the rig can have, commonest first
	asked    []int              // signs told when dangers are asked about
	states   []string           // that the rig can be in
	moves    [][]float64
	usual    int // state at the start
}

// usualState is how the rig stands when a hunt begins.
const usualState = "earthed"

// setsInFull is how many sets of two causes are summed in full in a ranking
// here, of the 800 of the program; the rest are estimated. With 800, 60 or 20 the
// mean minutes of 60 hunts were 120.4, 119.2 and 118.8 by the tool's advice.
const setsInFull = 20

// NewRig makes knowledge ready for hunts. It fails as [diagnose.New] does.
func NewRig(f *knowledge.Fitted) (*Rig, problem.List) {
	e, l := diagnose.New(f, diagnose.Settings{ListShare: -1, Rank: rank.Options{FullSets: setsInFull}})
	if len(l) > 0 {
		return nil, l
	}
	r := &Rig{engine: e, fitted: f, net: e.Net(), states: e.States()}
	for _, in := range f.Causes {
		if !slices.Contains(r.causes, in.Cause) {
			r.causes = append(r.causes, in.Cause)
		}
	}
	slices.SortStableFunc(r.causes, func(a, b int) int { return cmp.Compare(f.Base.Causes[b].Frequency, f.Base.Causes[a].Frequency) })
	r.findings = e.Findings()
	r.setMoves()
	for i := range f.Hazards {
		for _, n := range f.Hazards[i].When.Reads() {
			if s := f.Sign(n.ID); s >= 0 && f.SignOn[s] && f.Signs[s].Kind != knowledge.CheckSign && !slices.Contains(r.asked, s) {
				r.asked = append(r.asked, s)
			}
		}
	}
	return r, nil
}

// ID returns the name of the rig in the rules.
func (r *Rig) ID() string { return r.fitted.Rig.ID }

// setMoves works out the least minutes from state to state, through others
// where that is quicker.
func (r *Rig) setMoves() {
	n := len(r.states)
	r.usual = max(0, slices.Index(r.states, usualState))
	r.moves = make([][]float64, n)
	for i := range r.moves {
		r.moves[i] = make([]float64, n)
		for j := range r.moves[i] {
			if i != j {
				r.moves[i][j] = math.Inf(1)
			}
		}
	}
	for _, st := range r.fitted.RigStates {
		if to := slices.Index(r.states, st.ID.Value); to >= 0 {
			for from, m := range st.MinutesFrom {
				if i := slices.Index(r.states, from); i >= 0 {
					r.moves[i][to] = m
				}
			}
		}
	}
	for _, via := range r.fitted.RigStates {
		k := slices.Index(r.states, via.ID.Value)
		if k < 0 || via.Running || via.Turning {
			continue // nobody runs or turns it on the way to something else
		}
		for i := range r.moves {
			for j := range r.moves {
				r.moves[i][j] = min(r.moves[i][j], r.moves[i][k]+r.moves[k][j])
			}
		}
	}
}

// to returns the state that a check needs, or from where any will do.
func (r *Rig) to(check, from int) int {
	if k := slices.Index(r.states, r.fitted.Checks[check].RigState.Value); k >= 0 {
		return k
	}
	return from
}

// cost returns the minutes of a check from a state, with the way.
func (r *Rig) cost(check, from int) float64 {
	return r.fitted.Checks[check].Minutes + r.moves[from][r.to(check, from)]
}

// Minutes of a remedy; the same as the advice reckons with.
const (
	usualRemedy = 60
	leastRemedy = 5
)

// remedy returns the minutes to try the remedy of a cause from a state.
func (r *Rig) remedy(cause, from int) float64 {
	m := r.fitted.Base.Causes[cause].RemedyMinutes
	if m == 0 {
		m = usualRemedy
	}
	return math.Max(m, leastRemedy) + r.moves[from][r.usual]
}
