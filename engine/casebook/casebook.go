package casebook

import (
	"fmt"
	"io/fs"
	"path"
	"slices"

	"snagwise/engine/diagnose"
	"snagwise/engine/problem"
	"snagwise/engine/rig"
	"snagwise/engine/sheet"
)

// A Case is one kept snag.
type Case struct {
	File  string
	Sheet *sheet.Sheet
}

// Load reads every case below the folders of a file system, sorted by name.
func Load(fsys fs.FS, folders ...string) ([]Case, problem.List) {
	return load(fsys, func(text []byte) []byte { return text }, folders...)
}

// rigFolder is the folder beside cases that holds the rigs they bring along.
const rigFolder = "rigs"

// Rigs returns the rig files that cases bring along: those of the folder rigs
// in each of the folders, sorted by name. A case names one by the id in it.
func Rigs(fsys fs.FS, folders ...string) ([]rig.File, problem.List) {
	var files []rig.File
	var l problem.List
	for _, folder := range folders {
		names, err := fs.Glob(fsys, path.Join(folder, rigFolder, "*.yaml"))
		if err != nil {
			l.Addf(problem.Pos{File: folder}, "unreadable", "%v", err)
		}
		for _, name := range names {
			text, err := fs.ReadFile(fsys, name)
			if err != nil {
				l.Addf(problem.Pos{File: name}, "unreadable", "%v", err)
				continue
			}
			files = append(files, rig.File{Name: name, Text: text})
		}
	}
	return files, l
}

// Jobs reads files that hold more than a sheet: split parts the text of each
// into its sheet and the rest.
func Jobs(fsys fs.FS, folder string, split func([]byte) (sheet, rest []byte)) ([]Case, problem.List) {
	return load(fsys, func(text []byte) []byte { head, _ := split(text); return head }, folder)
}

func load(fsys fs.FS, sheetOf func([]byte) []byte, folders ...string) ([]Case, problem.List) {
	var l problem.List
	var cases []Case
	for _, folder := range folders {
		err := fs.WalkDir(fsys, folder, func(name string, d fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case d.IsDir() && path.Base(name) == rigFolder:
				return fs.SkipDir // rigs that the cases bring along; Rigs reads them
			case d.IsDir() || path.Ext(name) != ".yaml":
				return nil
			}
			text, err := fs.ReadFile(fsys, name)
			if err != nil {
				return err
			}
			s, faults := sheet.Parse(name, sheetOf(text))
			l = append(l, faults...)
			if s != nil {
				cases = append(cases, Case{File: name, Sheet: s})
			}
			return nil
		})
		if err != nil {
			l.Addf(problem.Pos{File: folder}, "unreadable", "%v", err)
		}
	}
	slices.SortFunc(cases, func(a, b Case) int {
		if a.File < b.File {
			return -1
		}
		return 1
	})
	return cases, l
}

// A Score is what a ranking said of one case.
type Score struct {
	Case     Case
	Account  *sheet.Account
	System   string   // of the cause that was found
	Accepted []string // ids that count as right
	List     []string // ids ranked, likeliest first
	// ByFrequency is what the commonest first would have scored.
	ByFrequency Expected
	// ByTables is what the order of the published tables would have scored,
	// once [Beside] has set it.
	ByTables Expected
	Outcome
}

// Run ranks each case with the engine of its rig and compares with what was
// found. Cases without a found cause are passed over.
func Run(cases []Case, engine func(rig string) (*diagnose.Engine, error)) ([]Score, error) {
	var out []Score
	frequencies := map[string][][]string{}
	for _, c := range cases {
		if len(c.Sheet.Found) == 0 {
			continue
		}
		e, err := engine(c.Sheet.Rig.Value)
		if err != nil {
			return nil, fmt.Errorf("case %s: %w", c.File, err)
		}
		a, faults := e.Read(c.Sheet)
		if len(faults) > 0 {
			return nil, fmt.Errorf("case %s: %w", c.File, faults)
		}
		ids, chances, _ := e.Ranked(a)
		s := Score{Case: c, Account: a, List: ids}
		base := e.Fitted().Base
		for _, k := range append(slices.Clone(a.Case.Found), a.Case.AlsoRight...) {
			s.Accepted = append(s.Accepted, base.Causes[k].ID)
		}
		s.System = base.Causes[a.Case.Found[0]].System
		s.Rank = RankOf(ids, s.Accepted...)
		rig := e.Fitted().Rig.ID
		if frequencies[rig] == nil {
			frequencies[rig] = Frequencies(e.Fitted())
		}
		s.ByFrequency = Expect(frequencies[rig], s.Accepted...)
		for i, id := range ids {
			s.Chances = append(s.Chances, Claim{Chance: chances[i], True: slices.Contains(s.Accepted, id)})
		}
		out = append(out, s)
	}
	return out, nil
}

// Of returns the measures of the scores that keep says yes to.
func Of(scores []Score, keep func(Score) bool) Measures {
	var list []Outcome
	for _, s := range scores {
		if keep(s) {
			list = append(list, s.Outcome)
		}
	}
	return Measure(list)
}
