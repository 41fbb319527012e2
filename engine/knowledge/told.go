package knowledge

func (c *compiler) trials() {
	b := c.base
	for _, s := range c.src.Trials {
		t := Trial{TrialSource: s, Slot: c.truth[s.ID.Value], Same: -1, Opposite: -1, Usual: -1, AgainstP: s.Against}
		t.ForState, t.ForCause = c.stateOrCause(s.SpeaksFor, strengths, strengthWords)
		t.AgainstState, t.AgainstCause = c.stateOrCauseList(s.SpeaksAgainst)
		for _, k := range s.Clears {
			c.lookup(k, "kind of part", b.kindAt)
		}
		_, t.Spares = c.stateOrCauseList(s.Leaves)
		if s.SameAs.Value != "" {
			t.Same, _ = c.lookup(s.SameAs, "sign", b.signAt)
		}
		if s.OppositeOf.Value != "" {
			t.Opposite, _ = c.lookup(s.OppositeOf, "sign", b.signAt)
		}
		if s.Otherwise.Value != "" {
			t.Usual, _ = c.word(s.Otherwise, strengths, strengthWords)
		}
		if t.AgainstP == 0 {
			t.AgainstP = .05
		}
		c.sources(s.Source)
		b.Trials = append(b.Trials, t)
	}
}

func (c *compiler) courses() {
	b := c.base
	for _, s := range c.src.Courses {
		k := Course{ID: s.ID.Value, Means: s.Means, Words: values(s.Words), Slot: c.truth[s.ID.Value], At: s.ID.Pos()}
		k.ForState, k.ForCause = c.stateOrCause(s.SpeaksFor, strengths, strengthWords)
		k.AgainstState, k.AgainstCause = c.stateOrCauseList(s.SpeaksAgainst)
		c.sources(s.Source)
		b.Courses = append(b.Courses, k)
	}
	for _, s := range c.src.Normals {
		c.sources(s.Source)
		b.Normals = append(b.Normals, Normal{ID: s.ID.Value, Means: s.Means, Words: values(s.Words), Slot: c.truth[s.ID.Value],
			Denies: c.list(s.Denies, "sign", b.signAt), At: s.ID.Pos()})
	}
}

func (c *compiler) circumstances() {
	b := c.base
	more := map[string][]Link{}
	for i, s := range c.src.Causes {
		for _, t := range s.MoreLikelyIf {
			if slot, ok := c.truth[t.Value]; ok && b.slotOwner[slot].Kind == OwnCircumstance {
				more[t.Value] = append(more[t.Value], Link{i, factors["more"]})
				continue
			}
			c.lookup(t, "circumstance", c.circumstanceIDs())
		}
	}
	for _, s := range c.src.Circumstances {
		k := Circumstance{ID: s.ID.Value, Means: s.Means, Words: values(s.Words), Slot: c.truth[s.ID.Value], Stories: values(s.OneStory), At: s.ID.Pos()}
		k.LikelyState, k.Likely = c.stateOrCause(s.MoreLikely, factors, factorWords)
		states, causes := c.stateOrCause(s.LessLikely, factors, factorWords)
		for _, less := range states {
			k.LikelyState = append(k.LikelyState, Link{less.To, 1 / less.By})
		}
		for _, less := range causes {
			k.Likely = append(k.Likely, Link{less.To, 1 / less.By})
		}
		for _, m := range more[k.ID] {
			if !hasLink(k.Likely, m.To) {
				k.Likely = append(k.Likely, m)
			}
		}
		if s.When.Value != "" {
			k.Program = c.program(s.When)
		}
		c.sources(s.Source)
		b.Circumstances = append(b.Circumstances, k)
	}
}

func hasLink(links []Link, to int) bool {
	for _, k := range links {
		if k.To == to {
			return true
		}
	}
	return false
}

func (c *compiler) circumstanceIDs() map[string]int {
	m := map[string]int{}
	for i, s := range c.src.Circumstances {
		m[s.ID.Value] = i
	}
	return m
}

// rest compiles first actions, pairs, what leads to what, and normal things.
func (c *compiler) rest() {
	b := c.base
	for _, s := range c.src.FirstActions {
		c.sources(s.Source)
		for _, k := range s.Needs {
			c.lookup(k, "kind of part", b.kindAt)
		}
		b.FirstActions = append(b.FirstActions, FirstAction{ID: s.ID.Value, Do: s.Do, Needs: values(s.Needs), Source: values(s.Source),
			Program: c.program(s.When), At: s.ID.Pos()})
	}
	for _, s := range c.src.Pairs {
		of := c.list(s.Of, "cause", b.causeAt)
		if len(of) != 2 {
			if len(s.Of) != 2 {
				c.l.Addf(s.At, "not-a-pair", "a pair names two causes, this names %d", len(s.Of))
			}
			continue
		}
		b.Pairs = append(b.Pairs, Pair{A: of[0], B: of[1], PartedBy: c.list(s.PartedBy, "sign", b.signAt), How: s.How})
	}
	for _, s := range c.src.Leads {
		from, ok := c.lookup(s.From, "cause", b.causeAt)
		if to, ok2 := c.lookup(s.To, "cause", b.causeAt); ok && ok2 {
			b.Leads = append(b.Leads, Lead{From: from, To: to, How: s.How})
		}
	}
	for _, s := range c.src.Implied {
		for _, k := range s.Part {
			c.lookup(k, "kind of part", b.kindAt)
		}
		if sg, ok := c.lookup(s.Sign, "sign", b.signAt); ok {
			b.Implied = append(b.Implied, Implied{Told: s.Told.Value, How: values(s.How), Kinds: values(s.Part), Sign: sg})
		}
	}
	for _, s := range c.src.Hazards {
		c.sources(s.Source)
		h := Hazard{ID: s.ID.Value, Means: s.Means, Ask: s.Ask, When: c.program(s.When), Clear: c.program(s.Clear)}
		for _, w := range s.Blocks {
			c.among(w, []string{"running", "turning"}, "sort of check")
			h.Running = h.Running || w.Value == "running"
			h.Turning = h.Turning || w.Value == "turning"
		}
		for _, w := range s.BlocksIfSo {
			c.among(w, []string{"let_out", "prime"}, "sort of check")
			h.LetOut = h.LetOut || w.Value == "let_out"
			h.Prime = h.Prime || w.Value == "prime"
		}
		b.Hazards = append(b.Hazards, h)
	}
	for _, r := range c.src.Relations {
		c.sources(r.Source)
	}
	b.Relations = c.src.Relations
	for _, u := range c.src.Untied {
		c.lookup(u.Cause, "cause", b.causeAt)
		c.lookup(u.Reading, "reading", b.readingAt)
	}
	for _, k := range c.src.NoWayThrough {
		c.lookup(k, "kind of part", b.kindAt)
	}
	b.NoWayThrough = values(c.src.NoWayThrough)
	for _, s := range c.src.NormalThings {
		n := NormalThing{NormalThingSource: s}
		if s.When.Value != "" {
			n.Program = c.program(s.When)
		}
		b.NormalThings = append(b.NormalThings, n)
	}
}
