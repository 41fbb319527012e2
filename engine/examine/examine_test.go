package examine_test

import (
	"io/fs"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"snagwise/engine/diagnose"
	"snagwise/engine/examine"
	"snagwise/engine/sheet"
	"snagwise/engine/shelf"
)

// A small base that loads, on which each finding is made once.
var small = fstest.MapFS{
	"sources.yaml": {Data: []byte("sources:\n  - {id: common practice, what: the trade, kind: common practice}\n")},
	"fuel/parts.yaml": {Data: []byte(`system: fuel
flows: [{id: fuel, means: fuel}]
parts:
  - {id: tank, means: tank, carries: [fuel]}
  - {id: pump, means: pump, carries: [fuel]}
usually: {fuel: [[tank, pump]]}
gauges:
  fuel_pressure: {unit: psi, tap: pump}
`)},
	"rigs/bench.yaml": {Data: []byte(`rig: bench
name: Bench
means: A tank and a pump.
invented: true
phases: [rest, idle, run_up, stopped]
parts: [tank, pump]
gauges:
  fuel_pressure: {unit: psi, dial: [0, 20], class: 5, bands: {idle: [8, 12], run_up: [9, 12]}}
`)},
	"fuel/readings.yaml": {Data: []byte(`system: fuel
readings:
  - {id: fuel_pressure, means: pressure of the fuel, quantity: gauge pressure, unit: psi, gives: number, words: [fuel pressure], source: [common practice]}
`)},
	"fuel/states.yaml": {Data: []byte(`system: fuel
states:
  - {id: starved, means: too little fuel, shows: {low_pressure: often}}
  - {id: flooded, means: too much fuel, shows: {drips: often, smells: often}}
`)},
	"fuel/signs.yaml": {Data: []byte(`system: fuel
signs:
  - {id: drips, means: it drips, words: [dripping]}
  - {id: smells, means: it smells, words: [smelly]}
  - {id: found_choked, means: found choked, kind: check, words: [choked]}
`)},
	"fuel/rules.yaml": {Data: []byte(`system: fuel
rules:
  - id: low_pressure
    when: low(fuel_pressure)
    means: pressure below its band
    source: [common practice]
  - id: pressure_under_nine
    concludes: low_pressure
    when: fuel_pressure < psi(8.5)
    means: pressure under 8.5 psi
    source: [common practice]
`)},
	"fuel/causes.yaml": {Data: []byte(`system: fuel
causes:
  - {id: tank_choked, part: tank, fails_by: outlet choked, how_common: rare, gives: {starved: almost always}, direct: {found_choked: almost always}, who: operator, source: [common practice]}
  - {id: pump_worn, part: pump, fails_by: worn, how_common: rare, gives: {starved: almost always}, who: operator, source: [common practice]}
  - {id: pump_open, part: pump, fails_by: valve held open, how_common: rare, gives: {flooded: almost always}, who: operator, source: [common practice]}
`)},
	"fuel/checks.yaml": {Data: []byte(`system: fuel
rig_states:
  - {id: earthed, means: stopped and earthed, minutes_from: {running: 5}, source: [common practice]}
  - {id: running, means: running, minutes_from: {earthed: 5}, running: true, source: [common practice]}
checks:
  - {id: look, do: Look at the outlet, tells: [found_choked], rig_state: earthed, minutes: 5, who: operator, source: [common practice]}
  - {id: watch, do: Watch for drips, tells: [drips], rig_state: running, minutes: 5, caution: [keep clear], who: operator, source: [common practice]}
`)},
}

// with returns the small base with one text put in place of another.
func with(file, old, new string) fs.FS {
	m := fstest.MapFS{}
	for name, f := range small {
		m[name] = f
	}
	text := string(small[file].Data)
	if !strings.Contains(text, old) {
		panic("no " + old + " in " + file)
	}
	m[file] = &fstest.MapFile{Data: []byte(strings.Replace(text, old, new, 1))}
	return m
}

func look(t *testing.T, fsys fs.FS) []string {
	t.Helper()
	s, l := shelf.Open(shelf.Want{Layers: []fs.FS{fsys}})
	if len(l) > 0 {
		t.Fatal(l)
	}
	src, l := s.Source()
	if len(l) > 0 {
		t.Fatal(l)
	}
	e, l := diagnose.New(s.Base.On(s.Rigs[0]), diagnose.Settings{})
	if len(l) > 0 {
		t.Fatal(l)
	}
	raw, l := sheet.Parse("one.yaml", []byte("rig: bench\nmoments:\n  - {phase: idle, readings: {fuel_pressure: 6 psi}}\n"))
	if len(l) > 0 {
		t.Fatal(l)
	}
	a, l := e.Read(raw)
	if len(l) > 0 {
		t.Fatal(l)
	}
	var out []string
	for _, p := range examine.Examine(examine.Want{Source: src, Base: s.Base, Engines: []*diagnose.Engine{e}, Told: []examine.Told{{Engine: e, Account: a}}}) {
		out = append(out, p.Pos.String()+" "+p.Check)
	}
	return out
}

// plain is what is found in the small base as it stands.
var plain = []string{"fuel/rules.yaml:9:11 finer-than-the-gauge", "fuel/states.yaml:3:10 one-witness"}

func TestEachWeaknessIsFoundWhereItIs(t *testing.T) {
	if got := look(t, small); !slices.Equal(got, plain) {
		t.Fatalf("as it stands: got %q, want %q", got, plain)
	}
	for _, tt := range []struct {
		name, file, old, new string
		want                 string
	}{
		{"a rule that no case tells", "fuel/rules.yaml", "low(fuel_pressure)", "fuel_pressure > psi(15)", "fuel/rules.yaml:3:9 never-true"},
		{"the wider rule beside it", "fuel/rules.yaml", "fuel_pressure < psi(8.5)", "low(fuel_pressure) and fuel_pressure < psi(7)", "fuel/rules.yaml:7:9 shadowed"},
		{"nothing parts two causes", "fuel/causes.yaml", "direct: {found_choked: almost always}, ", "direct: {found_choked: seldom}, ", "fuel/causes.yaml:4:10 nothing-parts"},
		{"one word for two", "fuel/signs.yaml", "[smelly]", "[dripping.]", "fuel/signs.yaml:4:10 said-twice"},
		{"no source", "fuel/checks.yaml", "who: operator, source: [common practice]}\n  - {id: watch", "who: operator}\n  - {id: watch", "fuel/checks.yaml:6:10 no-source"},
		{"no caution while running", "fuel/checks.yaml", "caution: [keep clear], ", "", "fuel/checks.yaml:7:10 no-caution"},
		{"a figure beside a difference", "fuel/rules.yaml", "fuel_pressure < psi(8.5)", `at(phase == "run_up", fuel_pressure) < psi(8.5)`, "fuel/rules.yaml:9:33 finer-than-the-gauge"},
		{"no caution with fuel", "fuel/checks.yaml", "Look at the outlet", "Run fuel through the outlet", "fuel/checks.yaml:6:10 no-caution"},
	} {
		got := look(t, with(tt.file, tt.old, tt.new))
		if !slices.Contains(got, tt.want) {
			t.Errorf("%s: got %q, want %q among them", tt.name, got, tt.want)
		}
	}
}

func TestADifferenceIsNotHeldAgainstABand(t *testing.T) {
	got := look(t, with("fuel/rules.yaml", "fuel_pressure < psi(8.5)", `fuel_pressure - at(phase == "idle", fuel_pressure) < psi(8.5)`))
	if slices.ContainsFunc(got, func(s string) bool { return strings.HasSuffix(s, "finer-than-the-gauge") }) {
		t.Errorf("got %q, want no finer-than-the-gauge", got)
	}
}

func TestAFindingIsAcceptedByItsName(t *testing.T) {
	accept := func(entry string) fs.FS {
		return with("fuel/states.yaml", "system: fuel\n", "system: fuel\naccepted:\n  - "+entry+"\n")
	}
	left := "fuel/states.yaml:5:10 one-witness"
	for _, tt := range []struct {
		entry string
		want  []string
	}{
		{"{check: one-witness, about: [starved], reason: so it is}", plain[:1]},
		{"{check: one-witness, about: [flooded], reason: so it is}", []string{plain[0], "fuel/states.yaml:3:34 accepted-for-nothing", left}},
		{"{check: one-witness, about: [starved, flooded], reason: so it is}", []string{plain[0], "fuel/states.yaml:3:43 accepted-for-nothing"}},
		{"{check: one-witness, about: [starved, starved], reason: so it is}", []string{plain[0], "fuel/states.yaml:3:43 accepted-twice"}},
		{"{check: one-witness, about: [starved], reason: ' '}", []string{plain[0], "fuel/states.yaml:3:52 accepted-without-reason", left}},
		{"{check: no-caution, about: [starved], reason: so it is}", []string{plain[0], "fuel/states.yaml:3:33 accepted-for-nothing", left}},
		{"{check: one-witnes, about: [starved], reason: so it is}", []string{plain[0], "fuel/states.yaml:3:13 unknown-name", left}},
		{"{check: finer-than-the-gauge, about: [pressure_under_nine], reason: so it is}", []string{plain[0], "fuel/states.yaml:3:43 accepted-for-nothing", left}},
		{"{check: finer-than-the-gauge, about: [pressure_under_nine fuel_pressure psi(8.5)], reason: so it is}", []string{left}},
	} {
		if got := look(t, accept(tt.entry)); !slices.Equal(got, tt.want) {
			t.Errorf("%s: got %q, want %q", tt.entry, got, tt.want)
		}
	}
}

func TestAcceptingOneFindingLeavesTheNextOfItsKind(t *testing.T) {
	fsys := with("fuel/states.yaml", "system: fuel\n", "system: fuel\naccepted:\n  - {check: one-witness, about: [starved], reason: so it is}\n").(fstest.MapFS)
	text := strings.Replace(string(fsys["fuel/states.yaml"].Data), "shows: {drips: often, smells: often}", "shows: {drips: often}", 1)
	fsys["fuel/states.yaml"] = &fstest.MapFile{Data: []byte(text)}
	fsys["fuel/causes.yaml"] = &fstest.MapFile{Data: []byte(strings.Replace(string(small["fuel/causes.yaml"].Data), "gives: {flooded: almost always}", "gives: {flooded: almost always}, direct: {smells: often}", 1))}
	want := []string{plain[0], "fuel/states.yaml:6:10 one-witness"}
	if got := look(t, fsys); !slices.Equal(got, want) {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestNothingIsAcceptedInBulk(t *testing.T) {
	for _, tt := range []struct{ entry, want string }{
		{"{check: one-witness, reason: so it is}", `fuel/states.yaml:3:5: "about" is missing [missing-key]`},
		{"{check: one-witness, about: [], reason: so it is}", `fuel/states.yaml:3:33: "about" is an empty list [missing-value]`},
		{"{check: one-witness, about: [starved]}", `fuel/states.yaml:3:5: "reason" is missing [missing-key]`},
	} {
		_, l := shelf.Open(shelf.Want{Layers: []fs.FS{with("fuel/states.yaml", "system: fuel\n", "system: fuel\naccepted:\n  - "+tt.entry+"\n")}})
		if len(l) != 1 || l[0].String() != tt.want {
			t.Errorf("%s: got %v, want %v", tt.entry, l, tt.want)
		}
	}
}

func TestEveryCheckHasAShortStableName(t *testing.T) {
	list := examine.Checks()
	if !slices.IsSortedFunc(list, func(a, b examine.Check) int { return strings.Compare(a.Name, b.Name) }) {
		t.Error("the checks are not in the order of their names")
	}
	for _, c := range list {
		if c.Finds == "" || strings.ContainsAny(c.Name, " _") || c.Name != strings.ToLower(c.Name) {
			t.Errorf("%q: %q", c.Name, c.Finds)
		}
	}
}
