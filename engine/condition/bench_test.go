package condition

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"
)

var sink Truth

func benchWorlds(s *Scope, known bool) []*World {
	worlds := make([]*World, 16)
	for i := range worlds {
		worlds[i] = s.NewWorld(1)
		fill(s, worlds[i], uint64(i), known)
		spread(worlds[i], uint64(i))
	}
	return worlds
}

// sideBySide runs ours and theirs in turn, in batches, for as long as the
// benchmark lasts, and returns what one run of each took in nanoseconds.
func sideBySide(b *testing.B, batch int, ours, theirs func(i int)) (our, their float64) {
	b.Helper()
	b.ReportAllocs()
	var spent [2]time.Duration
	runs := 0
	for b.Loop() {
		for k, run := range []func(int){ours, theirs} {
			start := time.Now()
			for i := range batch {
				run(i)
			}
			spent[k] += time.Since(start)
		}
		runs += batch
	}
	return float64(spent[0].Nanoseconds()) / float64(runs), float64(spent[1].Nanoseconds()) / float64(runs)
}

// BenchmarkRules compares the rules compiled with the same rules by hand, one
// moment after another, in one run; the ratio is reported as x-hand.
func BenchmarkRules(b *testing.B) {
	s := testScope(b)
	programs := twinPrograms(b, s)
	for _, known := range []bool{true, false} {
		b.Run(fmt.Sprintf("known=%v", known), func(b *testing.B) {
			worlds := benchWorlds(s, known)
			hands := make([]hand, len(worlds))
			for i, w := range worlds {
				hands[i] = handOf(s, w)
			}
			var out [44]Truth
			ours, byHand := sideBySide(b, 64, func(i int) {
				w := worlds[i%len(worlds)]
				for _, p := range programs {
					sink = p.Eval(w, 0)
				}
			}, func(i int) { byHand(&hands[i%len(hands)], &out) })
			b.ReportMetric(ours/float64(len(programs)), "ns/rule")
			b.ReportMetric(byHand/float64(len(programs)), "hand-ns/rule")
			b.ReportMetric(ours/byHand, "x-hand")
		})
	}
}

// BenchmarkAgainstExpr compares the rules compiled with expr's machine, reused
// from rule to rule, its environment a map, over a moment at which everything
// is known. The ratio is reported as expr-x. As written, expr calls low(x) and
// its like and has the units worked out beforehand; at its best, it is given
// the band words as plain true or false too, and calls nothing but n_of and
// abs.
func BenchmarkAgainstExpr(b *testing.B) {
	s := testScope(b)
	programs := twinPrograms(b, s)
	worlds := benchWorlds(s, true)
	for _, best := range []bool{false, true} {
		b.Run(fmt.Sprintf("best=%v", best), func(b *testing.B) {
			envs := make([]map[string]any, len(worlds))
			for i, w := range worlds {
				envs[i] = exprEnv(s, w)
				if best {
					bandsGiven(s, w, envs[i])
				}
			}
			theirs := exprPrograms(b, envs[0], best)
			machine := vm.VM{}
			ours, their := sideBySide(b, 128, func(i int) {
				w := worlds[i%len(worlds)]
				for _, p := range programs {
					sink = p.Eval(w, 0)
				}
			}, func(i int) {
				for _, p := range theirs {
					got, err := machine.Run(p, envs[i%len(envs)])
					if err != nil {
						b.Fatal(err)
					}
					sink = of(got.(bool))
				}
			})
			b.ReportMetric(ours/float64(len(programs)), "ns/rule")
			b.ReportMetric(their/ours, "expr-x")
		})
	}
}

var (
	bandCall = regexp.MustCompile(`\b([a-z_]+)\(([a-z_]+)\)`)
	unitCall = regexp.MustCompile(`\b([A-Za-z_]+)\((-?[0-9.]+)\)`)
)

// bandsGiven adds every band word of every reading as a name of its own.
func bandsGiven(s *Scope, w *World, env map[string]any) {
	for _, n := range s.Names(NumberKind) {
		for i, word := range bandWords {
			env[word+"_"+n.ID] = w.Moments[0].Word[n.Slot].is(1<<i) == True
		}
	}
}

// exprPrograms compiles the rules for expr's machine.
func exprPrograms(b *testing.B, env map[string]any, best bool) []*vm.Program {
	b.Helper()
	var list []*vm.Program
	for _, text := range twinRules {
		if best {
			text = bandCall.ReplaceAllString(text, "${1}_$2")
		}
		text = unitCall.ReplaceAllStringFunc(text, func(call string) string {
			m := unitCall.FindStringSubmatch(call)
			x, _ := strconv.ParseFloat(m[2], 64)
			return fmt.Sprintf("%g", makerUnits()[makerIndex[m[1]]].units[0].ToSI(x))
		})
		p, err := expr.Compile(text, expr.Env(env), expr.AsBool())
		if err != nil {
			b.Fatalf("%q: %v", text, err)
		}
		list = append(list, p)
	}
	return list
}

// BenchmarkOverMoments evaluates words that go through all moments of a run of
// eight.
func BenchmarkOverMoments(b *testing.B) {
	s := testScope(b)
	w := s.NewWorld(8)
	fill(s, w, 1, false)
	for _, text := range []string{
		`at(booster == "on", delivery_fuel_pressure) - at(booster == "off", delivery_fuel_pressure) > psi(2)`,
		"low(at(at_idle, oil_pressure)) and not low(at(at_power, oil_pressure))",
		"before(falling(delivery_fuel_pressure), falling(engine_rpm))",
		"n_of(2, at(at_idle, rough_idle), highest(coolant_temperature) > degC(100), surges)",
	} {
		p := compiled(b, s, text)
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				sink = p.Eval(w, 3)
			}
		})
	}
}

// BenchmarkLoad reads 1,200 programs from their compact form, and compiles as
// many from text; the ratio is reported as compile-x.
func BenchmarkLoad(b *testing.B) {
	const count = 1200
	s := testScope(b)
	programs := twinPrograms(b, s)
	var forms [][]byte
	bytes := 0
	for i := range count {
		data, err := programs[i%len(programs)].MarshalBinary()
		if err != nil {
			b.Fatal(err)
		}
		forms, bytes = append(forms, data), bytes+len(data)
	}
	load, compile := sideBySide(b, 1, func(int) {
		for _, data := range forms {
			if _, err := s.Load(data); err != nil {
				b.Fatal(err)
			}
		}
	}, func(int) {
		for i := range count {
			if _, problems := Compile(s, twinRules[i%len(twinRules)], nil); len(problems) > 0 {
				b.Fatal(problems)
			}
		}
	})
	b.ReportMetric(float64(bytes)/count, "B/program")
	b.ReportMetric(load/1e6, "load-ms")
	b.ReportMetric(compile/load, "compile-x")
}

// BenchmarkNewScope makes a scope of 3,000 names.
func BenchmarkNewScope(b *testing.B) {
	names := make([]Name, 3000)
	for i := range names {
		names[i] = Name{ID: fmt.Sprintf("some_reading_or_sign_%d", i), Kind: Kind(i % 2)}
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := NewScope(names); err != nil {
			b.Fatal(err)
		}
	}
}

// Evaluation must not allocate, whatever the condition.
func TestEvalDoesNotAllocate(t *testing.T) {
	s := testScope(t)
	w := s.NewWorld(3)
	fill(s, w, 7, false)
	texts := append([]string(nil), twinRules...)
	for _, tt := range meanings {
		texts = append(texts, tt.text)
	}
	for _, text := range texts {
		p := compiled(t, s, text)
		got := testing.AllocsPerRun(10, func() {
			sink = p.Eval(w, 1)
			sink = p.EvalWhole(w)
		})
		if math.Abs(got) > 0 {
			t.Errorf("%q allocates %v times a run, want 0", text, got)
		}
	}
}
