package sheet

// This file moves what a person filed under the wrong heading to where it
// belongs, where its id leaves no doubt of what it is.

import "slices"

// refilable are the kinds that a list of bare names may hold.
var refilable = []kind{aSign, aCircumstance, aCourse, aTrial, aNormal}

// refile returns the sheet with every id that stands under another heading than
// its own moved under its own: a trial among the symptoms, a course among the
// circumstances. Only exact ids move; a word that could mean two things stays
// where it is and is reported.
func (r *resolver) refile(s *Sheet) *Sheet {
	c := *s
	c.Moments = slices.Clone(s.Moments)
	var stray []Text // signs that stand at the top level
	top := map[kind]*[]Text{aCircumstance: &c.Circumstances, aCourse: &c.Course, aTrial: &c.Trials, aNormal: &c.Normal, aSign: &stray}
	move := func(list []Text, own kind, to map[kind]*[]Text) []Text {
		var stays []Text
		for _, w := range list {
			if k, ok := r.belongs(w, own); ok {
				*to[k] = append(slices.Clip(*to[k]), w)
			} else {
				stays = append(stays, w)
			}
		}
		return stays
	}
	for _, k := range refilable[1:] {
		*top[k] = move(*top[k], k, top)
	}
	for i := range c.Moments {
		m := &c.Moments[i]
		in := map[kind]*[]Text{aCircumstance: &c.Circumstances, aTrial: &c.Trials, aSign: &m.Symptoms, aCourse: &m.Course, aNormal: &m.Normal}
		m.Symptoms = move(m.Symptoms, aSign, in)
		m.Course = move(m.Course, aCourse, in)
		m.Normal = move(m.Normal, aNormal, in)
	}
	if len(stray) > 0 {
		if len(c.Moments) == 0 {
			c.Moments = []Moment{{At: stray[0].Pos()}}
		}
		last := &c.Moments[len(c.Moments)-1]
		last.Symptoms = append(slices.Clip(last.Symptoms), stray...)
	}
	return &c
}

// belongs says under which heading a word belongs when it is no word of its
// own heading and the id of something else.
func (r *resolver) belongs(w Text, own kind) (kind, bool) {
	if _, level := r.by[own].find(w.Value); level != notFound {
		return 0, false
	}
	if own == aNormal {
		if _, level := r.by[aReading].find(w.Value); level != notFound {
			return 0, false // a reading said to be in order
		}
	}
	for _, k := range refilable {
		if _, level := r.by[k].find(w.Value); k != own && level == byID {
			return k, true
		}
	}
	return 0, false
}
