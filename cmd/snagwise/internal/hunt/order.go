package hunt

// This file carries out orders: taking back, correcting, the state of the rig,
// the clock.

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/hunt"
)

// back takes a thing told back by its number.
func (s *Session) back(rest string) ([]hunt.Step, []string, error) {
	var steps []hunt.Step
	for w := range strings.FieldsSeq(strings.ReplaceAll(rest, ",", " ")) {
		n, err := strconv.Atoi(w)
		if err != nil || !s.holds(n) {
			return nil, []string{fmt.Sprintf("Nothing told has the number %q; list shows them.", screen.Clip(w, 20))}, nil
		}
		steps = append(steps, hunt.Step{Take: n})
	}
	if len(steps) == 0 {
		return nil, []string{"back N takes back what was told under that number; list shows the numbers."}, nil
	}
	return steps, nil, nil
}

func (s *Session) holds(n int) bool {
	return slices.ContainsFunc(s.hunt.Facts(), func(f hunt.Numbered) bool { return f.N == n })
}

// undo takes back all that the last answer told.
func (s *Session) undo(string) ([]hunt.Step, []string, error) {
	last := s.hunt.Last()
	if len(last) == 0 {
		return nil, []string{"Nothing was told yet."}, nil
	}
	var steps []hunt.Step
	for _, f := range last {
		steps = append(steps, hunt.Step{Take: f.N})
	}
	return steps, nil, nil
}

// fix takes one thing back and tells another in its place.
func (s *Session) fix(rest string) ([]hunt.Step, []string, error) {
	number, text, _ := strings.Cut(rest, " ")
	n, err := strconv.Atoi(number)
	if err != nil || !s.holds(n) || strings.TrimSpace(text) == "" {
		return nil, []string{"fix N WORDS puts what you say in the place of number N, such as: fix 2 oil pressure 55; list shows the numbers."}, nil
	}
	at := s.hunt.Moment()
	for _, f := range s.hunt.Facts() {
		if f.N == n && f.At != (hunt.Moment{}) {
			at = f.At
		}
	}
	old := s.hunt
	s.hunt = s.hunt.After(hunt.Record{Steps: []hunt.Step{{Moment: &at}}}) // told of the same moment
	steps, said := s.tell(text)
	s.hunt = old
	if len(steps) == 0 {
		return nil, said, nil
	}
	return append([]hunt.Step{{Take: n}}, steps...), said, nil
}

// rig says how the rig stands, or asks to be led into another state.
func (s *Session) rig(rest string) ([]hunt.Step, []string, error) {
	states := s.hunt.States()
	state, told := strings.CutPrefix(strings.ToLower(rest), "is ")
	switch {
	case rest == "":
		now := s.hunt.Rig()
		if now == "" {
			now = "not told"
		}
		return nil, []string{
			"The rig is: " + now + ". The propeller is live until proved otherwise.",
			"rig is STATE says how it stands, rig STATE leads there step by step. States: " + screen.And(states) + ".",
		}, nil
	case !slices.Contains(states, state):
		return nil, []string{screen.Unknown("state of the rig", rest, states) + "."}, nil
	case told:
		return []hunt.Step{{Rig: state}}, nil, nil
	case state == s.hunt.Rig():
		return nil, []string{"It is so already."}, nil
	}
	if no := s.hunt.Forbids(state); len(no) > 0 {
		said := []string{"Not now:"}
		for _, w := range no {
			said = append(said, "- "+w+".")
		}
		return nil, append(said, "Settle that first. If it was told wrongly, take it back: list, then back N."), nil
	}
	return []hunt.Step{{Want: state}}, nil, nil
}

func (s *Session) setSlot(rest string) ([]hunt.Step, []string, error) {
	switch rest {
	case "":
		return nil, []string{"slot 20m or slot 15:05 sets the clock, slot none stops it. The last moment to stand down is the latest at which a likely cause that an operator may cure can still be looked at, cured and the engine be warm in time."}, nil
	case "none", "off":
		return []hunt.Step{{Slot: "-"}}, nil, nil
	}
	at, err := ParseSlot(rest, s.Now())
	if err != nil {
		return nil, []string{"No: " + err.Error() + "."}, nil
	}
	return []hunt.Step{{Slot: at.Format(time.RFC3339)}}, nil, nil
}

// did says that what must be done at once was done, so that it is not said
// again at each turn.
func (s *Session) did(string) ([]hunt.Step, []string, error) {
	if s.turn.Result == nil || len(s.turn.Result.FirstActions) == 0 {
		return nil, []string{"Nothing that was told must be done at once."}, nil
	}
	var ids []string
	for _, a := range s.turn.Result.FirstActions {
		ids = append(ids, a.ID)
	}
	return []hunt.Step{{Did: ids}}, []string{"Taken for done; now shows it again."}, nil
}

// ask puts the questions about dangers now, those left before as well.
func (s *Session) ask(string) ([]hunt.Step, []string, error) {
	steps := []hunt.Step{{Ask: "on"}}
	for _, f := range s.hunt.Facts() {
		if f.Kind == hunt.Left && s.hunt.IsDanger(f.Name) {
			steps = append(steps, hunt.Step{Take: f.N})
		}
	}
	if len(s.turn.Ask) == 0 && len(steps) == 1 {
		return nil, []string{"No check is held back by a danger that nobody has looked for."}, nil
	}
	return steps, nil, nil
}

func (s *Session) lack(rest string) ([]hunt.Step, []string, error) {
	tools := s.hunt.Engine().Tools()
	if !slices.Contains(tools, rest) {
		return nil, []string{screen.Unknown("tool", rest, tools) + "."}, nil
	}
	return []hunt.Step{{Tell: &hunt.Fact{Kind: hunt.Lacking, Name: rest}}}, nil, nil
}

// why tells the grounds of a cause by its number or words, or of the check
// that is asked for.
func (s *Session) why(rest string) ([]hunt.Step, []string, error) {
	if s.turn.Result == nil {
		return nil, []string{"First say what is meant, or - to leave it."}, nil
	}
	if rest == "" {
		return nil, s.whyCheck(), nil
	}
	id, said := s.cause(rest)
	if id == "" && strings.HasSuffix(rest, "?") { // "why won't it fire?" tells that it does not
		for _, w := range []string{"does ", "do ", "is ", "did ", "was "} {
			rest = strings.TrimPrefix(rest, w)
		}
		steps, more := s.tell(strings.TrimRight(rest, "? "))
		return steps, more, nil
	}
	if id == "" {
		return nil, said, nil
	}
	a, l := s.hunt.Account()
	if len(l) > 0 {
		return nil, problemWords(l), nil
	}
	w, err := s.hunt.Engine().Why(a, id)
	if err != nil {
		return nil, []string{screen.Clip(err.Error(), 200) + "."}, nil
	}
	s.grounds(&w.Cause)
	return nil, nil, nil
}

// cause returns the cause that a number of the list or words name.
func (s *Session) cause(rest string) (string, []string) {
	if n, err := strconv.Atoi(rest); err == nil {
		if s.turn.Result == nil || n < 1 || n > len(s.turn.Result.Causes) {
			return "", []string{"No cause has that number; more lists them."}
		}
		return s.turn.Result.Causes[n-1].ID, nil
	}
	switch found := s.finder.Causes(rest); len(found) {
	case 0:
		return "", []string{fmt.Sprintf("No cause goes by %q. Try a shorter word, or the number from more.", screen.Clip(rest, 60))}
	case 1:
		return found[0], nil
	default:
		said := []string{"Which of these? Use its name."}
		for _, id := range found {
			said = append(said, "- "+id+": "+s.hunt.Cause(id))
		}
		return "", said
	}
}
