package casebook

// This file disturbs what was told and counts what becomes of the found cause.

import (
	"slices"

	"snagwise/engine/diagnose"
	"snagwise/engine/sheet"
)

// A Shaking is how the rank of the found cause moved under one disturbance.
type Shaking struct {
	Disturbance Disturbance `json:"disturbance"`
	Trials      int         `json:"trials"`     // of cases whose cause stood among the first five
	ThrownOut   int         `json:"thrown_out"` // it left the first five
	Worse       int         `json:"worse"`      // it fell by one place or more
	Same        int         `json:"same"`
	Better      int         `json:"better"`
	// Hung counts the trials in which the case hung on what was disturbed, and
	// HungOut those of them in which the cause left the first five: what was
	// taken carried half or more of the points for the cause, or fewer than
	// [fewTold] things were told.
	Hung    int `json:"hung"`
	HungOut int `json:"hung_out"`
	// Lost lists the trials in which the cause left the first five.
	Lost []Lost `json:"lost"`
}

// fewTold is how many things told leave a case so thin that it hangs on each.
const fewTold = 4

// Lost is one trial in which the found cause left the first five.
type Lost struct {
	Case    string  `json:"case"`
	What    string  `json:"what"` // - before what was taken, + before what was added
	Told    int     `json:"told"` // things told before
	Was     int     `json:"was"`  // place before
	Is      int     `json:"is"`
	Carried float64 `json:"carried"` // share of the points for the cause that went
	Hung    bool    `json:"hung"`
	First   string  `json:"first"` // what stands first now
}

// Out returns the share of trials in which the cause left the first five.
func (s Shaking) Out() float64 { return share(s.ThrownOut, s.Trials) }

// OutOfRest returns the same for the trials of cases that did not hang on what
// was disturbed.
func (s Shaking) OutOfRest() float64 { return share(s.ThrownOut-s.HungOut, s.Trials-s.Hung) }

func share(k, n int) float64 {
	if n == 0 {
		return 0
	}
	return float64(k) / float64(n)
}

// Shake disturbs each scored case so many times in each of the ways, or in all
// where none is named; where more than one thing is disturbed, every second
// case.
func Shake(scores []Score, engine func(rig string) (*diagnose.Engine, error), times int, ways ...Disturbance) ([]Shaking, error) {
	var out []Shaking
	if len(ways) == 0 {
		ways = Disturbances()
	}
	before := map[string]float64{} // points for the found cause, by file
	for _, d := range ways {
		sh := Shaking{Disturbance: d, Lost: []Lost{}}
		for i, s := range scores {
			if s.Rank == 0 || s.Rank > 5 || !d.One && i%2 > 0 {
				continue
			}
			e, err := engine(s.Case.Sheet.Rig.Value)
			if err != nil {
				return nil, err
			}
			for n := range times {
				if a := d.Apply(s.Account, e, Random(s.Case.File+d.Name, uint64(n))); a != nil {
					sh.count(s, e, a, before)
				}
			}
		}
		out = append(out, sh)
	}
	return out, nil
}

// count counts one trial.
func (sh *Shaking) count(s Score, e *diagnose.Engine, a *sheet.Account, before map[string]float64) {
	ids, _, _ := e.Ranked(a)
	r := RankOf(ids, s.Accepted...)
	l := Lost{Case: s.Case.File, Told: s.Told(), Was: s.Rank, Is: r, First: ids[0]}
	if found := s.List[s.Rank-1]; sh.Disturbance.Takes {
		was, known := before[s.Case.File]
		if !known {
			was = e.PointsFor(s.Account, found)
			before[s.Case.File] = was
		}
		if was > 0 {
			l.Carried = 1 - e.PointsFor(a, found)/was
		}
	}
	l.Hung = l.Told < fewTold || l.Carried >= .5
	out := r == 0 || r > 5
	sh.Trials++
	switch {
	case r == s.Rank:
		sh.Same++
	case r > 0 && r < s.Rank:
		sh.Better++
	default:
		sh.Worse++
	}
	if l.Hung {
		sh.Hung++
	}
	if !out {
		return
	}
	sh.ThrownOut++
	if l.Hung {
		sh.HungOut++
	}
	l.What = changedBy(e, s.Account, a)
	sh.Lost = append(sh.Lost, l)
}

// changedBy says what of a telling was taken and added.
func changedBy(e *diagnose.Engine, a, b *sheet.Account) string {
	what := ""
	add := func(mark, id string) {
		if what != "" {
			what += " "
		}
		what += mark + id
	}
	f := e.Fitted()
	signs := func(mark string, from, in []int) {
		for _, s := range from {
			if !slices.Contains(in, s) {
				add(mark, f.Signs[s].ID)
			}
		}
	}
	for i := range a.Moments {
		was, is := &a.Moments[i], &b.Moments[i]
		signs("-", was.Signs, is.Signs)
		signs("+", is.Signs, was.Signs)
		signs("+!", is.NotSeen, was.NotSeen)
		for _, v := range was.Readings {
			if !slices.ContainsFunc(is.Readings, func(o sheet.Value) bool { return o.Reading == v.Reading }) {
				add("-", f.Readings[v.Reading].ID)
			}
		}
	}
	return what
}
