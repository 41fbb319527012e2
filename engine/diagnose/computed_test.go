package diagnose_test

import (
	"encoding/json"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"snagwise/engine/chain"
	"snagwise/engine/condition"
	"snagwise/engine/diagnose"
	"snagwise/engine/physics"
	"snagwise/engine/quantity"
	"snagwise/engine/sheet"
)

func sheetOf(rig, rest string) string { return "rig: " + rig + "\n" + rest + "\n" }

// Figures of a moment, of the weather and of the rig come to the readings that
// nobody read. The rig's figures are those of its file.
//
// Sources: boost by the gas law of the principle in FAA-H-8083-32B (2023) page
// 10-28 with the rig's record of -4.6 psi at 1800 rpm and 1013 hPa; charge by the
// usual rule table of battery suppliers (12.45 V is three quarters); boiling by
// steam tables and Raoult's law, within 1 degC; oil by ASTM D341 with the usual
// figures of the grade (from memory); the rest exact.
func TestWhatNobodyReadIsWorkedOut(t *testing.T) {
	for _, tt := range []struct{ id, rig, told, want string }{
		{"expected_boost_for_rpm", "hollin", "weather: {ambient_pressure: 985 hPa}\nmoments: [{phase: run_up, readings: {engine_rpm: 1800 rpm}}]", "-4.88 lb"},
		// the air of the day is the same for the whole sheet
		{"expected_boost_for_rpm", "hollin", "moments: [{phase: run_up, readings: {engine_rpm: 1800 rpm}}, {phase: stopped, readings: {ambient_pressure: 985 hPa}}]", "-4.88 lb"},
		{"expected_boost_for_rpm", "hollin", "moments: [{phase: run_up, readings: {engine_rpm: 1800 rpm}}]", ""},
		{"expected_boost_for_rpm", "hollin", "weather: {ambient_pressure: 985 hPa}\nmoments: [{phase: run_up, readings: {engine_rpm: high}}]", ""},
		// no record at this speed, no boost gauge at all
		{"expected_boost_for_rpm", "hollin", "weather: {ambient_pressure: 985 hPa}\nmoments: [{phase: display, readings: {engine_rpm: 2300 rpm}}]", ""},
		{"expected_boost_for_rpm", "teasel", "weather: {ambient_pressure: 985 hPa}\nmoments: [{phase: run_up, readings: {engine_rpm: 1500 rpm}}]", ""},
		// two airs that differ are not one air
		{"expected_boost_for_rpm", "hollin", "moments: [{phase: run_up, readings: {engine_rpm: 1800 rpm}}, {phase: rest, readings: {ambient_pressure: 985 hPa}}, {phase: stopped, readings: {ambient_pressure: 990 hPa}}]", ""},
		{"boost_at_rest_expected", "hollin", "weather: {ambient_pressure: 985 hPa}\nmoments: [{phase: rest}]", "-0.41 lb"},
		{"battery_charge_from_rest_volts", "hollin", "moments: [{phase: rest, readings: {bus_volts: 24.9 V}}]", "75 percent"},
		{"battery_charge_from_rest_volts", "teasel", "moments: [{phase: rest, readings: {bus_volts: 24.48 V}}]", "50 percent"},
		// volts tell the charge only at rest
		{"battery_charge_from_rest_volts", "hollin", "moments: [{phase: idle, readings: {bus_volts: 24.9 V}}]", ""},
		{"battery_charge_from_rest_volts", "hollin", "moments: [{phase: [rest, crank], readings: {bus_volts: 24.9 V}}]", ""},
		{"battery_charge_from_rest_volts", "hollin", "moments: [{readings: {bus_volts: 24.9 V}}]", ""},
		{"fuel_drop", "hollin", "moments: [{phase: run_up, readings: {fuel_pump_pressure: 16.5 psi, fuel_delivery_pressure: 11 psi}}]", "5.5 psi"},
		{"fuel_drop", "hollin", "moments: [{phase: [run_up, display], readings: {fuel_pump_pressure: 16.5 psi, fuel_delivery_pressure: 11 psi}}]", "5.5 psi"},
		{"fuel_drop", "hollin", "moments: [{phase: run_up, readings: {fuel_pump_pressure: 16.5 psi}}, {phase: run_up, readings: {fuel_delivery_pressure: 11 psi}}]", ""},
		{"fuel_drop", "hollin", "moments: [{phase: run_up, readings: {fuel_pump_pressure: over 16 psi, fuel_delivery_pressure: 11 psi}}]", ""},
		// what was told stands
		{"fuel_drop", "hollin", "moments: [{phase: run_up, readings: {fuel_drop: 4 psi, fuel_pump_pressure: 16.5 psi, fuel_delivery_pressure: 11 psi}}]", "4 psi"},
		// 15 degC of cooling in the throat of this carburettor, 25 in the other
		{"carburettor_icing_margin", "hollin", "weather: {air_temperature: 9 degC, dew_point: 7 degC}\nmoments: [{phase: idle}]", "-6 degC"},
		{"carburettor_icing_margin", "teasel", "weather: {air_temperature: 9 degC, dew_point: 7 degC}\nmoments: [{phase: idle}]", "-16 degC"},
		{"carburettor_icing_margin", "teasel", "weather: {air_temperature: 9 degC}\nmoments: [{phase: idle}]", ""},
		{"coolant_boiling_margin", "hollin", "moments: [{phase: display, readings: {coolant_temperature: 100 degC}}]", "25 degC"},
		{"coolant_boiling_margin", "teasel", "moments: [{phase: display, readings: {coolant_temperature: 100 degC}}]", ""},
		{"oil_viscosity_ratio", "hollin", "moments: [{phase: idle, readings: {oil_temperature_in: 75 degC}}]", "1"},
		// 4.2 L at 21 L a minute is 12 s at the rated volts with warm oil
		{"feather_time_expected", "hollin", "moments: [{phase: stopped, readings: {bus_volts: 24 V, oil_temperature_in: 75 degC}}]", "12 s"},
		{"feather_time_expected", "hollin", "moments: [{phase: stopped, readings: {bus_volts: 18 V, oil_temperature_in: 75 degC}}]", "16 s"},
		{"feather_time_expected", "hollin", "moments: [{phase: stopped, readings: {bus_volts: 18 V}}]", ""},
		// 1 - (1700/1800)^3
		{"magneto_drop_as_power", "hollin", "moments: [{phase: run_up, readings: {engine_rpm: 1800 rpm, drop_on_left: 60 rpm, drop_on_right: 100 rpm}}]", "15.758 percent"},
		{"propeller_speed", "hollin", "moments: [{phase: idle, readings: {engine_rpm: 1000 rpm}}]", "480 rpm"},
	} {
		e := engine(t, tt.rig).WorkOutAll()
		rd := e.Fitted().Readings[e.Fitted().Reading(tt.id)]
		got := e.Follow(read(t, e, sheetOf(tt.rig, tt.told))).Number(0, rd.Slot)
		want := math.NaN()
		if tt.want != "" {
			q, err := quantity.ParseAs(tt.want, rd.Dim, rd.Unit)
			if err != nil {
				t.Fatal(err)
			}
			want = q.SI
		}
		tolerance := 2e-3 * math.Abs(want)
		if strings.HasPrefix(tt.id, "coolant") {
			tolerance = 1
		}
		if diagnose.Known(got) != diagnose.Known(want) || math.Abs(got-want) > tolerance {
			t.Errorf("%s of %s: %v SI, want %q, %v SI", tt.id, tt.told, got, tt.want, want)
		}
	}
}

// What a computed reading concludes, and that nothing is concluded where an
// input is missing or the bands alone decide. A dash before a name wants it
// false, a question mark unknown.
//
// Source: own figures of the rig; the limits are common practice, no source.
func TestWhatIsWorkedOutConcludes(t *testing.T) {
	const rest, runUp, stopped = "moments: [{phase: rest, readings: {", "moments: [{phase: run_up, readings: {", "moments: [{phase: stopped, readings: {"
	low := "weather: {ambient_pressure: 945 hPa}\n"
	for _, tt := range []struct{ told, want string }{
		// boost over the record, though within its band
		{low + runUp + "engine_rpm: 1800 rpm, boost: -4.3 lb}}]", "boost_high_for_rpm"},
		{low + runUp + "engine_rpm: 1800 rpm, boost: -5.2 lb}}]", "-boost_high_for_rpm"},
		{runUp + "engine_rpm: 1800 rpm, boost: -4.3 lb}}]", "-boost_high_for_rpm"},
		{low + runUp + "boost: -4.3 lb}}]", "?boost_high_for_rpm"},
		// on the record, though over its band in heavy air
		{"weather: {ambient_pressure: 1045 hPa}\n" + runUp + "engine_rpm: 1800 rpm, boost: -4.0 lb}}]", "-boost_high_for_rpm"},
		{runUp + "engine_rpm: 1800 rpm, boost: -4.0 lb}}]", "boost_high_for_rpm"},
		// a wind upsets the check, and nothing is held against the record
		{"weather: {ambient_pressure: 945 hPa, wind: 12 knots}\n" + runUp + "engine_rpm: 1800 rpm, boost: -4.3 lb}}]", "-boost_high_for_rpm"},
		// the gauge at rest: 945 hPa is -0.99 psi on a capsule
		{low + rest + "boost: -0.9 lb}}]", "-boost_rest_wrong boost_rest_agrees"},
		{low + rest + "boost: 0 lb}}]", "boost_rest_wrong -boost_rest_agrees"},
		{rest + "boost: 0 lb}}]", "-boost_rest_wrong ?boost_rest_agrees"},
		{rest + "boost: 0.9 lb}}]", "boost_rest_wrong"},
		{"weather: {ambient_pressure: 930 hPa}\n" + rest + "boost: -1.2 lb}}]", "-boost_rest_wrong"},
		{"weather: {ambient_pressure: 930 hPa}\n" + rest + "boost: high}}]", "boost_rest_wrong"},
		// charge by rested volts
		{rest + "bus_volts: 24.6 V}}]", "volts_rest_low"},
		{rest + "bus_volts: 24.9 V}}]", "-volts_rest_low"},
		{"moments: [{phase: idle, readings: {bus_volts: 24.6 V}}]", "?volts_rest_low"},
		// the drop, over its band though each gauge is in its own
		{runUp + "fuel_pump_pressure: 17.9 psi, fuel_delivery_pressure: 10.1 psi}}]", "fuel_drop_high"},
		{runUp + "fuel_pump_pressure: 15.1 psi, fuel_delivery_pressure: 11.9 psi}}]", "fuel_drop_low"},
		{runUp + "fuel_pump_pressure: 16.5 psi, fuel_delivery_pressure: 11 psi}}]", "-fuel_drop_high -fuel_drop_low"},
		{runUp + "fuel_pump_pressure: 17.9 psi}}]", "?fuel_drop_high"},
		{runUp + "fuel_drop: 8 psi}}]", "fuel_drop_high"},
		// slow feathering
		{stopped + "feather_time: 21 s, bus_volts: 19.6 V, oil_temperature_in: 20 degC}}]", "feather_slow slow_feathering_explained_by_volts -slow_feathering_not_explained"},
		{stopped + "feather_time: 26 s, bus_volts: 19.6 V, oil_temperature_in: 20 degC}}]", "feather_slow -slow_feathering_explained_by_volts slow_feathering_not_explained"},
		{stopped + "feather_time: 18 s, bus_volts: 25.2 V, oil_temperature_in: 5 degC}}]", "feather_slow slow_feathering_explained_by_oil -slow_feathering_explained_by_volts"},
		{stopped + "feather_time: 21 s, bus_volts: 19.6 V}}]", "feather_slow ?slow_feathering_explained_by_volts ?slow_feathering_not_explained"},
		{stopped + "feather_time: 21 s, oil_temperature_in: 20 degC}}]", "?slow_feathering_explained_by_volts ?slow_feathering_explained_by_oil"},
		// coolant under the header's pressure boils at some 125 degC here
		{"moments: [{phase: display, readings: {coolant_temperature: 128 degC}}]", "coolant_past_its_boiling_point"},
		{"moments: [{phase: display, readings: {coolant_temperature: 110 degC}}]", "-coolant_past_its_boiling_point"},
		{"moments: [{phase: display, readings: {coolant_temperature: high}}]", "?coolant_past_its_boiling_point"},
		// the weather
		{"weather: {air_temperature: 2 degC}", "cold_day -hot_day ?icing_weather"},
		{"weather: {air_temperature: 28 degC, dew_point: 24 degC}", "-cold_day hot_day -icing_weather"},
		{"weather: {air_temperature: 9 degC, dew_point: 7 degC}", "-cold_day -hot_day icing_weather"},
		{"weather: {air_temperature: 9 degC, dew_point: -8 degC}", "-icing_weather"},
		{"moments: [{phase: rest, readings: {air_temperature: 2 degC}}]", "cold_day"},
		{"circumstances: [cold_day]", "cold_day ?hot_day ?icing_weather"},
		{"moments: [{phase: rest}]", "?cold_day ?hot_day ?icing_weather"},
	} {
		e := engine(t, "hollin")
		f := e.Follow(read(t, e, sheetOf("hollin", tt.told)))
		for id := range strings.FieldsSeq(tt.want) {
			want := condition.True
			switch id[0] {
			case '-':
				want, id = condition.False, id[1:]
			case '?':
				want, id = condition.Unknown, id[1:]
			}
			n, ok := e.Fitted().Scope.Lookup(id)
			if !ok {
				t.Fatalf("unknown name %q", id)
			}
			at := chain.Whole
			if n.Span == condition.Momentary {
				at = 0
			}
			if got := f.Truth(at, n.Slot); got != want {
				t.Errorf("%s: %s is %v, want %v", tt.told, id, got, want)
			}
		}
	}
}

// A usual figure that stood in is said, and one that was not needed is not.
func TestWhatStoodInIsSaid(t *testing.T) {
	e := engine(t, "hollin")
	for _, tt := range []struct{ told, want string }{
		{"moments: [{phase: rest, readings: {bus_volts: 24.6 V}}]", "State of charge from rested volts: battery temperature taken as 26.7 degC"},
		{"moments: [{phase: crank, readings: {bus_volts: 20 V}}]", ""},
		{"moments: [{phase: run_up, readings: {fuel_pump_pressure: 16 psi, fuel_delivery_pressure: 11 psi}}]", ""},
	} {
		r := e.Diagnose(read(t, e, sheetOf("hollin", tt.told)), diagnose.Situation{})
		var got []string
		for _, a := range r.Assumed {
			if strings.Contains(a, " taken as ") {
				got = append(got, a)
			}
		}
		if (tt.want == "") != (len(got) == 0) || tt.want != "" && !slices.Contains(got, tt.want) {
			t.Errorf("%s: %q was assumed, want %q", tt.told, got, tt.want)
		}
	}
}

// The ground of a cause shows what was worked out, with formula and source as
// the table of computed readings has them.
func TestTheGroundShowsWhatWasWorkedOut(t *testing.T) {
	e := engine(t, "hollin")
	for _, tt := range []struct{ told, cause, line, how, reading string }{
		{"moments: [{phase: rest, readings: {bus_volts: 24.4 V}}]", "battery_discharged", "volts_rest_low", "battery_charge_from_rest_volts < percent(74) (44 percent)", "battery_charge_from_rest_volts"},
		{"moments: [{phase: run_up, readings: {fuel_pump_pressure: 17.9 psi, fuel_delivery_pressure: 10.1 psi}}]", "fuel_filter_choked", "fuel_drop_high", "high(fuel_drop) (7.8 psi)", "fuel_drop"},
		{"weather: {air_temperature: 9 degC, dew_point: 7 degC}\nmoments: [{phase: warm_up, symptoms: [rpm_falls_slowly]}]", "carburettor_ice", "icing_weather", "carburettor_icing_margin < degC_difference(0) (-6 degrees C)", "carburettor_icing_margin"},
		{"weather: {ambient_pressure: 945 hPa}\nmoments: [{phase: run_up, readings: {engine_rpm: 1800 rpm, boost: -4.3 lb}}]", "boost_pipe_leak", "boost_high_for_rpm", "expected_boost_for_rpm -5.3 lb", "expected_boost_for_rpm"},
	} {
		w, err := e.Why(read(t, e, sheetOf("hollin", tt.told)), tt.cause)
		if err != nil {
			t.Fatal(err)
		}
		how := ""
		for _, l := range slices.Concat(w.Cause.For, w.Cause.Against) {
			if l.ID == tt.line {
				how = l.How
			}
		}
		if !strings.Contains(how, tt.how) {
			t.Errorf("%s for %s: %s is known by %q, want %q", tt.told, tt.cause, tt.line, how, tt.how)
		}
		c, err := physics.Find(tt.reading)
		if err != nil {
			t.Fatal(err)
		}
		var shown []diagnose.WorkedOut
		for _, p := range w.Proofs {
			if p.ID == tt.line {
				shown = p.WorkedOut
			}
		}
		if !slices.ContainsFunc(shown, func(o diagnose.WorkedOut) bool {
			return o.ID == c.ID && o.Formula == c.Formula && o.Source == c.Source && o.Caution == c.Caution && o.Value != ""
		}) {
			t.Errorf("%s for %s: worked out %+v, want %s", tt.told, tt.cause, shown, c.ID)
		}
	}
	// What was told is not said to be worked out.
	w, err := e.Why(read(t, e, sheetOf("hollin", "moments: [{phase: run_up, readings: {fuel_drop: 8 psi}}]")), "fuel_filter_choked")
	if err != nil {
		t.Fatal(err)
	}
	if text, _ := json.Marshal(w); strings.Contains(string(text), "worked_out") {
		t.Errorf("a drop that was told is said to be worked out: %s", text)
	}
}

// resting maps every reading to the truth slots that may rest on it, through
// computed readings and through one another.
func resting(e *diagnose.Engine) map[string]map[int]bool {
	type node struct {
		number bool
		slot   int
	}
	to := map[node][]node{}
	slot := func(id string) node {
		rd := e.Fitted().Readings[e.Fitted().Reading(id)]
		return node{len(rd.Answers) == 0, rd.Slot}
	}
	e.Programs(func(s int, reads []condition.Name) {
		for _, n := range reads {
			if n.Kind != condition.TextKind || e.Fitted().Reading(n.ID) >= 0 {
				to[node{n.Kind == condition.NumberKind, n.Slot}] = append(to[node{n.Kind == condition.NumberKind, n.Slot}], node{false, s})
			}
		}
	})
	for _, c := range e.WorksOut() {
		for i := range c.Inputs {
			for _, p := range c.Inputs[i].From {
				for _, id := range []string{p.Name, p.At} {
					if id != "" && e.Fitted().Reading(id) >= 0 {
						to[slot(id)] = append(to[slot(id)], slot(c.ID))
					}
				}
			}
		}
	}
	// What is told on one scale stands on the other too.
	if g, ok := e.Fitted().Rig.Gauge("manifold_pressure"); ok && g.From == "boost" {
		to[slot(g.Reading)] = append(to[slot(g.Reading)], slot(g.From))
	}
	out := map[string]map[int]bool{}
	for _, rd := range e.Fitted().Readings {
		if len(rd.Answers) > 0 {
			continue
		}
		seen := map[node]bool{}
		var walk func(n node)
		walk = func(n node) {
			for _, m := range to[n] {
				if !seen[m] {
					seen[m] = true
					walk(m)
				}
			}
		}
		walk(node{true, rd.Slot})
		out[rd.ID] = map[int]bool{}
		for n := range seen {
			if !n.number {
				out[rd.ID][n.slot] = true
			}
		}
	}
	return out
}

// Leaving out any figure that was told never changes a conclusion that does not
// rest on it. Source: none needed; that is what resting on it means.
func TestLeavingOutAFigureChangesOnlyWhatRestsOnIt(t *testing.T) {
	rests := map[string]map[string]map[int]bool{}
	tried, changed := 0, 0
	for name, s := range shippedSheets(t) {
		e := engine(t, s.Rig.Value)
		if rests[s.Rig.Value] == nil {
			rests[s.Rig.Value] = resting(e)
		}
		a, l := e.Read(s)
		if len(l) > 0 {
			t.Fatal(l)
		}
		full := e.Follow(a)
		compare := func(less *sheet.Account, left sheet.Value) {
			rd := e.Fitted().Readings[left.Reading]
			if len(rd.Answers) > 0 {
				return
			}
			tried++
			got := e.Follow(less)
			for slot := range e.Fitted().Truths() {
				for m := chain.Whole; m < full.Moments(); m++ {
					if got.Truth(m, slot) == full.Truth(m, slot) {
						continue
					}
					changed++
					if !rests[s.Rig.Value][rd.ID][slot] {
						t.Errorf("%s without %s: %s is %v at %d, was %v, and does not rest on it", name, rd.ID,
							e.Fitted().Owner(slot).ID, got.Truth(m, slot), m, full.Truth(m, slot))
					}
				}
			}
		}
		for i, v := range a.Weather {
			less := *a
			less.Weather = slices.Delete(slices.Clone(a.Weather), i, i+1)
			compare(&less, v)
		}
		for m := range a.Moments {
			for i, v := range a.Moments[m].Readings {
				less := *a
				less.Moments = slices.Clone(a.Moments)
				less.Moments[m].Readings = slices.Delete(slices.Clone(a.Moments[m].Readings), i, i+1)
				compare(&less, v)
			}
		}
	}
	if tried < 200 || changed < 200 {
		t.Errorf("%d figures left out, %d conclusions changed: too few to say anything", tried, changed)
	}
}

// Every computed reading that a condition asks for, times gone by aside, is
// worked out on some rig that ships, and none is said to be that is not.
func TestWhatConditionsAskForIsWorkedOut(t *testing.T) {
	got := map[string]bool{}
	for _, id := range []string{"hollin", "teasel"} {
		for _, c := range engine(t, id).WorksOut() {
			got[c.ID] = true
		}
	}
	want := map[string]bool{}
	e := engine(t, "hollin")
	e.Programs(func(_ int, reads []condition.Name) {
		for _, n := range reads {
			if i := e.Fitted().Reading(n.ID); i >= 0 && e.Fitted().Readings[i].Computed && e.Fitted().Readings[i].Elapsed == nil {
				want[n.ID] = true
			}
		}
	})
	want["oil_viscosity_ratio"] = true // asked for by a normal thing too
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("worked out (-asked for +worked out):\n%s", diff)
	}
}

// A reading that nothing works out, or works out as something else, is refused
// with its place.
func TestComputedReadingsThatNothingWorksOut(t *testing.T) {
	s := shipped()
	for _, tt := range []struct{ id, like, want string }{
		{"fuel_dorp", "fuel_drop", `not-computed: nothing works out the reading "fuel_dorp"; did you mean "fuel_drop"?`},
		{"fuel_drop", "bus_volts", `not-computed: the reading "fuel_drop" is worked out as a pressure difference; say quantity: pressure difference`},
	} {
		base := *s.base
		base.Readings = slices.Clone(s.base.Readings)
		rd := &base.Readings[base.Reading("fuel_drop")]
		rd.ID, rd.Dim = tt.id, base.Readings[base.Reading(tt.like)].Dim
		if got := diagnose.Fails(base.On(s.rigs["hollin"])); !slices.Equal(got, []string{tt.want}) {
			t.Errorf("%s as %s: %q, want %q", tt.id, tt.like, got, tt.want)
		}
	}
	if got := diagnose.Fails(s.base.On(s.rigs["hollin"])); len(got) > 0 {
		t.Errorf("what ships: %q, want nothing", got)
	}
}

// BenchmarkFollow goes from an account to what follows, with and without
// working out, over all sheets that ship, and gives the difference for a sheet.
func BenchmarkFollow(b *testing.B) {
	type job struct {
		with, without *diagnose.Engine
		account       *sheet.Account
	}
	var jobs []job
	for _, s := range shippedSheets(b) {
		e := engine(b, s.Rig.Value)
		a, l := e.Read(s)
		if len(l) > 0 {
			b.Fatal(l)
		}
		jobs = append(jobs, job{e, e.WithoutWorkingOut(), a})
	}
	each := map[string]float64{}
	for _, way := range []string{"without", "with"} {
		b.Run(way, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				for _, j := range jobs {
					e := j.without
					if way == "with" {
						e = j.with
					}
					e.Follow(j.account)
				}
			}
			each[way] = float64(b.Elapsed().Nanoseconds()) / float64(b.N) / float64(len(jobs))
			b.ReportMetric(each[way], "ns/sheet")
			if way == "with" && each["without"] > 0 {
				b.ReportMetric(each["with"]-each["without"], "ns-more/sheet")
				b.ReportMetric(each["with"]/each["without"], "times")
			}
		})
	}
}
