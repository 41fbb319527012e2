package hunt

// This file turns what people say of a part into the form in which it is typed:
// "oil cooler leaks oil" is oil cooler.leaks=oil.

import (
	"regexp"
	"strings"

	"snagwise/engine/hunt"
)

// A saying is one way to speak of a part: what is found of it, put into typed.
type saying struct {
	form  *regexp.Regexp
	typed []string // of the groups of form, $1 and so on
}

// sayings are tried in order; common practice, no source.
var sayings = []saying{
	{regexp.MustCompile(`^(?:the )?(.+?) (?:is |was )?(?:leaks|leaking|leaked) (?:some )?(\w+)$`), []string{"$1.leaks=$2"}},
	{regexp.MustCompile(`^(\w+) (?:leaks|leaking|leaked|leak|drips|dripping) (?:from|at|out of) (?:the )?(.+)$`), []string{"$2.leaks=$1"}},
	{regexp.MustCompile(`^(?:the )?(.+?) (?:felt|feels|is|was) (?:very |too |rather )?(\w+)$`), []string{"$1.felt=$2"}},
	{regexp.MustCompile(`^(?:changed|swapped|renewed|replaced) (?:the )?(.+?)(?: and|:| with|,)? (?:it )?(?:was |is )?((?:made |did |no |not |much |better|worse|cured|fixed|still|the same|same|improved).*)$`), []string{"$1.changed=$2"}},
	{regexp.MustCompile(`^(?:the )?(.+?) (?:was |is )?(?:changed|swapped|renewed|replaced)(?: and|:|,)? (?:it )?(?:was |is )?((?:made |did |no |not |much |better|worse|cured|fixed|still|the same|same|improved).*)$`), []string{"$1.changed=$2"}},
	{regexp.MustCompile(`^looked at (?:the )?(.+?):? (good|ok|okay|fine|in order|nothing found|nothing wrong|all right|clean|clear|sound)$`), []string{"$1.looked_at=$2"}},
	{regexp.MustCompile(`^(?:the )?(.+?) (?:was )?looked at:? (.+)$`), []string{"$1.looked_at=$2"}},
	{regexp.MustCompile(`^worked on (?:the )?(.+)$`), []string{"$1.worked_on=worked on"}},
	{regexp.MustCompile(`^(?:the )?(.+?) (?:was |were |has been |just )*(worked on|refitted|disturbed|adjusted|repaired|serviced|overhauled|taken off|off)$`), []string{"$1.worked_on=$2"}},
}

// farAlong is "fuel good as far as the pump, gone at the carburettor": it may
// hold a comma or an "and".
var farAlong = regexp.MustCompile(`(?i)\b(\w+)(?: is| was)? good as far as (?:the )?([^,;.=]+?)(?:(?:\s*,)?\s*(?:\band\b|\bbut\b)?\s*gone at (?:the )?([^,;.=]+?))?\s*(?:[,;]|$)`)

// outcomeAfter is "changed the left magneto, no better": the comma is none.
var outcomeAfter = regexp.MustCompile(`(?i)\b((?:changed|swapped|renewed|replaced)\b[^,;=]*|[^,;=]*\b(?:changed|swapped|renewed|replaced)),\s*((?:it )?(?:made no difference|did not help|no better|no help|no change|no difference|better|worse|cured|fixed)\b)`)

// spokenFlow takes what is said of flows out of a line, as it would be typed.
func spokenFlow(h *hunt.Hunt, line string) (rest string, typed []string) {
	rest = farAlong.ReplaceAllStringFunc(line, func(m string) string {
		g := farAlong.FindStringSubmatch(m)
		list := []string{g[1] + ".good_as_far_as=" + g[2]}
		if g[3] != "" {
			list = append(list, g[1]+".gone_at="+g[3])
		}
		if facts, wait, l := h.Statements(list); len(l) > 0 || len(facts)+len(wait) == 0 {
			return m
		}
		typed = append(typed, list...)
		return " , "
	})
	return rest, typed
}

// spokenPart returns what a phrase says of a part, as it would be typed. It
// must name the part plainly and say a thing that can be said of one.
func spokenPart(h *hunt.Hunt, phrase string) []string {
	low := strings.ToLower(phrase)
	for _, s := range sayings {
		m := s.form.FindStringSubmatchIndex(low)
		if m == nil {
			continue
		}
		var typed []string
		for _, t := range s.typed {
			typed = append(typed, string(s.form.ExpandString(nil, strings.ReplaceAll(strings.ReplaceAll(t, "$1", "${1}"), "$2", "${2}"), low, m)))
		}
		if facts, _, l := h.Statements(typed); len(l) == 0 && len(facts) > 0 {
			return typed
		}
	}
	return nil
}

// joinsFreely says whether the words of a statement may hold "and".
func joinsFreely(typed string) bool {
	name, _, _ := strings.Cut(typed, "=")
	key := strings.ReplaceAll(strings.ToLower(name[strings.Index(name, ".")+1:]), " ", "_")
	return strings.Contains(key, "worked_on") || strings.Contains(key, "looked_at")
}
