package main

// This file shows what was worked out, as a page and as JSON.

import (
	"strconv"
	"strings"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/physics"
	"snagwise/engine/quantity"
)

// listComputed lists the computed readings with what each needs. What stands
// in brackets may be left out.
func listComputed(s *screen.Screen) {
	t := screen.Table{Columns: []screen.Column{{Title: "computed reading"}, {Title: "unit"}, {Title: "what it needs"}}}
	for _, c := range physics.All() {
		must, may, usual := needs(c)
		text := strings.Join(must, ", ")
		if more := append(may, usual...); len(more) > 0 {
			text = strings.TrimSpace(text + " [" + strings.Join(more, ", ") + "]")
		}
		t.Rows = append(t.Rows, []string{c.ID, c.Unit, text})
	}
	s.Table(t)
	s.Gap()
	s.Text(0, "What stands in brackets may be left out. The handbook of the engine, the propeller or the set on the stand comes first.")
}

// show shows a sum that was worked out.
func (s *sum) show(page *screen.Screen, v physics.Value) {
	title(page, s.c.ID, s.c.Means)
	answer := v.Quantity.Shown()
	if v.Word != "" {
		answer += ": " + v.Word
	}
	page.Styled(screen.Strong, 2, answer)
	if v.Word != "" {
		page.Text(2, sentence(verdict(s.c, v.Word)))
	}
	page.Gap()
	for _, f := range v.Also {
		pair(page, "also", f.Name+" "+f.Quantity.Shown())
	}
	for _, name := range s.inputsUsed() {
		in, _ := s.c.Input(name)
		label := "given"
		if s.from[name] != label {
			label = "by the rig"
		}
		pair(page, label, name+" "+s.termOf(in))
	}
	for _, a := range v.Assumed {
		pair(page, "assumed", a.Name+" "+a.Value)
	}
	pair(page, "formula", s.c.Formula)
	pair(page, "caution", s.c.Caution)
	pair(page, "source", s.c.Source)
	page.Gap()
	page.Text(0, "The handbook of the engine, the propeller or the set on the stand comes first.")
}

// verdict says what a word of a computed reading means.
func verdict(c *physics.Computed, word string) string {
	for _, w := range c.Verdicts {
		if w.Word == word {
			return w.Means
		}
	}
	return ""
}

// termOf shows what an input was taken as.
func (s *sum) termOf(in *physics.Input) string {
	t := s.terms[in.Name]
	if t.Word != "" {
		return t.Word
	}
	return t.Quantity.Shown()
}

// A computableJSON is one line of the list, for programs.
type computableJSON struct {
	ID    string   `json:"id"`
	Means string   `json:"means"`
	Unit  string   `json:"unit"`
	Needs []string `json:"needs"`     // must be given
	May   []string `json:"may"`       // may be given
	Usual []string `json:"has_usual"` // a usual figure stands in for it
}

func computables() []computableJSON {
	var list []computableJSON
	for _, c := range physics.All() {
		must, may, usual := needs(c)
		list = append(list, computableJSON{c.ID, c.Means, c.Unit, filled(must), filled(may), filled(usual)})
	}
	return list
}

func filled(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}

// A figureJSON is a named figure in its usual unit.
type figureJSON struct {
	Name  string   `json:"name"`
	Value *float64 `json:"value,omitempty"`
	Unit  string   `json:"unit,omitempty"`
	Word  string   `json:"word,omitempty"`
	From  string   `json:"from,omitempty"`
}

// A sumJSON is a sum that was worked out, for programs.
type sumJSON struct {
	ID      string       `json:"id"`
	Means   string       `json:"means"`
	Value   *float64     `json:"value"`
	Unit    string       `json:"unit"`
	Shown   string       `json:"shown"`
	Word    string       `json:"word"`
	Verdict string       `json:"verdict"`
	Also    []figureJSON `json:"also"`
	Given   []figureJSON `json:"given"`
	Assumed []figureJSON `json:"assumed"`
	Formula string       `json:"formula"`
	Caution string       `json:"caution"`
	Source  string       `json:"source"`
}

func (s *sum) answer(v physics.Value) sumJSON {
	main := figureOf(s.c.ID, v.Quantity)
	out := sumJSON{ID: s.c.ID, Means: s.c.Means, Value: main.Value, Unit: main.Unit, Shown: v.Quantity.Shown(), Word: v.Word,
		Verdict: verdict(s.c, v.Word), Also: []figureJSON{}, Given: []figureJSON{}, Assumed: []figureJSON{},
		Formula: s.c.Formula, Caution: s.c.Caution, Source: s.c.Source}
	for _, f := range v.Also {
		out.Also = append(out.Also, figureOf(f.Name, f.Quantity))
	}
	for _, name := range s.inputsUsed() {
		t := s.terms[name]
		f := figureJSON{Name: name, Word: t.Word}
		if t.Word == "" {
			f = figureOf(name, t.Quantity)
		}
		f.From = s.from[name]
		out.Given = append(out.Given, f)
	}
	for _, a := range v.Assumed {
		out.Assumed = append(out.Assumed, figureJSON{Name: a.Name, Word: a.Value})
	}
	return out
}

// figureOf puts a quantity into its own unit.
func figureOf(name string, q quantity.Quantity) figureJSON {
	f := figureJSON{Name: name}
	x := q.SI
	if q.Unit != nil {
		x, f.Unit = q.Unit.FromSI(q.SI), q.Unit.Name
	}
	if y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 10, 64), 64); err == nil {
		x = y // without the last bits of the conversion
	}
	f.Value = &x
	return f
}
