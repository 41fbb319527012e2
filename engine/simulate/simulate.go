// Package simulate plays hunts against snags drawn by chance, to measure how
// many minutes of looking a way to choose checks costs.
//
// A [World] is one snag as it is: causes drawn by how common they are, and what
// they show, drawn from the very net that the ranking reckons with. A [Strategy]
// says what to look at next; all strategies meet the same worlds, pay the same
// minutes (those of the check, and those of getting the rig into its state
// where it is not in it), get the same answers, a tenth of which tell nothing,
// and end by the same rule: a cause is found when a check shows the sign that
// settles it ([diagnose.Finding]) or when its remedy is tried, and a hunt ends
// when what was told first is gone.
//
// A [Small] problem is cut from the same rules so small that the best way
// through it can be worked out exactly.
//
// [Plan.Run] is the door. Everything left to chance follows from one seed: the
// same plan gives the same report. What is drawn from the rules flatters those
// who reason with them; worlds in which every strength and prior is off by some,
// and the kept cases, show how much.
package simulate
