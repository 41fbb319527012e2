package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"snagwise/engine/problem"
	"snagwise/engine/quantity"
)

// account reads and looks up a sheet that must be without fault.
func account(t *testing.T, text string) *Account {
	t.Helper()
	s, l := Parse("snag.yaml", []byte(text))
	if len(l) > 0 {
		t.Fatalf("%v\nof\n%s", l, text)
	}
	a, l := testLexicon.Resolve(s)
	if len(l) > 0 {
		t.Fatalf("%v\nof\n%s", l, text)
	}
	return a
}

// tell writes an account in words, one thing a line, for comparing.
func tell(a *Account) string {
	var b strings.Builder
	v := testLexicon.Vocabulary()
	ids := func(list []Named, at []int) string {
		var out []string
		for _, i := range at {
			out = append(out, list[i].ID)
		}
		return strings.Join(out, " ")
	}
	parts := func(at []int) string {
		var out []string
		for _, i := range at {
			out = append(out, v.Parts[i].ID)
		}
		return strings.Join(out, " ")
	}
	readings := func(at []int) string {
		var out []string
		for _, i := range at {
			out = append(out, v.Readings[i].ID)
		}
		return strings.Join(out, " ")
	}
	value := func(x Value) string {
		s := v.Readings[x.Reading].ID
		if x.IsFigure {
			s += " = " + x.Figure.String()
		}
		if x.Answer >= 0 {
			s += " = " + v.Readings[x.Reading].Answers[x.Answer]
		}
		if x.Judged != 0 {
			s += " is " + x.Judged.String()
		}
		return s
	}
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	opt := func(what, s string) {
		if s != "" {
			line("%s %s", what, s)
		}
	}
	opt("rig", a.Rig)
	for _, w := range a.Weather {
		line("weather %s", value(w))
	}
	for _, m := range a.Moments {
		var ph []string
		for _, p := range m.Phases.List() {
			ph = append(ph, v.Phases[p].ID)
		}
		line("moment %s", strings.Join(ph, "|"))
		if !math.IsNaN(m.After) {
			line(" after %g s", m.After)
		}
		for _, c := range m.Controls {
			line(" %s at %s", v.Controls[c.Control].ID, v.Controls[c.Control].Positions[c.Position].ID)
		}
		for _, x := range m.Readings {
			line(" %s", value(x))
		}
		opt(" seen", ids(v.Signs, m.Signs))
		opt(" not seen", ids(v.Signs, m.NotSeen))
		opt(" unread", readings(m.Unread))
		opt(" course", ids(v.Courses, m.Courses))
		opt(" normal", ids(v.Normals, m.Normals))
	}
	for _, s := range a.Statements {
		line("part %s: %v %q when=%v outcome=%v good=%v sign=%d leaks=%v %v felt=%v flow=%d gone=%s", parts(s.Parts), s.Manner, s.Text, s.When, s.Outcome, s.Good,
			s.Sign, s.Fluid, s.Amount, s.Feeling, s.Flow, parts(s.Gone))
	}
	opt("circumstances", ids(v.Circumstances, a.Circumstances))
	opt("trials", ids(v.Trials, a.Trials))
	opt("courses", ids(v.Courses, a.Courses))
	opt("normals", ids(v.Normals, a.Normals))
	opt("normal readings", readings(a.NormalRead))
	opt("notes", strings.Join(a.Notes, "|"))
	opt("found", ids(v.Causes, a.Case.Found))
	opt("also right", ids(v.Causes, a.Case.AlsoRight))
	opt("also found", ids(v.Causes, a.Case.AlsoFound))
	opt("about", strings.TrimSpace(fmt.Sprintf("%v %v %v", a.Case.About, a.Case.Evidence, a.Case.Certainty)))
	for _, c := range a.Case.Checks {
		line("check %s %g min: %s sign=%d %v", v.Checks[c.Check].ID, c.Minutes, c.Outcome, c.Sign, c.Seen)
	}
	return b.String()
}

func TestResolveSample(t *testing.T) {
	want := `rig hollin
weather air_temperature = 6 degC
weather dew_point = 4 degC
weather ambient_pressure = 1004 hPa
moment idle
 booster at on
 fuel_pump_pressure = 16 psi
 fuel_delivery_pressure = 11 psi
moment display
 after 720 s
 engine_rpm = 2400 rpm -> 1950 rpm
 oil_pressure is normal
 fuel_pump_pressure = 16.5 psi
 fuel_delivery_pressure = 8.2 psi is falling
 seen pops_back_running rpm_top_short
 not seen black_smoke
 unread boost
 course came_on_gradually
 normal cranks_well
part fuel_fine_filter: 2 "good" when= outcome= good=true sign=-1 leaks=  felt= flow=-1 gone=
part engine_fuel_pump: 5 "" when= outcome= good=false sign=-1 leaks=  felt= flow=0 gone=carburettor_metering carburettor_nozzle
part carburettor_metering carburettor_nozzle: 0 "refitted" when=before this run outcome= good=false sign=-1 leaks=  felt= flow=-1 gone=
part magneto_left: 1 "" when= outcome=no better good=false sign=-1 leaks=  felt= flow=-1 gone=
part oil_cooler: 3 "a pool" when= outcome= good=false sign=-1 leaks=oil runs felt= flow=-1 gone=
part stub_a3: 4 "" when= outcome= good=false sign=-1 leaks=  felt=cold flow=-1 gone=
circumstances just_transported
trials booster_on_no_change
notes The element was last seen in spring.
found fuel_filter_choked
also found condenser_weak
about invented rich confirmed
check fuel_flow_test 10 min: full flow sign=-1 false
check filter_bowl_open 25 min: filter_element_found_black sign=6 true
`
	if diff := cmp.Diff(want, tell(account(t, sample))); diff != "" {
		t.Errorf("the account differs (-want +got):\n%s", diff)
	}
}

// Every way of saying a thing that must be understood.
func TestResolveWords(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"moments: [{phase: at power}]", "moment run_up|display\n"},
		{"moments: [{phase: At-Power}]", "moment run_up|display\n"},
		{"moments: [{phase: starting}]", "moment crank\n"},
		{"moments: [{phase: running}]", "moment idle|warm_up|run_up|display|cool_down\n"},
		{"moments: [{phase: [idle, warm-up]}]", "moment idle|warm_up\n"},
		{"moments: [{symptoms: rough}]", "moment \n seen runs_rough\n"},
		{"moments: [{phase: idle}, {phase: idle, after: 1 h 20 min}]", "moment idle\nmoment idle\n after 4800 s\n"},
		{"moments: [{readings: {oil-pressure: 60 psi}}]", "moment \n oil_pressure = 60 psi\n"},
		{"moments: [{readings: {Oil Pressure: 4.1 bar}}]", "moment \n oil_pressure = 4.1 bar\n"},
		{"moments: [{readings: {the revs: 1300 r.p.m.}}]", "moment \n engine_rpm = 1300 rpm\n"},
		{"moments: [{readings: {oil_pressure: low}}]", "moment \n oil_pressure is low\n"},
		{"moments: [{readings: {oil_pressure: Over the Stop}}]", "moment \n oil_pressure is over the stop\n"},
		{"moments: [{readings: {oil_pressure: over_stop}}]", "moment \n oil_pressure is over the stop\n"},
		{"moments: [{readings: {rpm: falling}}]", "moment \n engine_rpm is falling\n"},
		{"moments: [{readings: {boost: hunting}}]", "moment \n boost is unsteady\n"},
		{"moments: [{readings: {oil_pressure: [20 psi, low, falling]}}]", "moment \n oil_pressure = 20 psi is low, falling\n"},
		{"moments: [{readings: {drop_on_left: 150-175 rpm}}]", "moment \n drop_on_left = 150 rpm to 175 rpm\n"},
		{"moments: [{readings: {oil_pressure: '>20 psi'}}]", "moment \n oil_pressure = > 20 psi\n"},
		{"moments: [{readings: {oil_pressure: '?'}}]", "moment \n unread oil_pressure\n"},
		{"moments: [{readings: {oil_pressure: could not be read}}]", "moment \n unread oil_pressure\n"},
		{"moments: [{readings: {cranking_blade_count: 18}}]", "moment \n cranking_blade_count = 18\n"},
		{"moments: [{readings: {fuel_sample: Water Globules}}]", "moment \n fuel_sample = water globules\n"},
		{"moments: [{readings: {fuel_sample: clear and right color}}]", "moment \n fuel_sample = clear and right colour\n"},
		{"moments: [{readings: {test_gap_spark: none}}]", "moment \n test_gap_spark = none\n"},
		{"moments: [{readings: {test_gap_spark: unsteady}}]", "moment \n test_gap_spark is unsteady\n"},
		{"moments: [{controls: {throttle lever: open, magneto_switch: left}}]", "moment \n throttle at wide\n magneto_switch at left\n"},
		{"moments: [{controls: {booster: off}}]", "moment \n booster at off\n"},
		{"moments: [{symptoms: [coughs through the carburetor]}]", "moment \n seen pops_back_running\n"},
		{"moments: [{symptoms: [no black smoke]}]", "moment \n not seen black_smoke\n"},
		{"moments: [{symptoms: [not_black_smoke]}]", "moment \n not seen black_smoke\n"},
		{"moments: [{symptoms: [no spark found]}]", "moment \n seen no_spark_found\n"},
		{"moments: [{symptoms: [rough, lumpy]}]", "moment \n seen runs_rough\n"},
		{"normal: [runs sweetly, oil_pressure]", "normals runs_smoothly\nnormal readings oil_pressure\n"},
		{"course: comes and goes", "courses comes_and_goes\n"},
		{"trials: [new mag and no better]", "trials magneto_changed_no_change\n"},
		{"parts: [{part: left mag, changed: fixed it}]",
			"part magneto_left: 1 \"\" when= outcome=cured good=false sign=-1 leaks=  felt= flow=-1 gone=\n"},
		{"parts: [{part: oil_cooler, leaks: [oil, air], how_much: drips}]",
			"part oil_cooler: 3 \"drips\" when= outcome= good=false sign=-1 leaks=oil drips felt= flow=-1 gone=\n" +
				"part oil_cooler: 3 \"drips\" when= outcome= good=false sign=-1 leaks=air drips felt= flow=-1 gone=\n"},
		{"parts: [{part: [magneto_left, magneto_right], worked_on: points cleaned, when: last week}]",
			"part magneto_left: 0 \"points cleaned\" when=before this run outcome= good=false sign=-1 leaks=  felt= flow=-1 gone=\n" +
				"part magneto_right: 0 \"points cleaned\" when=before this run outcome= good=false sign=-1 leaks=  felt= flow=-1 gone=\n"},
		{"parts: [{part: fuel_fine_filter, looked_at: element black}]",
			"part fuel_fine_filter: 2 \"element black\" when= outcome= good=false sign=6 leaks=  felt= flow=-1 gone=\n"},
		{"parts: [{part: fuel_fine_filter, looked_at: bowl full of fuel}]",
			"part fuel_fine_filter: 2 \"bowl full of fuel\" when= outcome= good=false sign=-1 leaks=  felt= flow=-1 gone=\n"},
		{"parts: [{flow: petrol, gone_at: fine fuel filter}]",
			"part : 5 \"\" when= outcome= good=false sign=-1 leaks=  felt= flow=0 gone=fuel_fine_filter\n"},
		{"checks: [{check: fuel flow test, minutes: 5 min, outcome: no black smoke}]", "check fuel_flow_test 5 min: no black smoke sign=2 false\n"},
		{"notes: a single note", "notes a single note\n"},
	} {
		if diff := cmp.Diff(tt.want, tell(account(t, tt.text))); diff != "" {
			t.Errorf("%s (-want +got):\n%s", tt.text, diff)
		}
	}
}

// What must be refused, with the place and the words of the message.
func TestRefused(t *testing.T) {
	for _, tt := range []struct {
		name, text string
		want       []string // place: text [check]; hint, as far as given
	}{
		{"unknown top key", "rig: hollin\nmomments: []", []string{`snag.yaml:2:1: unknown key "momments" [unknown-key]; did you mean "moments"?`}},
		{"moment key at the top", "symptoms: [rough]", []string{`snag.yaml:1:1: unknown key "symptoms" [unknown-key]; it belongs in a moment`}},
		{"top key in a moment", "moments: [{trials: [x]}]", []string{`snag.yaml:1:12: unknown key "trials" [unknown-key]; it belongs at the top of the sheet`}},
		{"statement key in a moment", "moments:\n  - felt: hot", []string{`snag.yaml:2:5: unknown key "felt" [unknown-key]; it belongs in a statement, under parts`}},
		{"list for a map", "- rig: hollin", []string{`snag.yaml:1:1: this is a list [wrong-type]; wanted a map with the keys title, what`}},
		{"scalar for a map", "hollin", []string{`snag.yaml:1:1: this is "hollin" [wrong-type]`}},
		{"readings as a list", "moments: [{readings: [oil_pressure]}]", []string{`snag.yaml:1:22: this is not a map [wrong-type]; wanted names with values`}},
		{"reading without a value", "moments: [{readings: {oil_pressure: }}]", []string{`snag.yaml:1:37: the value is missing [missing-value]`}},
		{"reading as a map", "moments: [{readings: {oil_pressure: {a: b}}}]", []string{`: this is a map [wrong-type]`}},
		{"key twice", "rig: hollin\nrig: teasel", []string{`snag.yaml:2:1: "rig" stands twice in one map [key-twice]`}},
		{"other rig", "rig: teasel", []string{`snag.yaml:1:6: the sheet is of the rig "teasel" [wrong-rig]; it is read for the rig "hollin"`}},
		{"unknown phase", "moments: [{phase: dispaly}]", []string{`snag.yaml:1:19: unknown phase "dispaly" [unknown-name]; did you mean "display"?`}},
		{"unknown rough phase", "moments: [{phase: at powr}]", []string{`unknown phase "at powr" [unknown-name]; did you mean "at power"?`}},
		{"first after", "moments: [{phase: idle, after: 3 min}]", []string{`the first moment has none before it [no-moment-before]`}},
		{"after without unit", "moments: [{phase: idle}, {phase: idle, after: 12}]", []string{`snag.yaml:1:49: "12": the unit is missing [bad-quantity]; time is told in min, s`}},
		{"negative after", "moments: [{phase: idle}, {after: -3 min}]", []string{`-3 min is negative`}},
		{"unknown reading", "moments: [{readings: {oil_presure: 60 psi}}]", []string{`snag.yaml:1:23: unknown reading "oil_presure" [unknown-name]; did you mean "oil_pressure"?`}},
		{"ambiguous reading", "moments: [{readings: {pressure: 60 psi}}]",
			[]string{`"pressure" means more than one reading [ambiguous]; say which: fuel_delivery_pressure, oil_pressure`}},
		{"reading twice", "moments:\n  - readings: {rpm: 1300 rpm, engine_rpm: 1400 rpm}",
			[]string{`snag.yaml:2:31: reading "engine_rpm" is given twice in one moment [reading-twice]; it stands first at snag.yaml:2:16`}},
		{"two figures", "moments: [{readings: {oil_pressure: [60 psi, 50 psi]}}]", []string{`snag.yaml:1:46: reading "oil_pressure" is given two figures in one moment [reading-twice]`}},
		{"two answers", "moments: [{readings: {fuel_sample: [dirt, cloudy]}}]", []string{`reading "fuel_sample" is given two answers`}},
		{"missing unit", "moments: [{readings: {oil_pressure: 60}}]", []string{`snag.yaml:1:39: "60": the unit is missing [bad-quantity]; gauge pressure is told in psi`}},
		{"bad unit", "moments: [{readings: {oil_pressure: 60 pis}}]", []string{`snag.yaml:1:40: "60 pis": unknown unit "pis" [bad-quantity]; did you mean "psi"?`}},
		{"wrong dimension", "moments: [{readings: {oil_pressure: 60 degC}}]", []string{`degC is a unit of temperature, not of gauge pressure`}},
		{"NaN", "moments: [{readings: {oil_pressure: .nan}}]", []string{`".nan" is no value of "oil_pressure" [unknown-word]`}},
		{"NaN with unit", "moments: [{readings: {oil_pressure: NaN psi}}]", []string{`"NaN psi" is no value of "oil_pressure" [unknown-word]`}},
		{"huge", "moments: [{readings: {oil_pressure: 1e99 psi}}]", []string{`too large for any gauge`}},
		{"judged with a slip", "moments: [{readings: {oil_pressure: lwo}}]", []string{`"lwo" is no value of "oil_pressure" [unknown-word]; did you mean "low"?`}},
		{"judged both ways", "moments: [{readings: {oil_pressure: [low, high]}}]", []string{`"oil_pressure" cannot be low and high at once [contradiction]`}},
		{"rising and falling", "moments: [{readings: {oil_pressure: [rising, falling]}}]", []string{`cannot be rising and falling at once [contradiction]; say unsteady`}},
		{"value and unread", "moments: [{readings: {oil_pressure: 60 psi}, could_not_read: [oil_pressure]}]", []string{`"oil_pressure" has a value and could not be read in one moment [contradiction]`}},
		{"normal and low", "moments: [{readings: {oil_pressure: low}, normal: [oil_pressure]}]", []string{`"oil_pressure" is said to be in order and is told low [contradiction]`}},
		{"unknown answer", "moments: [{readings: {fuel_sample: watr globules}}]", []string{`"watr globules" is no answer of "fuel_sample" [unknown-answer]; did you mean "water globules"?`}},
		{"no answer at all", "moments: [{readings: {fuel_sample: 3 psi}}]", []string{`is no answer of "fuel_sample" [unknown-answer]; one of: clear and right colour, water globules, cloudy, dirt`}},
		{"unknown control", "moments: [{controls: {boster: on}}]", []string{`unknown lever or switch "boster" [unknown-name]; did you mean "booster"?`}},
		{"unknown position", "moments: [{controls: {booster: onn}}]", []string{`unknown position of booster "onn" [unknown-name]; did you mean "on"?`}},
		{"two positions", "moments: [{controls: {booster: [on, off]}}]", []string{`"booster" has 2 positions [wrong-type]`}},
		{"control twice", "moments: [{controls: {booster: on, booster_switch: off}}]", []string{`"booster" is given twice in one moment [control-twice]`}},
		{"unknown symptom", "moments: [{symptoms: [blak_smoke]}]", []string{`snag.yaml:1:23: unknown symptom "blak_smoke" [unknown-name]; did you mean "black_smoke"?`}},
		{"ambiguous symptom", "moments: [{symptoms: [cut out]}]", []string{`"cut out" means more than one symptom [ambiguous]; say which: engine_stopped, stops_suddenly`}},
		{"reading as symptom", "moments: [{symptoms: [oil_pressure]}]", []string{`"oil_pressure" is a reading, not a symptom [wrong-place]; put it under readings, with a value`}},
		{"seen and not seen", "moments: [{symptoms: [rough], not_seen: [runs_rough]}]", []string{`"runs_rough" is told as seen and as not seen in one moment [contradiction]`}},
		{"unknown normal", "normal: [cranks_wel]", []string{`unknown thing in order "cranks_wel" [unknown-name]; did you mean "cranks_well"?`}},
		{"empty symptom", "moments: [{symptoms: ['']}]", []string{`an empty symptom [missing-value]`}},
		{"unknown part", "parts: [{part: oil_coler, looked_at: good}]", []string{`unknown part "oil_coler" [unknown-name]; did you mean "oil_cooler"?`}},
		{"no part", "parts: [{looked_at: good}]", []string{`a statement without a part [missing-key]`}},
		{"nothing said of a part", "parts: [{part: oil_cooler}]", []string{`nothing is said of "oil_cooler" [missing-key]`}},
		{"unknown outcome", "parts: [{part: oil_cooler, changed: no beter}]", []string{`unknown outcome of a change "no beter" [unknown-word]; did you mean "no better"?`}},
		{"unknown feeling", "parts: [{part: oil_cooler, felt: purple}]", []string{`unknown feel of a part "purple" [unknown-word]; one of: hot, cold`}},
		{"unknown fluid", "parts: [{part: oil_cooler, leaks: custard}]", []string{`unknown thing that leaks "custard" [unknown-word]; one of: oil, fuel, coolant, air, exhaust`}},
		{"how much of nothing", "parts: [{part: oil_cooler, how_much: drips}]", []string{`and no leak is told [lone-key]`}},
		{"when of nothing", "parts: [{part: oil_cooler, when: before}]", []string{`and no work is told [lone-key]`}},
		{"looked at, a slip in a sign", "parts: [{part: oil_cooler, looked_at: filter_element_fond_black}]", []string{`unknown symptom "filter_element_fond_black" [unknown-name]; did you mean "filter_element_found_black"?`}},
		{"flow with a part", "parts: [{part: oil_cooler, flow: fuel, gone_at: oil_cooler}]", []string{`a part and a flow in one statement [two-statements]`}},
		{"flow unsaid", "parts: [{gone_at: oil_cooler}]", []string{`which flow is not said [missing-key]`}},
		{"flow nowhere", "parts: [{flow: fuel}]", []string{`where the flow is good or gone is not said [missing-key]`}},
		{"unknown flow", "parts: [{flow: feul, gone_at: oil_cooler}]", []string{`unknown flow "feul" [unknown-name]; did you mean "fuel"?`}},
		{"unknown cause", "found: [fuel_filter_chocked]", []string{`unknown cause "fuel_filter_chocked" [unknown-name]; did you mean "fuel_filter_choked"?`}},
		{"check without a name", "checks: [{minutes: 3}]", []string{`"check" is missing [missing-key]`}},
		{"bad minutes", "checks: [{check: fuel_flow_test, minutes: 3 psi}]", []string{`psi is a unit of gauge pressure, not of time`}},
		{"unknown about", "about: realish", []string{`unknown kind of case "realish" [unknown-word]`}},
		{"several at once", "moments:\n  - phase: idel\n    symptoms: [blak_smoke]\n    readings: {oil_pressure: 60 pis}",
			[]string{`snag.yaml:2:12: unknown phase "idel"`, `snag.yaml:3:16: unknown symptom "blak_smoke"`, `snag.yaml:4:33: "60 pis": unknown unit "pis"`}},
		{"empty file", "", []string{`snag.yaml: the file is empty [empty-file]`}},
		{"only comments", "# nothing\n", []string{`snag.yaml: the file holds nothing but comments [empty-file]`}},
		{"binary", "rig: h\x00llin", []string{`snag.yaml: the file is binary, not text [not-text]`}},
		{"not UTF-8", "rig: h\xf6llin", []string{`snag.yaml:1:7: byte 0xf6 is not UTF-8 [not-utf8]`}},
		{"alias", "moments: [&a {phase: idle}, *a]", []string{`[no-aliases]`}},
		{"not YAML", "moments: [", []string{`[yaml-syntax]`}},
		{"a word too long to match", "moments: [{symptoms: [" + strings.Repeat("x", 5000) + "]}]", []string{`unknown symptom "` + strings.Repeat("x", 60) + `..." [unknown-name]`}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s, l := Parse("snag.yaml", []byte(tt.text))
			if s != nil {
				_, more := testLexicon.Resolve(s)
				l = append(l, more...).Sorted()
			}
			if len(tt.want) != len(l) && tt.name != "alias" {
				t.Errorf("%d problems, want %d:\n%v", len(l), len(tt.want), l)
			}
			for i, want := range tt.want {
				if i >= len(l) || !strings.Contains(l[i].String(), want) {
					t.Errorf("problem %d of\n%v\nwant %s", i, l, want)
				}
			}
		})
	}
}

// A hostile file is refused with one problem, in bounded time and memory.
func TestHostile(t *testing.T) {
	bomb := "a: &a [x,x,x,x,x,x,x,x,x]\n"
	for c := 'b'; c < 'j'; c++ {
		bomb += fmt.Sprintf("%c: &%c [%s]\n", c, c, strings.TrimSuffix(strings.Repeat("*"+string(c-1)+",", 9), ","))
	}
	for _, tt := range []struct {
		name, text, check string
		most              int
	}{
		{"fifty megabytes", strings.Repeat("notes: x\n", 50<<20/9), "too-large", 1},
		{"deep nesting", "notes: " + strings.Repeat("[", 100000), "too-deep", 1},
		{"deep blocks", deepBlocks(300), "too-deep", 1},
		{"too many words", "notes: [" + strings.Repeat("x,", MaxValues) + "x]", "too-large", 1},
		{"alias bomb", bomb, "no-aliases", MaxProblems + 40},
		{"a thousand unknown symptoms", "moments: [{symptoms: [" + strings.Repeat("blak smok,", 1000) + "x]}]", "unknown-name", MaxProblems + 1},
	} {
		s, l := Parse("snag.yaml", []byte(tt.text))
		if s != nil {
			_, more := testLexicon.Resolve(s)
			l = append(l, more...)
		}
		if len(l) == 0 || len(l) > tt.most || l[0].Check != tt.check {
			t.Errorf("%s: %d problems, first %v, want %s and at most %d", tt.name, len(l), l[:min(1, len(l))], tt.check, tt.most)
		}
	}
}

func deepBlocks(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

// The same things said in another order give the same account, places apart.
func TestOrderDoesNotMatter(t *testing.T) {
	lines := []string{
		"rig: hollin",
		"weather: {air_pressure: 1004 hPa, dew_point: 4 degC, air_temperature: 6 degC}",
		"circumstances: [damp_day, just_transported]",
		"trials: [magneto_changed_no_change, booster_on_no_change]",
		"moments: [{symptoms: [rpm_top_short, pops_back_running], readings: {boost: low, oil_pressure: 60 psi}, not_seen: [runs_rough, black_smoke]}]",
		"parts: [{part: stub_a3, felt: cold}, {part: oil_cooler, leaks: oil}, {flow: fuel, gone_at: stub_a3}]",
	}
	other := []string{
		"parts: [{gone_at: stub_a3, flow: fuel}, {leaks: oil, part: oil_cooler}, {felt: cold, part: stub_a3}]",
		"moments: [{not_seen: [black_smoke, runs_rough], readings: {oil_pressure: 60 psi, boost: low}, symptoms: [pops_back_running, rpm_top_short]}]",
		"trials: [booster_on_no_change, magneto_changed_no_change]",
		"circumstances: [just_transported, damp_day]",
		"weather: {air_temperature: 6 degC, dew_point: 4 degC, air_pressure: 1004 hPa}",
		"rig: hollin",
	}
	a, b := account(t, strings.Join(lines, "\n")), account(t, strings.Join(other, "\n"))
	if diff := cmp.Diff(a, b, sameAccount); diff != "" {
		t.Errorf("the order of words changes the account:\n%s", diff)
	}
	slices.Reverse(lines)
	c := account(t, strings.Join(lines, "\n"))
	if diff := cmp.Diff(a, c, sameAccount); diff != "" {
		t.Errorf("the order of keys changes the account:\n%s", diff)
	}
}

// Without a rig parts cannot be looked up, and that is said.
func TestPartsWithoutRig(t *testing.T) {
	v := testVocabulary()
	v.Parts, v.Rig = nil, ""
	s, _ := Parse("snag.yaml", []byte("parts: [{part: oil_cooler, looked_at: good}]"))
	_, l := NewLexicon(v).Resolve(s)
	if len(l) != 1 || !strings.Contains(l[0].String(), "say which rig it is") {
		t.Errorf("got %v, want to be asked for the rig", l)
	}
}

// sameAccount compares accounts but for the places of their words.
var sameAccount = cmp.Options{
	cmpopts.IgnoreTypes(problem.Pos{}), cmpopts.EquateNaNs(), cmp.Comparer(func(a, b *quantity.Unit) bool { return a == b }),
}

// A rig may know parts by words that stand for a group.
func TestCalledGroup(t *testing.T) {
	v := testVocabulary()
	v.Called = func(word string) []int {
		if fold(word) == "fuel side" {
			return []int{1, 0, 1}
		}
		return nil
	}
	s, _ := Parse("snag.yaml", []byte("parts: [{part: Fuel side, looked_at: good}]"))
	a, l := NewLexicon(v).Resolve(s)
	if len(l) > 0 {
		t.Fatal(l)
	}
	if diff := cmp.Diff([]int{0, 1}, a.Statements[0].Parts); diff != "" {
		t.Errorf("parts of a group (-want +got):\n%s", diff)
	}
}

func TestNoSheet(t *testing.T) {
	if a, l := testLexicon.Resolve(nil); a != nil || len(l) != 1 {
		t.Errorf("Resolve(nil) = %v, %v, want one problem", a, l)
	}
}

// A spelling stands for one choice of its list only.
func TestNoSpellingForTwoChoices(t *testing.T) {
	for name, c := range map[string]*choices{"judged": judgedWords, "outcome": outcomeWords, "feeling": feelingWords, "fluid": fluidWords,
		"amount": amountWords, "when": whenWords, "good": goodWords, "unread": unreadWords} {
		total := 0
		for _, k := range c.list {
			total += 1 + len(k.also)
		}
		if got := len(c.folded()); got != total {
			t.Errorf("%s: %d spellings for %d words; one stands twice", name, got, total)
		}
	}
	if judgedWords.list[9].word != JudgedDead.String() || feelingWords.list[Rough-1].word != Rough.String() {
		t.Error("the lists of words and the constants are out of step")
	}
}

// What a thing is shows in its id, so a name under the wrong heading is moved
// and not refused; a part of which the side is not said is either of a pair.
func TestIdsUnderAnotherHeadingAreMoved(t *testing.T) {
	read := func(text string) *Account {
		t.Helper()
		s, l := Parse("f", []byte(text))
		a, more := testLexicon.Resolve(s)
		if l = append(l, more...); len(l) > 0 {
			t.Fatalf("%s: %v", text, l)
		}
		return a
	}
	got := read(`
rig: hollin
moments:
  - phase: idle
    seen: [runs_rough, black_smoke, just_transported, booster_on_no_change, came_on_gradually, runs_smoothly]
circumstances: [damp_day, comes_and_goes, magneto_changed_no_change]
`)
	want := read(`
rig: hollin
moments:
  - phase: idle
    symptoms: [runs_rough, black_smoke]
    course: came_on_gradually
    normal: [runs_smoothly]
circumstances: [damp_day, just_transported]
trials: [booster_on_no_change, magneto_changed_no_change]
course: comes_and_goes
`)
	if st := read("parts: [{part: magneto, changed: no better}]").Statements; len(st) != 1 || len(st[0].Parts) != 2 {
		t.Errorf("a part of which the side is not said gave %+v, want one statement of both", st)
	}
	clean := func(a *Account) {
		for i := range a.Moments {
			a.Moments[i].At = problem.Pos{}
		}
		for i := range a.Statements {
			a.Statements[i].At, a.Statements[i].Part = problem.Pos{}, ""
		}
	}
	clean(got)
	clean(want)
	if diff := cmp.Diff(want, got, cmpopts.EquateNaNs()); diff != "" {
		t.Errorf("accounts differ (-filed right +filed wrong):\n%s", diff)
	}
}
