// Package cases holds the kept snags that ship with the program, as files.
//
// There are four folders of them. real holds faults told in public, each written as
// a sheet from what was told before its cause was looked up, with the cause
// found beside it; the source is named in each file, and phrases counts what it
// tells and what the sheet says where it counts. rigs holds small rigs of the
// make-up of those engines, each used by the accounts that name it. situations holds
// snags of our own invented setting, written from how such faults unfold: what
// was noticed first, what was wrongly suspected, which check settled it.
// scenarios holds whole jobs with what is expected of the answer. published
// holds faults told by investigators, authorities and periodicals, each with
// what was observed and what was found, in our own words, on those rigs or the
// program's. They were a sample apart: the first time they were scored, with no rule
// written from them, the cause came first in 24 of a hundred and among three in 35
// (rich ones 39 and 50). Three general faults that they showed are mended since: a lever
// told where it stands wrong counted for nothing, a clear sample spoke too strongly
// against water, and a blocked intake hardly let the rpm sink.
//
// A fifth, tables, holds no snags but tables of troubles and their causes from
// published handbooks, in our own words: each file names its source with page
// or figure, and gives for every trouble how it is told in a sheet (told) and
// its causes in the order of the source, each with the ids that it means or the
// reason why no rig here can have it (left_out).
//
// Every file is a sheet with the fields of a case: about (published, real or invented),
// what (one line), source, evidence (rich, medium or thin), found, also_right
// and also_found (ids of causes), certainty, remedy and checks in the order
// done. The signs that a check brought stand with the check, not in the
// moments, so that the sheet holds what was known when help was wanted. A case
// in which nothing was wrong has no cause under found and names the normal_thing.
//
// A scenario ends with expect, which is no part of the sheet: cut the text
// before that line and the rest is one. [Expectation] says what it may hold.
package cases

import (
	"embed"
	"io/fs"
	"path"
	"strings"
)

// Files holds every case as YAML, by folder: published, real, scenarios and situations; and
// under tables the published tables.
//
//go:embed published/*.yaml real/*.yaml rigs/*.yaml scenarios/*.yaml situations/*.yaml tables/*.yaml
var Files embed.FS

// Recorded is the text of recorded.yaml: the least that the rules may score on
// the cases.
//
//go:embed recorded.yaml
var Recorded string

// Hunts is the text of hunts.yaml: what hunts against drawn snags came to.
//
//go:embed hunts.yaml
var Hunts string

// An Expectation is what is expected of the answer to a scenario, and after
// each step of what is told next. All names are ids.
type Expectation struct {
	AsksFirst       []string `yaml:"asks_first"`     // checks of which one is named first
	AsksNext        []string `yaml:"asks_next"`      // checks that are among those named
	InFirstThree    []string `yaml:"in_first_three"` // causes
	InFirstFive     []string `yaml:"in_first_five"`  // causes
	NotFirst        []string `yaml:"not_first"`      // causes of which none leads
	Pair            []string `yaml:"pair"`           // two causes that are there at once
	FirstActionSays []string `yaml:"first_action_says"`
	MustSay         []string `yaml:"must_say"`
	NeverAsks       []string `yaml:"never_asks"` // readings
	// PartedFrom names causes that the answer must be told from, each with the
	// sign that parts them.
	PartedFrom map[string]string `yaml:"parted_from"`
	Symptoms   []string          `yaml:"symptoms"` // told next, in a step
	NotSeen    []string          `yaml:"not_seen"` // told next not to be there
	Then       []Expectation     `yaml:"then"`     // steps in order
}

// Split parts the text of a scenario into its sheet and what follows expect,
// which still carries that key. The second is empty where nothing is expected.
func Split(text []byte) (sheet, expect []byte) {
	const mark = "\nexpect:"
	at := strings.Index(string(text), mark)
	if at < 0 {
		return text, nil
	}
	return text[:at+1], text[at+1:]
}

// Names returns the paths of the cases of one folder in order, or of all
// folders of cases for ""; the tables are none.
func Names(folder string) []string {
	var names []string
	for _, dir := range []string{"published", "real", "scenarios", "situations"} {
		if folder != "" && folder != dir {
			continue
		}
		entries, err := fs.ReadDir(Files, dir)
		if err != nil {
			panic(err) // the folders are built in
		}
		for _, e := range entries {
			if !e.IsDir() { // a folder of rigs that the cases bring along
				names = append(names, path.Join(dir, e.Name()))
			}
		}
	}
	return names
}
