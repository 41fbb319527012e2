package rank

import (
	"math"
	"testing"
)

// A failer is a test of either kind.
type failer interface {
	Helper()
	Fatal(args ...any)
}

func mustBuild(t failer, b *Builder, o Options) *Net {
	t.Helper()
	n, err := b.Build(o)
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// known makes evidence of signs; a negative number is a sign known false,
// counted from -1 for sign 0.
func known(signs ...int) Evidence {
	var e Evidence
	for _, s := range signs {
		if s < 0 {
			e.Signs = append(e.Signs, Known{Sign: -s - 1})
		} else {
			e.Signs = append(e.Signs, Known{Sign: s, True: true})
		}
	}
	return e
}

func (r *Result) chanceOf(cause int) float64 {
	for _, c := range r.Causes {
		if c.ID == cause {
			return c.Chance
		}
	}
	return math.NaN()
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s = %.7g, want %v (within %v)", what, got, want, within)
	}
}

// fourCauses is a fuel filter, plugs, a magneto and a gauge before low fuel
// pressure, weak spark and rough running; signs: gauge low, cup low, plug wet, rough heard.
func fourCauses(t failer) *Net {
	b := NewBuilder(4, 3, 4)
	for c, p := range []float64{.10, .10, .05, .05} {
		b.Prior(c, p)
	}
	for s := range 3 {
		b.StateLeak(s, .02)
	}
	b.Give(0, 0, .95)
	b.Give(1, 1, .75)
	b.Give(2, 1, .75)
	for c := range 3 {
		b.Give(c, 2, .75)
	}
	b.Report(0, 0, .9, .03)
	b.Report(0, 1, .9, .03)
	b.Report(1, 2, .75, .1)
	b.Report(2, 3, .95, .03)
	b.Coin(3, 0, .5, 1)
	return mustBuild(t, b, Options{Unscaled: true, MaxSize: 4})
}

// Four causes, three hidden effects, four reports, one through a gauge that may be
// broken; all sixteen sets of causes summed.
//
// Source: the project's own vectors for the method, recomputed outside it with
// a throw-away program; no publication.
func TestReportsThroughABrokenGauge(t *testing.T) {
	const gaugeLow, cupLow, plugWet, rough = 0, 1, 2, 3
	n := fourCauses(t)
	for _, tt := range []struct {
		name  string
		signs []int
		want  [5]float64 // filter, plugs, magneto, gauge, none
	}{
		{"rough", []int{rough}, [5]float64{.3611, .3611, .1824, .0500, .1705}},
		{"rough, gauge low", []int{rough, gaugeLow}, [5]float64{.8714, .1682, .0846, .0719, .0232}},
		{"rough, gauge low, cup not low", []int{rough, gaugeLow, -1 - cupLow}, [5]float64{.4809, .3158, .1595, .2548, .0798}},
		{"rough, gauge low, cup low", []int{rough, gaugeLow, cupLow}, [5]float64{.9607, .1344, .0674, .0300, .0103}},
		{"rough, gauge low, cup not low, plug wet", []int{rough, gaugeLow, -1 - cupLow, plugWet}, [5]float64{.2835, .5664, .2893, .3360, .0271}},
	} {
		r := n.Posterior(known(tt.signs...))
		for c := range 4 {
			near(t, tt.name, r.chanceOf(c), tt.want[c], .00005)
		}
		near(t, tt.name+": none", r.None, tt.want[4], .00005)
	}
}
