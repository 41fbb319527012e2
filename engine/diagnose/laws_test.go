package diagnose_test

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"snagwise/cases"
	"snagwise/engine/diagnose"
	"snagwise/engine/document"
	"snagwise/engine/knowledge"
	"snagwise/engine/rig"
	"snagwise/engine/sheet"
	"snagwise/rules"
)

// stock is what ships, with the rigs of kept cases and one that no rule knows of.
type stock struct {
	base *knowledge.Base
	rigs map[string]*rig.Rig
}

var shipped = sync(func() stock {
	kinds, l := rig.ReadKinds(rules.Files)
	must(l)
	s := stock{rigs: map[string]*rig.Rig{}}
	var all []*rig.Rig
	files := map[string]func(string) ([]byte, error){
		"rigs/hollin.yaml": rules.Files.ReadFile, "rigs/teasel.yaml": rules.Files.ReadFile, "testdata/pipit.yaml": os.ReadFile,
	}
	beside, err := fs.Glob(cases.Files, "rigs/*.yaml") // those that kept cases bring along
	if err != nil {
		panic(err)
	}
	for _, name := range beside {
		files[name] = cases.Files.ReadFile
	}
	for id, read := range files {
		text, err := read(id)
		if err != nil {
			panic(err)
		}
		r, l := rig.Load(kinds, id, text)
		must(l)
		s.rigs[r.ID] = r
		all = append(all, r)
	}
	src, l := knowledge.Read(rules.Files)
	must(l)
	s.base, l = knowledge.Compile(src, kinds, knowledge.ControlsOf(all...))
	must(l)
	return s
})

func sync[T any](make func() T) func() T {
	var done bool
	var v T
	return func() T {
		if !done {
			v, done = make(), true
		}
		return v
	}
}

func must(l interface{ Error() string }) {
	if text := l.Error(); text != "" {
		panic(text)
	}
}

var engines = map[string]*diagnose.Engine{}

func engine(tb testing.TB, id string) *diagnose.Engine {
	tb.Helper()
	if e := engines[id]; e != nil {
		return e
	}
	s := shipped()
	e, l := diagnose.New(s.base.On(s.rigs[id]), diagnose.Settings{})
	if len(l) > 0 {
		tb.Fatal(l)
	}
	engines[id] = e
	return e
}

type failer interface {
	Helper()
	Fatalf(string, ...any)
}

func read(tb failer, e *diagnose.Engine, text string) *sheet.Account {
	tb.Helper()
	s, l := sheet.Parse("sheet", []byte(text))
	if len(l) > 0 {
		tb.Fatalf("%v", l)
	}
	a, l := e.Read(s)
	if len(l) > 0 {
		tb.Fatalf("%v", l)
	}
	return a
}

func chances(e *diagnose.Engine, a *sheet.Account) map[string]float64 {
	ids, ch, none := e.Ranked(a)
	out := map[string]float64{"none of these": none}
	for i, id := range ids {
		out[id] = ch[i]
	}
	return out
}

func same(a, b map[string]float64) bool {
	for k, v := range a {
		if math.Abs(v-b[k]) > 1e-9 {
			return false
		}
	}
	return len(a) == len(b)
}

// shippedSheets are the sheets of all cases, by path.
func shippedSheets(tb testing.TB) map[string]*sheet.Sheet {
	tb.Helper()
	out := map[string]*sheet.Sheet{}
	for _, name := range slices.Concat(cases.Names("real"), cases.Names("situations")) {
		text, err := cases.Files.ReadFile(name)
		if err != nil {
			tb.Fatal(err)
		}
		s, l := sheet.Parse(name, text)
		if len(l) > 0 {
			tb.Fatal(l)
		}
		out[name] = s
	}
	return out
}

func TestTheSameSheetGivesTheSameBytes(t *testing.T) {
	i := 0
	for name, s := range shippedSheets(t) {
		if i++; i%12 != 0 {
			continue
		}
		e := engine(t, s.Rig.Value)
		a, l := e.Read(s)
		if len(l) > 0 {
			t.Fatal(l)
		}
		one, _ := json.Marshal(e.Diagnose(a, diagnose.Situation{}))
		two, _ := json.Marshal(e.Diagnose(a, diagnose.Situation{}))
		if !bytes.Equal(one, two) {
			t.Errorf("%s: two answers differ:\n%s", name, cmp.Diff(string(one), string(two)))
		}
		if bytes.Contains(one, []byte(":null")) {
			t.Errorf("%s: the answer holds null", name)
		}
	}
}

// Source: none needed; that statements are a set is what a sheet means.
func TestTheOrderOfStatementsNeverMatters(t *testing.T) {
	all := shippedSheets(t)
	var names []string
	for name := range all {
		names = append(names, name)
	}
	slices.Sort(names)
	engine(t, "hollin")
	engine(t, "teasel")
	rapid.Check(t, func(t *rapid.T) {
		s := *all[rapid.SampledFrom(names).Draw(t, "case")]
		e := engines[s.Rig.Value]
		a, _ := e.Read(&s)
		want := chances(e, a)
		shuffled := func(list []document.Text) []document.Text {
			if len(list) < 2 {
				return list
			}
			return rapid.Permutation(list).Draw(t, "order")
		}
		s.Moments = slices.Clone(s.Moments)
		for i := range s.Moments {
			m := &s.Moments[i]
			m.Symptoms, m.NotSeen, m.Normal = shuffled(m.Symptoms), shuffled(m.NotSeen), shuffled(m.Normal)
			if len(m.Readings) > 1 {
				m.Readings = rapid.Permutation(m.Readings).Draw(t, "readings")
			}
		}
		s.Circumstances, s.Trials = shuffled(s.Circumstances), shuffled(s.Trials)
		if len(s.Parts) > 1 {
			s.Parts = rapid.Permutation(s.Parts).Draw(t, "parts")
		}
		b, l := e.Read(&s)
		if len(l) > 0 {
			t.Fatalf("%v", l)
		}
		if got := chances(e, b); !same(got, want) {
			t.Fatalf("another order gives other chances:\n%s", cmp.Diff(want, got))
		}
	})
}

func TestTheSameThingToldAsASignAndOfAPartCountsOnce(t *testing.T) {
	e := engine(t, "hollin")
	for _, tt := range []struct{ one, both string }{
		{"rig: hollin\nmoments: [{phase: stopped, symptoms: [oil_leak_seen, cooler_core_wet]}]",
			"rig: hollin\nmoments: [{phase: stopped, symptoms: [oil_leak_seen, cooler_core_wet]}]\nparts: [{part: oil_cooler, leaks: oil}]"},
		{"rig: hollin\nmoments: [{phase: stopped, symptoms: [element_found_choked]}]",
			"rig: hollin\nmoments: [{phase: stopped, symptoms: [element_found_choked]}]\nparts: [{part: fuel_fine_filter, looked_at: element_found_choked}]"},
	} {
		one, both := chances(e, read(t, e, tt.one)), chances(e, read(t, e, tt.both))
		lead := func(m map[string]float64) (best string) {
			for _, id := range slices.Sorted(keys(m)) {
				if best == "" || m[id] > m[best] {
					best = id
				}
			}
			return best
		}
		k := lead(one)
		if lead(both) != k || both[k]/(1-both[k]) > 1.2*one[k]/(1-one[k]) {
			t.Errorf("%s: %.4f told once, %.4f told twice", k, one[k], both[k])
		}
	}
}

func keys(m map[string]float64) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

func TestAnUnreadGaugeAndSilenceChangeNothing(t *testing.T) {
	e := engine(t, "hollin")
	base := "rig: hollin\nmoments:\n  - phase: display\n    readings: {fuel_pump_pressure: 16.5 psi, fuel_delivery_pressure: 8.2 psi}\n"
	want := chances(e, read(t, e, base))
	// A note is shown and never used.
	if got := chances(e, read(t, e, base+"    notes: [the band was loud]\n")); !same(got, want) {
		t.Error("a note changed the chances")
	}
	// A moment of which nothing but the phase is told says nothing of the signs.
	for _, phase := range []string{"rest", "stopped"} {
		if got := chances(e, read(t, e, base+"  - phase: "+phase+"\n")); !same(got, want) {
			t.Errorf("an empty moment at %s changed the chances:\n%s", phase, cmp.Diff(want, got))
		}
	}
}

func TestAPartChangedWithoutCureClearsItsOwnCausesAndNoOther(t *testing.T) {
	e := engine(t, "hollin")
	base := "rig: hollin\nmoments: [{phase: display, symptoms: [rpm_top_short, pops_back_running]}]\n"
	before := chances(e, read(t, e, base))
	after := chances(e, read(t, e, base+"parts: [{part: fuel_fine_filter, changed: no better}]\n"))
	f := e.Fitted()
	for _, inst := range f.Causes {
		c := &f.Base.Causes[inst.Cause]
		if before[c.ID] < 1e-4 {
			continue
		}
		if fell := after[c.ID] < before[c.ID]*.9; fell != (c.Kind == "fuel_fine_filter") {
			t.Errorf("%s of %s: %.4f before, %.4f after", c.ID, c.Kind, before[c.ID], after[c.ID])
		}
	}
}

// The third rig is a file of some forty lines and needs no rule of its own.
func TestAThirdRigNeedsNoNewRule(t *testing.T) {
	text, err := os.ReadFile("testdata/pipit.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if n := bytes.Count(text, []byte("\n")); n > 60 {
		t.Errorf("the rig file has %d lines, want at most 60", n)
	}
	e := engine(t, "pipit")
	f := e.Fitted()
	if len(f.Causes) < 150 {
		t.Errorf("%d causes, want at least 150", len(f.Causes))
	}
	for _, inst := range f.Causes {
		if sys := f.Base.Causes[inst.Cause].System; sys == "pneumatic" || sys == "cooling" && f.Base.Causes[inst.Cause].Kind == "radiator" {
			t.Errorf("cause %q of a part that is not fitted", f.Base.Causes[inst.Cause].ID)
		}
	}
	a := read(t, e, "rig: pipit\nmoments:\n  - phase: run_up\n    symptoms: [rpm_falls_slowly, clears_after_wait]\n    readings: {engine_rpm: 1780 -> 1500 rpm}\ncircumstances: [icing_weather]\n")
	r := e.Diagnose(a, diagnose.Situation{})
	if len(r.Causes) == 0 || r.Causes[0].ID != "carburettor_ice" {
		t.Errorf("the list begins %+v, want carburettor_ice", r.Causes[:min(2, len(r.Causes))])
	}
	for _, c := range r.NextChecks {
		for _, an := range c.Answers {
			if s := f.Sign(an.ID); s >= 0 && !f.SignOn[s] {
				t.Errorf("check %s asks for %s, which this rig cannot tell", c.ID, an.ID)
			}
		}
	}
}

func TestGaugesNotFittedAreNeverAskedFor(t *testing.T) {
	for _, id := range []string{"teasel", "pipit"} {
		e := engine(t, id)
		f := e.Fitted()
		for i, s := range f.Signs {
			if s.Kind != knowledge.ReadingSign || !f.SignOn[i] {
				continue
			}
			// one rule of the sign must be in reach of what is fitted; what is
			// worked out from other readings is no gauge, and what is answered
			// in words of a part that is there takes a person
			fitted := func(rule int) bool {
				for _, n := range f.Base.Rules[rule].Program.Reads() {
					k := slices.IndexFunc(f.Readings, func(r knowledge.Reading) bool { return r.ID == n.ID })
					if k < 0 || f.Readings[k].Computed {
						continue
					}
					if _, ok := f.Rig.Gauge(n.ID); !ok && !f.AnswerOn(k) {
						return false
					}
				}
				return true
			}
			if len(s.Rules) > 0 && !slices.ContainsFunc(s.Rules, fitted) {
				t.Errorf("%s: sign %s can only be told by gauges that are not fitted", id, s.ID)
			}
		}
	}
}

func TestALedgerAddsUp(t *testing.T) {
	for name, s := range shippedSheets(t) {
		if !strings.Contains(name, "oil") {
			continue
		}
		e := engine(t, s.Rig.Value)
		a, _ := e.Read(s)
		for _, c := range e.Diagnose(a, diagnose.Situation{}).Causes {
			sum := 0.0
			for _, l := range c.Ledger {
				sum += l.Points
			}
			if math.Abs(sum-c.Total) > .005*float64(len(c.Ledger)+1) {
				t.Errorf("%s: %s adds up to %.2f, total %.2f", name, c.ID, sum, c.Total)
			}
		}
	}
}

func TestFirstActionsNeverRestOnTheRanking(t *testing.T) {
	s := shipped()
	one := engine(t, "hollin")
	other, l := diagnose.New(s.base.On(s.rigs["hollin"]), diagnose.Settings{NoPatterns: true, CauseByCause: true, PriorPower: .1, SeenWeight: .1})
	if len(l) > 0 {
		t.Fatal(l)
	}
	for name, sh := range shippedSheets(t) {
		if sh.Rig.Value != "hollin" {
			continue
		}
		a, _ := one.Read(sh)
		if diff := cmp.Diff(one.Diagnose(a, diagnose.Situation{Causes: 1}).FirstActions, other.Diagnose(a, diagnose.Situation{Causes: 1}).FirstActions); diff != "" {
			t.Errorf("%s: another ranking gives other first actions:\n%s", name, diff)
		}
	}
}

// A check that lets fuel out, puts it under pressure or primes is offered while nobody
// has spoken of a leak, and not once fuel is said to leak, to lie about or to burn, in whatever words.
func TestWhatLetsFuelOutIsNotOfferedWhileFuelLeaks(t *testing.T) {
	e := engine(t, "hollin")
	sort := func(name string) map[string]bool {
		of := map[string]bool{}
		for _, c := range e.Fitted().Checks {
			if slices.ContainsFunc(c.Dangers, func(d document.Text) bool { return d.Value == name }) {
				of[c.ID.Value] = true
			}
		}
		return of
	}
	lets, primes := sort("let_out"), sort("prime")
	offered := func(told string, lets map[string]bool) (out, held []string) {
		r := e.Diagnose(read(t, e, "rig: hollin\nmoments:\n  - phase: crank\n    symptoms: ["+told+"]\n"), diagnose.Situation{})
		for _, c := range slices.Concat(r.NextChecks, r.NeedsTools) {
			if lets[c.ID] {
				out = append(out, c.ID)
			}
		}
		for _, c := range r.HeldBack {
			if lets[c.ID] {
				held = append(held, c.ID)
			}
		}
		return out, held
	}
	if out, _ := offered("will_not_start", lets); len(out) == 0 {
		t.Error("nothing that lets fuel out is offered for an engine that will not start")
	}
	for _, leak := range []string{"fuel_leak_seen", "fuel_leak_any", "fuel_pipe_joint_wet", "drain_runs_fuel"} {
		if out, held := offered("will_not_start, "+leak, lets); len(out) > 0 || len(held) == 0 {
			t.Errorf("%s: offered %v, held back %v", leak, out, held)
		}
	}
	for _, raw := range []string{"strong_fuel_smell", "drain_runs_fuel", "exhaust_torching"} {
		if out, _ := offered("will_not_start, "+raw, primes); len(out) > 0 || len(primes) == 0 {
			t.Errorf("%s: no more prime, and offered is %v of %v", raw, out, primes)
		}
	}
}
