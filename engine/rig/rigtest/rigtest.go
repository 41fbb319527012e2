// Package rigtest draws random rigs for the tests of other rooms.
package rigtest

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"

	"snagwise/engine/rig"
)

// Kinds draws kinds of part named k0, k1, ... joined at random by the flows f0,
// f1, ...; cycles, branches and kinds that stand alone all come up. Some kinds
// are paired, each third one carries the usual gauge of a reading r0, r1, ... in
// psi, and k0 has a switch s0 that is on or off.
func Kinds(t *rapid.T) *rig.Kinds {
	n := rapid.IntRange(1, 9).Draw(t, "kinds")
	flows := rapid.IntRange(1, 3).Draw(t, "flows")
	var b strings.Builder
	fmt.Fprintf(&b, "system: s\nflows:\n")
	for f := range flows {
		fmt.Fprintf(&b, "  - {id: f%d, means: Flow.}\n", f)
	}
	fmt.Fprintf(&b, "parts:\n")
	for k := range n {
		fmt.Fprintf(&b, "  - {id: k%d, means: Part., words: [part %d], paired: %v}\n", k, k, rapid.IntRange(0, 4).Draw(t, "paired") == 0)
	}
	fmt.Fprintf(&b, "controls: [{id: s0, means: Switch., part: k0, positions: [on, off]}]\ngauges:\n")
	for k := 0; k < n; k += 3 {
		fmt.Fprintf(&b, "  r%d: {tap: k%d, unit: psi, bands: {idle: [%d, 20]}, limits: {idle: {stop_below: %d}}}\n", k/3, k, 2+k, 1+k)
	}
	fmt.Fprintf(&b, "usually:\n")
	for f := range flows {
		fmt.Fprintf(&b, "  f%d:\n", f)
		for range rapid.IntRange(0, 12).Draw(t, "links") {
			from, to := rapid.IntRange(0, n-1).Draw(t, "from"), rapid.IntRange(0, n-1).Draw(t, "to")
			if from != to {
				fmt.Fprintf(&b, "    - [k%d, k%d]\n", from, to)
			}
		}
	}
	k, problems := rig.LoadKinds(rig.File{Name: "parts.yaml", Text: []byte(b.String())})
	if len(problems) > 0 {
		t.Fatalf("drawn kinds have faults:\n%v\n%s", problems, b.String())
	}
	return k
}

// Rig draws a rig that has some of the kinds, joined as is usual or, for a flow
// at random, by links of its own. Gauges are the usual ones of what it has.
func Rig(t *rapid.T, kinds *rig.Kinds) *rig.Rig {
	var b strings.Builder
	fmt.Fprintf(&b, "rig: drawn\nname: Drawn\nmeans: A drawn rig.\nparts:\n")
	var have []string
	for i := range kinds.Parts {
		if k := &kinds.Parts[i]; i == 0 || rapid.IntRange(0, 2).Draw(t, "has "+k.ID) > 0 {
			have = append(have, k.ID)
			fmt.Fprintf(&b, "  - %s\n", k.ID)
		}
	}
	if own := rapid.IntRange(-1, len(kinds.Flows)-1).Draw(t, "own flow"); own >= 0 && len(have) > 1 {
		fmt.Fprintf(&b, "connections:\n  %s:\n", kinds.Flows[own].ID)
		for range rapid.IntRange(0, 8).Draw(t, "own links") {
			from, to := rapid.SampledFrom(have).Draw(t, "from"), rapid.SampledFrom(have).Draw(t, "to")
			if from != to {
				fmt.Fprintf(&b, "    - [%s, %s]\n", from, to)
			}
		}
	}
	fmt.Fprintf(&b, "gauges:\n")
	for i, r := range kinds.UsualReadings() {
		for _, k := range have {
			if k == fmt.Sprintf("k%d", 3*i) {
				fmt.Fprintf(&b, "  %s: {}\n", r)
			}
		}
	}
	r, problems := rig.Load(kinds, "drawn.yaml", []byte(b.String()))
	if len(problems) > 0 {
		t.Fatalf("drawn rig has faults:\n%v\n%s", problems, b.String())
	}
	return r
}
