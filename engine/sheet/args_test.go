package sheet

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestParseArgs(t *testing.T) {
	for _, tt := range []struct {
		args []string
		want string
	}{
		{strings.Fields("display: engine_rpm=1950rpm fuel_pump_pressure=16.5psi fuel_delivery_pressure=8.2psi pops_back_running"),
			"moment display\n engine_rpm = 1950 rpm\n fuel_pump_pressure = 16.5 psi\n fuel_delivery_pressure = 8.2 psi\n seen pops_back_running\n"},
		{strings.Fields("idle: booster=on oil_pressure=60psi display: after=12min rough"),
			"moment idle\n booster at on\n oil_pressure = 60 psi\nmoment display\n after 720 s\n seen runs_rough\n"},
		{[]string{"display:rpm=2400->1950rpm"}, "moment display\n engine_rpm = 2400 rpm -> 1950 rpm\n"},
		{[]string{"at power:", "oil_pressure=low,falling"}, "moment run_up|display\n oil_pressure is low, falling\n"},
		{[]string{"at_power:", "rpm=1,300rpm"}, "moment run_up|display\n engine_rpm = 1300 rpm\n"},
		{[]string{"!black_smoke", "not", "rough", "not stopped dead", "no spark found"}, "moment \n seen no_spark_found\n not seen black_smoke runs_rough stops_suddenly\n"},
		{[]string{"boost?", "oil_pressure=?"}, "moment \n unread boost oil_pressure\n"},
		{[]string{"just_transported", "booster_on_no_change", "comes_and_goes", "cranks_well"},
			"moment \n course comes_and_goes\n normal cranks_well\ncircumstances just_transported\ntrials booster_on_no_change\n"},
		{[]string{"just_transported"}, "circumstances just_transported\n"},
		{[]string{"weather:", "air_temperature=6degC", "idle:", "rough"}, "weather air_temperature = 6 degC\nmoment idle\n seen runs_rough\n"},
		{[]string{"magneto_left.changed=no better", "oil_cooler.leaks=oil", "note=Seen at dusk."},
			"part magneto_left: 1 \"\" when= outcome=no better good=false sign=-1 leaks=  felt= flow=-1 gone=\n" +
				"part oil_cooler: 3 \"\" when= outcome= good=false sign=-1 leaks=oil  felt= flow=-1 gone=\nnotes Seen at dusk.\n"},
		{[]string{"oil_cooler.leaks=oil", "oil cooler.how_much=drips", "magneto_left.worked_on=refitted", "magneto_left.when=this morning"},
			"part magneto_left: 0 \"refitted\" when=before this run outcome= good=false sign=-1 leaks=  felt= flow=-1 gone=\n" +
				"part oil_cooler: 3 \"drips\" when= outcome= good=false sign=-1 leaks=oil drips felt= flow=-1 gone=\n"},
		{[]string{"fuel.good_as_far_as=engine_fuel_pump", "fuel.gone_at=carburettor_nozzle"},
			"part engine_fuel_pump: 5 \"\" when= outcome= good=false sign=-1 leaks=  felt= flow=0 gone=carburettor_nozzle\n"},
		{nil, ""},
	} {
		s, l := ParseArgs(tt.args)
		a, more := testLexicon.Resolve(s)
		if l = append(l, more...); len(l) > 0 {
			t.Errorf("%q: %v", tt.args, l)
			continue
		}
		if diff := cmp.Diff(tt.want, tell(a)); diff != "" {
			t.Errorf("%q (-want +got):\n%s", tt.args, diff)
		}
	}
}

func TestParseArgsErrors(t *testing.T) {
	for _, tt := range []struct {
		args []string
		want string
	}{
		{[]string{"display:", "oil_pressure=8.5"}, `command line:1:26: "8.5": the unit is missing [bad-quantity]; gauge pressure is told in psi`},
		{[]string{"display:", "oil_pressure=8.5pis"}, `command line:1:26: "8.5pis": unknown unit "pis" [bad-quantity]; did you mean "psi"?`},
		{[]string{"dispaly:", "rough"}, `command line:1:1: unknown phase "dispaly" [unknown-name]; did you mean "display"?`},
		{[]string{"rough", "oil_presure=60psi"}, `command line:1:7: unknown reading or lever "oil_presure" [unknown-name]; did you mean "oil_pressure"?`},
		{[]string{"blak_smoke"}, `command line:1:1: unknown symptom "blak_smoke" [unknown-name]; did you mean "black_smoke"?`},
		{[]string{"oil_pressure"}, `command line:1:1: "oil_pressure" is a reading, not a symptom [wrong-place]; give it a value: oil_pressure=...`},
		{[]string{"black_smoke=yes"}, `"black_smoke" is a symptom, not a reading or lever [wrong-place]; write it alone, or as !black_smoke if it was not seen`},
		{[]string{"fuel_filter_choked"}, `"fuel_filter_choked" is a cause, not a symptom [wrong-place]; it has no place on a command line`},
		{[]string{"cut out"}, `"cut out" means more than one symptom [ambiguous]`},
		{[]string{"oil_pressure=60psi", "oil-pressure=50psi"}, `command line:1:20: reading "oil_pressure" is given twice in one moment [reading-twice]`},
		{[]string{"oil_pressure="}, `command line:1:14: the value of "oil_pressure" is missing [missing-value]`},
		{[]string{"=60psi"}, `the name before = is missing [missing-name]`},
		{[]string{":"}, `the phase before : is missing [missing-name]`},
		{[]string{"?"}, `a name before ? is missing [missing-name]`},
		{[]string{"!"}, `what was not seen is missing [missing-name]`},
		{[]string{""}, `an empty word [missing-value]`},
		{[]string{"idle:", "after=3min"}, `the first moment has none before it`},
		{[]string{"idle:", "display:", "after=3min", "after=4min"}, `"after" is given twice in one moment [given-twice]`},
		{[]string{"oil_cooler.leaxs=oil"}, `command line:1:12: unknown statement "leaxs" about a part [unknown-key]; did you mean "leaks"?`},
		{[]string{"oil_coler.leaks=oil"}, `unknown part "oil_coler" [unknown-name]; did you mean "oil_cooler"?`},
		{[]string{"rough\xff"}, `is not UTF-8 [not-utf8]`},
	} {
		s, l := ParseArgs(tt.args)
		if s != nil {
			_, more := testLexicon.Resolve(s)
			l = append(l, more...)
		}
		if len(l) != 1 || !strings.Contains(l[0].String(), tt.want) {
			t.Errorf("%q: %v, want %s", tt.args, l, tt.want)
		}
	}
}

// A word that is a symptom and a circumstance alike is not guessed at.
func TestBareWordOfTwoSorts(t *testing.T) {
	v := testVocabulary()
	v.Circumstances = append(v.Circumstances, named("after_rain", "black smoke about"))
	v.Signs = append(v.Signs, named("smoke_about", "black smoke about"))
	s, _ := ParseArgs([]string{"black smoke about"})
	_, l := NewLexicon(v).Settle(s)
	if len(l) != 1 || !strings.Contains(l[0].String(), "smoke_about (a symptom), after_rain (a circumstance)") {
		t.Errorf("got %v, want both named", l)
	}
}

func TestTooManyArgs(t *testing.T) {
	s, l := ParseArgs(strings.Fields(strings.Repeat("rough ", MaxValues+1)))
	if s != nil || len(l) != 1 || l[0].Check != "too-large" {
		t.Errorf("got %v problems, first %v, want one: too-large", len(l), l[:min(1, len(l))])
	}
}
