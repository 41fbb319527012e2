package rig_test

import (
	"math"
	"os"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snagwise/engine/rig"
)

// rulesDir is where the shipped kinds and rigs are.
const rulesDir = "../../rules"

func shippedKinds(t testing.TB) *rig.Kinds {
	t.Helper()
	k, problems := rig.ReadKinds(os.DirFS(rulesDir))
	if len(problems) > 0 {
		t.Fatalf("the shipped kinds have faults:\n%v", problems)
	}
	return k
}

func loadFile(t testing.TB, k *rig.Kinds, path string) *rig.Rig {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r, problems := rig.Load(k, path, text)
	if len(problems) > 0 {
		t.Fatalf("%s has faults:\n%v", path, problems)
	}
	return r
}

func demo(t testing.TB, name string) *rig.Rig {
	t.Helper()
	return loadFile(t, shippedKinds(t), rulesDir+"/rigs/"+name+".yaml")
}

func pipit(t testing.TB) *rig.Rig { return loadFile(t, shippedKinds(t), "testdata/pipit.yaml") }

func at(t testing.TB, r *rig.Rig, id string) int {
	t.Helper()
	i, ok := r.ByID(id)
	if !ok {
		t.Fatalf("rig %s has no part %q", r.ID, id)
	}
	return i
}

func ids(r *rig.Rig, parts []int) []string {
	var list []string
	for _, p := range parts {
		list = append(list, r.Parts[p].ID)
	}
	slices.Sort(list)
	return list
}

func TestShippedRigsAreOneConnectedWhole(t *testing.T) {
	for _, name := range []string{"hollin", "teasel"} {
		r := demo(t, name)
		for i := range r.Parts {
			if !r.Connected(0, i) {
				t.Errorf("%s: nothing joins %q to the rest", name, r.Parts[i].ID)
			}
		}
		for _, l := range r.Links {
			if l.Assumed {
				t.Errorf("%s: the link from %s to %s is only assumed", name, r.Parts[l.From].ID, r.Parts[l.To].ID)
			}
		}
		for _, g := range r.Gauges {
			if g.BandsAssumed || g.LimitsAssumed {
				t.Errorf("%s: the figures of %q are only assumed", name, g.Reading)
			}
		}
	}
}

func TestWhatLiesBetweenTwoParts(t *testing.T) {
	hollin, teasel, four := demo(t, "hollin"), demo(t, "teasel"), pipit(t)
	for _, tt := range []struct {
		r          *rig.Rig
		flow, a, b string
		want       []string
	}{
		// Two gauges on one line say where between: the pump outlet and the
		// carburettor end.
		{hollin, "fuel", "engine_fuel_pump", "fuel_delivery_pipe", []string{"fuel_delivery_pipe", "fuel_fine_filter", "fuel_regulator"}},
		// The relief valve is a side loop of the pump and belongs to the way.
		{hollin, "fuel", "fuel_cock", "fuel_fine_filter", []string{"booster_bypass_valve", "booster_pump", "engine_fuel_pump", "fuel_fine_filter", "fuel_hoses", "fuel_pump_relief"}},
		{hollin, "fuel", "fuel_delivery_pipe", "fuel_tank", nil},
		{hollin, "high_tension", "magneto_left", "plugs_right", nil},
		{hollin, "dc", "battery", "starter_motor", []string{"battery_cables", "battery_terminals", "isolator", "starter_motor", "starter_relay"}},
		// The filter stands on the suction side here.
		{teasel, "fuel", "fuel_cock", "engine_fuel_pump", []string{"engine_fuel_pump", "fuel_fine_filter", "fuel_hoses", "hand_fuel_pump"}},
		{teasel, "pitch_oil", "pitch_valve", "hub", []string{"hub", "oil_transfer"}},
		// Usual connections, with the regulator bridged over.
		{four, "fuel", "engine_fuel_pump", "fuel_delivery_pipe", []string{"fuel_delivery_pipe", "fuel_fine_filter"}},
		// No by-pass where the hand pump of other rigs is lacking.
		{four, "fuel", "fuel_cock", "fuel_hoses", []string{"booster_bypass_valve", "booster_pump", "fuel_hoses"}},
		// The priming cock is bridged over.
		{four, "prime", "fuel_fine_filter", "primer_pump", []string{"primer_pump"}},
		{four, "dc", "bus", "starter_button", []string{"emergency_cut_out", "starter_button"}},
		{four, "drive", "crankshaft_bearings", "blades", []string{"blades"}},
		// Own connections take the place of the usual ones of their flow; a way
		// that meets the pump only at its end leaves its relief loop out.
		{four, "oil", "oil_pressure_pump", "oil_gallery", []string{"oil_cooler", "oil_gallery", "oil_pressure_filter"}},
	} {
		got := ids(tt.r, tt.r.Between(tt.flow, at(t, tt.r, tt.a), at(t, tt.r, tt.b)))
		if !slices.Equal(got, tt.want) {
			t.Errorf("%s: Between(%s, %s, %s) = %v, want %v", tt.r.ID, tt.flow, tt.a, tt.b, got, tt.want)
		}
	}
}

func TestUpstreamDownstreamAndNeighbours(t *testing.T) {
	r := demo(t, "hollin")
	for _, tt := range []struct {
		name string
		got  []int
		want []string
	}{
		{"upstream of the cut-out", r.Upstream("dc", at(t, r, "cut_out")), []string{"generator"}},
		{"downstream of the reducer", r.Downstream("comp_air", at(t, r, "air_reducer")), []string{"air_pipes", "brake_units", "changeover_air_valve", "changeover_ram", "hot_air_ram", "hot_air_valve", "radiator_shutter"}},
		{"neighbours of the fine filter", r.Neighbours(at(t, r, "fuel_fine_filter")), []string{"engine_fuel_pump", "fuel_regulator", "priming_cock"}},
		{"neighbours of the left earth lead", r.Neighbours(at(t, r, "earth_lead_left")), []string{"magneto_left", "magneto_switch"}},
		{"upstream of nothing", r.Upstream("comp_air", at(t, r, "battery")), nil},
		{"a part that is not there", r.Downstream("fuel", 9999), nil},
	} {
		if got := ids(r, tt.got); !slices.Equal(got, tt.want) {
			t.Errorf("%s: got %v, want %v", tt.name, got, tt.want)
		}
	}
	a, b := at(t, r, "magneto_left"), at(t, r, "cylinders")
	if got, want := r.FlowsBetween(a, b), []string{"high_tension"}; !slices.Equal(got, want) {
		t.Errorf("FlowsBetween = %v, want %v", got, want)
	}
}

func TestPairedPartsAreJoinedSideBySide(t *testing.T) {
	for _, r := range []*rig.Rig{demo(t, "hollin"), pipit(t)} {
		for _, l := range r.Links {
			a, b := r.Parts[l.From], r.Parts[l.To]
			if a.Side != "" && b.Side != "" && a.Side != b.Side {
				t.Errorf("%s: %s is joined to %s", r.ID, a.ID, b.ID)
			}
		}
		if got, want := ids(r, r.OfKind("magneto")), []string{"magneto_left", "magneto_right"}; !slices.Equal(got, want) {
			t.Errorf("%s: OfKind(magneto) = %v, want %v", r.ID, got, want)
		}
	}
}

func TestPartsByTheWordsPeopleUse(t *testing.T) {
	r := demo(t, "hollin")
	for _, tt := range []struct {
		word string
		want []string
	}{
		{"fuel_fine_filter", []string{"fuel_fine_filter"}},
		{"left magneto", []string{"magneto_left"}},
		{"Left Mag", []string{"magneto_left"}},
		{"mag", []string{"magneto_left", "magneto_right"}},
		{"right plugs", []string{"plugs_right"}},
		{"condenser", []string{"magneto_left", "magneto_right"}},
		{"trolley acc", []string{"ground_supply"}},
		{"carburettor", []string{"accelerating_pump", "carburettor_diaphragms", "carburettor_idle", "carburettor_inlet_screen", "carburettor_metering", "carburettor_nozzle", "mixture_control"}},
		{"left battery", nil},
		{"wobble pump", nil}, // not on this rig
		{"", nil},
	} {
		if got := ids(r, r.Called(tt.word)); !slices.Equal(got, tt.want) {
			t.Errorf("Called(%q) = %v, want %v", tt.word, got, tt.want)
		}
	}
}

func TestGaugeFiguresAreSI(t *testing.T) {
	r := demo(t, "hollin")
	g, ok := r.Gauge("fuel_delivery_pressure")
	if !ok {
		t.Fatal("no fuel_delivery_pressure")
	}
	b, ok := g.Band("run_up")
	// NIST SP 811 appendix B.8: 1 psi = 6.894757E+03 Pa.
	if !ok || math.Abs(b.Lo-10*6894.757) > 0.1 || math.Abs(b.Hi-12*6894.757) > 0.1 {
		t.Errorf("Band(run_up) = %v, want 10 to 12 psi in Pa", b)
	}
	l, ok := g.Limit("display")
	if !ok || l.StopBelow == nil || math.Abs(*l.StopBelow-8*6894.757) > 0.1 {
		t.Errorf("Limit(display) = %+v, want a stop below 8 psi", l)
	}
	if got, want := ids(r, g.Taps), []string{"fuel_delivery_pipe"}; !slices.Equal(got, want) {
		t.Errorf("Taps = %v, want %v", got, want)
	}
	g, _ = r.Gauge("coolant_temperature")
	if l, _ := g.Limit("display"); l.StopAbove == nil || *l.StopAbove != 110+273.15 {
		t.Errorf("coolant stops at %v, want 383.15 K", l.StopAbove)
	}
	g, _ = r.Gauge("dead_cut")
	if l, _ := g.Limit("idle"); !slices.Equal(l.StopOn, []string{"does not cut"}) {
		t.Errorf("dead cut stops on %v", l.StopOn)
	}
	g, _ = r.Gauge("coil_buzz")
	if got, want := ids(r, g.Taps), []string{"starting_coil_left", "starting_coil_right"}; !slices.Equal(got, want) {
		t.Errorf("coil buzz taps %v, want %v", got, want)
	}
	if q, ok := r.Figure("reduction"); !ok || q.SI != 0.48 {
		t.Errorf("reduction = %v, want 0.48", q)
	}
	if rows, ok := r.Table("boost_for_rpm"); !ok || len(rows) != 5 || rows[3] != [2]float64{1800, -4.6} {
		t.Errorf("boost_for_rpm = %v", rows)
	}
}

func TestUsualFiguresStandInAndSaySo(t *testing.T) {
	r := pipit(t)
	type row struct {
		Bands, Limits bool
		Taps          []string
		Unit, From    string
	}
	got := map[string]row{}
	for _, g := range r.Gauges {
		got[g.Reading] = row{g.BandsAssumed, g.LimitsAssumed, ids(r, g.Taps), g.Unit, g.From}
	}
	want := map[string]row{
		"engine_rpm":             {false, false, []string{"rpm_drive"}, "rpm", ""},
		"oil_pressure":           {true, true, []string{"oil_gallery"}, "psi", ""},
		"oil_temperature_in":     {true, true, []string{"oil_inlet_pipe"}, "degC", ""},
		"fuel_delivery_pressure": {false, false, []string{"fuel_delivery_pipe"}, "psi", ""},
		"bus_volts":              {true, true, []string{"bus"}, "V", ""},
		"drop_on_left":           {true, true, []string{"rpm_drive"}, "rpm", "engine_rpm"},
		"drop_on_right":          {true, true, []string{"rpm_drive"}, "rpm", "engine_rpm"},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("gauges differ (-want +got):\n%s", diff)
	}
	for _, l := range r.Links {
		if l.Assumed != (l.Flow != "oil") {
			t.Errorf("link %s of %s: Assumed = %v", r.Parts[l.From].ID, l.Flow, l.Assumed)
		}
	}
	if _, ok := r.Control("propeller_lever"); ok {
		t.Error("a fixed-pitch rig has a propeller lever")
	}
	c, _ := r.Control("magneto_switch")
	if want := []string{"off", "left", "right", "both"}; c == nil || !slices.Equal(c.Positions, want) {
		t.Errorf("magneto switch = %+v, want positions %v", c, want)
	}
	c, _ = r.Control("hot_air")
	if p, ok := c.Position("Hot"); !ok || p != "on" {
		t.Errorf("hot air at Hot = %q, want on", p)
	}
	if i := at(t, r, "cylinders"); r.Parts[i].Count != 4 {
		t.Errorf("cylinders count %d, want 4", r.Parts[i].Count)
	}
}

func TestShippedKindsHoldTogether(t *testing.T) {
	k := shippedKinds(t)
	if len(k.Parts) < 130 || len(k.Flows) != 17 {
		t.Errorf("%d kinds and %d flows", len(k.Parts), len(k.Flows))
	}
	joined := map[int]bool{}
	for _, u := range k.Usual {
		joined[u.From], joined[u.To] = true, true
		for _, p := range []int{u.From, u.To} {
			if !slices.Contains(k.Parts[p].Carries, u.Flow) {
				t.Errorf("%q is joined by %s but is not said to carry it", k.Parts[p].ID, u.Flow)
			}
		}
	}
	for i, p := range k.Parts {
		if !joined[i] {
			t.Errorf("nothing is usually joined to %q", p.ID)
		}
		if len(p.Fails) == 0 || len(p.Words) == 0 {
			t.Errorf("%q has no way to fail or no words", p.ID)
		}
	}
}
