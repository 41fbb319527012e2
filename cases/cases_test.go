package cases_test

// Every case must be understood in full by the rules that ship. What is checked
// here is form; how well the rules answer is measured elsewhere.

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"snagwise/cases"
	"snagwise/engine/document"
	"snagwise/engine/knowledge"
	"snagwise/engine/sheet"
)

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
