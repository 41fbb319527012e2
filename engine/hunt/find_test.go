package hunt_test

import (
	"testing"

	"snagwise/engine/hunt"
)

// TestFind: UK and US words, everyday words and misspellings find the thing
// meant among the first three. The pairs of words are the trade's own, common
// practice, no source.
func TestFind(t *testing.T) {
	x := hunt.NewFinder(engineOf(t, "hollin").Fitted())
	for _, tt := range []struct{ said, want string }{
		{"won't fire", "cranks_no_fire"},
		{"wont fire", "cranks_no_fire"},
		{"cranks well but doesn't fire", "cranks_no_fire"},
		{"strong smell of petrol", "strong_fuel_smell"},
		{"strong gasoline smell", "strong_fuel_smell"},
		{"blakc smoke", "black_smoke"},
		{"backfires in the exhaust", "exhaust_bangs"},
		{"white smok from the stacks", "white_smoke_any"},
		{"starter just clicks", "starter_click_only"},
		{"propellor stops dead by hand", "pull_stops_dead"},
		{"dies as soon as I let go of the button", "fires_on_coil_dies_on_release"},
		{"bottle goes down overnight", "air_bottle_falls_overnight"},
		{"coolant guage never moves", "coolant_reading_dead"},
		{"sluggish prop", "prop_slow"},
	} {
		found := x.Find(tt.said)
		ok := false
		var ids []string
		for i, c := range found {
			ids = append(ids, c.ID)
			ok = ok || i < 3 && c.ID == tt.want
		}
		if !ok {
			t.Errorf("Find(%q) = %v, want %s among the first three", tt.said, ids, tt.want)
		}
	}
	if found := x.Find("zzzz qqqq"); len(found) > 0 {
		t.Errorf("nonsense finds %v", found)
	}
}

// TestReading: a gauge with what it shows, in the unit of the gauge or without.
func TestReading(t *testing.T) {
	e := engineOf(t, "hollin")
	x := hunt.NewFinder(e.Fitted())
	h := hunt.New(e, nil)
	for _, tt := range []struct{ said, id, value string }{
		{"oil pressure 55", "oil_pressure", "55 psi"},
		{"oil pressure is 55 psi", "oil_pressure", "55 psi"},
		{"oil pressure 3.8 bar", "oil_pressure", "3.8 bar"},
		{"oil pressure low", "oil_pressure", "low"},
		{"oil pressure says 55", "oil_pressure", "55 psi"},
		{"rpm 2400 -> 1950", "engine_rpm", "2400 -> 1950 rpm"},
		{"revs 1750", "engine_rpm", "1750 rpm"},
		{"boost -3.4 lb", "boost", "-3.4 lb"},
		{"boost=-3.4", "boost", "-3.4 psi"},
	} {
		id, typed, ok := x.Reading(tt.said)
		if !ok || id != tt.id {
			t.Errorf("Reading(%q) = %q, %q, %v, want %q", tt.said, id, typed, ok, tt.id)
			continue
		}
		if value, l := h.Value(x, id, typed); len(l) > 0 || value != tt.value {
			t.Errorf("Value(%q, %q) = %q, %v, want %q", id, typed, value, l, tt.value)
		}
	}
	for _, said := range []string{"black smoke", "55", "", "oil pressure"} {
		if id, v, ok := x.Reading(said); ok {
			t.Errorf("Reading(%q) = %q, %q, want none", said, id, v)
		}
	}
	for _, typed := range []string{"60 rpm", "banana", ""} {
		if _, l := h.Value(x, "oil_pressure", typed); len(l) == 0 {
			t.Errorf("Value(oil_pressure, %q) is taken, want it refused", typed)
		}
	}
}
