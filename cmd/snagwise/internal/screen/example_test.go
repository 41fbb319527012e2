package screen_test

import (
	"fmt"
	"os"

	"snagwise/cmd/snagwise/internal/screen"
)

func ExampleScreen() {
	s := screen.Open(os.Stdout, func(string) string { return "" })
	s.Alert("STOP", "Stop by idle cut-off; no restart before somebody has looked.")
	s.Heading("What to check next")
	s.Table(screen.Table{
		Columns: []screen.Column{{Title: "check"}, {Title: "takes", Right: true}, {Title: "saves", Right: true}},
		Rows: [][]string{
			{"Tap the gauge glass", screen.ShortMinutes(1), screen.ShortMinutes(12)},
			{"Fit a known good gauge", screen.ShortMinutes(10), screen.ShortMinutes(9)},
		},
	})
	if err := s.Err(); err != nil {
		fmt.Println(err)
	}
	// Output:
	// STOP  Stop by idle cut-off; no restart before somebody has looked.
	//
	// What to check next
	// ------------------
	// check                    takes   saves
	// --------------------------------------
	// Tap the gauge glass      1 min  12 min
	// Fit a known good gauge  10 min   9 min
}
