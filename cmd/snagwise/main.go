// Snagwise finds what is wrong with a preserved piston aero engine on its
// ground-run rig: it takes what the keeper saw, says what must be done at once,
// what is likely and why, and what to look at next.
package main

import (
	"io"
	"os"
	"runtime/debug"
)

func main() {
	// One answer is soon given and all that was loaded is in use until then:
	// collecting as usual took a fifth of the time (75 against 62 ms, 2 cores,
	// 2026-11-25). Long work is still collected.
	debug.SetGCPercent(400)
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run carries out one command line and returns the exit status: 0 answered, 1 a
// first action is due, 2 the input is wrong.
func run(args []string, in io.Reader, out, errs io.Writer) int {
	return newProgram(args, in, out, errs).run()
}
