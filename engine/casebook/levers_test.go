package casebook_test

import (
	"slices"
	"testing"

	"snagwise/engine/sheet"
)

// A lever told by where it stood, beside a trouble that its standing wrong
// brings, puts whoever left it so first; and seen standing right it puts him out of
// the first ten. Common practice, no source.
func TestLeversThatStandWrongAreNamed(t *testing.T) {
	e, err := usual(t)("hollin")
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct{ phase, lever, wrong, right, trouble, cause string }{
		{"display", "radiator_shutter", "shut", "open", "coolant_reads_hot", "shutter_left_shut"},
		{"crank", "isolator", "off", "on", "all_dead", "isolator_off"},
		{"crank", "emergency_cut_out", "pressed", "out", "starter_dead", "emergency_cut_out_in"},
		{"idle", "primer", "unlocked", "locked", "black_smoke", "primer_not_locked"},
		{"crank", "fuel_cock", "shut", "open", "cranks_no_fire", "fuel_cock_shut"},
		{"display", "magneto_switch", "left", "both", "lacks_power", "one_magneto_selected"},
		{"display", "mixture", "lean", "rich", "pops_back_running", "mixture_not_rich"},
		{"display", "hot_air", "on", "off", "lacks_power", "hot_air_left_on"},
		{"display", "changeover", "high", "low", "pinking_heard", "changeover_left_high"},
		{"crank", "throttle", "wide", "idle", "pops_back_at_start", "throttle_too_open"},
		{"crank", "oil_cock", "shut", "open", "oil_press_none", "oil_cock_shut"},
		{"display", "propeller_lever", "coarse", "fine", "rpm_top_short", "prop_lever_not_fine"},
		{"warm_up", "generator_switch", "off", "on", "not_charging_said", "generator_switch_off"},
	} {
		place := func(stands string) int {
			t.Helper()
			s, l := sheet.ParseArgs([]string{x.phase + ":", x.lever + "=" + stands, x.trouble})
			if len(l) > 0 {
				t.Fatalf("%s %s: %v", x.lever, stands, l)
			}
			a, l := e.Read(s)
			if len(l) > 0 {
				t.Fatalf("%s %s: %v", x.lever, stands, l)
			}
			ids, _, _ := e.Ranked(a)
			return slices.Index(ids, x.cause) + 1
		}
		if wrong, right := place(x.wrong), place(x.right); wrong != 1 || right < 11 {
			t.Errorf("%s %s with %s: %s stands at %d, and with %s at %d; want 1, and beyond 10", x.lever, x.wrong, x.trouble, x.cause, wrong, x.right, right)
		}
	}
}
