package physics

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"snagwise/engine/quantity"
)

func TestTableIsWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range All() {
		if seen[c.ID] {
			t.Errorf("%s stands twice in the table", c.ID)
		}
		seen[c.ID] = true
		for what, text := range map[string]string{"means": c.Means, "formula": c.Formula, "source": c.Source} {
			if text == "" || strings.Contains(text, "\n") {
				t.Errorf("%s: %s %q, want one line", c.ID, what, text)
			}
		}
		if _, ok := quantity.UnitFor(c.Unit, c.Dim); !ok && !(c.Unit == "" && c.Dim == quantity.Pure) {
			t.Errorf("%s: %q is no unit of %v", c.ID, c.Unit, c.Dim)
		}
		words := map[string]bool{}
		for _, v := range c.Verdicts {
			if words[v.Word] || v.Word == "" || v.Means == "" {
				t.Errorf("%s: verdict %q", c.ID, v)
			}
			words[v.Word] = true
		}
		if len(c.Inputs) == 0 || len(c.Inputs) > 64 {
			t.Errorf("%s has %d inputs", c.ID, len(c.Inputs))
		}
		for i := range c.Inputs {
			inputIsWhole(t, c, i)
		}
	}
}

func inputIsWhole(t *testing.T, c *Computed, i int) {
	in := &c.Inputs[i]
	if in.Name == "" || in.Means == "" || len(in.From) == 0 {
		t.Errorf("%s: input %d (%q) lacks name, meaning or place", c.ID, i, in.Name)
	}
	if other, _ := c.Input(in.Name); other != in {
		t.Errorf("%s: input %s stands twice", c.ID, in.Name)
	}
	if in.Optional && in.Default != "" {
		t.Errorf("%s: input %s is optional and has a default", c.ID, in.Name)
	}
	if len(in.Words) == 0 {
		if _, ok := quantity.UnitFor(in.Unit, in.Dim); !ok && !(in.Unit == "" && in.Dim == quantity.Pure) {
			t.Errorf("%s: input %s: %q is no unit of %v", c.ID, in.Name, in.Unit, in.Dim)
		}
	}
	for text, word := range in.Also {
		if text != strings.ToLower(text) || !slices.Contains(in.Words, word) {
			t.Errorf("%s: input %s: %q stands for %q", c.ID, in.Name, text, word)
		}
	}
	if in.Default != "" {
		if _, err := in.read(in.Default); err != nil {
			t.Errorf("%s: default of %s: %v", c.ID, in.Name, err)
		}
	}
	for _, p := range in.From {
		if (p.Kind == Told || p.Kind == Phase) != (p.Name == "") {
			t.Errorf("%s: input %s comes from %v %q", c.ID, in.Name, p.Kind, p.Name)
		}
		if p.Kind == RigTable && (p.At == "" || p.AtUnit == "") {
			t.Errorf("%s: input %s comes from a table read at nothing", c.ID, in.Name)
		}
	}
}

// Taking one term away gives no value, or one that does not rest on it: never a
// value from a hole. An input without default that is not optional is always
// named as missing.
func TestNothingIsGuessed(t *testing.T) {
	for _, tt := range worked {
		c, err := Find(tt.id)
		if err != nil {
			t.Fatal(err)
		}
		full, faults := c.Read(strings.Split(tt.given, "|"))
		if faults != nil {
			t.Fatal(faults)
		}
		for i := range c.Inputs {
			in := &c.Inputs[i]
			if _, ok := full[in.Name]; !ok {
				continue
			}
			less := Given{}
			for name, term := range full {
				if name != in.Name {
					less[name] = term
				}
			}
			v, err := c.Work(less.Look)
			var missing *MissingError
			switch {
			case errors.As(err, &missing):
				if in.Default != "" && slices.Contains(missing.Inputs, in.Name) {
					t.Errorf("%s without %s: missing though it has a default", tt.id, in.Name)
				}
			case err != nil:
				var r *RangeError
				if !errors.As(err, &r) {
					t.Errorf("%s without %s: %v", tt.id, in.Name, err)
				}
			case in.Default == "" && !in.Optional:
				t.Errorf("%s without %s = %v, want it missing", tt.id, in.Name, v)
			case in.Default != "" && len(v.Assumed) == 0:
				t.Errorf("%s without %s = %v, which assumes nothing", tt.id, in.Name, v)
			}
			// Not a number is as good as not given.
			if len(in.Words) == 0 {
				less[in.Name] = Term{Quantity: quantity.Quantity{SI: math.NaN(), Dim: in.Dim}}
				same, err2 := c.Work(less.Look)
				if (err == nil) != (err2 == nil) || err == nil && same.Quantity.SI != v.Quantity.SI {
					t.Errorf("%s: %s unknown gives %v, %v, left out %v, %v", tt.id, in.Name, same, err2, v, err)
				}
			}
		}
	}
}

// Whatever finite numbers go in: a finite figure with a verdict of the list comes
// out, or a typed error.
func TestNoNaNComesOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tt := rapid.SampledFrom(worked).Draw(t, "worked")
		c, err := Find(tt.id)
		if err != nil {
			t.Fatal(err)
		}
		terms, _ := c.Read(strings.Split(tt.given, "|"))
		for i := range c.Inputs {
			term, ok := terms[c.Inputs[i].Name]
			if ok && term.Word == "" && rapid.Bool().Draw(t, "change") {
				term.Quantity.SI *= rapid.Float64Range(-0.2, 3).Draw(t, c.Inputs[i].Name)
				terms[c.Inputs[i].Name] = term
			}
		}
		v, err := c.Work(terms.Look)
		if err != nil {
			var r *RangeError
			if !errors.As(err, &r) {
				t.Fatalf("%s: %v, want a RangeError", c.ID, err)
			}
			return
		}
		figures := append([]Figure{{c.ID, v.Quantity}}, v.Also...)
		for _, f := range figures {
			if math.IsNaN(f.Quantity.SI) || math.IsInf(f.Quantity.SI, 0) {
				t.Fatalf("%s: %s is %v", c.ID, f.Name, f.Quantity.SI)
			}
		}
		fits := func(x Verdict) bool { return x.Word == v.Word }
		if v.Word != "" && !slices.ContainsFunc(c.Verdicts, fits) {
			t.Fatalf("%s: %q is none of its verdicts", c.ID, v.Word)
		}
	})
}

// Every verdict comes out of some worked example.
func TestEveryVerdictIsReached(t *testing.T) {
	reached := map[string]bool{}
	for _, tt := range worked {
		reached[tt.id+" "+tt.word] = true
	}
	for _, c := range All() {
		for _, v := range c.Verdicts {
			if !reached[c.ID+" "+v.Word] && c.ID != "carburettor_icing_margin" { // its words have a test of their own
				t.Errorf("no worked example of %s says %q", c.ID, v.Word)
			}
		}
	}
}
