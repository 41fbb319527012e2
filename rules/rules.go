// Package rules holds the knowledge that snagwise comes with: what can go wrong
// with a piston aero engine on a ground-run rig, what each fault does inside,
// what that shows, how to check it and what to do, together with two example
// rigs. It is data only; nothing here knows how it is used.
//
// There is a folder for each system of the engine and one, engine, for what
// belongs to the engine as a whole. Each file names its system and holds lists
// by their names (causes, states, signs, rules, checks and so on); the name of
// a file is only for the reader. sources.yaml lists what the knowledge rests
// on, words.yaml the everyday words, rigs the example rigs.
//
// Every strength and every word for how common a thing is are the project's
// own judgement: no statistics of such rigs were found. The figures of the
// example rigs are invented. The handbook of the engine, the propeller and the
// set on the stand always comes first.
package rules

import "embed"

// Files are the rule files, with their paths from this folder, such as
// "fuel/states.yaml" and "rigs/hollin.yaml".
//
//go:embed sources.yaml words.yaml
//go:embed engine fuel induction ignition electrical lubrication cooling pneumatic propeller mechanical instruments
//go:embed rigs
var Files embed.FS

// Folder is the name below which messages show the files.
const Folder = "rules"

// Compact is the compact form of all files, made from them by go generate; it
// loads many times faster. A change to a file needs it generated anew; until
// then the files themselves are read.
//
//go:generate go run snagwise/engine/shelf/internal/pack . base.bin
//go:embed base.bin
var Compact string
