package casebook

// This file counts how much of what sources tell the sheets say.

// A Saying is how many phrases the sources of some cases tell, and how many of
// them the sheets say.
type Saying struct {
	Group  string  `json:"group"`
	Cases  int     `json:"cases"`
	Told   int     `json:"told"`
	Said   int     `json:"said"`
	Unsaid []Quiet `json:"unsaid"` // in the order of the cases
}

// A Quiet is a phrase that a sheet cannot say, and why.
type Quiet struct {
	Case   string `json:"case"`
	Phrase string `json:"phrase"`
	Why    string `json:"why"`
}

// Share returns the share that is said, from 0 to 1; 1 where nothing is told.
func (s Saying) Share() float64 {
	if s.Told == 0 {
		return 1
	}
	return float64(s.Said) / float64(s.Told)
}

// Sayings sums up the cases whose phrases were counted: for each folder all of
// them, then by how much evidence they give. The groups are those of [Report]
// and go by the same names.
func Sayings(scores []Score) []Saying {
	var out []Saying
	for _, g := range groupings(scores) {
		s := Saying{Group: g.name, Unsaid: []Quiet{}}
		for _, c := range scores {
			p := c.Account.Case.Phrases
			if p.Told == 0 || !g.keep(c) {
				continue
			}
			s.Cases++
			s.Told += p.Told
			s.Said += p.Said
			for _, u := range p.Cannot {
				s.Unsaid = append(s.Unsaid, Quiet{c.Case.File, u.Phrase, u.Why})
			}
		}
		if s.Cases > 0 && !g.bySystem {
			out = append(out, s)
		}
	}
	return out
}
