package condition

import (
	"math"
	"math/bits"
	"regexp"
	"testing"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"
	"pgregory.net/rapid"

	"snagwise/engine/quantity"
)

// The second opinion: expr's own machine runs the text as it stands, with the
// words of the language as plain Go functions over a single moment at which
// everything is known.

func exprEnv(s *Scope, w *World) map[string]any {
	env := map[string]any{
		"before":   func(a, b bool) bool { return a && b }, // not asked: see exprCan
		"after":    func(a, b bool) bool { return a && b },
		"together": func(a, b bool) bool { return a && b },
		"highest":  func(x float64) float64 { return x },
		"lowest":   func(x float64) float64 { return x },
		"seen":     func(any) bool { return true },
		"n_of": func(k int, list ...bool) bool {
			for _, b := range list {
				if b {
					k--
				}
			}
			return k <= 0
		},
	}
	for i, word := range bandWords {
		env[word] = func(x float64) bool { return bandOf(x, i) }
	}
	for i, m := range makers {
		u := makerUnits()[i+1].units[0]
		env[m.word] = func(x float64) float64 { return u.ToSI(x) }
	}
	for _, n := range s.Names(NumberKind) {
		env[n.ID] = w.Moments[0].Num[n.Slot]
	}
	for _, n := range s.Names(TruthKind) {
		env[n.ID] = w.Moments[0].Truth[n.Slot] == True
		if n.Span != Momentary {
			env[n.ID] = w.Whole[n.Slot] == True
		}
	}
	for _, n := range s.Names(TextKind) {
		env[n.ID] = n.Values[bits.TrailingZeros64(w.Moments[0].Text[n.Slot])]
	}
	return env
}

var farFigures = regexp.MustCompile(`[0-9][0-9_]{8}|[0-9.][eE]|0[xXbBoO]`)

// exprCan reports whether expr's machine means the same by a text: it has no
// at(...) and no order of moments, its whole numbers wrap round, and its degC
// knows no difference of temperatures.
func exprCan(p *Program, text string) bool {
	if farFigures.MatchString(text) {
		return false
	}
	for _, n := range p.nodes {
		switch n.op {
		case opAt, opAtNum, opAtBand, opBefore:
			return false
		case opK:
			if n.unit == 0 {
				continue
			}
			usual, u := makerUnits()[n.unit].units[0], unitOf(n.unit, n.dim)
			if u.Offset != usual.Offset || u.Factor != usual.Factor {
				return false
			}
		}
	}
	return true
}

// ask runs a text on expr's machine.
func ask(text string, env map[string]any) (Truth, error) {
	program, err := expr.Compile(text, expr.Env(env), expr.AsBool())
	if err != nil {
		return Unknown, err
	}
	got, err := vm.Run(program, env)
	if err != nil {
		return Unknown, err
	}
	return of(got.(bool)), nil
}

// agree holds our answer against expr's. Only a division may leave us unknown.
func agree(t interface{ Fatalf(string, ...any) }, p *Program, text string, w *World, env map[string]any) {
	want, err := ask(text, env)
	if err != nil {
		t.Fatalf("expr on %q: %v", text, err)
	}
	divides := false
	for _, n := range p.nodes {
		divides = divides || n.op == opDiv
	}
	if got := p.Eval(w, 0); got != want && (got != Unknown || !divides) {
		t.Fatalf("%q = %v, expr says %v", text, got, want)
	}
}

func TestAgreesWithExpr(t *testing.T) {
	s := testScope(t)
	asked := 0
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld(t, s, 1, true)
		env := exprEnv(s, w)
		text := writer{t: t, asked: true, divide: true}.truth(3)
		p, problems := Compile(s, text, nil)
		if p == nil {
			for _, f := range problems {
				if f.Check != "never-holds" {
					t.Fatalf("Compile(%q): %v", text, problems)
				}
			}
			if got, err := ask(text, env); err != nil || got == True {
				t.Fatalf("%q can never hold (%v), but expr says %v, %v", text, problems, got, err)
			}
			return
		}
		if !exprCan(p, text) {
			t.Fatalf("expr cannot run %q", text)
		}
		agree(t, p, text, w, env)
		asked++
	})
	if asked == 0 {
		t.Error("no condition was put to expr")
	}
}

func TestMeaningsAgreeWithExpr(t *testing.T) {
	s := testScope(t)
	asked := 0
	for _, tt := range meanings {
		p := compiled(t, s, tt.text)
		if !exprCan(p, tt.text) {
			continue
		}
		rapid.Check(t, func(rt *rapid.T) {
			w := drawWorld(rt, s, 1, true)
			agree(rt, p, tt.text, w, exprEnv(s, w))
		})
		asked++
	}
	if asked < 50 {
		t.Errorf("%d conditions were put to expr, want 50", asked)
	}
}

// Whatever ours passes, expr's checker must pass too; and everything else that
// holds of every condition.
func FuzzCompile(f *testing.F) {
	seeds := 0
	for _, tt := range wrong {
		f.Add(tt.text, uint64(seeds))
		seeds++
	}
	for _, tt := range meanings {
		f.Add(tt.text, uint64(seeds))
		seeds++
	}
	if seeds < 100 {
		f.Fatalf("%d seeds, want 100", seeds)
	}
	s := testScope(f)
	known := s.NewWorld(1)
	f.Fuzz(func(t *testing.T, text string, seed uint64) {
		p, problems := Compile(s, text, nil)
		if p == nil {
			if len(problems) == 0 {
				t.Fatalf("Compile(%q): neither program nor problems", text)
			}
			for _, f := range problems {
				if f.Pos.Line < 1 || f.Pos.Col < 1 || f.Text == "" || f.Check == "" {
					t.Fatalf("Compile(%q): problem %+v", text, f)
				}
			}
			onlyOurs(t, s, text)
			return
		}
		holdsAlways(t, s, p, seed)
		if exprCan(p, text) {
			fill(s, known, seed, true)
			agree(t, p, text, known, exprEnv(s, known))
		}
	})
}

// onlyOurs fails when expr's checker finds what ours did not.
func onlyOurs(t *testing.T, s *Scope, text string) {
	c := &compiler{source: source{text: text}, scope: s}
	tree := c.parse(s.exprConfig())
	if tree == nil {
		return
	}
	c.truth(tree.Node)
	if len(c.problems) > 0 {
		return
	}
	if c.check(tree, s.exprConfig()); len(c.problems) > 0 {
		t.Fatalf("only expr finds fault with %q: %v", text, c.problems)
	}
}

// fill makes a world up from a number.
func fill(s *Scope, w *World, seed uint64, known bool) {
	next := func(n int) int {
		seed = seed*6364136223846793005 + 1442695040888963407
		return int(seed>>33) % n
	}
	told := func() bool { return known || next(3) > 0 }
	for i := range w.Moments {
		m := &w.Moments[i]
		for slot, n := range s.Names(NumberKind) {
			m.Num[slot], m.Word[slot] = math.NaN(), Word{}
			if told() {
				m.Num[slot] = float64(next(8)-1) * [...]float64{1, 6894.757293168361, 1.0 / 60}[next(3)]
				if n.Dim == quantity.Temperature {
					m.Num[slot] += 273.15
				}
			}
			for b := range bandWords {
				if known && bandOf(m.Num[slot], b) || !known && next(3) == 0 {
					m.Word[slot].True |= 1 << b
				} else if known || next(2) == 0 {
					m.Word[slot].False |= 1 << b
				}
			}
		}
		for slot := range m.Truth {
			m.Truth[slot] = Unknown
			if told() {
				m.Truth[slot] = of(next(2) == 0)
			}
		}
		for slot, n := range s.Names(TextKind) {
			m.Text[slot] = 0
			if told() {
				m.Text[slot] = 1 << next(len(n.Values))
				if !known {
					m.Text[slot] |= 1 << next(len(n.Values))
				}
			}
		}
	}
	clear(w.Whole)
	for _, n := range s.Names(TruthKind) {
		if n.Span == Throughout && told() {
			w.Whole[n.Slot] = of(next(2) == 0)
		}
	}
	wholeOf(w)
}
