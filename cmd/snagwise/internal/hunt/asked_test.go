package hunt

import (
	"bytes"
	"strings"
	"testing"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/hunt"
)

// TestAsked: what is asked in the field in plain words is answered, and nothing
// is told by it. The questions are those that keepers ask, common practice, no
// source.
func TestAsked(t *testing.T) {
	for _, tt := range []struct{ said, want string }{
		{"may I finish this run?", "Running on: no, because:"},
		{"can I run with that", "Running on: no, because:"},
		{"Drop is 140, may I run the slot with that?", "Running on: no, because:"},
		{"It's climbing, do I stop?", "Running on: no, because:"},
		{"No pressure, how long have I got?", "Running on: no, because:"},
		{"What do I tell the organiser?", "Running on: no, because:"},
		{"May I give it more prime?", "Nothing here says that it may be done"},
		{"Can I open the cap?", "Nothing here says that it may be done"},
		{"Is it the pump, the filter or the gauge?", "Filter:"},
		{"Is it the battery or the starter?", "Starter:"},
		{"is it the gauge?", "Gauge:"},
		{"Bottle's down, is it a leak or the cold?", "Leak:"},
		{"is it the flux capacitor?", "no cause goes by that here"},
		{"Eighteen minutes to the slot, what can I check?", "First:"},
		{"Does this need the engineer?", "call the licensed engineer"},
		{"What do I tell the engineer?", "handover"},
		{"spark or fuel?", "Spark, in all"},
		{"Spark or fuel?", "Fuel, in all"},
		{"carburettor or pump?", "Pump:"},
		{"How many more tries before I cook the starter?", "crank 30 s at most"},
		{"Will I get three more starts?", "Battery: say the volts at rest"},
		{"How many brake applications left?", "Say what the air bottle shows"},
		{"same as last August?", "No snag of this rig of August is kept"},
		{"Was this the same as last August?", "No snag of this rig of August is kept"},
	} {
		var b bytes.Buffer
		s := sitting(t, "")
		s.Page = screen.Open(&b, func(string) string { return "" })
		for _, id := range []string{"knock_heavy", "fuel_delivery_low"} {
			if _, err := s.Answer(id, []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Seen, Name: id}}}); err != nil {
				t.Fatal(err)
			}
		}
		facts := len(s.hunt.Facts())
		turn, l := s.hunt.Turn(s.finder, s.clock())
		if len(l) > 0 {
			t.Fatal(l)
		}
		s.turn, s.told = turn, turn
		words, err := s.reply(tt.said)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(b.String()+strings.Join(words, " ")), " ")
		if !strings.Contains(text, tt.want) {
			t.Errorf("%q is answered %q, want %q", tt.said, text, tt.want)
		}
		if n := len(s.hunt.Facts()); n != facts {
			t.Errorf("%q tells %d things", tt.said, n-facts)
		}
	}
}

// TestWhyTold: a why that names no cause tells what it asks of.
func TestWhyTold(t *testing.T) {
	s := sitting(t, "")
	turn, l := s.hunt.Turn(s.finder, s.clock())
	if len(l) > 0 {
		t.Fatal(l)
	}
	s.turn, s.told = turn, turn
	if _, err := s.reply("Why won't it fire?"); err != nil {
		t.Fatal(err)
	}
	if f := s.hunt.Facts(); len(f) != 1 || f[0].Name != "cranks_no_fire" {
		t.Errorf("it tells %v, want that it cranks and does not fire", f)
	}
}
