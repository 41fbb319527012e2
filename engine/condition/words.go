package condition

import "slices"

// A function is a word of the language that takes arguments in brackets.
type function struct {
	form   string // how it is written
	result Kind
	band   Band // for a band word
}

// functions are the words of the language besides the unit makers.
var functions = func() map[string]function {
	f := map[string]function{
		"at":       {"at(condition, x)", TextKind, 0}, // as its second argument
		"seen":     {"seen(x)", TruthKind, 0},
		"before":   {"before(a, b)", TruthKind, 0},
		"after":    {"after(a, b)", TruthKind, 0},
		"together": {"together(a, b)", TruthKind, 0},
		"n_of":     {"n_of(2, a, b, c)", TruthKind, 0},
		"highest":  {"highest(x)", NumberKind, 0},
		"lowest":   {"lowest(x)", NumberKind, 0},
		"abs":      {"abs(x)", NumberKind, 0},
		"min":      {"min(x, y)", NumberKind, 0},
		"max":      {"max(x, y)", NumberKind, 0},
	}
	for i, w := range bandWords {
		f[w] = function{w + "(reading)", TruthKind, 1 << i}
	}
	return f
}()

// refusedBuiltins are functions that expr knows and this language does not,
// each with what to do instead.
var refusedBuiltins = func() map[string]string {
	const (
		clock = "a condition reads no clock: the same sheet must always give the same answer"
		lists = "a condition has no lists to go through: use n_of(k, a, b, ...), and, or"
		text  = `a text is only compared: booster == "on", phase in ["idle", "run_up"]`
		whole = "compare the figure itself, with its unit: x > psi(8)"
	)
	m := map[string]string{}
	for hint, words := range map[string][]string{
		clock: {"now", "date", "duration", "timezone"},
		lists: {"all", "any", "one", "filter", "map", "find", "findIndex", "findLast", "findLastIndex", "count", "groupBy", "sortBy",
			"reduce", "len", "first", "last", "get", "take", "keys", "values", "toPairs", "fromPairs", "reverse", "uniq", "concat", "flatten", "sort"},
		text: {"type", "string", "trim", "trimPrefix", "trimSuffix", "upper", "lower", "split", "splitAfter", "replace", "repeat", "join",
			"indexOf", "lastIndexOf", "hasPrefix", "hasSuffix", "toJSON", "fromJSON", "toBase64", "fromBase64"},
		whole: {"ceil", "floor", "round", "int", "float", "sum", "mean", "median",
			"bitand", "bitor", "bitxor", "bitnand", "bitnot", "bitshl", "bitshr", "bitushr"},
	} {
		for _, w := range words {
			m[w] = hint
		}
	}
	return m
}()

// refusedOperators are operators that expr knows and this language does not.
var refusedOperators = map[string]string{
	"..":         "write x >= 1 and x <= 5",
	"%":          "there is no remainder here",
	"**":         "write x * x",
	"^":          "write x * x",
	"??":         "a missing value is unknown and needs no stand-in; seen(x) asks whether it is known",
	"matches":    `compare with ==, or in ["a", "b"]`,
	"contains":   `compare with ==, or in ["a", "b"]`,
	"startsWith": `compare with ==, or in ["a", "b"]`,
	"endsWith":   `compare with ==, or in ["a", "b"]`,
}

// functionNames lists all words that take arguments, sorted, for near matches.
var functionNames = func() []string {
	var list []string
	for w := range functions {
		list = append(list, w)
	}
	for _, m := range makers {
		list = append(list, m.word)
	}
	slices.Sort(list)
	return list
}()
