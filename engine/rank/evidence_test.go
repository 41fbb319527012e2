package rank

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
)

// vagueNet has two causes with a state each; signs 0 and 1 are shown by one
// state each, sign 2 is vague and covers both.
func vagueNet(t *testing.T) *Net {
	b := NewBuilder(2, 2, 3)
	for c := range 2 {
		b.Give(c, c, .75)
		b.Show(c, c, .95)
	}
	b.Vague(2, 0, 1)
	return mustBuild(t, b, Options{})
}

func TestVagueSigns(t *testing.T) {
	n := vagueNet(t)
	same := func(what string, got, want *Result) {
		t.Helper()
		for c := range 2 {
			if g, w := got.chanceOf(c), want.chanceOf(c); g != w {
				t.Errorf("%s: chance of cause %d = %v, want %v", what, c, g, w)
			}
		}
	}
	same("beside an exact sign the vague one adds nothing", n.Posterior(known(0, 2)), n.Posterior(known(0)))
	alone := n.Posterior(known(2))
	near(t, "vague alone: first", alone.chanceOf(0), alone.chanceOf(1), 1e-12)
	if without := n.Posterior(Evidence{}); !(alone.chanceOf(0) > without.chanceOf(0)) {
		t.Errorf("a vague sign did not lift what it may come from: %v, was %v", alone.chanceOf(0), without.chanceOf(0))
	}
	// With the second known false, the vague one can only be the first.
	narrowed := n.Posterior(known(2, -2))
	if !(narrowed.chanceOf(0) > alone.chanceOf(0) && narrowed.chanceOf(1) < alone.chanceOf(1)) {
		t.Errorf("known false, sign 1 stayed behind the vague sign: %v", narrowed.Causes)
	}
	near(t, "vague denied, state 0", n.chance(known(-3), 0), .98*(1-.75*.95), 1e-12)
}

func TestToldBothWays(t *testing.T) {
	n := vagueNet(t)
	got, want := n.Posterior(known(0, -1)), n.Posterior(Evidence{})
	if got.chanceOf(0) != want.chanceOf(0) {
		t.Errorf("told both ways: chance %v, want %v as if not told", got.chanceOf(0), want.chanceOf(0))
	}
	if len(got.Dropped) != 2 {
		t.Errorf("dropped %v, want both", got.Dropped)
	}
}

// A weight of a half takes the square root of the likelihood.
func TestWeight(t *testing.T) {
	n := vagueNet(t)
	for _, truth := range []bool{true, false} {
		half := Evidence{Signs: []Known{{Sign: 0, True: truth, Weight: .5}}}
		whole := Evidence{Signs: []Known{{Sign: 0, True: truth}}}
		leak := n.chance(whole)
		near(t, "no cause", n.chance(half), math.Sqrt(leak), 1e-12)
		shown := math.Abs(float64(b2i(!truth)) - (1 - .98*.05)) // the state is there
		want := .25*math.Sqrt(leak) + .75*math.Sqrt(shown)
		near(t, "cause", n.chance(half, 0), want, 1e-12)
	}
}

func TestAgainst(t *testing.T) {
	const given, reached, weakly, own, other = 0, 1, 2, 3, 4
	b := NewBuilder(5, 4, 2)
	b.Against(1, 0)
	b.Give(given, 1, .4)     // given itself, however weakly
	b.Give(reached, 0, .95)  // reached at .95 x .95
	b.Lead(0, 1, .95)        //
	b.Give(weakly, 2, .75)   // reached at .75 x .75: too weak
	b.Lead(2, 1, .75)        //
	b.Give(own, 1, .95)      // its own word gives the sign
	b.Direct(own, 0, .4)     //
	b.Give(other, 1, .95)    // another state of its gives the sign
	b.Give(other, 3, .00001) //
	b.Show(3, 0, .75)
	n := mustBuild(t, b, Options{})
	left := func(sure float64) float64 { return .02 * (1 - .8*sure) }
	for _, tt := range []struct {
		name  string
		cause int32
		want  float64
	}{
		{"given itself", given, left(.4)},
		{"reached surely", reached, left(.95 * .95)},
		{"reached weakly", weakly, .02},
		{"its own word", own, 1 - .98*.6},
		{"another state of its own", other, 1 - .98*(1-.00001*.75)},
	} {
		near(t, tt.name, n.chance(known(0), tt.cause), tt.want, 1e-12)
	}
	// What one of two is spoken against for, the other may explain.
	near(t, "two, one explains", n.chance(known(0), given, own), 1-(1-left(.4))*.6, 1e-12)
}

func TestNever(t *testing.T) {
	b := NewBuilder(2, 1, 1)
	b.Give(0, 0, .95)
	b.Give(1, 0, .75)
	b.Show(0, 0, .95)
	b.Never(0, 0)
	n := mustBuild(t, b, Options{})
	near(t, "never", n.chance(known(0), 0), .02*.2, 1e-12)
	// The other one reaches the state too, which shows the sign in its part: as surely
	// as if it were there through the other one alone.
	near(t, "with another", n.chance(known(0), 0, 1), 1-(1-.02*.2)*(1-.75*.95), 1e-12)
}

// What is too faint to count for a cause alone does not count for it beside another
// that reaches the same state.
func TestFaintPathsStayFaintBesideAnother(t *testing.T) {
	b := NewBuilder(2, 2, 1)
	b.Give(0, 0, 1)
	b.Lead(0, 1, .1)
	b.Give(1, 1, .4)
	b.Show(1, 0, .5)
	n := mustBuild(t, b, Options{Faintest: .15})
	near(t, "alone", n.chance(known(0), 0), .02, 1e-12)
	near(t, "the other alone", n.chance(known(0), 1), 1-.98*(1-.4*.5), 1e-12)
	near(t, "both", n.chance(known(0), 0, 1), 1-.98*(1-.4*.5), 1e-12)
}

func TestAdjustments(t *testing.T) {
	b := NewBuilder(4, 3, 1)
	b.Give(0, 0, 1)
	b.Give(1, 1, .4)
	b.Give(2, 2, .4)
	b.Lead(2, 0, .5) // reaches state 0 at .2
	b.Give(2, 0, .1)
	b.Give(3, 0, .95)
	b.Give(3, 1, .95)
	n := mustBuild(t, b, Options{})
	tell := Telling{Label: 9, Causes: []Ratio{{1, math.Log(4)}}, States: []Ratio{{0, math.Log(.05)}, {1, math.Log(10)}, {2, math.Log(3)}}}
	v := n.viewOf(Evidence{Tellings: []Telling{tell}})
	for c, want := range []float64{
		.05,            // given surely, spoken against
		4,              // its own word, not its state's 10
		1 + .4*(3-1),   // what speaks for one of its states stands
		1 + .95*(10-1), // though another is spoken against
	} {
		near(t, "ratio", math.Exp(v.adjust[c]), want, 1e-9)
	}
	v = n.viewOf(Evidence{Adjust: []Adjustment{{1, 0, 4}, {2, 0, 4}, {3, 1, -9}, {4, 2, 4}, {5, 2, -3}}})
	for c, want := range []float64{5, -5, 1} {
		near(t, "log odds", v.adjust[c], want, 1e-12)
	}
	near(t, "first line, shrunk", v.lines[0][0].Points, points*2.5, 1e-9)
}

func TestBuildRefuses(t *testing.T) {
	b := NewBuilder(1, 4, 3)
	b.Lead(3, 1, .5)
	b.Lead(1, 2, .5)
	b.Lead(2, 1, .5)
	b.Vague(0, 1)
	b.Vague(1, 0)
	b.Prior(0, 1)
	b.Give(0, 7, .5)
	b.Show(0, 2, 1.5)
	_, err := b.Build(Options{})
	if err == nil {
		t.Fatal("built, want it refused")
	}
	for _, want := range []string{"states go round in a circle: [1 2]", "signs go round in a circle: [0 1]", "prior of cause 0 is 1", "state 7 of 4 does not exist", "strength is 1.5"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("error %q does not say %q", err, want)
		}
	}
	var circle *CycleError
	if !errors.As(err, &circle) || !slices.Equal(circle.IDs, []int{1, 2}) {
		t.Errorf("circle %v, want states 1 and 2", circle)
	}
}
