package simulate

import (
	"cmp"
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"snagwise/engine/casebook"
)

// A Plan is what is to be played.
type Plan struct {
	Rigs   []*Rig // that snags are drawn on
	Tables []casebook.Table
	Cases  []casebook.Case
	// Rig returns the rig of a case by its name.
	Rig   func(name string) (*Rig, error)
	Hunts int // drawn as the rules reckon; a quarter as many more in disturbed worlds
	Small int // small problems
	Seed  int
}

// Figures of a run; the project's own choice.
const (
	budget    = 240 // minutes after which a hunt is given up: what the advice reckons for fetching help
	disturbed = .6  // deviation of every strength and prior in a disturbed world, in log-odds
)

// Run plays a plan. The same plan gives the same report, however many
// processors there are.
func (p *Plan) Run() (*Report, error) {
	m := NewMemory()
	out := &Report{Hunts: p.Hunts, Seed: p.Seed, Budget: budget}
	var all [][]Outcome
	add := func(name string, worlds []*World) {
		outcomes := p.outcomes(m, worlds)
		all = append(all, outcomes...)
		out.Groups = append(out.Groups, group(name, outcomes))
	}
	for _, g := range []struct {
		name string
		n    int
		sd   float64
	}{{"drawn as reckoned", p.Hunts, 0}, {"drawn from disturbed rules", (p.Hunts + 3) / 4, disturbed}} {
		worlds := make([]*World, g.n)
		for i := range worlds {
			worlds[i] = drawn(p.Rigs[i%len(p.Rigs)], uint64(i), uint64(p.Seed), g.sd)
		}
		add(g.name, worlds)
	}
	for _, folder := range []string{"situations", "real"} {
		var worlds []*World
		for _, c := range p.Cases {
			if (casebook.Score{Case: c}).Folder() != folder {
				continue
			}
			r, err := p.Rig(c.Sheet.Rig.Value)
			if err != nil {
				return nil, err
			}
			w, err := kept(r, c, uint64(p.Seed))
			if err != nil {
				return nil, err
			}
			if w != nil {
				worlds = append(worlds, w)
			}
		}
		if len(worlds) > 0 {
			add(folder, worlds)
		}
	}
	out.Groups = append(out.Groups, group(OverAll, all))
	out.Small = p.small()
	return out, nil
}

// workers is how many hunts are played at once.
const workers = 4

// each calls do for every number below n, several at once.
func each(n int, do func(i int)) {
	var next atomic.Int64
	var wg sync.WaitGroup
	for range workers {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	wg.Wait()
}

// outcomes plays every strategy against every world: by world, in the order of
// the rows.
func (p *Plan) outcomes(m *Memory, worlds []*World) [][]Outcome {
	out := make([][]Outcome, len(worlds))
	each(len(worlds), func(i int) {
		for _, s := range rows() {
			out[i] = append(out[i], play(worlds[i], p.strategy(m, s, worlds[i]), budget))
		}
	})
	return out
}

func rows() []string { return append(append([]string{ByHunt}, Names()...), ByKnowing) }

// group sums up in the order of the worlds.
func group(name string, outcomes [][]Outcome) Group {
	g := Group{Name: name, Hunts: len(outcomes)}
	given, told := 0, 0
	n := max(1, float64(len(outcomes)))
	for k, s := range rows() {
		row := Row{Strategy: s}
		for _, of := range outcomes {
			o := of[k]
			row.Minutes += o.Minutes
			row.Looks += float64(o.Looks)
			if o.Found {
				row.Found++
			}
			given, told = given+o.Given, told+o.Told
		}
		row.Minutes, row.Looks, row.Found = round(row.Minutes/n, 1), round(row.Looks/n, 1), round(row.Found/n, 3)
		g.Rows = append(g.Rows, row)
	}
	if told > 0 {
		g.Given = round(float64(given)/float64(told), 3)
	}
	return g
}

// strategy returns a strategy by its name, ready for one world.
func (p *Plan) strategy(m *Memory, name string, w *World) Strategy {
	switch name {
	case ByTables:
		return InOrder(w.rig.byTables(p.Tables, w.start))
	case ByLikely:
		return InOrder(m.once(w, func(chance, minutes float64) float64 { return chance }))
	case ByRatio:
		return InOrder(m.once(w, func(chance, minutes float64) float64 { return chance / minutes }))
	case ByLikelyAgain:
		return m.Likeliest
	case ByRatioAgain:
		return m.PerMinute
	case ByHunt:
		return m.Room
	case ByKnowing:
		return Knowing
	}
	return m.Tool
}

// once returns the causes in the order of their worth by what was told first.
func (m *Memory) once(w *World, worth func(chance, minutes float64) float64) []int {
	h := begun(w)
	chances := m.likely(h)
	worths := map[int]float64{}
	for _, c := range w.rig.causes {
		_, minutes := h.settling(c)
		worths[c] = worth(float64(chances[c]), math.Max(minutes, .01))
	}
	order := slices.Clone(w.rig.causes)
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(worths[b], worths[a]) })
	return order
}

// small works the small problems out.
func (p *Plan) small() Smalls {
	list := smalls(p.Rigs, p.Small, uint64(p.Seed))
	if len(list) == 0 {
		return Smalls{}
	}
	names := Names()
	best, ways := make([]float64, len(list)), make([][]float64, len(list))
	each(len(list), func(i int) {
		best[i] = list[i].Best()
		for _, n := range names {
			ways[i] = append(ways[i], list[i].Expect(list[i].way(n, p.Tables)))
		}
	})
	out := Smalls{Problems: len(list)}
	mean := float64(len(list))
	sum := 0.0
	sums := make([]float64, len(names))
	for i, row := range ways {
		sum += best[i]
		for k, m := range row {
			sums[k] += m
		}
		tool := row[slices.Index(names, ByTool)] / best[i]
		out.Mean += tool / mean
		out.Worst = max(out.Worst, tool)
	}
	out.Minutes, out.Mean, out.Worst = round(sum/mean, 1), round(out.Mean, 3), round(out.Worst, 3)
	for k, n := range names {
		out.Rows = append(out.Rows, SmallRow{n, round(sums[k]/mean, 1), round(sums[k]/sum, 3)})
	}
	return out
}

// round cuts a figure to so many decimals.
func round(x float64, places int) float64 {
	p := math.Pow(10, float64(places))
	return math.Round(x*p) / p
}
