package casebook_test

// The tables are the outside truth here: each file below cases/tables names its
// source, with page or figure.

import (
	"fmt"
	"os"
	"testing"

	"snagwise/cases"
	"snagwise/engine/casebook"
	"snagwise/engine/diagnose"
	"snagwise/engine/document"
	"snagwise/engine/knowledge"
	"snagwise/engine/sheet"
)

func tables(t testing.TB) []casebook.Table {
	t.Helper()
	list, l := casebook.LoadTables(cases.Files, "tables")
	if len(l) > 0 {
		t.Fatal(l)
	}
	return list
}

// inScope calls do for every entry that is in scope.
func inScope(list []casebook.Table, do func(casebook.Trouble)) {
	for _, table := range list {
		for _, e := range table.Entries {
			if e.InScope {
				do(e)
			}
		}
	}
}

func TestTablesAreUnderstood(t *testing.T) {
	list := tables(t)
	for _, p := range casebook.Unknown(list, shipped(t).Base) {
		t.Errorf("%v: %s (%s)", p.Pos, p.Text, p.Hint)
	}
	entries, causes := 0, 0
	seen := map[string]bool{}
	for _, table := range list {
		if table.Source.URL == "" && table.Source.Read == "" {
			t.Errorf("%s: no source", table.ID.Value)
		}
		for _, e := range table.Entries {
			if seen[e.ID.Value] {
				t.Errorf("%v: a second %s", e.ID.At, e.ID.Value)
			}
			seen[e.ID.Value] = true
			entries++
			causes += len(e.Causes)
		}
	}
	if len(list) != 26 || entries != 129 || causes != 711 {
		t.Errorf("got %d tables, %d entries, %d causes; want 26, 129, 711", len(list), entries, causes)
	}
}

// An operator has the words of the table and no ids: a search for words of the
// trouble must show what is told of it among the first ten.
func TestTroublesAreFoundByTheirWords(t *testing.T) {
	b := shipped(t).Base
	inScope(tables(t), func(e casebook.Trouble) {
		if len(e.Find) == 0 {
			t.Errorf("%v: %s: no words to find it by", e.ID.At, e.ID.Value)
		}
		found := map[string]bool{}
		for _, words := range e.Find {
			for i, m := range b.Find(words.Value) {
				if m.Kind == knowledge.MeansSign && i < 10 {
					found[m.ID] = true
				}
			}
		}
		for _, s := range e.Told.Symptoms {
			if !found[s.Value] {
				t.Errorf("%s: %q: %q does not find %s", e.ID.Value, e.Trouble.Value, knowledge.Values(e.Find), s.Value)
			}
		}
	})
}

// A raised is what telling a trouble does for the chance of one cause on one
// rig.
type raised struct {
	entry, cause, rig string
	before, after     float64
}

// brought says whether a cause is a candidate: its chance is above what it is
// with nothing told. One part in a hundred is what the sum over sets of causes
// may move by itself.
func (r raised) brought() bool { return r.after > 1.01*r.before }

// raisedBy ranks every trouble on every rig that it can be told on, once for
// all tests. A cause that several rows of an entry name is there once, unless
// the rows are told in ways of their own. The second list is of the causes
// that the entry does not name.
func raisedBy(t *testing.T) (named, others []raised) {
	t.Helper()
	s := shipped(t)
	// What is claimed of one cause falls as others become surer; what the
	// ranking gives it says whether telling the trouble spoke for it.
	engine := engines(s.Base, s.All(), diagnose.Settings{Sharpness: 1})
	for _, r := range s.Rigs {
		e, err := engine(r.ID)
		if err != nil {
			t.Fatal(err)
		}
		before := chances(t, e, &sheet.Sheet{Rig: document.Text{Value: r.ID}, Moments: []sheet.Moment{{}}})
		told := map[string]map[string]float64{}
		inScope(tables(t), func(trouble casebook.Trouble) {
			seen := map[string]bool{}
			for _, c := range trouble.Causes {
				as := trouble.As(c)
				if !as.On(e.Fitted()) {
					continue
				}
				key := fmt.Sprint(knowledge.Values(as.Told.Symptoms), knowledge.Values(as.Told.Circumstances))
				if told[key] == nil {
					told[key] = chances(t, e, as.Sheet(r.ID))
				}
				for _, m := range c.Means {
					seen[m.Value] = true
					if casebook.Can(e.Fitted(), m.Value) && !seen[key+m.Value] {
						seen[key+m.Value] = true
						named = append(named, raised{trouble.ID.Value, m.Value, r.ID, before[m.Value], told[key][m.Value]})
					}
				}
			}
			if !trouble.On(e.Fitted()) {
				return
			}
			key := fmt.Sprint(knowledge.Values(trouble.Told.Symptoms), knowledge.Values(trouble.Told.Circumstances))
			for id, chance := range told[key] {
				if !seen[id] {
					others = append(others, raised{trouble.ID.Value, id, r.ID, before[id], chance})
				}
			}
		})
	}
	return named, others
}

func chances(t *testing.T, e *diagnose.Engine, s *sheet.Sheet) map[string]float64 {
	t.Helper()
	a, l := e.Read(s)
	if len(l) > 0 {
		t.Fatal(l)
	}
	ids, list, _ := e.Ranked(a)
	m := map[string]float64{}
	for i, id := range ids {
		m[id] = list[i]
	}
	return m
}

// An exception is a link of the tables that the rules do not make, and why.
type exception struct {
	Entry  document.Text `yaml:"entry,required"`
	Cause  document.Text `yaml:"cause,required"`
	Reason string        `yaml:"reason,required"`
}

func exceptions(t *testing.T) []exception {
	t.Helper()
	const name = "testdata/table_exceptions.yaml"
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	node, l := document.Parse(name, text)
	if len(l) > 0 {
		t.Fatal(l)
	}
	var file struct {
		Exceptions []exception `yaml:"exceptions,required"`
	}
	if l = document.Decode(node, &file); len(l) > 0 {
		t.Fatal(l)
	}
	return file.Exceptions
}

func TestTroublesBringTheirCauses(t *testing.T) {
	if testing.Short() {
		t.Skip("ranks every entry of the tables and would take minutes with the race detector, for which -short is there")
	}
	named, others := raisedBy(t)
	links, lost := map[[2]string]bool{}, map[[2]string]bool{}
	excepted := map[[2]string]bool{}
	for _, x := range exceptions(t) {
		excepted[[2]string{x.Entry.Value, x.Cause.Value}] = true
	}
	for _, r := range named {
		key := [2]string{r.entry, r.cause}
		links[key] = true
		if r.brought() {
			continue
		}
		lost[key] = true
		if !excepted[key] {
			t.Errorf("%s on %s: %s has chance %.5f, and %.5f with nothing told", r.entry, r.rig, r.cause, r.after, r.before)
		}
	}
	inScope(tables(t), func(e casebook.Trouble) {
		for _, c := range e.Causes {
			for _, m := range c.Means {
				key := [2]string{e.ID.Value, m.Value}
				if links[key] {
					continue
				}
				links[key], lost[key] = true, true
				if !excepted[key] {
					t.Errorf("%v: no rig can have %s and tell %s", m.At, m.Value, e.ID.Value)
				}
			}
		}
	})
	for key := range excepted {
		if !links[key] {
			t.Errorf("the exception of %s for %s is of no link", key[1], key[0])
		} else if !lost[key] {
			t.Logf("the exception of %s for %s is no longer needed", key[1], key[0])
		}
	}
	if most := len(links) / 20; len(excepted) > most {
		t.Errorf("%d exceptions among %d links, want at most %d", len(excepted), len(links), most)
	}
	if len(links) < 600 {
		t.Errorf("%d links, want at least 600", len(links))
	}
	// What brings every cause says nothing: of those that an entry does not
	// name most must stay where they were.
	up := 0
	for _, r := range others {
		if r.brought() {
			up++
		}
	}
	share := float64(up) / float64(len(others))
	t.Logf("%d links of %d on both rigs, %d excepted; of the causes not named %.0f in a hundred are raised", len(links), len(named), len(excepted), 100*share)
	if share > .5 {
		t.Errorf("%.2f of the causes that an entry does not name are raised, want at most half", share)
	}
}
