package rank

import "testing"

// Two causes, three states that lead to each other, four signs, against
// another program's inference.
//
// Source: npm package bayesjs 0.6.5 (MIT), infer with full noisy-OR tables;
// its output to ten digits.
func TestAgreesWithBayesjs(t *testing.T) {
	b := NewBuilder(2, 3, 4)
	b.Prior(0, .08)
	b.Prior(1, .03)
	b.Give(0, 0, .75)
	b.Give(0, 1, .4)
	b.Give(1, 1, .95)
	b.Lead(0, 1, .4)
	b.Lead(0, 2, .15)
	b.Lead(1, 2, .75)
	for f, leak := range []float64{.02, .05, .01, .1} {
		b.Leak(f, leak)
	}
	b.Show(0, 0, .95)
	b.Show(1, 0, .4)
	b.Show(1, 1, .75)
	b.Show(2, 2, .75)
	b.Show(0, 2, .15)
	b.Show(2, 3, .4)
	b.Show(1, 3, .15)
	for _, o := range []Options{{Unscaled: true}, {Unscaled: true, Unbudgeted: true}} {
		n := mustBuild(t, b, o)
		for _, tt := range []struct {
			signs  []int
			causes [2]float64
			unseen map[int]float64
		}{
			{nil, [2]float64{.08, .03}, map[int]float64{0: .0901730098, 1: .1024240400, 2: .0595344606, 3: .1283998968}},
			{[]int{0}, [2]float64{.6819642587, .1421359783}, map[int]float64{1: .4617308596, 2: .4228388234, 3: .3274025405}},
			{[]int{0, 1}, [2]float64{.7806977789, .2337168773}, map[int]float64{2: .6087167086, 3: .4570901573}},
			{[]int{0, -2, 2}, [2]float64{.8729531831, .1377816171}, map[int]float64{3: .4252786293}},
			{[]int{1, 2, 3}, [2]float64{.6655751919, .3645696873}, map[int]float64{0: .7237302847}},
			{[]int{-1, 1, 2, -4}, [2]float64{.2672839175, .6664488190}, nil},
		} {
			r := n.Posterior(known(tt.signs...))
			for c, want := range tt.causes {
				near(t, "chance", r.chanceOf(c), want, 1e-9)
			}
			for f, want := range tt.unseen {
				got := 0.0
				for i, p := range r.Predict(f) {
					got += p * r.Sets[i].Weight
				}
				near(t, "predicted", got, want, 1e-9)
			}
		}
		near(t, "none of the causes, two signs", n.Posterior(known(0, 1)).None, .021433549317732746, 1e-9)
		near(t, "none of the causes, three signs", n.Posterior(known(1, 2, 3)).None, .002422109979855951, 1e-9)
	}
}
