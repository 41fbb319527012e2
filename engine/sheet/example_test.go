package sheet_test

import (
	"fmt"

	"snagwise/engine/quantity"
	"snagwise/engine/sheet"
)

func Example() {
	words := sheet.NewLexicon(sheet.Vocabulary{
		Phases: []sheet.Named{{ID: "idle"}, {ID: "run_up"}, {ID: "display"}},
		Readings: []sheet.Reading{
			{Named: sheet.Named{ID: "oil_pressure", Words: []string{"oil press"}}, Dim: quantity.GaugePressure, Unit: "psi"},
		},
		Signs: []sheet.Named{{ID: "black_smoke"}},
	})
	raw, problems := sheet.Parse("snag.yaml", []byte("moments:\n"+
		"  - phase: at power\n"+
		"    readings: {oil press: [3.1 bar, falling]}\n"+
		"    symptoms: [blak smoke]\n"))
	account, more := words.Resolve(raw)
	for _, p := range append(problems, more...) {
		fmt.Println(p)
	}
	m := account.Moments[0]
	fmt.Println("phases:", m.Phases.List())
	v := m.Readings[0]
	fmt.Printf("oil pressure: %v, %v, %.0f Pa\n", v.Figure, v.Judged, v.Number())
	// Output:
	// snag.yaml:4:16: unknown symptom "blak smoke" [unknown-name]; did you mean "black_smoke"?
	// phases: [1 2]
	// oil pressure: 3.1 bar, falling, 310000 Pa
}

func ExampleParseArgs() {
	raw, _ := sheet.ParseArgs([]string{"display:", "engine_rpm=1950rpm", "!black_smoke"})
	fmt.Print(string(sheet.Format(raw)))
	// Output:
	// moments:
	//   - phase: display
	//     readings: {engine_rpm: 1950rpm}
	//     not_seen: [black_smoke]
}
