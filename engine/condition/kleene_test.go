package condition

import (
	"testing"
)

// Source: S. C. Kleene, Introduction to Metamathematics, 1952, section 64, the
// strong tables (from memory).
func TestConnectivesFollowKleene(t *testing.T) {
	s := testScope(t)
	values := []Truth{True, False, Unknown}
	for _, tt := range []struct {
		name, text string
		want       [3][3]Truth // by p, then q, each in the order T F U
	}{
		{"and", "p and q", [3][3]Truth{{True, False, Unknown}, {False, False, False}, {Unknown, False, Unknown}}},
		{"or", "p or q", [3][3]Truth{{True, True, True}, {True, False, Unknown}, {True, Unknown, Unknown}}},
		{"implies", "not p or q", [3][3]Truth{{True, False, Unknown}, {True, True, True}, {True, Unknown, Unknown}}},
		{"equivalent", "p and q or not p and not q", [3][3]Truth{{True, False, Unknown}, {False, True, Unknown}, {Unknown, Unknown, Unknown}}},
		{"not", "not p and (q or not q or true)", [3][3]Truth{{False, False, False}, {True, True, True}, {Unknown, Unknown, Unknown}}},
		{"two of two", "n_of(2, p, q)", [3][3]Truth{{True, False, Unknown}, {False, False, False}, {Unknown, False, Unknown}}},
		{"two of three, one so", "n_of(2, p, q, true)", [3][3]Truth{{True, True, True}, {True, False, Unknown}, {True, Unknown, Unknown}}},
	} {
		prog := compiled(t, s, tt.text)
		for i, p := range values {
			for j, q := range values {
				w := s.NewWorld(1)
				set(s, w, "p", p)
				set(s, w, "q", q)
				if got := prog.Eval(w, 0); got != tt.want[i][j] {
					t.Errorf("%s: %q with p %v, q %v = %v, want %v", tt.name, tt.text, p, q, got, tt.want[i][j])
				}
				if got := prog.tree(w, 0, prog.root); got != tt.want[i][j] {
					t.Errorf("%s: tree of %q with p %v, q %v = %v, want %v", tt.name, tt.text, p, q, got, tt.want[i][j])
				}
			}
		}
	}
	for i, a := range values {
		for j, b := range values {
			if got, want := And(a, b), [3][3]Truth{{True, False, Unknown}, {False, False, False}, {Unknown, False, Unknown}}[i][j]; got != want {
				t.Errorf("And(%v, %v) = %v, want %v", a, b, got, want)
			}
			if got, want := Or(a, b), [3][3]Truth{{True, True, True}, {True, False, Unknown}, {True, Unknown, Unknown}}[i][j]; got != want {
				t.Errorf("Or(%v, %v) = %v, want %v", a, b, got, want)
			}
		}
		if got, want := Not(a), [3]Truth{False, True, Unknown}[i]; got != want {
			t.Errorf("Not(%v) = %v, want %v", a, got, want)
		}
	}
}

// set tells a truth of the only moment and the whole.
func set(s *Scope, w *World, id string, v Truth) {
	n, _ := s.Lookup(id)
	w.Moments[0].Truth[n.Slot], w.Whole[n.Slot] = v, v
}

// Source: the public tests of the code to Russell and Norvig's textbook,
// aimacode/aima-python, tests/test_logic.py, function pl_true.
func TestPartlyKnownModels(t *testing.T) {
	s := testScope(t)
	for _, tt := range []struct {
		text  string
		known map[string]Truth
		want  Truth
	}{
		{"p", nil, Unknown},
		{"(p or q) and (r or s)", map[string]Truth{"p": False, "q": True, "s": True}, True},
		{"(p and q) and (r or s)", map[string]Truth{"p": False, "q": True, "s": True}, False},
		{"(p and q) or (p and r)", map[string]Truth{"p": False, "q": True, "r": True}, False},
		{"(p or q) and (r or s)", map[string]Truth{"p": True, "s": False}, Unknown},
		{"p or p", nil, Unknown},
		{"p or not p", nil, Unknown}, // no guess is made, though a reader may make it
		{"not p", nil, Unknown},
	} {
		w := s.NewWorld(1)
		for id, v := range tt.known {
			set(s, w, id, v)
		}
		p, problems := Compile(s, tt.text, nil)
		if len(problems) > 0 {
			t.Errorf("Compile(%q): %v", tt.text, problems)
			continue
		}
		if got := p.Eval(w, 0); got != tt.want {
			t.Errorf("%q with %v = %v, want %v", tt.text, tt.known, got, tt.want)
		}
	}
}
