package casebook_test

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"snagwise/cases"
	"snagwise/engine/casebook"
	"snagwise/engine/diagnose"
	"snagwise/engine/document"
	"snagwise/engine/sheet"
)

// scenario is a whole job with what is expected of the answer, step by step.
type scenario struct {
	file   string
	sheet  *sheet.Sheet
	expect expectation
}

type expectation struct {
	AsksFirst       []string          `yaml:"asks_first"`
	AsksNext        []string          `yaml:"asks_next"`
	InFirstThree    []string          `yaml:"in_first_three"`
	InFirstFive     []string          `yaml:"in_first_five"`
	NotFirst        []string          `yaml:"not_first"`
	Pair            []string          `yaml:"pair"`
	FirstActionSays []string          `yaml:"first_action_says"`
	MustSay         []string          `yaml:"must_say"`
	NeverAsks       []string          `yaml:"never_asks"`
	PartedFrom      map[string]string `yaml:"parted_from"`
	Symptoms        []document.Text   `yaml:"symptoms"`
	NotSeen         []document.Text   `yaml:"not_seen"`
	Then            []expectation     `yaml:"then"`
}

func loadScenario(t *testing.T, name string) scenario {
	t.Helper()
	text, err := cases.Files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	head, tail := cases.Split(text)
	s, problems := sheet.Parse(name, head)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	node, problems := document.Parse(name, tail)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var file struct {
		Expect expectation `yaml:"expect,required"`
	}
	if problems = document.Decode(node, &file); len(problems) > 0 {
		t.Fatal(problems)
	}
	return scenario{name, s, file.Expect}
}

// The jobs and what a keeper may expect of the answer are those of the
// project's own description of the work: common practice, no source.
func TestScenariosAnswerAsAKeeperMayExpect(t *testing.T) {
	engine := usual(t)
	names := cases.Names("scenarios")
	if len(names) < 12 {
		t.Fatalf("%d scenarios, want at least 12", len(names))
	}
	for _, name := range names {
		sc := loadScenario(t, name)
		t.Run(strings.TrimSuffix(strings.TrimPrefix(name, "scenarios/"), ".yaml"), func(t *testing.T) {
			e, err := engine(sc.sheet.Rig.Value)
			if err != nil {
				t.Fatal(err)
			}
			checkStep(t, e, sc.sheet, sc.expect, "at first")
			for i, step := range sc.expect.Then {
				last := &sc.sheet.Moments[len(sc.sheet.Moments)-1]
				last.Symptoms = append(last.Symptoms, step.Symptoms...)
				last.NotSeen = append(last.NotSeen, step.NotSeen...)
				checkStep(t, e, sc.sheet, step, fmt.Sprintf("step %d", i+1))
			}
		})
	}
}

func checkStep(t *testing.T, e *diagnose.Engine, s *sheet.Sheet, want expectation, step string) {
	t.Helper()
	a, problems := e.Read(s)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	r := e.Diagnose(a, diagnose.Situation{Causes: -1})
	var ids []string
	for _, c := range r.Causes {
		ids = append(ids, c.ID)
	}
	within := func(n int, list []string) {
		t.Helper()
		for _, id := range list {
			if at := casebook.RankOf(ids, id); at == 0 || at > n {
				t.Errorf("%s: %s stands at %d, want among the first %d; the list begins %v", step, id, at, n, ids[:min(6, len(ids))])
			}
		}
	}
	within(3, want.InFirstThree)
	within(5, want.InFirstFive)
	within(5, want.Pair)
	for _, id := range want.NotFirst {
		if len(ids) > 0 && ids[0] == id {
			t.Errorf("%s: %s leads, and must not", step, id)
		}
	}
	all, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range want.MustSay {
		if !strings.Contains(strings.ToLower(string(all)), strings.ToLower(text)) {
			t.Errorf("%s: the answer does not say %q", step, text)
		}
	}
	var actions strings.Builder
	for _, fa := range r.FirstActions {
		actions.WriteString(strings.ToLower(fa.Do) + "\n")
	}
	for _, text := range want.FirstActionSays {
		if !strings.Contains(actions.String(), strings.ToLower(text)) {
			t.Errorf("%s: no first action says %q; due are %q", step, text, actions.String())
		}
	}
	checkAsked(t, r, want, step)
	for rival, sign := range want.PartedFrom {
		b := e.Fitted().Base
		at := b.Sign(sign)
		if one, other := e.Shown(b.Cause(ids[0]))[at], e.Shown(b.Cause(rival))[at]; math.Abs(one-other) < .3 {
			t.Errorf("%s: %s does not tell %s (%.2f) from %s (%.2f)", step, sign, ids[0], one, rival, other)
		}
		if ids[0] == rival {
			t.Errorf("%s: %s leads", step, rival)
		}
	}
}

func checkAsked(t *testing.T, r *diagnose.Result, want expectation, step string) {
	t.Helper()
	var next []string
	for _, c := range r.NextChecks {
		next = append(next, c.ID)
	}
	named := slices.Clone(next)
	for _, h := range r.HeldBack {
		named = append(named, h.ID)
	}
	for _, id := range want.AsksFirst {
		if len(next) == 0 || next[0] != id {
			t.Errorf("%s: the next check is not %s; offered are %v", step, id, next)
		}
	}
	for _, id := range want.AsksNext {
		if !slices.Contains(named, id) {
			t.Errorf("%s: %s is not among the checks named: %v", step, id, named)
		}
	}
	for _, id := range want.NeverAsks {
		for _, c := range r.NextChecks {
			for _, an := range c.Answers {
				if strings.Contains(an.ID, id) {
					t.Errorf("%s: the check %s asks for %s, which this rig has no gauge for", step, c.ID, an.ID)
				}
			}
		}
	}
}
