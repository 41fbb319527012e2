package condition

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// holdsAlways checks what is so of every program, over worlds made from seed.
func holdsAlways(t interface{ Fatalf(string, ...any) }, s *Scope, p *Program, seed uint64) {
	text := p.String()
	again, problems := Compile(s, text, nil)
	if again == nil {
		t.Fatalf("written as %q it does not compile: %v", text, problems)
	}
	if got := again.String(); got != text {
		t.Fatalf("written as %q, then as %q", text, got)
	}
	data, err := p.MarshalBinary()
	if err != nil {
		t.Fatalf("MarshalBinary of %q: %v", text, err)
	}
	loaded, err := s.Load(data)
	if err != nil {
		t.Fatalf("Load of %q: %v", text, err)
	}
	if !slices.Equal(loaded.code, p.code) || !slices.Equal(loaded.nodes, p.nodes) || loaded.start != p.start || loaded.steady != p.steady {
		t.Fatalf("%q is not loaded as it was saved", text)
	}
	for moments := range 4 {
		w := s.NewWorld(moments)
		fill(s, w, seed+uint64(moments), false)
		for now := range max(1, moments) {
			v := p.Eval(w, now)
			if tree := p.tree(w, min(now, moments-1), p.root); v != tree {
				t.Fatalf("%q = %v by code, %v by tree", text, v, tree)
			}
			if p.steady && v != p.Eval(w, 0) {
				t.Fatalf("steady %q differs between moments", text)
			}
			accounted(t, p, w, now, v)
		}
	}
}

// accounted checks that a decided condition has clauses where it reads
// anything, and an undecided one has needs.
func accounted(t interface{ Fatalf(string, ...any) }, p *Program, w *World, now int, v Truth) {
	reads := p.Reads()
	clauses, needs := p.Explain(w, now), p.Needs(w, now)
	switch {
	case v == Unknown && len(clauses) > 0:
		t.Fatalf("%q is unknown, but %v decided it", p, clauses)
	case v == Unknown && len(needs) == 0:
		t.Fatalf("%q is unknown and needs nothing", p)
	case v != Unknown && len(needs) > 0:
		t.Fatalf("%q is %v and needs %v", p, v, needs)
	case v != Unknown && len(reads) > 0 && len(clauses) == 0:
		t.Fatalf("%q is %v for no reason", p, v)
	}
	for _, c := range clauses {
		if c.Truth == Unknown || c.Text == "" || c.Name == "" || c.Op == "" {
			t.Fatalf("%q was decided by %+v", p, c)
		}
	}
}

func TestEveryProgram(t *testing.T) {
	s := testScope(t)
	rapid.Check(t, func(t *rapid.T) {
		w := writer{t: t, moments: true, figures: true, asked: true, divide: true}
		holdsAlways(t, s, w.program(s, 3), rapid.Uint64().Draw(t, "seed"))
	})
}

// Filling in an unknown never undoes what was decided, and a reading that is
// missing changes nothing but what rests on it.
//
// Left out are the words that speak of what was taken: seen(x) turns when x is
// told, and at(c, x), highest(x) and lowest(x) may move with a further figure.
// With a single moment these move only from unknown.
func TestFillingInNeverUndoes(t *testing.T) {
	s := testScope(t)
	rapid.Check(t, func(t *rapid.T) {
		moments := rapid.IntRange(1, 3).Draw(t, "moments")
		p := writer{t: t, moments: true, figures: moments == 1, divide: true}.program(s, 3)
		w := drawWorld(t, s, moments, false)
		fuller := fillIn(t, s, w)
		for now := range moments {
			if before, after := p.Eval(w, now), p.Eval(fuller, now); before != Unknown && after != before {
				t.Fatalf("%q was %v, and %v once more was known", p, before, after)
			}
		}
	})
}

// fillIn returns a copy of w in which some of what was unknown is known. What
// was false of the whole stays so: it is what the moments said.
func fillIn(t *rapid.T, s *Scope, w *World) *World {
	more := s.NewWorld(len(w.Moments))
	some := func() bool { return rapid.Bool().Draw(t, "fill") }
	for i := range w.Moments {
		m, f := &w.Moments[i], &more.Moments[i]
		copy(f.Num, m.Num)
		copy(f.Word, m.Word)
		copy(f.Truth, m.Truth)
		copy(f.Text, m.Text)
		for _, n := range s.Names(NumberKind) {
			if math.IsNaN(f.Num[n.Slot]) && some() {
				f.Num[n.Slot] = figure(t, n)
			}
			if word := &f.Word[n.Slot]; some() {
				word.True |= Rising &^ word.False
				word.False |= (Low | High | Dead) &^ word.True
			}
		}
		for slot, v := range f.Truth {
			if v == Unknown && some() {
				f.Truth[slot] = of(some())
			}
		}
		for _, n := range s.Names(TextKind) {
			switch may := &f.Text[n.Slot]; {
			case *may == 0 && some():
				*may = 1 << rapid.IntRange(0, len(n.Values)-1).Draw(t, n.ID)
			case *may&(*may-1) != 0 && some(): // one of two: no longer the lower one
				*may &= *may - 1
			}
		}
	}
	copy(more.Whole, w.Whole)
	for slot, v := range more.Whole {
		if v == Unknown && some() {
			more.Whole[slot] = of(some())
		}
	}
	return more
}

// A condition that reads no name of those that change says the same.
func TestAMissingReadingChangesNothingElse(t *testing.T) {
	s := testScope(t)
	rapid.Check(t, func(t *rapid.T) {
		p := writer{t: t, moments: true, figures: true, asked: true}.program(s, 2)
		w := drawWorld(t, s, 2, false)
		bare := s.NewWorld(2)
		for _, n := range p.Reads() {
			for i := range w.Moments {
				switch n.Kind {
				case NumberKind:
					bare.Moments[i].Num[n.Slot], bare.Moments[i].Word[n.Slot] = w.Moments[i].Num[n.Slot], w.Moments[i].Word[n.Slot]
				case TruthKind:
					bare.Moments[i].Truth[n.Slot] = w.Moments[i].Truth[n.Slot]
				case TextKind:
					bare.Moments[i].Text[n.Slot] = w.Moments[i].Text[n.Slot]
				}
			}
			if n.Kind == TruthKind {
				bare.Whole[n.Slot] = w.Whole[n.Slot]
			}
		}
		for now := range 2 {
			if got, want := p.Eval(bare, now), p.Eval(w, now); got != want {
				t.Fatalf("%q = %v with only what it reads, %v with all", p, got, want)
			}
		}
	})
}

// Not of an unknown condition is unknown, and not not changes nothing.
func TestNotTurnsWhatIsDecidedOnly(t *testing.T) {
	s := testScope(t)
	rapid.Check(t, func(t *rapid.T) {
		text := writer{t: t, moments: true, figures: true, divide: true}.truth(3)
		p, _ := Compile(s, text, nil)
		not, _ := Compile(s, "not ("+text+")", nil)
		if p == nil || not == nil {
			t.Skip("never holds, one way or the other")
		}
		w := drawWorld(t, s, 2, false)
		for now := range 2 {
			if got, want := not.Eval(w, now), Not(p.Eval(w, now)); got != want {
				t.Fatalf("not (%s) = %v, want %v", text, got, want)
			}
		}
	})
}

// A use that is rising may only lift the condition.
func TestRisingUsesOnlyLift(t *testing.T) {
	s := testScope(t)
	lifted := 0
	rapid.Check(t, func(t *rapid.T) {
		p := writer{t: t, moments: true, figures: true, asked: true}.program(s, 3)
		w := drawWorld(t, s, 2, false)
		for _, u := range p.Uses() {
			if !u.Rising {
				continue
			}
			var was [2]Truth
			for now := range was {
				was[now] = p.Eval(w, now)
			}
			for i := range w.Moments {
				v := &w.Moments[i].Truth[u.Slot]
				*v = min(True, *v+Truth(rapid.IntRange(0, 2).Draw(t, "lift")))
			}
			w.Whole[u.Slot] = min(True, w.Whole[u.Slot]+Truth(rapid.IntRange(0, 2).Draw(t, "lift")))
			for now := range was {
				if got := p.Eval(w, now); got < was[now] {
					t.Fatalf("%q fell from %v to %v when %s rose", p, was[now], got, u.ID)
				}
			}
			lifted++
		}
	})
	if lifted == 0 {
		t.Error("no rising use was tried")
	}
}

func TestUses(t *testing.T) {
	s := testScope(t)
	for _, tt := range []struct {
		text string
		want []string
	}{
		{"p and not q or low(oil_pressure)", []string{"p rising", "q", "oil_pressure"}},
		{"not (not p and q)", []string{"p rising", "q"}},
		{"at(p, q)", []string{"p", "q rising"}},
		{"before(p, not q) and n_of(2, p, r, s)", []string{"p rising", "q", "r rising", "s rising"}},
		{"p and not p or seen(r)", []string{"p", "r"}},
		{`phase == "idle" and at(booster == "on", a - b) > 3`, []string{"phase", "booster", "a", "b"}},
	} {
		var got []string
		for _, u := range compiled(t, s, tt.text).Uses() {
			id := u.ID
			if u.Rising {
				id += " rising"
			}
			got = append(got, id)
		}
		if diff := cmp.Diff(tt.want, got); diff != "" {
			t.Errorf("Uses of %q (-want +got):\n%s", tt.text, diff)
		}
	}
}
