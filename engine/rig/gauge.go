package rig

// This file reads a gauge: what it shows, where it taps, what is usual on it.

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"snagwise/engine/document"
	"snagwise/engine/problem"
	"snagwise/engine/quantity"
)

// gaugeFile is what a person may write of a gauge. Numbers are in its unit.
type gaugeFile struct {
	Tap     []document.Text `yaml:"tap"`
	Where   string          `yaml:"at"`
	Unit    document.Text   `yaml:"unit"`
	By      string          `yaml:"by"`
	From    document.Text   `yaml:"from"`
	Dial    *document.Node  `yaml:"dial"`
	Class   float64         `yaml:"class"`
	Bands   *document.Node  `yaml:"bands"`
	Normal  *document.Node  `yaml:"normal"`
	Limits  *document.Node  `yaml:"limits"`
	Sees    []string        `yaml:"sees"`
	BlindTo []string        `yaml:"blind_to"`
	Note    string          `yaml:"note"`
	At      problem.Pos
}

type limitFile struct {
	WatchBelow *document.Node  `yaml:"watch_below"`
	StopBelow  *document.Node  `yaml:"stop_below"`
	WatchAbove *document.Node  `yaml:"watch_above"`
	StopAbove  *document.Node  `yaml:"stop_above"`
	WatchOn    []document.Text `yaml:"watch_on"`
	StopOn     []document.Text `yaml:"stop_on"`
	Note       string          `yaml:"note"`
}

// fill takes over what f says, its taps aside, and reports what is wrong.
func (g *Gauge) fill(f *gaugeFile, l *problem.List) {
	g.Pos = f.At
	g.At, g.By, g.From, g.Class = f.Where, f.By, f.From.Value, f.Class
	g.Sees, g.BlindTo, g.Note = f.Sees, f.BlindTo, f.Note
	if g.By == "" {
		g.By = "gauge"
	}
	if g.Class < 0 || g.Class > 25 {
		l.Add(f.At, "bad-class", fmt.Sprintf("class %v of %q is out of range", g.Class, g.Reading), "accuracy in percent of full scale, 0 to 25")
	}
	unit := g.unit(f, l)
	if f.Dial != nil {
		if lo, hi, ok := pair(f.Dial, unit, l); ok {
			g.Dial = &[2]float64{lo, hi}
			if lo == hi {
				l.Add(f.Dial.Pos(), "empty-range", "the dial has no length", "wanted [lowest, highest]")
			}
		}
	}
	g.takeBands(f, unit, l)
	g.takeLimits(f.Limits, unit, l)
}

// unit sets the unit and dimension; a reading without one is a plain number or
// an answer.
func (g *Gauge) unit(f *gaugeFile, l *problem.List) *quantity.Unit {
	g.Unit = f.Unit.Value
	if g.Unit == "" {
		return nil
	}
	dims := quantity.Serves(g.Unit)
	if len(dims) == 0 {
		_, err := quantity.New(1, g.Unit, quantity.Pure)
		l.Add(f.Unit.At, "unknown-unit", fmt.Sprintf("unknown unit %q", g.Unit), hintOf(err))
		return nil
	}
	g.Dim = dims[0]
	u, _ := quantity.UnitFor(g.Unit, g.Dim)
	return u
}

func hintOf(err error) string {
	if e, ok := err.(*quantity.Error); ok && e.Near != "" {
		return fmt.Sprintf("did you mean %q?", e.Near)
	}
	return "one of the units that quantities are told in"
}

func (g *Gauge) takeBands(f *gaugeFile, unit *quantity.Unit, l *problem.List) {
	eachPhase(f.Bands, l, func(phase string, n *document.Node) {
		if lo, hi, ok := pair(n, unit, l); ok {
			g.Bands = append(g.Bands, Band{Phase: phase, Lo: lo, Hi: hi})
			if g.Dial != nil && (hi > g.Dial[1] || lo < g.Dial[0]) {
				l.Add(n.Pos(), "past-the-dial", fmt.Sprintf("the band of %q in %s runs past its dial", g.Reading, phase), "")
			}
		}
	})
	eachPhase(f.Normal, l, func(phase string, n *document.Node) {
		var answers []string
		*l = append(*l, document.Decode(n, &answers)...)
		if len(answers) > 0 {
			g.Bands = append(g.Bands, Band{Phase: phase, Answers: answers})
		}
	})
	slices.SortStableFunc(g.Bands, func(a, b Band) int { return slices.Index(phases, a.Phase) - slices.Index(phases, b.Phase) })
}

func (g *Gauge) takeLimits(n *document.Node, unit *quantity.Unit, l *problem.List) {
	eachPhase(n, l, func(phase string, n *document.Node) {
		var f limitFile
		*l = append(*l, document.Decode(n, &f)...)
		m := Limit{Phase: phase, WatchOn: values(f.WatchOn), StopOn: values(f.StopOn), Note: f.Note}
		order := []struct {
			node *document.Node
			to   **float64
		}{{f.StopBelow, &m.StopBelow}, {f.WatchBelow, &m.WatchBelow}, {f.WatchAbove, &m.WatchAbove}, {f.StopAbove, &m.StopAbove}}
		last := math.Inf(-1)
		for _, o := range order {
			if o.node == nil {
				continue
			}
			v, ok := number(o.node, unit, l)
			if !ok {
				continue
			}
			if v < last {
				l.Add(o.node.Pos(), "crossed-limits", fmt.Sprintf("the limits of %q in %s cross", g.Reading, phase), "stop_below, watch_below, watch_above, stop_above must rise in this order")
			}
			last = v
			*o.to = &v
		}
		g.Limits = append(g.Limits, m)
	})
	slices.SortStableFunc(g.Limits, func(a, b Limit) int { return slices.Index(phases, a.Phase) - slices.Index(phases, b.Phase) })
}

// eachPhase calls use for every phase of a map.
func eachPhase(n *document.Node, l *problem.List, use func(phase string, n *document.Node)) {
	if n == nil || n.Kind == document.Null {
		return
	}
	if n.Kind != document.MapKind {
		l.Add(n.Pos(), "wrong-type", "this must be a map by phase", "wanted {idle: ..., run_up: ...}")
		return
	}
	for i, key := range n.Keys {
		if !slices.Contains(phases, key.Value) {
			l.Add(key.Pos(), "unknown-phase", fmt.Sprintf("unknown phase %q", key.Value), problem.DidYouMean(key.Value, phases))
			continue
		}
		use(key.Value, n.Values[i])
	}
}

// pair reads [low, high] in a unit and gives SI.
func pair(n *document.Node, unit *quantity.Unit, l *problem.List) (lo, hi float64, ok bool) {
	if n.Kind != document.ListKind || len(n.Items) != 2 {
		l.Add(n.Pos(), "wrong-type", "this must be a pair of numbers", "wanted [lowest, highest]")
		return 0, 0, false
	}
	lo, ok1 := number(n.Items[0], unit, l)
	hi, ok2 := number(n.Items[1], unit, l)
	if !ok1 || !ok2 {
		return 0, 0, false
	}
	if lo > hi {
		l.Add(n.Pos(), "empty-range", "the lowest is above the highest", "wanted [lowest, highest]")
		return 0, 0, false
	}
	return lo, hi, true
}

// number reads a plain number in a unit and gives SI.
func number(n *document.Node, unit *quantity.Unit, l *problem.List) (float64, bool) {
	v, err := strconv.ParseFloat(n.Value, 64)
	if n.Kind != document.Scalar || err != nil || math.IsNaN(v) || math.Abs(v) > 1e9 {
		l.Add(n.Pos(), "wrong-type", "this is no number", "wanted a plain number in the unit of the gauge")
		return 0, false
	}
	if unit != nil {
		v = unit.ToSI(v)
	}
	return v, true
}
