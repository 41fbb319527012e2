package knowledge

import (
	"fmt"
	"io/fs"
	"path"
	"slices"
	"sort"
	"strings"

	"snagwise/engine/document"
	"snagwise/engine/problem"
)

// file is every top-level key that a rule file may hold.
type file struct {
	System        Text                 `yaml:"system"`
	Readings      []ReadingSource      `yaml:"readings"`
	Signs         []SignSource         `yaml:"signs"`
	Rules         []RuleSource         `yaml:"rules"`
	Patterns      []PatternSource      `yaml:"patterns"`
	States        []StateSource        `yaml:"states"`
	Causes        []CauseSource        `yaml:"causes"`
	SecondOpinion []OpinionSource      `yaml:"second_opinion"`
	Checks        []CheckSource        `yaml:"checks"`
	RigStates     []RigStateSource     `yaml:"rig_states"`
	Trials        []TrialSource        `yaml:"trials"`
	Courses       []CourseSource       `yaml:"courses"`
	Normals       []NormalSource       `yaml:"normals"`
	Circumstances []CircumstanceSource `yaml:"circumstances"`
	FirstActions  []FirstActionSource  `yaml:"first_actions"`
	Pairs         []PairSource         `yaml:"pairs"`
	Doubles       []DoubleSource       `yaml:"doubles"`
	Leads         []LeadSource         `yaml:"leads"`
	NormalThings  []NormalThingSource  `yaml:"normal_things"`
	CallEngineer  []Text               `yaml:"call_engineer"`
	Sources       []SourceSource       `yaml:"sources"`
	SameWords     map[string][]string  `yaml:"same_words"`
	Fillers       []string             `yaml:"fillers"`
	PartWords     []PartWordsSource    `yaml:"part_words"`
	Untied        []UntiedSource       `yaml:"untied"`
	NoWayThrough  []Text               `yaml:"no_way_through"`
	Relations     []RelationSource     `yaml:"relations"`
	Implied       []ImpliedSource      `yaml:"implied"`
	Hazards       []HazardSource       `yaml:"hazards"`
	Accepted      []AcceptedSource     `yaml:"accepted"`

	// What kinds of part there are is read with the rigs.
	Flows    *document.Node `yaml:"flows"`
	Parts    *document.Node `yaml:"parts"`
	Groups   *document.Node `yaml:"groups"`
	Usually  *document.Node `yaml:"usually"`
	Controls *document.Node `yaml:"controls"`
	Gauges   *document.Node `yaml:"gauges"`
}

// Read reads every rule file below the top of a file system, the folder rigs
// aside, in the order of their names. All faults of all files are reported;
// the source holds what could be read.
func Read(fsys fs.FS) (*Source, problem.List) {
	var l problem.List
	src := &Source{}
	names, err := ruleFiles(fsys)
	if err != nil {
		l.Addf(problem.Pos{}, "unreadable", "%v", err)
	}
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
		var f file
		l = append(l, document.Decode(node, &f)...)
		src.take(&f)
	}
	return src, l
}

func ruleFiles(fsys fs.FS) ([]string, error) {
	var names []string
	err := fs.WalkDir(fsys, ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && path.Base(name) == "rigs":
			return fs.SkipDir
		case !d.IsDir() && path.Ext(name) == ".yaml":
			names = append(names, name)
		}
		return nil
	})
	sort.Strings(names)
	return names, err
}

// take appends what one file says, marking each item with its system.
func (s *Source) take(f *file) {
	sys := f.System.Value
	for i := range f.Readings {
		f.Readings[i].System = sys
	}
	for i := range f.Signs {
		f.Signs[i].System = sys
	}
	for i := range f.Rules {
		f.Rules[i].System = sys
	}
	for i := range f.Patterns {
		f.Patterns[i].System = sys
	}
	for i := range f.States {
		f.States[i].System = sys
	}
	for i := range f.Causes {
		f.Causes[i].System = sys
	}
	for i := range f.Checks {
		f.Checks[i].System = sys
	}
	for i := range f.Trials {
		f.Trials[i].System = sys
	}
	for i := range f.Circumstances {
		f.Circumstances[i].System = sys
	}
	for i := range f.FirstActions {
		f.FirstActions[i].System = sys
	}
	for i := range f.NormalThings {
		f.NormalThings[i].System = sys
	}
	s.Readings = append(s.Readings, f.Readings...)
	s.Signs = append(s.Signs, f.Signs...)
	s.Rules = append(s.Rules, f.Rules...)
	s.Patterns = append(s.Patterns, f.Patterns...)
	s.States = append(s.States, f.States...)
	s.Causes = append(s.Causes, f.Causes...)
	s.SecondOpinion = append(s.SecondOpinion, f.SecondOpinion...)
	s.Checks = append(s.Checks, f.Checks...)
	s.RigStates = append(s.RigStates, f.RigStates...)
	s.Trials = append(s.Trials, f.Trials...)
	s.Courses = append(s.Courses, f.Courses...)
	s.Normals = append(s.Normals, f.Normals...)
	s.Circumstances = append(s.Circumstances, f.Circumstances...)
	s.FirstActions = append(s.FirstActions, f.FirstActions...)
	s.Pairs = append(s.Pairs, f.Pairs...)
	s.Doubles = append(s.Doubles, f.Doubles...)
	s.Leads = append(s.Leads, f.Leads...)
	s.NormalThings = append(s.NormalThings, f.NormalThings...)
	s.CallEngineer = append(s.CallEngineer, f.CallEngineer...)
	s.Sources = append(s.Sources, f.Sources...)
	for _, head := range slices.Sorted(keys(f.SameWords)) {
		s.SameWords = append(s.SameWords, SameWordsSource{Head: head, Words: f.SameWords[head]})
	}
	s.Fillers = append(s.Fillers, f.Fillers...)
	s.PartWords = append(s.PartWords, f.PartWords...)
	s.Untied = append(s.Untied, f.Untied...)
	s.NoWayThrough = append(s.NoWayThrough, f.NoWayThrough...)
	s.Relations = append(s.Relations, f.Relations...)
	s.Implied = append(s.Implied, f.Implied...)
	s.Hazards = append(s.Hazards, f.Hazards...)
	s.Accepted = append(s.Accepted, f.Accepted...)
}

func keys[V any](m map[string]V) func(func(string) bool) {
	return func(yield func(string) bool) {
		for k := range m {
			if !yield(k) {
				return
			}
		}
	}
}

// Layer returns a source in which what stands in over replaces what has the
// same id in base, and the rest is added. It is how a keeper's own folder lies
// over the rules that ship.
func Layer(base, over *Source) *Source {
	s := *base
	s.Readings = layer(base.Readings, over.Readings, func(k ReadingSource) string { return k.ID.Value })
	s.Signs = layer(base.Signs, over.Signs, func(k SignSource) string { return k.ID.Value })
	s.Rules = layer(base.Rules, over.Rules, func(k RuleSource) string { return k.ID.Value })
	s.Patterns = layer(base.Patterns, over.Patterns, func(k PatternSource) string { return k.ID.Value })
	s.States = layer(base.States, over.States, func(k StateSource) string { return k.ID.Value })
	s.Causes = layer(base.Causes, over.Causes, func(k CauseSource) string { return k.ID.Value })
	s.SecondOpinion = layer(base.SecondOpinion, over.SecondOpinion, func(k OpinionSource) string { return k.Sign.Value })
	s.Checks = layer(base.Checks, over.Checks, func(k CheckSource) string { return k.ID.Value })
	s.RigStates = layer(base.RigStates, over.RigStates, func(k RigStateSource) string { return k.ID.Value })
	s.Trials = layer(base.Trials, over.Trials, func(k TrialSource) string { return k.ID.Value })
	s.Courses = layer(base.Courses, over.Courses, func(k CourseSource) string { return k.ID.Value })
	s.Normals = layer(base.Normals, over.Normals, func(k NormalSource) string { return k.ID.Value })
	s.Circumstances = layer(base.Circumstances, over.Circumstances, func(k CircumstanceSource) string { return k.ID.Value })
	s.FirstActions = layer(base.FirstActions, over.FirstActions, func(k FirstActionSource) string { return k.ID.Value })
	s.Pairs = append(slices.Clone(base.Pairs), over.Pairs...)
	s.Doubles = append(slices.Clone(base.Doubles), over.Doubles...)
	s.Leads = append(slices.Clone(base.Leads), over.Leads...)
	s.NormalThings = append(slices.Clone(base.NormalThings), over.NormalThings...)
	s.CallEngineer = append(slices.Clone(base.CallEngineer), over.CallEngineer...)
	s.Sources = layer(base.Sources, over.Sources, func(k SourceSource) string { return k.ID.Value })
	s.SameWords = append(slices.Clone(base.SameWords), over.SameWords...)
	s.Fillers = append(slices.Clone(base.Fillers), over.Fillers...)
	s.PartWords = append(slices.Clone(base.PartWords), over.PartWords...)
	s.Untied = append(slices.Clone(base.Untied), over.Untied...)
	s.NoWayThrough = append(slices.Clone(base.NoWayThrough), over.NoWayThrough...)
	s.Implied = append(slices.Clone(base.Implied), over.Implied...)
	s.Hazards = layer(base.Hazards, over.Hazards, func(k HazardSource) string { return k.ID.Value })
	s.Accepted = append(slices.Clone(base.Accepted), over.Accepted...)
	if len(over.Relations) > 0 {
		s.Relations = over.Relations
	}
	return &s
}

func layer[T any](base, over []T, id func(T) string) []T {
	at := make(map[string]int, len(base))
	out := slices.Clone(base)
	for i, b := range base {
		at[id(b)] = i
	}
	for _, o := range over {
		if i, ok := at[id(o)]; ok {
			out[i] = o
		} else {
			out = append(out, o)
		}
	}
	return out
}

// twice reports items of one list that share an id, over both files.
func twice[T any](l *problem.List, what string, items []T, id func(T) Text) {
	first := make(map[string]problem.Pos, len(items))
	for _, it := range items {
		t := id(it)
		if p, ok := first[t.Value]; ok {
			l.Add(t.Pos(), "id-twice", fmt.Sprintf("%s %q stands twice", what, t.Value), "it stands first at "+p.String())
			continue
		}
		first[t.Value] = t.Pos()
		if t.Value != strings.ToLower(t.Value) || strings.ContainsAny(t.Value, "- .") {
			l.Add(t.Pos(), "bad-id", fmt.Sprintf("id %q", t.Value), "lower case letters, figures and underscores only")
		}
	}
}
