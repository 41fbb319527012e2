// Package condition reads the conditions of rules, such as
//
//	low(delivery_fuel_pressure) and not low(pump_fuel_pressure) and at_power
//
// and evaluates them over what is known. They are written in the expr language
// and parsed and type-checked by expr, then checked for dimensions and compiled
// to a flat three-valued program: an answer is [True], [False] or [Unknown], and
// a reading that nobody took argues neither way.
//
// A [Scope] holds the names that conditions may use, each with its kind, its
// dimension or its values. [Compile] turns a text into a [Program] or gives all
// its problems at once, each at its character. A [World] holds what is known at
// each moment of a run; [Program.Eval] evaluates at one of them,
// [Program.EvalWhole] over all:
//
//	p, problems := condition.Compile(scope, text, node.Offset)
//	if p.Eval(world, now) == condition.True { ... }
//
// [Program.Explain] says which clauses decided it, [Program.Needs] what an
// undecided one waits for, [Program.Uses] what it reads.
//
// # The language
//
//	and  or  not                    Kleene's strong logic
//	== != < <= > >=  in  not in     of quantities; of texts only == != in
//	+ - * /  abs(x) min(x, y) max(x, y)   dimensions must fit; x / 0 is unknown
//	psi(8) degC(85) rpm(1300) ...   a quantity; a figure without unit is a plain number
//	low(x) high(x) normal(x) ...    band words of a reading, or of at(c, reading)
//	booster == "on"                 texts; the word must be one the text can be
//	seen(x)                         is anything known of x
//	n_of(2, a, b, c)                at least two of them
//	at(c, x)                        x at the moments where c is true: a figure as last
//	                                taken there; a truth if so at one of them
//	highest(x) lowest(x)            over all moments, of the figures taken
//	before(a, b)                    a at one moment, b at a later one
//	after(a, b)                     b at the same moment as a or a later one
//	together(a, b)                  both at one moment
//
// A truth name told at moments is read over the whole outside these words and
// at the moment in hand within them; readings, texts and names of span
// [Momentary] are read at the moment in hand everywhere.
package condition
