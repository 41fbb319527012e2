package physics

import (
	"strings"
	"testing"
)

// worked holds, for every computed reading, inputs as they are told and what comes
// out, as shown. The figures are worked examples of the formulae by hand, or those
// named beside the formula's own test.
var worked = []struct {
	id, given, want, word string
	also, assumed         string
}{
	{"propeller_speed", "engine_rpm=1800 rpm|reduction=0.48", "864 rpm", "", "", ""},
	{"propeller_speed", "engine_rpm=1800 rpm|reduction=0.48|propeller_rpm=900 rpm", "864 rpm", "apart", "counter above gauge 4 percent", ""},
	{"propeller_speed", "engine_rpm=1800 rpm|reduction=0.48|propeller_rpm=860 rpm", "864 rpm", "agrees", "counter above gauge 0 percent", ""},
	{"blade_tip_speed", "propeller_rpm=960 rpm|propeller_diameter=3.3 m", "165.9 m/s", "", "", ""},
	{"blade_tip_speed", "engine_rpm=2000 rpm|reduction=0.48|propeller_diameter=3.3 m", "165.9 m/s", "", "", ""},
	{"magneto_speed", "engine_rpm=80 rpm|cylinders=12|sparks_per_turn=4", "120 rpm", "", "", ""},
	{"absolute_manifold_pressure", "boost=-2.4 lb|boost_gauge_kind=absolute capsule", "25 inHg", "", "in psi 12.3 psi absolute", ""},
	{"absolute_manifold_pressure", "boost=-2.4 lb|boost_gauge_kind=differential|ambient_pressure=960 hPa", "23.5 inHg", "", "in psi 11.5 psi absolute", ""},
	{"boost_at_rest_expected", "ambient_pressure=950 hPa|boost_gauge_kind=absolute capsule", "-0.9 lb", "", "", ""},
	{"boost_at_rest_expected", "boost_gauge_kind=differential|boost=0.5 lb", "0 lb", "gauge off", "gauge above expected 0.5 psi", ""},
	{"boost_at_rest_expected", "ambient_pressure=1000 hPa|boost_gauge_kind=absolute capsule|boost=-0.2 lb", "-0.2 lb", "agrees", "gauge above expected 0 psi", ""},
	{"expected_boost_for_rpm", "record_boost=-4.6 lb|record_air=1013.25 hPa|ambient_pressure=985 hPa|boost_gauge_kind=absolute capsule|boost=-3.5 lb", "-4.9 lb", "works harder", "above expected 1.4 psi", ""},
	{"expected_boost_for_rpm", "record_boost=-4.6 lb|ambient_pressure=985 hPa|boost_gauge_kind=absolute capsule|boost=-4.8 lb", "-4.9 lb", "as expected", "above expected 0.1 psi", "record_air 1013.25 hPa"},
	{"power_on_load_law", "engine_rpm=2000 rpm|ambient_pressure=990 hPa|air_temperature=25 degC|load_power=660 hp|load_speed=2400 rpm", "361 hp", "", "air density 1.157 kg/m3", "load_air_density 1.225 kg/m3"},
	{"magneto_drop_as_power", "engine_rpm=1800 rpm|drop_on_left=60 rpm|drop_on_right=100 rpm", "16 percent", "", "on left 10 percent; on right 16 percent", ""},
	{"magneto_drop_as_power", "engine_rpm=1800 rpm|drop_on_left=0 rpm", "0 percent", "", "on left 0 percent", ""},
	{"warm_up_rate", "temperature_then=18 degC|temperature_now=42 degC|between=4 min|target=60 degC", "6 degrees C", "rising", "time left 3 min", ""},
	{"warm_up_rate", "temperature_then=42 degC|temperature_now=42 degC|between=4 min|target=60 degC", "0 degrees C", "not rising", "", ""},
	{"warm_up_rate", "temperature_then=42 degC|temperature_now=61 degC|between=4 min|target=60 degC", "5 degrees C", "there", "", ""},
	{"engine_time", "live_time_start=102.4 h|live_time_end=102.7 h|watch=20 min", "0.3 h", "", "meter above watch -2 min", ""},
	{"fuel_drop", "fuel_pump_pressure=16.5 psi|fuel_delivery_pressure=11 psi", "5.5 psi", "", "", ""},
	{"fuel_drop", "fuel_pump_pressure=11 psi|fuel_delivery_pressure=16.5 psi", "-5.5 psi", "backwards", "", ""},
	// ln p = A - B/T worked out by hand at 564 and 573 degR: 55.5 and 131 kPa.
	{"vapour_lock_margin", "fuel_temperature=40 degC|fuel_kind=avgas|ambient_pressure=1013.25 hPa", "6.6 psi", "liquid", "vapour pressure 55 kPa absolute", "inlet_pressure 0 psi"},
	{"vapour_lock_margin", "fuel_temperature=45 degC|fuel_kind=mogas|inlet_pressure=-1 psi|ambient_pressure=1000 hPa", "-5.5 psi", "boils", "vapour pressure 131 kPa absolute", ""},
	{"vapour_lock_margin", "fuel_temperature=37.8 degC|fuel_kind=avgas|reid_pressure=38 kPa absolute|inlet_pressure=3 psi|ambient_pressure=1013.25 hPa", "11.9 psi", "liquid", "vapour pressure 40 kPa absolute", ""},
	{"fuel_for_slot", "start_allowance=1 L|time_warm_up=8 min|time_run_up=4 min|time_display=3 min|time_cool_down=4 min|time_idle=2 min|fuel_flow_idle=25 L/h|fuel_flow_warm_up=45 L/h|fuel_flow_run_up=105 L/h|fuel_flow_display=140 L/h|fuel_flow_cool_down=40 L/h|fuel_contents=39 L", "24.5 L", "not enough", "left 14.5 L; reserve 15 L", ""},
	{"fuel_for_slot", "time_display=3 min|fuel_flow_display=140 L/h|fuel_contents=80 L|reserve=15 L|time_idle=0 min|time_warm_up=0 min|time_run_up=0 min|time_cool_down=0 min", "8 L", "enough", "left 72 L; reserve 15 L", "start_allowance 1 L"},
	{"priming_strokes_expected", "engine_temperature=5 degC|most_strokes=7", "6", "", "", ""},
	{"oil_viscosity", "oil_temperature_in=0 degC|oil_grade=straight SAE 50", "5325.3 cSt", "", "", ""},
	{"oil_viscosity", "oil_temperature_in=100 degC|viscosity_40=225 cSt|viscosity_100=19.5 cSt", "19.5 cSt", "", "", ""},
	{"oil_viscosity_ratio", "oil_temperature_in=8 degC|oil_grade=SAE 50", "54.993", "very thick", "", ""},
	{"oil_viscosity_ratio", "oil_temperature_in=0 degC|oil_grade=SAE 50", "121.643", "preheat", "", ""},
	{"oil_viscosity_ratio", "oil_temperature_in=20 degC|oil_grade=SAE 50", "19.802", "thick", "", ""},
	{"oil_viscosity_ratio", "oil_temperature_in=75 degC|oil_grade=SAE 50", "1", "warm", "", ""},
	{"oil_pressure_expected", "oil_temperature_in=8 degC|oil_grade=SAE 50|hot_pressure=60 psi|relief_setting=90 psi", "90 psi", "", "", "hot_temperature 75 degC"},
	{"oil_pressure_expected", "oil_temperature_in=80 degC|oil_grade=SAE 50|hot_pressure=60 psi|hot_temperature=80 degC|relief_setting=90 psi", "60 psi", "", "", ""},
	{"coolant_boiling_margin", "coolant_temperature=100 degC|glycol_share=30 percent|header_pressure=15 psi|ambient_pressure=1013.25 hPa", "25 degrees C", "enough", "boils at 125 degC; margin with no pressure 4 degrees C", ""},
	{"coolant_boiling_margin", "coolant_temperature=115 degC|glycol_share=30 percent|header_pressure=15 psi", "10 degrees C", "small", "boils at 125 degC; margin with no pressure -11 degrees C", "ambient_pressure 1013.25 hPa"},
	{"coolant_boiling_margin", "coolant_temperature=101 degC|glycol_share=0 percent|header_pressure=0 psi", "-1 degrees C", "boils", "boils at 100 degC; margin with no pressure -1 degrees C", "ambient_pressure 1013.25 hPa"},
	{"coolant_boiling_margin", "coolant_temperature=111 degC|glycol_share=30 percent|header_pressure=15 psi|ambient_pressure=1013.25 hPa", "14 degrees C", "small", "boils at 125 degC; margin with no pressure -7 degrees C", ""},
	{"battery_charge_from_rest_volts", "bus_volts=24.7 V|battery_volts=24 V|battery_temperature=26.7 degC|full_gravity=1.265", "63 percent", "go", "", "least_charge 60 percent"},
	{"battery_charge_from_rest_volts", "bus_volts=12.2 V|battery_volts=12 V|least_charge=60 percent", "44 percent", "charge first", "", "battery_temperature 26.7 degC; full_gravity 1.265"},
	{"battery_charge_from_gravity", "electrolyte_gravity=1.225|battery_temperature=80 degF|full_gravity=1.265", "75 percent", "", "", ""},
	{"charge_used_by_start", "time_pre_oil=90 s|time_cranking=12 s|time_coils=12 s|time_booster=180 s|starter_current=350 A|pre_oil_current=40 A|coils_current=12 A|booster_current=8 A|time_instruments=0 s", "156 A min", "", "", ""},
	{"charge_used_by_start", "time_cranking=60 s|starter_current=220 A", "220 A min", "", "", "time_pre_oil 0 s; time_booster 0 s; time_instruments 0 s"},
	{"charge_recovery_time", "used=156.4 A min|mean_charge=20 A", "9.2 min", "", "", "charge_share 85 percent"},
	{"starts_left", "charge=85 percent|battery=100 Ah|used_per_start=156.4 A min|least_charge=60 percent", "9", "some", "", ""},
	{"starts_left", "charge=55 percent|battery=100 Ah|used_per_start=156.4 A min", "0", "none", "", "least_charge 60 percent"},
	{"starter_duty_left", "tries=2|last_try=25 s", "300 s", "wait", "", "rested 0 s"},
	{"starter_duty_left", "tries=1|last_try=45 s|rested=61 s", "239 s", "wait", "", ""},
	{"starter_duty_left", "tries=1|rested=61 s", "0 s", "may crank", "", ""},
	{"cranking_resistance", "rested_volts=25.3 V|cranking_volts=21.1 V|starter_current=350 A|battery_volts=24 V", "12 mohm", "normal", "", ""},
	{"cranking_resistance", "rested_volts=25.3 V|cranking_volts=18.3 V|starter_current=350 A|battery_volts=24 V", "20 mohm", "low", "", ""},
	{"cranking_resistance", "rested_volts=25.3 V|cranking_volts=18.3 V|starter_current=350 A|joint_volt_drop=3.5 V|battery_volts=24 V", "20 mohm", "joints", "of cables and joints 10 mohm", ""},
	{"cranking_resistance", "rested_volts=25.3 V|cranking_volts=18.3 V|starter_current=350 A|joint_volt_drop=3.4 V|battery_volts=24 V", "20 mohm", "battery or stiff engine", "of cables and joints 9.7 mohm", ""},
	{"air_actuations_left", "air_bottle_pressure=450 psi|air_bottle=7 L|least_pressure=150 psi|ram_swept=0.35 L|delivery_pressure=90 psi", "66", "some", "", ""},
	{"air_actuations_left", "air_bottle_pressure=150 psi|air_bottle=7 L|least_pressure=150 psi|ram_swept=0.35 L|delivery_pressure=90 psi", "0", "none", "", ""},
	{"air_bottle_temperature_correction", "pressure_then=450 psi|temperature_then=25 degC|temperature_now=5 degC|air_bottle_pressure=400 psi", "418.8 psi", "", "leaked 18.8 psi", "ambient_pressure 1013.25 hPa"},
	{"air_leak_rate", "air_bottle=7 L|pressure_lost=30 psi|between=10 min|ambient_pressure=1013.25 hPa", "1.4 L/min", "", "", ""},
	{"feather_time_expected", "feathering_charge=4.2 L|pump_flow=21 L/min|bus_volts=24 V|battery_volts=24 V|slip=100 percent", "12 s", "", "", ""},
	{"feather_time_expected", "feathering_charge=4.2 L|pump_flow=21 L/min|bus_volts=21.5 V|battery_volts=24 V|oil_temperature_in=8 degC|oil_grade=SAE 50|feather_time=20 s", "19 s", "explained", "over what is explained 1 s", ""},
	{"feather_time_expected", "feathering_charge=4.2 L|pump_flow=21 L/min|bus_volts=24 V|battery_volts=24 V|slip=100 percent|feather_time=14.1 s", "12 s", "slow", "over what is explained 2 s", ""},
	{"feather_time_expected", "feathering_charge=4.2 L|pump_flow=21 L/min|bus_volts=24 V|battery_volts=24 V|slip=100 percent|feather_time=13.9 s", "12 s", "explained", "over what is explained 2 s", ""},
	{"feather_reserve_check", "feathering_reserve=9 L|feathering_charge=4.2 L", "0.1 L", "enough", "", ""},
	{"feather_reserve_check", "feathering_reserve=8 L|feathering_charge=4.2 L", "-0.9 L", "short", "", ""},
	{"relative_humidity", "air_temperature=9 degC|dew_point=7 degC", "87 percent", "", "", ""},
	{"relative_humidity", "air_temperature=22 degC|dew_point=5 degC", "33 percent", "", "", ""},
	{"dew_point_from_humidity", "air_temperature=20 degC|relative_humidity=50 percent", "9 degC", "", "", ""},
	{"carburettor_icing_margin", "air_temperature=9 degC|dew_point=7 degC|carburettor=pressure|phase=display", "-6 degrees C", "serious", "spread 2 degrees C; throat -6 degC", ""},
	{"carburettor_icing_margin", "air_temperature=22 degC|dew_point=5 degC", "-3 degrees C", "serious", "spread 17 degrees C; throat -3 degC", "carburettor float; phase idle"},
	{"carburettor_icing_margin", "air_temperature=22 degC|dew_point=5 degC|cooling=15 degC|phase=display", "7 degrees C", "unlikely", "spread 17 degrees C; throat 7 degC", ""},
	{"air_density", "ambient_pressure=990 hPa|air_temperature=25 degC", "1.157 kg/m3", "", "", ""},
	{"standard_air_pressure", "height=300 m", "978 hPa", "", "standard temperature 13 degC", ""},
}

func TestWorked(t *testing.T) {
	seen := map[string]bool{}
	for _, tt := range worked {
		c, err := Find(tt.id)
		if err != nil {
			t.Error(err)
			continue
		}
		seen[tt.id] = true
		terms, faults := c.Read(strings.Split(tt.given, "|"))
		if faults != nil {
			t.Errorf("%s %s: %v", tt.id, tt.given, faults)
			continue
		}
		v, err := c.Work(terms.Look)
		if err != nil {
			t.Errorf("%s %s: %v", tt.id, tt.given, err)
			continue
		}
		var also, assumed []string
		for _, f := range v.Also {
			also = append(also, f.Name+" "+f.Quantity.Shown())
		}
		for _, a := range v.Assumed {
			assumed = append(assumed, a.Name+" "+a.Value)
		}
		got := []string{v.Quantity.Shown(), v.Word, strings.Join(also, "; "), strings.Join(assumed, "; ")}
		want := []string{tt.want, tt.word, tt.also, tt.assumed}
		for i := range got {
			if got[i] != want[i] {
				t.Errorf("%s %s:\n got %q\nwant %q", tt.id, tt.given, got, want)
				break
			}
		}
	}
	for _, id := range Names() {
		if !seen[id] {
			t.Errorf("%s has no worked example", id)
		}
	}
}
