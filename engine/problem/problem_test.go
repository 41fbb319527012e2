package problem

import (
	"fmt"
	"testing"
)

func TestSortedIsByPlaceWithoutDoubles(t *testing.T) {
	var l List
	l.Add(Pos{"b", 1, 1}, "x", "later file", "")
	l.Add(Pos{"a", 10, 2}, "x", "ten", "")
	l.Add(Pos{"a", 9, 2}, "x", "nine", "do this")
	l.Add(Pos{"a", 9, 2}, "x", "nine", "do this")
	want := "a:9:2: nine [x]; do this\na:10:2: ten [x]\nb:1:1: later file [x]"
	if got := l.Error(); got != want {
		t.Errorf("Error() = %q, want %q", got, want)
	}
	if err := List(nil).Err(); err != nil {
		t.Errorf("empty list is an error: %v", err)
	}
}

func TestNearFindsWhatWasMeant(t *testing.T) {
	known := []string{"fuel_delivery_pressure", "oil_pressure", "boost", "engine_rpm"}
	for _, tt := range []struct{ word, want string }{
		{"fuel_delivry_pressure", "fuel_delivery_pressure"},
		{"delivery_fuel_pressure", "fuel_delivery_pressure"},
		{"Oil Pressure", "oil_pressure"},
		{"oil-pressure", "oil_pressure"},
		{"boots", "boost"},
		{"coolant_contents", ""},
		{"", ""},
	} {
		if got := Near(tt.word, known); got != tt.want {
			t.Errorf("Near(%q) = %q, want %q", tt.word, got, tt.want)
		}
	}
}

func TestDidYouMeanListsAShortChoice(t *testing.T) {
	if got, want := DidYouMean("purple", []string{"on", "off"}), "one of: on, off"; got != want {
		t.Errorf("DidYouMean = %q, want %q", got, want)
	}
}

func ExampleNear() {
	fmt.Println(Near("delivery_fuel_pressure", []string{"oil_pressure", "fuel_delivery_pressure"}))
	// Output: fuel_delivery_pressure
}
