package condition

import (
	"errors"
	"slices"
	"strings"
	"sync"
	"testing"
)

func TestLoadWhatWasSaved(t *testing.T) {
	s := testScope(t)
	texts := slices.Clone(twinRules)
	for _, tt := range meanings {
		texts = append(texts, tt.text)
	}
	for _, text := range texts {
		p := compiled(t, s, text)
		data, err := p.MarshalBinary()
		if err != nil {
			t.Fatalf("MarshalBinary of %q: %v", text, err)
		}
		got, err := s.Load(data)
		if err != nil {
			t.Errorf("Load of %q: %v", text, err)
			continue
		}
		if got.String() != p.String() || !slices.Equal(got.code, p.code) || got.start != p.start || got.steady != p.steady {
			t.Errorf("Load of %q = %q with code %v, want %q with %v", text, got, got.code, p, p.code)
		}
	}
}

func TestLoadRefuses(t *testing.T) {
	s := testScope(t)
	data, err := compiled(t, s, "n_of(2, p, low(oil_pressure), at(q, a - b) > 3)").MarshalBinary()
	if err != nil {
		t.Fatal(err)
	}
	other, err := NewScope(testNames()[1:])
	if err != nil {
		t.Fatal(err)
	}
	if _, err := other.Load(data); err == nil || !strings.Contains(err.Error(), "other names") {
		t.Errorf("Load into other names: %v, want a refusal", err)
	}
	older := slices.Clone(data)
	older[0]++
	if _, err := s.Load(older); err == nil || !strings.Contains(err.Error(), "version 2, want 1") {
		t.Errorf("Load of another version: %v, want a refusal", err)
	}
	for n := 1; n < len(data); n++ {
		if _, err := s.Load(data[:n]); !errors.Is(err, errForm) {
			t.Errorf("Load of the first %d bytes of %d: %v, want %v", n, len(data), err, errForm)
		}
	}
	if _, err := s.Load(append(slices.Clone(data), 0)); !errors.Is(err, errForm) {
		t.Errorf("Load with a byte over: %v, want %v", err, errForm)
	}
	// p and p, the same node twice: a walk would double at each level.
	head := data[:9]
	twice := append(slices.Clone(head), 2, byte(opWhole), 0, byte(opAnd), 1, 1)
	if _, err := s.Load(twice); !errors.Is(err, errForm) {
		t.Errorf("Load of shared parts: %v, want %v", err, errForm)
	}
	loose := append(slices.Clone(head), 2, byte(opWhole), 0, byte(opWhole), 0)
	if _, err := s.Load(loose); !errors.Is(err, errForm) {
		t.Errorf("Load of parts without use: %v, want %v", err, errForm)
	}
}

// Damaged forms are refused or give a program that evaluates to something.
func FuzzLoad(f *testing.F) {
	s := testScope(f)
	for _, text := range twinRules {
		data, err := compiled(f, s, text).MarshalBinary()
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data[9:])
	}
	if len(twinRules) < 40 {
		f.Fatal("too few seeds")
	}
	head, err := compiled(f, s, "p").MarshalBinary()
	if err != nil {
		f.Fatal(err)
	}
	w := s.NewWorld(2)
	fill(s, w, 1, false)
	f.Fuzz(func(t *testing.T, tail []byte) {
		p, err := s.Load(append(slices.Clone(head[:9]), tail...))
		if err != nil {
			return
		}
		v := p.Eval(w, 1)
		if tree := p.tree(w, 1, p.root); tree != v {
			t.Fatalf("%q = %v by code, %v by tree", p, v, tree)
		}
		accounted(t, p, w, 1, v)
	})
}

// Scopes and programs may be shared by goroutines.
func TestManyAtOnce(t *testing.T) {
	s := testScope(t)
	w := s.NewWorld(2)
	fill(s, w, 3, false)
	var all sync.WaitGroup
	for range 4 {
		all.Go(func() {
			for _, text := range twinRules {
				p, problems := Compile(s, text, nil)
				if p == nil {
					t.Errorf("Compile(%q): %v", text, problems)
					return
				}
				p.EvalWhole(w)
				p.Needs(w, 0)
			}
		})
	}
	all.Wait()
}
