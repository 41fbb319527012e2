package hunt_test

import (
	"flag"
	"os"
	"testing"
)

// TestMain bounds the laws: each draw goes through whole turns, of some 50 ms
// each. -rapid.checks asks for more.
func TestMain(m *testing.M) {
	flag.Parse()
	given := false
	flag.Visit(func(f *flag.Flag) { given = given || f.Name == "rapid.checks" })
	if !given {
		checks := "8"
		if testing.Short() {
			checks = "20" // of which rapid takes a fifth
		}
		if err := flag.Set("rapid.checks", checks); err != nil {
			panic(err) // rapid has that flag
		}
	}
	os.Exit(m.Run())
}
