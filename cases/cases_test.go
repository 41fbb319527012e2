package cases_test

// Every case must be understood in full by the rules that ship. What is checked
// here is form; how well the rules answer is measured elsewhere.

import (
	"bytes"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"snagwise/cases"
	"snagwise/engine/document"
	"snagwise/engine/knowledge"
	"snagwise/engine/problem"
	"snagwise/engine/rig"
	"snagwise/engine/sheet"
	"snagwise/rules"
)

// shipped gives, by rig, what holds on it and the names a sheet may use.
func shipped(tb testing.TB) (map[string]*knowledge.Fitted, map[string]*sheet.Lexicon) {
	tb.Helper()
	b := loaded()
	if b.err != nil {
		tb.Fatal(b.err)
	}
	return b.fitted, b.names
}

type base struct {
	fitted map[string]*knowledge.Fitted
	names  map[string]*sheet.Lexicon
	err    error
}

// loaded loads the rules once.
var loaded = sync.OnceValue(func() base {
	b := base{fitted: map[string]*knowledge.Fitted{}, names: map[string]*sheet.Lexicon{}}
	kinds, all := rig.ReadKinds(rules.Files)
	var rigs []*rig.Rig
	entries, err := rules.Files.ReadDir("rigs")
	if err != nil {
		b.err = err
		return b
	}
	for _, e := range entries {
		text, err := rules.Files.ReadFile("rigs/" + e.Name())
		if err != nil {
			b.err = err
			return b
		}
		r, l := rig.Load(kinds, e.Name(), text)
		all = append(all, l...)
		rigs = append(rigs, r)
	}
	src, l := knowledge.Read(rules.Files)
	all = append(all, l...)
	known, l := knowledge.Compile(src, kinds, knowledge.ControlsOf(rigs...))
	if all = append(all, l...); len(all) > 0 {
		b.err = all
		return b
	}
	for _, r := range rigs {
		b.fitted[r.ID] = known.On(r)
		b.names[r.ID] = sheet.NewLexicon(vocabulary(b.fitted[r.ID]))
	}
	return b
})

func stop(tb testing.TB, l problem.List) {
	tb.Helper()
	if len(l) > 0 {
		tb.Fatal(l)
	}
}

func vocabulary(f *knowledge.Fitted) sheet.Vocabulary {
	v := sheet.Vocabulary{Rig: f.Rig.ID, Fold: f.Fold, Called: f.Rig.Called}
	for _, p := range f.Phases {
		v.Phases = append(v.Phases, sheet.Named{ID: p})
	}
	for _, r := range f.Readings {
		v.Readings = append(v.Readings, sheet.Reading{Named: sheet.Named{ID: r.ID, Words: r.Words}, Dim: r.Dim, Unit: r.Unit, Answers: r.Answers})
	}
	for _, c := range f.Base.Controls {
		control := sheet.Control{Named: sheet.Named{ID: c.ID, Words: c.Words}}
		for _, p := range c.Positions {
			control.Positions = append(control.Positions, sheet.Named{ID: p, Words: c.Also[p]})
		}
		v.Controls = append(v.Controls, control)
	}
	for _, s := range f.Signs {
		v.Signs = append(v.Signs, sheet.Named{ID: s.ID, Words: s.Words})
	}
	for _, s := range f.Circumstances {
		v.Circumstances = append(v.Circumstances, sheet.Named{ID: s.ID, Words: s.Words})
	}
	for _, s := range f.Courses {
		v.Courses = append(v.Courses, sheet.Named{ID: s.ID, Words: s.Words})
	}
	for _, s := range f.Trials {
		v.Trials = append(v.Trials, sheet.Named{ID: s.ID.Value, Words: knowledge.Values(s.Words)})
	}
	for _, s := range f.Normals {
		v.Normals = append(v.Normals, sheet.Named{ID: s.ID, Words: s.Words})
	}
	for _, c := range f.Base.Causes {
		v.Causes = append(v.Causes, sheet.Named{ID: c.ID, Words: c.Words})
	}
	for _, c := range f.Checks {
		v.Checks = append(v.Checks, sheet.Named{ID: c.ID.Value})
	}
	for _, p := range f.Rig.Parts {
		v.Parts = append(v.Parts, sheet.Part{Named: sheet.Named{ID: p.ID}, Name: p.Name, Kind: p.Kind, Side: p.Side})
	}
	for _, flow := range f.Kinds.Flows {
		v.Flows = append(v.Flows, sheet.Named{ID: flow.ID})
	}
	return v
}

// read parses and resolves one case.
func read(t *testing.T, name string, names map[string]*sheet.Lexicon) (*sheet.Sheet, *sheet.Account, []byte) {
	t.Helper()
	text, err := cases.Files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	text, expect := cases.Split(text)
	s, l := sheet.Parse(name, text)
	if len(l) > 0 {
		t.Fatal(l)
	}
	lexicon := names[s.Rig.Value]
	if lexicon == nil {
		t.Fatalf("%s: no rig %q", name, s.Rig.Value)
	}
	a, l := lexicon.Resolve(s)
	for _, p := range l {
		t.Errorf("%v: %s %s (%s)", p.Pos, p.Check, p.Text, p.Hint)
	}
	return s, a, expect
}

func TestEveryCaseIsUnderstood(t *testing.T) {
	fitted, names := shipped(t)
	for _, name := range cases.Names("") {
		t.Run(name, func(t *testing.T) {
			s, a, _ := read(t, name, names)
			if s.What.Value == "" || a.Case.About == 0 {
				t.Error("what or about is missing")
			}
			if len(a.Moments) == 0 {
				t.Error("there is no moment")
			}
			f := fitted[s.Rig.Value]
			var causes []string
			for _, list := range [][]sheet.Text{s.Found, s.AlsoRight, s.AlsoFound} {
				for _, w := range list {
					causes = append(causes, w.Value)
				}
			}
			for _, c := range causes {
				if !carries(f, c) {
					t.Errorf("rig %s does not carry the cause %q", f.Rig.ID, c)
				}
			}
			for i, m := range a.Moments {
				for _, v := range m.Readings {
					if !f.ReadOn[v.Reading] {
						t.Errorf("moment %d: rig %s has no %q", i+1, f.Rig.ID, f.Readings[v.Reading].ID)
					}
				}
			}
		})
	}
}

func carries(f *knowledge.Fitted, id string) bool {
	for _, c := range f.Causes {
		if f.Base.Causes[c.Cause].ID == id {
			return true
		}
	}
	return false
}

func TestEveryRealCaseNamesItsSource(t *testing.T) {
	_, names := shipped(t)
	for _, name := range cases.Names("real") {
		s, a, _ := read(t, name, names)
		if len(s.Source) != 1 || !strings.HasPrefix(s.Source[0].Value, "http") {
			t.Errorf("%s: source %v, want one address", name, s.Source)
		}
		if len(a.Case.Found) == 0 || a.Case.Evidence == 0 || a.Case.Certainty == 0 {
			t.Errorf("%s: found, evidence or certainty is missing", name)
		}
	}
}

func TestEverySituationEndsInAFindingOrANormalThing(t *testing.T) {
	fitted, names := shipped(t)
	normal := map[string]bool{}
	for _, n := range fitted["hollin"].NormalThings {
		normal[n.ID.Value] = true
	}
	for _, name := range cases.Names("situations") {
		_, a, _ := read(t, name, names)
		thing := a.Case.NormalThing
		switch {
		case len(a.Case.Found) == 0 && thing == "":
			t.Errorf("%s: neither a cause nor a normal thing", name)
		case thing != "" && !normal[thing]:
			t.Errorf("%s: no normal thing %q in the rules", name, thing)
		}
	}
}

func TestEveryScenarioExpectsKnownThings(t *testing.T) {
	fitted, names := shipped(t)
	for _, name := range cases.Names("scenarios") {
		s, _, expect := read(t, name, names)
		var e struct {
			Expect cases.Expectation `yaml:"expect"`
		}
		root, l := document.Parse(name, expect)
		if root == nil {
			t.Fatalf("%s: %v", name, l)
		}
		l = append(l, document.Decode(root, &e)...)
		stop(t, l)
		if steps := known(t, name, fitted[s.Rig.Value], e.Expect); steps == 0 {
			t.Errorf("%s: expects nothing", name)
		}
	}
}

// known reports names that the rules lack, and counts what is expected.
func known(t *testing.T, name string, f *knowledge.Fitted, e cases.Expectation) int {
	n := 0
	for _, list := range [][]string{e.InFirstThree, e.InFirstFive, e.NotFirst, e.Pair} {
		for _, c := range list {
			if !carries(f, c) {
				t.Errorf("%s: rig %s does not carry the cause %q", name, f.Rig.ID, c)
			}
			n++
		}
	}
	for _, list := range [][]string{e.AsksFirst, e.AsksNext} {
		for _, c := range list {
			if f.Check(c) < 0 {
				t.Errorf("%s: no check %q", name, c)
			}
			n++
		}
	}
	for _, list := range [][]string{e.Symptoms, e.NotSeen} {
		for _, c := range list {
			if f.Sign(c) < 0 {
				t.Errorf("%s: no sign %q", name, c)
			}
		}
	}
	for cause, sign := range e.PartedFrom {
		if !carries(f, cause) || f.Sign(sign) < 0 {
			t.Errorf("%s: no cause %q or no sign %q", name, cause, sign)
		}
	}
	for _, r := range e.NeverAsks {
		if f.Reading(r) < 0 {
			t.Errorf("%s: no reading %q", name, r)
		}
	}
	for _, step := range e.Then {
		n += known(t, name, f, step)
	}
	return n + len(e.FirstActionSays) + len(e.MustSay)
}

func TestSplitKeepsEveryByte(t *testing.T) {
	for _, name := range cases.Names("") {
		text, err := cases.Files.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		s, expect := cases.Split(text)
		if got := append(bytes.Clone(s), expect...); !bytes.Equal(got, text) {
			t.Errorf("%s: the two parts are not the whole", name)
		}
		if has := len(expect) > 0; has != strings.HasPrefix(name, "scenarios/") {
			t.Errorf("%s: expect is there: %v", name, has)
		}
	}
}

func TestAmountsAndTimesAreInWordsThatCount(t *testing.T) {
	_, names := shipped(t)
	for _, name := range cases.Names("") {
		_, a, _ := read(t, name, names)
		for _, s := range a.Statements {
			if s.Manner == sheet.WorkedOn && s.When == sheet.WhenUnsaid || s.Manner == sheet.Leaks && s.Amount == sheet.AmountUnsaid {
				t.Errorf("%v: %q: when or how much is in words that nothing reads", s.At, s.Text)
			}
		}
	}
}

func TestChecksShowWhatTheyCanTell(t *testing.T) {
	fitted, names := shipped(t)
	for _, name := range cases.Names("situations") {
		s, a, _ := read(t, name, names)
		f := fitted[s.Rig.Value]
		for _, done := range a.Case.Checks {
			check := f.Checks[done.Check]
			if !f.CheckOn[done.Check] {
				t.Errorf("%s: rig %s does not have the check %q", name, f.Rig.ID, check.ID.Value)
			}
			for _, sign := range slices.Concat(done.Shown, done.Denied) {
				if !slices.Contains(check.Settles, sign) {
					t.Errorf("%s: the check %q does not tell %q", name, check.ID.Value, f.Signs[sign].ID)
				}
			}
			if !(done.Minutes > 0) {
				t.Errorf("%s: the check %q took %v minutes", name, check.ID.Value, done.Minutes)
			}
		}
	}
}

func TestEveryCaseIsWrittenBackWithItsFinding(t *testing.T) {
	_, names := shipped(t)
	for _, name := range cases.Names("") {
		s, a, _ := read(t, name, names)
		again, l := sheet.Parse(name, sheet.Format(s))
		stop(t, l)
		b, l := names[s.Rig.Value].Resolve(again)
		stop(t, l)
		if diff := cmp.Diff(a.Case, b.Case, cmpopts.EquateNaNs(), cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("%s: the finding changed on the way (-read +written):\n%s", name, diff)
		}
	}
}
