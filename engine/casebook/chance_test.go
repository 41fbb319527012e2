package casebook

import "testing"

// Source: the first outputs of SplitMix64 from the state 1234567, as published
// with its reference code (from memory): 6457827717110365317,
// 3203168211198807973, 9817491932198370423.
func TestChanceIsTheSameOnEveryMachine(t *testing.T) {
	c := &Chance{1234567}
	for i, want := range []uint64{6457827717110365317, 3203168211198807973, 9817491932198370423} {
		if got := c.next(); got != want {
			t.Errorf("number %d: got %d, want %d", i+1, got, want)
		}
	}
}

func TestChanceSpreadsEvenly(t *testing.T) {
	c := Random("a case", 1)
	var count [4]int
	sum := 0.0
	for range 8000 {
		count[c.IntN(4)]++
		sum += c.Float64()
	}
	for i, n := range count {
		if n < 1800 || n > 2200 {
			t.Errorf("%d came %d times of 8000, want near 2000", i, n)
		}
	}
	near(t, "mean", sum/8000, .5, .02)
	if Random("a case", 1).next() == Random("a case", 2).next() || Random("a case", 1).next() == Random("another", 1).next() {
		t.Error("two sources give the same")
	}
}
