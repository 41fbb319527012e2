package casebook

import (
	"slices"

	"snagwise/engine/diagnose"
	"snagwise/engine/knowledge"
	"snagwise/engine/sheet"
)

// A Disturbance changes one thing, or half of them, in what was told. It
// returns nil where a case gives no room for it. All chance comes from rnd.
type Disturbance struct {
	Name string `json:"name"`
	// One says that one thing is dropped or added, no more.
	One bool `json:"one_thing"`
	// Takes says that something told is taken away or turned round.
	Takes bool                                                                   `json:"takes"`
	Apply func(a *sheet.Account, e *diagnose.Engine, rnd *Chance) *sheet.Account `json:"-"`
}

// Disturbances returns the ways in which a telling is disturbed.
func Disturbances() []Disturbance {
	return []Disturbance{
		{"one reading dropped", true, true, dropReading},
		{"one symptom dropped", true, true, dropSymptom},
		{"each reading moved within its gauge's class", false, false, moveReadings},
		{"half the symptoms dropped", false, true, dropHalf},
		{"one irrelevant symptom added", true, false, addStray},
		{"one wrong answer", false, true, denyOne},
	}
}

// copied returns an account whose moments may be changed.
func copied(a *sheet.Account) *sheet.Account {
	c := *a
	c.Moments = slices.Clone(a.Moments)
	for i := range c.Moments {
		m := &c.Moments[i]
		m.Signs, m.NotSeen, m.Readings = slices.Clone(m.Signs), slices.Clone(m.NotSeen), slices.Clone(m.Readings)
	}
	return &c
}

// pick draws one of the places that list gives by moment, or false.
func pick(a *sheet.Account, rnd *Chance, count func(m *sheet.Told) int) (moment, at int, ok bool) {
	total := 0
	for i := range a.Moments {
		total += count(&a.Moments[i])
	}
	if total == 0 {
		return 0, 0, false
	}
	k := rnd.IntN(total)
	for i := range a.Moments {
		if n := count(&a.Moments[i]); k < n {
			return i, k, true
		} else {
			k -= n
		}
	}
	return 0, 0, false
}

func dropReading(a *sheet.Account, _ *diagnose.Engine, rnd *Chance) *sheet.Account {
	c := copied(a)
	m, k, ok := pick(c, rnd, func(m *sheet.Told) int { return len(m.Readings) })
	if !ok {
		return nil
	}
	c.Moments[m].Readings = slices.Delete(c.Moments[m].Readings, k, k+1)
	return c
}

func dropSymptom(a *sheet.Account, _ *diagnose.Engine, rnd *Chance) *sheet.Account {
	c := copied(a)
	m, k, ok := pick(c, rnd, func(m *sheet.Told) int { return len(m.Signs) })
	if !ok {
		return nil
	}
	c.Moments[m].Signs = slices.Delete(c.Moments[m].Signs, k, k+1)
	return c
}

func dropHalf(a *sheet.Account, _ *diagnose.Engine, rnd *Chance) *sheet.Account {
	c := copied(a)
	n := 0
	for i := range c.Moments {
		n += len(c.Moments[i].Signs)
	}
	if n < 2 {
		return nil
	}
	for range n / 2 {
		c = dropSymptom(c, nil, rnd)
	}
	return c
}

// moveReadings moves each figure by up to its gauge's class, in percent of the
// dial.
func moveReadings(a *sheet.Account, e *diagnose.Engine, rnd *Chance) *sheet.Account {
	c := copied(a)
	moved := false
	for i := range c.Moments {
		for k := range c.Moments[i].Readings {
			v := &c.Moments[i].Readings[k]
			g, ok := e.Fitted().Rig.Gauge(e.Fitted().Readings[v.Reading].ID)
			if !v.IsFigure || !ok || g.Dial == nil || g.Class == 0 {
				continue
			}
			by := (rnd.Float64()*2 - 1) * g.Class / 100 * (g.Dial[1] - g.Dial[0])
			v.Figure.From.SI += by
			v.Figure.To.SI += by
			moved = true
		}
	}
	if !moved {
		return nil
	}
	return c
}

// addStray adds a symptom of another system than that of the found cause.
func addStray(a *sheet.Account, e *diagnose.Engine, rnd *Chance) *sheet.Account {
	if len(a.Moments) == 0 || len(a.Case.Found) == 0 {
		return nil
	}
	f := e.Fitted()
	home := f.Base.Causes[a.Case.Found[0]].System
	var strays []int
	for i, s := range f.Signs {
		if s.Kind == knowledge.SeenSign && f.SignOn[i] && s.System != home && s.System != "engine" {
			strays = append(strays, i)
		}
	}
	if len(strays) == 0 {
		return nil
	}
	c := copied(a)
	m := &c.Moments[rnd.IntN(len(c.Moments))]
	s := strays[rnd.IntN(len(strays))]
	if slices.Contains(m.Signs, s) || slices.Contains(m.NotSeen, s) {
		return nil
	}
	m.Signs = append(m.Signs, s)
	return c
}

// denyOne turns one symptom into one looked for and not seen.
func denyOne(a *sheet.Account, _ *diagnose.Engine, rnd *Chance) *sheet.Account {
	c := copied(a)
	m, k, ok := pick(c, rnd, func(m *sheet.Told) int { return len(m.Signs) })
	if !ok {
		return nil
	}
	s := c.Moments[m].Signs[k]
	for i := range c.Moments {
		c.Moments[i].Signs = slices.DeleteFunc(c.Moments[i].Signs, func(x int) bool { return x == s })
	}
	c.Moments[m].NotSeen = append(c.Moments[m].NotSeen, s)
	return c
}
