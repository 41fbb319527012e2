package hunt_test

import (
	"flag"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"snagwise/cases"
	"snagwise/engine/hunt"
)

// tenSnags are kept snags of all systems, and what a keeper would say first.
var tenSnags = []struct{ file, said string }{
	{"will_not_fire_no_buzz", "cranks well but won't fire"},
	{"dies_when_the_button_is_let_go", "dies when the button is let go"},
	{"both_fuel_pressures_low_at_idle", "fuel pressure low"},
	{"no_oil_pressure_cock_shut", "no oil pressure"},
	{"coolant_climbs_radiator_cold", "coolant climbing"},
	{"bottle_down_in_the_morning", "bottle down in the morning"},
	{"no_drop_on_one_magneto", "no mag drop on one side"},
	{"charge_does_not_reach_the_bus", "no charge"},
	{"first_exercise_slow", "prop slow to change"},
	{"click_and_no_turning", "starter just clicks"},
}

// saying tells the thing that words name, of several the one that was so.
func (k *keeper) saying(t *testing.T, words string) {
	found := k.x.Find(words)
	at := slices.IndexFunc(found, func(c hunt.Choice) bool { return c.Kind == hunt.Seen && k.truth[c.ID] })
	if at < 0 {
		at = slices.IndexFunc(found, func(c hunt.Choice) bool { return c.Kind == hunt.Seen })
	}
	if at < 0 {
		t.Fatalf("nothing goes by %q", words)
	}
	k.tell(k.h.Telling(found[at], hunt.Moment{}, false))
}

// TestDrawnSnags: snags drawn by lot from all that are kept, begun with the
// first symptom alone. -v prints the talk.
func TestDrawnSnags(t *testing.T) {
	if testing.Short() {
		t.Skip("whole hunts take seconds each")
	}
	names := cases.Names("")
	chance := rand.New(rand.NewPCG(uint64(*drawSeed), 0))
	chance.Shuffle(len(names), func(i, j int) { names[i], names[j] = names[j], names[i] })
	var done []played
	for _, name := range names {
		k := keeperOf(t, name)
		if k == nil || len(done) == *drawn {
			continue
		}
		k.tell(k.first)
		p := k.play(t)
		done = append(done, p)
		t.Logf("%-52s %s: rank %d after %d answers, led after %d, %g minutes, settled %v\n  %s", name, k.first.Name, p.rank, p.answers, p.first, p.minutes, p.settled, strings.Join(k.said, "\n  "))
	}
	var answers, led, settled, three int
	var minutes float64
	for _, p := range done {
		answers += p.answers
		minutes += p.minutes
		if p.rank == 1 {
			led++
		}
		if p.rank >= 1 && p.rank <= 3 {
			three++
		}
		if p.settled {
			settled++
		}
	}
	t.Logf("%d hunts: %d led in the end, %d among three, %d settled; %d answers, %.0f minutes", len(done), led, three, settled, answers, minutes)
	if three*10 < len(done)*8 {
		t.Errorf("%d of %d among the first three in the end, want eight in ten", three, len(done))
	}
	if answers > 12*len(done) {
		t.Errorf("%d answers in %d hunts, want at most 12 each", answers, len(done))
	}
}

var (
	drawn    = flag.Int("drawn", 10, "how many kept snags TestDrawnSnags plays")
	drawSeed = flag.Int("drawn.seed", 1, "the lot by which it draws them")
)

// TestTenSnags: from one thing said, a keeper who answers what is asked comes
// to what was found, and soon.
func TestTenSnags(t *testing.T) {
	if testing.Short() {
		t.Skip("ten whole hunts take ten seconds")
	}
	led, all := 0, 0
	for _, s := range tenSnags {
		k := keeperOf(t, "situations/"+s.file+".yaml")
		k.saying(t, s.said)
		p := k.play(t)
		t.Logf("%-34s rank %d after %d answers, led after %d", s.file, p.rank, p.answers, p.first)
		if p.rank == 1 {
			led++
		}
		all += p.answers
	}
	// Measured on 2026-11-25: ten led, 74 answers. Before what holds the best
	// looks back was asked for, and while a look could leave out what it was done
	// for, nine led with 37.
	if led < len(tenSnags) {
		t.Errorf("%d of %d led in the end, want all", led, len(tenSnags))
	}
	if all > 8*len(tenSnags) {
		t.Errorf("%d answers in all, want at most 8 a snag", all)
	}
}
