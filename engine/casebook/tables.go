package casebook

// This file reads the published tables of troubles and their causes.

import (
	"io/fs"
	"path"
	"slices"

	"snagwise/engine/diagnose"
	"snagwise/engine/document"
	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/sheet"
)

// A Table is one published list of troubles with their causes, in the order of
// its source and in our own words.
type Table struct {
	ID      document.Text `yaml:"table,required"`
	Source  TableSource   `yaml:"source,required"`
	Entries []Trouble     `yaml:"entries,required"`
}

// A TableSource says where a table stands and how much of it was read.
type TableSource struct {
	Title   string `yaml:"title,required"`
	Edition string `yaml:"edition,required"`
	Place   string `yaml:"place,required"` // chapter, figure, page
	URL     string `yaml:"url"`            // of the publisher
	Read    string `yaml:"read,required"`  // where the text was read
	Whole   string `yaml:"whole,required"` // whether all of it was
	Note    string `yaml:"note"`
}

// A Trouble is one entry of a table.
type Trouble struct {
	ID      document.Text `yaml:"id,required"`
	Trouble document.Text `yaml:"trouble,required"`
	InScope bool          `yaml:"in_scope,required"`
	Why     string        `yaml:"why"` // of an entry that is not in scope
	// Find holds words by which an operator comes upon what is told.
	Find []document.Text `yaml:"find"`
	// Rigs names the rigs it can be told on; none means all.
	Rigs   []document.Text `yaml:"rigs"`
	Told   ToldTrouble     `yaml:"told"`
	Note   string          `yaml:"note"`
	Causes []TableCause    `yaml:"causes,required"`
}

// A ToldTrouble is how a trouble is said in a sheet.
type ToldTrouble struct {
	Symptoms      []document.Text `yaml:"symptoms"`
	Circumstances []document.Text `yaml:"circumstances"`
}

// A TableCause is one cause of an entry: the causes of the rules that it
// names, or why it is left out.
type TableCause struct {
	Cause   document.Text   `yaml:"cause,required"`
	Means   []document.Text `yaml:"means"`
	LeftOut string          `yaml:"left_out"`
	// Told holds signs in place of the trouble, where the table says that it
	// shows in a way of its own.
	Told []document.Text `yaml:"told"`
}

// LoadTables reads every table of a folder, sorted by file. All problems are
// reported.
func LoadTables(fsys fs.FS, folder string) ([]Table, problem.List) {
	var l problem.List
	var tables []Table
	names, err := fs.Glob(fsys, path.Join(folder, "*.yaml"))
	if err != nil || len(names) == 0 {
		l.Addf(problem.Pos{File: folder}, "unreadable", "there are no tables here")
	}
	slices.Sort(names)
	for _, name := range names {
		text, err := fs.ReadFile(fsys, name)
		if err != nil {
			l.Addf(problem.Pos{File: name}, "unreadable", "%v", err)
			continue
		}
		node, faults := document.Parse(name, text)
		l = append(l, faults...)
		if node == nil {
			continue
		}
		var t Table
		l = append(l, document.Decode(node, &t)...)
		for _, e := range t.Entries {
			l = append(l, e.faults()...)
		}
		tables = append(tables, t)
	}
	return tables, l
}

// faults lists what is wrong with the form of an entry.
func (e Trouble) faults() problem.List {
	var l problem.List
	if !e.InScope {
		if e.Why == "" {
			l.Add(e.ID.At, "missing-value", "it is not said why the entry is out of scope", "add why:")
		}
		return l
	}
	if len(e.Told.Symptoms) == 0 {
		l.Add(e.ID.At, "missing-value", "it is not said how the trouble is told", "add told: {symptoms: [..]}")
	}
	for _, c := range e.Causes {
		if (len(c.Means) == 0) == (c.LeftOut == "") {
			l.Add(c.Cause.At, "missing-value", "a cause needs either what it means or why it is left out", "add means: or left_out:")
		}
	}
	return l
}

// Unknown lists the names of tables that a base does not hold: causes, signs
// and circumstances.
func Unknown(tables []Table, b *knowledge.Base) problem.List {
	var l problem.List
	var causes []string
	for _, c := range b.Causes {
		causes = append(causes, c.ID)
	}
	check := func(t document.Text, what string, known bool, names []string) {
		if !known {
			l.Add(t.At, "unknown-name", "unknown "+what+" "+t.Value, problem.DidYouMean(t.Value, names))
		}
	}
	var signs, circumstances []string
	for _, s := range b.Signs {
		signs = append(signs, s.ID)
	}
	for _, c := range b.Circumstances {
		circumstances = append(circumstances, c.ID)
	}
	for _, t := range tables {
		for _, e := range t.Entries {
			for _, s := range e.Told.Symptoms {
				check(s, "sign", b.Sign(s.Value) >= 0, signs)
			}
			for _, c := range e.Told.Circumstances {
				check(c, "circumstance", slices.Contains(circumstances, c.Value), circumstances)
			}
			for _, c := range e.Causes {
				for _, s := range c.Told {
					check(s, "sign", b.Sign(s.Value) >= 0, signs)
				}
				for _, m := range c.Means {
					check(m, "cause", b.Cause(m.Value) >= 0, causes)
				}
			}
		}
	}
	return l
}

// On says whether the trouble can be told on a rig.
func (e Trouble) On(f *knowledge.Fitted) bool {
	if len(e.Rigs) > 0 && !slices.Contains(knowledge.Values(e.Rigs), f.Rig.ID) {
		return false
	}
	return !slices.ContainsFunc(e.Told.Symptoms, func(s document.Text) bool { return !f.SignOn[f.Sign(s.Value)] })
}

// Sheet returns the trouble as an operator of a rig would tell it.
func (e Trouble) Sheet(rig string) *sheet.Sheet {
	return &sheet.Sheet{
		Rig:           document.Text{Value: rig, At: e.ID.At},
		Circumstances: e.Told.Circumstances,
		Moments:       []sheet.Moment{{Symptoms: e.Told.Symptoms, At: e.ID.At}},
		At:            e.ID.At,
	}
}

// As returns the trouble as it is told where one of its causes is there.
func (e Trouble) As(c TableCause) Trouble {
	if len(c.Told) > 0 {
		e.Told.Symptoms = c.Told
	}
	return e
}

// Ranked returns the causes of a rig in the order in which the rules rank them
// for the trouble, with their chances.
func (e Trouble) Ranked(engine *diagnose.Engine) ([]string, []float64, problem.List) {
	a, l := engine.Read(e.Sheet(engine.Fitted().Rig.ID))
	if len(l) > 0 {
		return nil, nil, l
	}
	ids, chances, _ := engine.Ranked(a)
	return ids, chances, nil
}

// Can says whether a rig can have a cause.
func Can(f *knowledge.Fitted, cause string) bool {
	k := f.Base.Cause(cause)
	return slices.ContainsFunc(f.Causes, func(i knowledge.Instance) bool { return i.Cause == k })
}
