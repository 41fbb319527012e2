package condition

import (
	"math"
	"testing"
)

// twins are rules as a rule file could have them for the invented engine, and
// the same written by hand in Go, three-valued like the rules, over a struct.
// The hand is what a program made for these rules alone would be.
var twinRules = []string{
	"low(delivery_fuel_pressure) and normal(pump_fuel_pressure)",
	"low(pump_fuel_pressure) and low(delivery_fuel_pressure) and not unsteady(pump_fuel_pressure)",
	"pump_fuel_pressure - delivery_fuel_pressure > psi(1.5) and at_power",
	"at_power and low(delivery_fuel_pressure) and not low(pump_fuel_pressure) and not fuel_smell",
	"oil_pressure < psi(30) and oil_temperature > degC(95) and not low(engine_rpm)",
	"oil_pressure < psi(30) and oil_temperature < degC(95)",
	"high(oil_pressure) and oil_temperature < degC(40)",
	"high(oil_temperature) and not high(coolant_temperature)",
	"coolant_temperature - oil_temperature > degC_difference(25)",
	"coolant_temperature > degC(110) or over_stop(coolant_temperature)",
	"rising(coolant_temperature) and falling(oil_pressure)",
	"abs(drop_on_left - drop_on_right) > rpm(40)",
	"drop_on_left > rpm(150) and drop_on_right < rpm(80)",
	"drop_on_right > rpm(150) and drop_on_left < rpm(80)",
	"drop_on_left > rpm(150) and drop_on_right > rpm(150)",
	`magnetos == "left" and rough_idle`,
	`dead_cut == "does not cut"`,
	`dead_cut == "cuts on one side only" and not (drop_on_left > rpm(100) or drop_on_right > rpm(100))`,
	"bus_volts < V(24) and charge_current < A(0)",
	"bus_volts > V(29.5) or high(bus_volts)",
	"battery_volts < V(22) and at_rest",
	"bus_volts - battery_volts < V(0.5) and engine_rpm > rpm(1500)",
	"charge_current > A(40) and normal(bus_volts)",
	"air_temperature - dew_point < degC_difference(5) and air_temperature < degC(10) and falling(boost)",
	"boost < psi(-4) and throttle_travel > percent(80)",
	"low(boost) and normal(engine_rpm) and throttle_travel >= percent(90)",
	"propeller_rpm / engine_rpm < 0.44",
	"engine_rpm > rpm(2400) and not high(boost)",
	"unsteady(engine_rpm) and (surges or rough_idle) and normal(delivery_fuel_pressure)",
	"black_smoke and plugs_wet and not hot_day",
	"n_of(2, black_smoke, plugs_wet, fuel_smell, rough_idle)",
	"n_of(2, surges, low(boost), unsteady(delivery_fuel_pressure)) and at_power",
	"(just_refuelled or new_fuel or stood_weeks) and surges and not low(oil_pressure)",
	"rough_hot and not rough_idle and coolant_temperature > degC(80)",
	`phase in ["run_up", "display"] and low(oil_pressure)`,
	`phase == "idle" and rough_idle and not (black_smoke or plugs_wet)`,
	`booster == "on" and low(delivery_fuel_pressure) and running`,
	`booster == "off" and delivery_fuel_pressure < psi(3) and not at_rest`,
	"fuel_in_can / filling_time < L_per_min(2)",
	"fuel_in_tank < imperial_gal(5) and unsteady(delivery_fuel_pressure)",
	"run_down_time < seconds(4) and not low(oil_pressure)",
	"air_pressure < bar(12) and falling(air_pressure) and at_rest",
	"none(oil_pressure) and running",
	"dead(oil_pressure) or none(oil_pressure) and normal(oil_temperature)",
}

// A hand holds what the twins read.
type hand struct {
	pumpFuel, deliveryFuel, oilP, airP                   float64
	oilT, coolantT, airT, dewPoint, rpm, propRPM         float64
	dropLeft, dropRight, boost, bus, battery, charge     float64
	can, tank, filling, runDown, throttle                float64
	wPumpFuel, wDeliveryFuel, wOilP, wAirP, wOilT, wCool Word
	wRPM, wBoost, wBus                                   Word
	fuelSmell, roughIdle, roughHot, surges, smoke, plugs Truth
	hotDay, stood, newFuel, refuelled                    Truth
	atIdle, atPower, atRest, running                     Truth
	phase, booster, magnetos, deadCut                    uint64
}

func handOf(s *Scope, w *World) hand {
	m := &w.Moments[0]
	num := func(id string) float64 { return m.Num[s.names[s.index[id]].Slot] }
	word := func(id string) Word { return m.Word[s.names[s.index[id]].Slot] }
	whole := func(id string) Truth { return w.Whole[s.names[s.index[id]].Slot] }
	now := func(id string) Truth { return m.Truth[s.names[s.index[id]].Slot] }
	text := func(id string) uint64 { return m.Text[s.names[s.index[id]].Slot] }
	return hand{
		pumpFuel: num("pump_fuel_pressure"), deliveryFuel: num("delivery_fuel_pressure"), oilP: num("oil_pressure"), airP: num("air_pressure"),
		oilT: num("oil_temperature"), coolantT: num("coolant_temperature"), airT: num("air_temperature"), dewPoint: num("dew_point"),
		rpm: num("engine_rpm"), propRPM: num("propeller_rpm"), dropLeft: num("drop_on_left"), dropRight: num("drop_on_right"),
		boost: num("boost"), bus: num("bus_volts"), battery: num("battery_volts"), charge: num("charge_current"),
		can: num("fuel_in_can"), tank: num("fuel_in_tank"), filling: num("filling_time"), runDown: num("run_down_time"), throttle: num("throttle_travel"),
		wPumpFuel: word("pump_fuel_pressure"), wDeliveryFuel: word("delivery_fuel_pressure"), wOilP: word("oil_pressure"), wAirP: word("air_pressure"),
		wOilT: word("oil_temperature"), wCool: word("coolant_temperature"), wRPM: word("engine_rpm"), wBoost: word("boost"), wBus: word("bus_volts"),
		fuelSmell: whole("fuel_smell"), roughIdle: whole("rough_idle"), roughHot: whole("rough_hot"), surges: whole("surges"),
		smoke: whole("black_smoke"), plugs: whole("plugs_wet"), hotDay: whole("hot_day"), stood: whole("stood_weeks"), newFuel: whole("new_fuel"), refuelled: whole("just_refuelled"),
		atIdle: now("at_idle"), atPower: now("at_power"), atRest: now("at_rest"), running: now("running"),
		phase: text("phase"), booster: text("booster"), magnetos: text("magnetos"), deadCut: text("dead_cut"),
	}
}

func lt(x, k float64) Truth {
	if x < k {
		return True
	}
	if x >= k {
		return False
	}
	return Unknown
}

func le(x, k float64) Truth {
	if x <= k {
		return True
	}
	if x > k {
		return False
	}
	return Unknown
}

func gt(x, k float64) Truth { return -le(x, k) }
func ge(x, k float64) Truth { return -lt(x, k) }

func ratio(a, b float64) float64 {
	if b == 0 {
		return math.NaN()
	}
	return a / b
}

func twoOf(list ...Truth) Truth {
	yes, may := 0, 0
	for _, v := range list {
		if v == True {
			yes++
		}
		if v != False {
			may++
		}
	}
	switch {
	case yes >= 2:
		return True
	case may < 2:
		return False
	}
	return Unknown
}

const (
	handPsi  = 0.45359237 * 9.80665 / (0.0254 * 0.0254)
	handZero = 273.15
	handRPM  = 1.0 / 60
)

// byHand is the twin of twinRules.
func byHand(h *hand, out *[44]Truth) {
	out[0] = And(h.wDeliveryFuel.is(Low), h.wPumpFuel.is(Normal))
	out[1] = And(And(h.wPumpFuel.is(Low), h.wDeliveryFuel.is(Low)), -h.wPumpFuel.is(Unsteady))
	out[2] = And(gt(h.pumpFuel-h.deliveryFuel, 1.5*handPsi), h.atPower)
	out[3] = And(And(h.atPower, h.wDeliveryFuel.is(Low)), And(-h.wPumpFuel.is(Low), -h.fuelSmell))
	out[4] = And(And(lt(h.oilP, 30*handPsi), gt(h.oilT, 95+handZero)), -h.wRPM.is(Low))
	out[5] = And(lt(h.oilP, 30*handPsi), lt(h.oilT, 95+handZero))
	out[6] = And(h.wOilP.is(High), lt(h.oilT, 40+handZero))
	out[7] = And(h.wOilT.is(High), -h.wCool.is(High))
	out[8] = gt(h.coolantT-h.oilT, 25)
	out[9] = Or(gt(h.coolantT, 110+handZero), h.wCool.is(OverStop))
	out[10] = And(h.wCool.is(Rising), h.wOilP.is(Falling))
	out[11] = gt(math.Abs(h.dropLeft-h.dropRight), 40*handRPM)
	out[12] = And(gt(h.dropLeft, 150*handRPM), lt(h.dropRight, 80*handRPM))
	out[13] = And(gt(h.dropRight, 150*handRPM), lt(h.dropLeft, 80*handRPM))
	out[14] = And(gt(h.dropLeft, 150*handRPM), gt(h.dropRight, 150*handRPM))
	out[15] = And(within(h.magnetos, 1<<1), h.roughIdle)
	out[16] = within(h.deadCut, 1<<2)
	out[17] = And(within(h.deadCut, 1<<1), -Or(gt(h.dropLeft, 100*handRPM), gt(h.dropRight, 100*handRPM)))
	out[18] = And(lt(h.bus, 24), lt(h.charge, 0))
	out[19] = Or(gt(h.bus, 29.5), h.wBus.is(High))
	out[20] = And(lt(h.battery, 22), h.atRest)
	out[21] = And(lt(h.bus-h.battery, 0.5), gt(h.rpm, 1500*handRPM))
	out[22] = And(gt(h.charge, 40), h.wBus.is(Normal))
	out[23] = And(And(lt(h.airT-h.dewPoint, 5), lt(h.airT, 10+handZero)), h.wBoost.is(Falling))
	out[24] = And(lt(h.boost, -4*handPsi), gt(h.throttle, 0.8))
	out[25] = And(And(h.wBoost.is(Low), h.wRPM.is(Normal)), ge(h.throttle, 0.9))
	out[26] = lt(ratio(h.propRPM, h.rpm), 0.44)
	out[27] = And(gt(h.rpm, 2400*handRPM), -h.wBoost.is(High))
	out[28] = And(And(h.wRPM.is(Unsteady), Or(h.surges, h.roughIdle)), h.wDeliveryFuel.is(Normal))
	out[29] = And(And(h.smoke, h.plugs), -h.hotDay)
	out[30] = twoOf(h.smoke, h.plugs, h.fuelSmell, h.roughIdle)
	out[31] = And(twoOf(h.surges, h.wBoost.is(Low), h.wDeliveryFuel.is(Unsteady)), h.atPower)
	out[32] = And(And(Or(Or(h.refuelled, h.newFuel), h.stood), h.surges), -h.wOilP.is(Low))
	out[33] = And(And(h.roughHot, -h.roughIdle), gt(h.coolantT, 80+handZero))
	out[34] = And(within(h.phase, 1<<4|1<<5), h.wOilP.is(Low))
	out[35] = And(And(within(h.phase, 1<<2), h.roughIdle), -Or(h.smoke, h.plugs))
	out[36] = And(And(within(h.booster, 1<<1), h.wDeliveryFuel.is(Low)), h.running)
	out[37] = And(And(within(h.booster, 1<<0), lt(h.deliveryFuel, 3*handPsi)), -h.atRest)
	out[38] = lt(ratio(h.can, h.filling), 2e-3/60)
	out[39] = And(lt(h.tank, 5*4.54609e-3), h.wDeliveryFuel.is(Unsteady))
	out[40] = And(lt(h.runDown, 4), -h.wOilP.is(Low))
	out[41] = And(And(lt(h.airP, 12e5), h.wAirP.is(Falling)), h.atRest)
	out[42] = And(h.wOilP.is(None), h.running)
	out[43] = Or(h.wOilP.is(Dead), And(h.wOilP.is(None), h.wOilT.is(Normal)))
}

func twinPrograms(t testing.TB, s *Scope) []*Program {
	t.Helper()
	list := make([]*Program, len(twinRules))
	for i, text := range twinRules {
		list[i] = compiled(t, s, text)
	}
	return list
}

func TestRulesAgreeWithTheHand(t *testing.T) {
	s := testScope(t)
	programs := twinPrograms(t, s)
	var met [44][3]bool
	for seed := range uint64(2000) {
		w := s.NewWorld(1)
		fill(s, w, seed, false)
		spread(w, seed)
		var want [44]Truth
		h := handOf(s, w)
		byHand(&h, &want)
		for i, p := range programs {
			if got := p.Eval(w, 0); got != want[i] {
				t.Fatalf("%q of world %d = %v, by hand %v", twinRules[i], seed, got, want[i])
			}
			met[i][want[i]+1] = true
		}
	}
	for i, v := range met {
		if v != [3]bool{true, true, true} {
			t.Errorf("%q was not met false, unknown and true: %v", twinRules[i], v)
		}
	}
}

// spread moves figures to where the rules' limits are.
func spread(w *World, seed uint64) {
	scale := map[int][2]float64{0: {0, 20 * handPsi}, 1: {0, 16 * handPsi}, 2: {0, 60 * handPsi}, 3: {10e5, 15e5}}
	for slot := range w.Moments[0].Num {
		x := &w.Moments[0].Num[slot]
		if math.IsNaN(*x) {
			continue
		}
		seed = seed*6364136223846793005 + 1442695040888963407
		u := float64(seed>>40) / (1 << 24)
		lo, hi := 0.0, 1.0
		switch {
		case slot <= 3:
			lo, hi = scale[slot][0], scale[slot][1]
		case slot <= 7: // temperatures
			lo, hi = handZero-5, handZero+120
			if slot >= 6 {
				hi = handZero + 15
			}
		case slot <= 9: // speeds
			lo, hi = 0, 2800*handRPM
		case slot <= 11: // drops
			lo, hi = 20*handRPM, 260*handRPM
		case slot == 13: // boost
			lo, hi = -8*handPsi, 8*handPsi
		case slot == 14 || slot == 15: // volts
			lo, hi = 18, 32
		case slot == 16: // amps
			lo, hi = -20, 60
		case slot == 17 || slot == 18: // volumes
			lo, hi = 0, 0.05
		case slot == 19: // filling time
			lo, hi = 0, 3000
		case slot == 20: // run-down time
			lo, hi = 0, 10
		}
		*x = lo + u*(hi-lo)
	}
}
