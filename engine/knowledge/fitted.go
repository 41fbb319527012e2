package knowledge

import (
	"slices"
	"strings"

	"snagwise/engine/rig"
)

// A Fitted is a base as it holds on one rig: what the rig does not carry is
// left out, and a cause of paired parts is there once for each of them.
type Fitted struct {
	*Base
	Rig     *rig.Rig
	Causes  []Instance
	ReadOn  []bool // by reading: the rig has a gauge, meter or eye for it
	SignOn  []bool // by sign: it can be told here and some cause here bears on it
	CheckOn []bool // by check: it settles something here
	// ActionOn says, by first action, that the rig has what it speaks of.
	ActionOn []bool
	// PatternOn says, by pattern, that the pattern can hold here.
	PatternOn []bool
}

// An Instance is a cause on one part of a rig.
type Instance struct {
	Cause int     // index in Base.Causes
	Part  int     // index in Rig.Parts
	Side  string  // of the part
	Share float64 // of how common the cause is: one over the number of like parts
}

// On returns the knowledge as it holds on a rig.
func (b *Base) On(r *rig.Rig) *Fitted {
	f := &Fitted{Base: b, Rig: r}
	f.ReadOn = make([]bool, len(b.Readings))
	for i, rd := range b.Readings {
		_, f.ReadOn[i] = r.Gauge(rd.ID)
	}
	named := b.rigsNamed()
	for i, c := range b.Causes {
		parts := r.OfKind(c.Kind)
		if len(parts) == 0 || !holdsOn(c.Rigs, r.ID, named) || !hasAll(r, c.Needs) {
			continue
		}
		parts = slices.DeleteFunc(slices.Clone(parts), func(p int) bool { return !lies(r, p, c) })
		for _, p := range parts {
			f.Causes = append(f.Causes, Instance{Cause: i, Part: p, Side: r.Parts[p].Side, Share: 1 / float64(len(parts))})
		}
	}
	f.signsOn()
	f.CheckOn = make([]bool, len(b.Checks))
	for i, c := range b.Checks {
		f.CheckOn[i] = holdsOn(values(c.Rigs), r.ID, named) && hasAll(r, values(c.Needs)) &&
			slices.ContainsFunc(c.Settles, func(s int) bool { return f.SignOn[s] })
	}
	f.ActionOn = make([]bool, len(b.FirstActions))
	for i, a := range b.FirstActions {
		f.ActionOn[i] = hasAll(r, a.Needs)
	}
	f.PatternOn = make([]bool, len(b.Patterns))
	for i, p := range b.Patterns {
		f.PatternOn[i] = holdsOn(p.Rigs, r.ID, named)
	}
	return f
}

// rigsNamed lists the rigs that some item is tied to. An item tied to such rigs
// speaks of their design; on a rig that nothing names, its parts decide.
func (b *Base) rigsNamed() map[string]bool {
	named := map[string]bool{}
	name := func(rigs []string) {
		for _, r := range rigs {
			named[r] = true
		}
	}
	for _, c := range b.Causes {
		name(c.Rigs)
	}
	for _, p := range b.Patterns {
		name(p.Rigs)
	}
	for _, c := range b.Checks {
		name(values(c.Rigs))
	}
	return named
}

func holdsOn(rigs []string, id string, named map[string]bool) bool {
	return len(rigs) == 0 || slices.Contains(rigs, id) || !named[id]
}

// lies says whether a part of a rig lies where a cause wants it: before one part
// of each kind that it must be before, after one of each that it must be after.
// Before a kind that the rig lacks lies nothing, and everything after it.
func lies(r *rig.Rig, part int, c Cause) bool {
	for _, w := range c.Before {
		if !slices.ContainsFunc(r.OfKind(w.Kind), func(k int) bool { return slices.Contains(r.Upstream(w.Flow, k), part) }) {
			return false
		}
	}
	for _, w := range c.After {
		of := r.OfKind(w.Kind)
		if len(of) > 0 && !slices.ContainsFunc(of, func(k int) bool { return slices.Contains(r.Downstream(w.Flow, k), part) }) {
			return false
		}
	}
	return true
}

func hasAll(r *rig.Rig, kinds []string) bool {
	for _, k := range kinds {
		if len(r.OfKind(k)) == 0 {
			return false
		}
	}
	return true
}

// signsOn marks the signs that a cause of this rig bears on and that can be
// told on it: by eye, by a check, or by gauges that are fitted.
func (f *Fitted) signsOn() {
	b := f.Base
	bears := make([]bool, len(b.Signs))
	reached := make([]bool, len(b.States))
	var reach func(s int)
	reach = func(s int) {
		if reached[s] {
			return
		}
		reached[s] = true
		for _, k := range b.States[s].Shows {
			bears[k.To] = true
		}
		for _, k := range b.States[s].LeadsTo {
			reach(k.To)
		}
	}
	for _, inst := range f.Causes {
		c := &b.Causes[inst.Cause]
		for _, k := range c.Direct {
			bears[k.To] = true
		}
		for _, k := range c.Second {
			bears[k.To] = bears[k.To] || k.By >= .4
		}
		for _, k := range c.Gives {
			reach(k.To)
		}
	}
	f.SignOn = make([]bool, len(b.Signs))
	for i, s := range b.Signs {
		f.SignOn[i] = bears[i] && f.canTell(s)
	}
	for i, s := range b.Signs {
		if len(s.Covers) > 0 {
			f.SignOn[i] = slices.ContainsFunc(s.Covers, func(k int) bool { return f.SignOn[k] })
		}
		if s.StandsFor >= 0 {
			f.SignOn[i] = f.SignOn[s.StandsFor] && f.canTell(s)
		}
	}
}

func (f *Fitted) canTell(s Sign) bool {
	if s.Kind != ReadingSign {
		return true
	}
	for _, r := range s.Rules {
		if f.canRead(&f.Base.Rules[r]) {
			return true
		}
	}
	return len(s.Rules) == 0
}

// canRead says whether every reading that a rule reads can be had on the rig.
// What is worked out rests on others and is no reading to be had by itself;
// what is answered in words takes the part and a person.
func (f *Fitted) canRead(r *Rule) bool {
	worked, read := false, false
	for _, n := range r.Program.Reads() {
		i, ok := f.readingAt[n.ID]
		switch {
		case !ok:
		case f.Readings[i].Computed:
			worked = true
		case !f.ReadOn[i] && !f.AnswerOn(i):
			return false
		default:
			read = true
		}
	}
	return read || !worked
}

// AnswerOn says whether a reading is answered in words of a part that the rig
// has: that takes a person and no gauge.
func (f *Fitted) AnswerOn(reading int) bool {
	r := &f.Readings[reading]
	return len(r.Answers) > 0 && slices.ContainsFunc(r.Taps, func(kind string) bool { return len(f.Rig.OfKind(kind)) > 0 })
}

// ControlsOf returns the levers and switches of rigs, each once with every
// position that any of them has, in the order of their ids.
func ControlsOf(rigs ...*rig.Rig) []Control {
	at := map[string]int{}
	var out []Control
	for _, r := range rigs {
		for _, c := range r.Controls {
			i, ok := at[c.ID]
			if !ok {
				i = len(out)
				at[c.ID] = i
				out = append(out, Control{ID: c.ID, Means: c.Means, Words: c.Words, Also: map[string][]string{}})
			}
			for _, p := range c.Positions {
				if !slices.Contains(out[i].Positions, p) {
					out[i].Positions = append(out[i].Positions, p)
				}
			}
			for _, a := range c.Also {
				if also := out[i].Also[a.Value.Value]; !slices.Contains(also, a.Key.Value) {
					out[i].Also[a.Value.Value] = append(also, a.Key.Value)
				}
			}
		}
	}
	slices.SortFunc(out, func(a, b Control) int { return strings.Compare(a.ID, b.ID) })
	return out
}
