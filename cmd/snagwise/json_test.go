package main

import (
	"bytes"
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"snagwise/cases"
	"snagwise/cmd/snagwise/internal/load"
	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/casebook"
	"snagwise/engine/diagnose"
)

// published returns the schema of an answer, and that part of it that an
// answer of one sort must hold to.
func published(t *testing.T, part string) *jsonschema.Schema {
	t.Helper()
	c := jsonschema.NewCompiler()
	file, err := filepath.Abs("../../engine/diagnose/result.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(file + part)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// valid reports what in a JSON text breaks a schema.
func valid(t *testing.T, s *jsonschema.Schema, text []byte) {
	t.Helper()
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatalf("%v:\n%s", err, text)
	}
	if err := s.Validate(v); err != nil {
		t.Error(err)
	}
}

// TestEveryCaseAnswersByTheSchema goes through every kept snag: its JSON holds
// to the published schema, its page is no wider than eighty columns, and what
// must be done at once stands on it before all else.
func TestEveryCaseAnswersByTheSchema(t *testing.T) {
	beside, l := casebook.Rigs(cases.Files, ".")
	if len(l) > 0 {
		t.Fatal(l)
	}
	lib, l := load.Open(load.Choice{Beside: beside})
	if len(l) > 0 {
		t.Fatal(l)
	}
	engine := engines(lib)
	schema := published(t, "#/$defs/Result")
	for i, name := range cases.Names("") {
		if testing.Short() && i%10 != 0 {
			continue
		}
		t.Run(name, func(t *testing.T) {
			var out, page bytes.Buffer
			p := newProgram(nil, nil, &out, &out)
			p.page = screen.Open(&page, func(string) string { return "" })
			raw, l := p.told([]string{filepath.Join("../../cases", name)})
			if len(l) > 0 {
				t.Fatal(l)
			}
			e, err := engine(raw.Rig.Value)
			if err != nil {
				t.Fatal(err)
			}
			account, l := e.Read(raw)
			if len(l) > 0 {
				t.Fatal(l)
			}
			if err := p.answer(e, account, asking{json: true}); err != nil {
				t.Fatal(err)
			}
			valid(t, schema, out.Bytes())
			var r diagnose.Result
			if err := json.Unmarshal(out.Bytes(), &r); err != nil {
				t.Fatal(err)
			}
			if due := len(r.FirstActions) > 0; due != (p.status == firstDue) {
				t.Errorf("status %d with %d first actions", p.status, len(r.FirstActions))
			}
			(&answerPage{s: p.page, e: e, r: &r}).show()
			text := page.String()
			for line := range strings.Lines(text) {
				if n := screen.Columns(strings.TrimSuffix(line, "\n")); n > 80 {
					t.Errorf("%d columns, want at most 80: %s", n, line)
				}
			}
			first, likely := strings.Index(text, "\nDo this at once"), strings.Index(text, "\nWhat is likely")
			if (first >= 0) != (len(r.FirstActions) > 0) || first > likely {
				t.Errorf("what must be done at once stands at %d, what is likely at %d", first, likely)
			}
		})
	}
}

// TestOtherAnswersByTheSchema: the ground of one cause and what is wrong with
// the input have their own form.
func TestOtherAnswersByTheSchema(t *testing.T) {
	for _, tt := range []struct {
		part string
		args []string
		want int
	}{
		{"#/$defs/Why", []string{"diagnose", "--json", "display:", "fuel_delivery_pressure=8.2psi", "fuel_pump_pressure=16.5psi", "--why", "fuel_filter_choked"}, answered},
		{"#/$defs/Result", []string{"diagnose", "--json", "--all", "display:", "surges"}, answered},
		{"#/$defs/Result", []string{"diagnose", "--json"}, answered},
		{"#/$defs/Result", []string{"diagnose", "--json", "--tools", "", "idle:", "rough_all"}, answered},
		{"#/$defs/Fault", []string{"diagnose", "--json", "display:", "blakc_smoke"}, wrong},
		{"", []string{"diagnose", "--json", "display:", "blakc_smoke"}, wrong},
		{"", []string{"diagnose", "--json", "display:", "black_smoke"}, answered},
	} {
		var out, errs bytes.Buffer
		if got := run(tt.args, strings.NewReader(""), &out, &errs); got != tt.want || errs.Len() > 0 {
			t.Errorf("%q: status %d, %s, want %d", tt.args, got, &errs, tt.want)
		}
		valid(t, published(t, tt.part), out.Bytes())
	}
}

// TestSchemaRefuses: the schema is not so wide that anything would pass.
func TestSchemaRefuses(t *testing.T) {
	s := published(t, "")
	for _, text := range []string{`{}`, `[]`, `{"problems": [{}]}`, `{"rig": {"id": "a", "name": "b"}, "causes": []}`} {
		v, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		if s.Validate(v) == nil {
			t.Errorf("the schema accepts %s", text)
		}
	}
}
