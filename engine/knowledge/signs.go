package knowledge

import (
	"fmt"
	"slices"

	"snagwise/engine/problem"
)

var signKinds = map[string]SignKind{"": SeenSign, "seen": SeenSign, "check": CheckSign, "vague": VagueSign, "reading": ReadingSign}
var signKindWords = []string{"seen", "check", "vague"}

// signs fills in what a sign list says of each sign and opens vague ones.
func (c *compiler) signs() {
	b := c.base
	for _, s := range c.src.Signs {
		sg := &b.Signs[b.signAt[s.ID.Value]]
		sg.Means, sg.System, sg.Sense, sg.Side = s.Means, s.System, s.Sense.Value, s.Side.Value
		sg.Words = append(sg.Words, values(s.Words)...)
		sg.Phases = c.phases(s.Phases)
		kind, ok := signKinds[s.Kind.Value]
		if !ok {
			c.l.Add(s.Kind.Pos(), "unknown-word", fmt.Sprintf("unknown kind of sign %q", s.Kind.Value), problem.DidYouMean(s.Kind.Value, signKindWords))
		}
		sg.Kind = kind
		if s.StandsFor.Value != "" {
			sg.StandsFor, _ = c.lookup(s.StandsFor, "sign", b.signAt)
		}
		if s.FalseAlarm.Value != "" {
			sg.FalseAlarm, _ = c.word(s.FalseAlarm, strengths, strengthWords)
		}
		c.sources(s.Source)
		if kind == VagueSign && len(s.Covers) == 0 {
			c.l.Add(s.ID.Pos(), "covers-nothing", fmt.Sprintf("vague sign %q covers nothing", s.ID.Value), "list what it covers, or say another kind")
		}
	}
	c.cover()
}

// cover resolves what vague signs cover, through other vague ones.
func (c *compiler) cover() {
	b := c.base
	direct := map[int][]int{}
	for _, s := range c.src.Signs {
		if len(s.Covers) > 0 {
			direct[b.signAt[s.ID.Value]] = c.list(s.Covers, "sign", b.signAt)
		}
	}
	for i := range b.Signs {
		if _, ok := direct[i]; !ok {
			continue
		}
		seen := map[int]bool{i: true}
		var open func(k int)
		open = func(k int) {
			for _, to := range direct[k] {
				if seen[to] {
					if to == i {
						c.l.Addf(b.Signs[i].At, "circle", "vague sign %q covers itself", b.Signs[i].ID)
					}
					continue
				}
				seen[to] = true
				if _, vague := direct[to]; vague {
					open(to)
					continue
				}
				b.Signs[i].Covers = append(b.Signs[i].Covers, to)
			}
		}
		open(i)
		slices.Sort(b.Signs[i].Covers)
	}
}

func (c *compiler) phases(ts []Text) []string {
	for _, t := range ts {
		if !slices.Contains(c.base.Phases, t.Value) {
			c.l.Add(t.Pos(), "unknown-phase", fmt.Sprintf("unknown phase %q", t.Value), problem.DidYouMean(t.Value, c.base.Phases))
		}
	}
	return values(ts)
}

// opened returns the exact signs among a list, vague ones opened.
func (b *Base) opened(list []int) []int {
	var out []int
	for _, s := range list {
		if len(b.Signs[s].Covers) > 0 {
			out = append(out, b.Signs[s].Covers...)
		}
		out = append(out, s)
	}
	slices.Sort(out)
	return slices.Compact(out)
}
