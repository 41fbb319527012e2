package simulate

import (
	"io/fs"
	"reflect"
	"slices"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snagwise/cases"
	"snagwise/engine/advise"
	"snagwise/engine/casebook"
	"snagwise/engine/shelf"
	"snagwise/rules"
)

// demo are both rigs that ship with the rules.
var demo = sync.OnceValue(func() []*Rig {
	sh, l := shelf.Open(shelf.Want{Compact: rules.Compact, Layers: []fs.FS{rules.Files}})
	if len(l) > 0 {
		panic(l)
	}
	var rigs []*Rig
	for _, r := range sh.Rigs {
		rig, l := NewRig(sh.Base.On(r))
		if len(l) > 0 {
			panic(l)
		}
		rigs = append(rigs, rig)
	}
	return rigs
})

func plan(t *testing.T, hunts int) *Plan {
	t.Helper()
	tables, l := casebook.LoadTables(cases.Files, "tables")
	if len(l) > 0 {
		t.Fatal(l)
	}
	return &Plan{Rigs: demo(), Tables: tables, Hunts: hunts, Seed: 3}
}

// TestSameSeedSameReport: whatever the goroutines do, a plan gives the same
// bytes; another seed does not.
func TestSameSeedSameReport(t *testing.T) {
	text := func(seed int) string {
		p := plan(t, 6)
		p.Seed, p.Small = seed, 1
		r, err := p.Run()
		if err != nil {
			t.Fatal(err)
		}
		rec := Record{Runs: []Report{*r}}
		back, l := ReadRecord("written", []byte(rec.Text()))
		if len(l) > 0 {
			t.Fatal(l)
		}
		if diff := cmp.Diff(&rec, back); diff != "" {
			t.Errorf("a record read back differs (-written +read):\n%s", diff)
		}
		return rec.Text()
	}
	first := text(3)
	if again := text(3); again != first {
		t.Errorf("the same seed gave\n%s\nand then\n%s", first, again)
	}
	if other := text(4); other == first {
		t.Error("another seed gave the same report")
	}
}

// TestBestIsNoWorse: no way through a small problem beats what is worked out as
// the best, and the tool stays within a tenth of it over all of them. The tenth
// is the project's own aim.
func TestBestIsNoWorse(t *testing.T) {
	n := 12
	if testing.Short() {
		n = 4
	}
	best, tool := 0.0, 0.0
	for i, s := range smalls(demo(), n, 11) {
		b := s.Best()
		a := s.Expect(s.advised(advise.Options{}))
		for name, m := range map[string]float64{"the tool": a, "likeliest first": s.Expect(s.likeliest), "chance per minute": s.Expect(s.perMinute)} {
			if m < b-1e-9 {
				t.Errorf("problem %d: %s takes %.6f minutes, the best way %.6f", i, name, m, b)
			}
		}
		best, tool = best+b, tool+a
	}
	if tool > 1.1*best {
		t.Errorf("the tool takes %.3f of the best ways' minutes, want at most 1.10", tool/best)
	}
}

// TestBestByHand: a problem whose best way can be reckoned on paper. Two causes,
// each as likely; a check of 2 minutes shows the first for certain, its remedy
// takes 10 and that of the second 4; the check tells nothing in a tenth. By
// remedies alone: 4 + .5·10 = 9. The check first: 2 + .9·.5·4 + .1·9 = 4.7.
func TestBestByHand(t *testing.T) {
	s := &Small{prior: []float64{.5, .5}, remedy: []float64{10, 4}, moves: [][]float64{{0}}, help: 240,
		checks: []smallCheck{{minutes: 2, state: -1, rows: [][]float64{{1, 0}, {0, 1}}, finds: []int{0, -1}}}}
	if got, want := s.Best(), 4.7; got < want-1e-9 || got > want+1e-9 {
		t.Errorf("best = %v, want %v", got, want)
	}
	if got, want := s.Expect(s.likeliest), 2+.9*.5*4+.1*(10+.5*4); got < want-1e-9 || got > want+1e-9 {
		t.Errorf("likeliest first = %v, want %v", got, want)
	}
}

// TestSameWorld: what is so does not hang on who looks: any way through a world
// is told the same of each sign.
func TestSameWorld(t *testing.T) {
	m := NewMemory()
	p := plan(t, 0)
	for n := range uint64(4) {
		w := drawn(demo()[n%2], n, 9, disturbed)
		before := slices.Clone(w.so)
		told := map[int]bool{}
		for _, name := range Names() {
			s := p.strategy(m, name, w)
			play(w, func(h *Hunt) (Act, bool) {
				if h.world == w { // nothing put right yet
					for _, x := range h.so {
						told[x] = true
					}
					for _, x := range h.not {
						if told[x] {
							t.Errorf("sign %d was told to be so and, by %s, not so", x, name)
						}
					}
				}
				return s(h)
			}, budget)
		}
		if !reflect.DeepEqual(w.so, before) || len(told) == 0 {
			t.Errorf("world %d: playing changed it", n)
		}
		if again := drawn(demo()[n%2], n, 9, disturbed); !reflect.DeepEqual(again.so, before) || again.first != w.first {
			t.Errorf("world %d drawn again is another", n)
		}
	}
}

// TestCouldNotTellChangesNothing: a check that told nothing costs its minutes
// and leaves every chance as it was.
func TestCouldNotTellChangesNothing(t *testing.T) {
	m := NewMemory()
	seen := 0
	for n := range uint64(12) {
		w := drawn(demo()[n%2], n, 21, 0)
		var before []float32
		var minutes float64
		play(w, func(h *Hunt) (Act, bool) {
			now := slices.Clone(m.likely(h))
			if before != nil && len(h.unsure) > 0 && h.unsure[len(h.unsure)-1].since == 0 {
				seen++
				if !slices.Equal(now, before) {
					t.Errorf("hunt %d: check %d could not tell and moved a chance", n, h.unsure[len(h.unsure)-1].check)
				}
				if h.minutes <= minutes {
					t.Errorf("hunt %d: a check that could not tell took no time", n)
				}
			}
			before, minutes = now, h.minutes
			return m.PerMinute(h)
		}, 120)
	}
	if seen < 3 {
		t.Errorf("%d checks could not tell, want at least 3 in 12 hunts", seen)
	}
}

// TestSharesDrawn: of many worlds about the shares said have two causes and a
// lying gauge. Worlds that show nothing are not drawn, so two causes are there a
// little oftener.
func TestSharesDrawn(t *testing.T) {
	const n = 400
	double, lies := 0, 0
	for i := range uint64(n) {
		w := drawn(demo()[i%2], i, 5, 0)
		f := w.rig.fitted
		gauges := 0
		for _, c := range w.causes {
			if len(f.Base.Causes[f.Causes[c].Cause].Falsifies) > 0 {
				gauges++
			}
		}
		if len(w.causes)-min(gauges, 1) >= 2 {
			double++
		}
		if gauges > 0 && len(w.causes) > 1 {
			lies++
		}
		if !w.so[w.first] || !f.SignOn[w.first] {
			t.Fatalf("world %d begins with a sign that is not there", i)
		}
	}
	// Three standard errors of 400 draws are .054 and .033.
	if s := float64(double) / n; s < doubles-.054 || s > doubles+.10 {
		t.Errorf("two causes in %.3f, want about %.2f", s, doubles)
	}
	if s := float64(lies) / n; s < lying-.033 || s > lying+.06 {
		t.Errorf("a gauge with another cause in %.3f, want about %.2f", s, lying)
	}
}
