package main

// This file shows the answer to a sheet, in the order in which a person with
// cold hands needs it.

import (
	"fmt"
	"regexp"
	"strings"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/diagnose"
)

// How much is shown unless all is asked for.
const (
	causesGrounds    = 3  // causes with what speaks for and against them
	causesGroundsAll = 20 // the same where all is asked for
	toolsShown       = 6  // checks that lack a tool
	linesShown       = 3  // of what speaks for a cause, against it, or was not looked at
	answersShown     = 3  // of a check
	heldShown        = 2  // checks held back for one reason
)

// An answerPage shows one result.
type answerPage struct {
	s    *screen.Screen
	e    *diagnose.Engine
	r    *diagnose.Result
	all  bool
	bare bool // nothing was told that bears on anything
}

func (a *answerPage) show() {
	a.s.Styled(screen.Strong, 0, a.r.Rig.Name)
	a.firstActions()
	a.engineer()
	a.likely()
	a.next()
	a.lacking()
	a.heldBack()
	a.normalThings()
	a.disagree()
	a.assumed()
	a.notes()
	a.closing()
}

// firstActions come before everything else.
func (a *answerPage) firstActions() {
	if len(a.r.FirstActions) == 0 {
		return
	}
	a.s.Heading("Do this at once")
	for i, act := range a.r.FirstActions {
		if i > 0 {
			a.s.Gap()
		}
		a.s.Alert("NOW", sentence(act.Do))
		for _, g := range act.Because {
			a.s.Item(5, "because ", groundWords(g))
		}
	}
}

// groundWords tells one thing known and how it is known.
func groundWords(g diagnose.Ground) string {
	text := strings.TrimSuffix(g.Means, ".")
	if how := howWords(g.How); how != "" {
		text += " (" + how + ")"
	}
	return text
}

func (a *answerPage) engineer() {
	if len(a.r.CallEngineer) == 0 {
		return
	}
	a.s.Heading("Call the licensed engineer")
	for _, why := range a.r.CallEngineer {
		a.s.Item(0, "- ", sentence(why))
	}
}

// likely lists the causes, and for the first of them what bears on each.
func (a *answerPage) likely() {
	a.s.Heading("What is likely")
	if a.bare {
		a.s.Text(0, "Nothing was told yet that points anywhere; what follows is only what turns up most often. "+
			"Until more is known: stop by idle cut-off if the oil pressure is not where it should be, if anything passes its limit, shakes, leaks or smells of burning, "+
			"and treat the propeller as live.")
		a.s.Gap()
	}
	if len(a.r.Causes) == 0 {
		a.s.Text(0, "None of the causes known here fits what was told. Look over what was told, tell more, or ask the licensed engineer.")
		return
	}
	shown := a.r.Causes
	t := screen.Table{Columns: []screen.Column{{Title: "", Right: true}, {Title: "chance"}, {Title: "what is wrong"}, {Title: "who may cure it"}}}
	for i, c := range shown {
		t.Rows = append(t.Rows, []string{fmt.Sprintf("%d", i+1), chanceOf(c), causeWords(c), c.Who})
	}
	a.s.Table(t)
	a.s.Text(0, "None of all these: "+screen.Chance(a.r.NoneOfThese)+". Chances can add to more than 100 % because two faults may be present.")
	if !a.all {
		a.s.Styled(screen.Quiet, 0, "--all shows the less likely ones, --why CAUSE all that bears on one.")
	}
	for i, c := range shown {
		if !a.bare && (i == 0 || a.all && i < causesGroundsAll || i < causesGrounds && c.Chance >= .05) {
			a.s.Gap()
			a.grounds(i+1, c)
		}
	}
}

// chanceOf tells the chance of a cause in a word and to the nearest 5 %.
func chanceOf(c diagnose.Cause) string { return c.ChanceInWords + ", " + screen.Percent(c.Chance) }

// causeWords names a cause by what fails and its id.
func causeWords(c diagnose.Cause) string { return c.Name + " (" + c.ID + ")" }

// grounds tells what speaks for a cause, against it, and was not looked at.
func (a *answerPage) grounds(n int, c diagnose.Cause) {
	s := a.s
	s.Styled(screen.Strong, 0, fmt.Sprintf("%d. %s: %s", n, c.Name, chanceOf(c)))
	a.lines("for it", c.For)
	a.lines("against it", c.Against)
	var open []string
	for i, u := range c.NotLookedAt {
		if i == linesShown && !a.all {
			open = append(open, fmt.Sprintf("and %d more", len(c.NotLookedAt)-i))
			break
		}
		open = append(open, strings.TrimSuffix(u.Means, "."))
	}
	a.item("not looked at", strings.Join(open, "; "))
	a.about(c)
}

// about tells what is known of a cause besides what bears on it.
func (a *answerPage) about(c diagnose.Cause) {
	if len(c.Places) > 1 {
		var places []string
		for _, pl := range c.Places {
			places = append(places, spaced(pl.Part)+" "+screen.Percent(pl.Chance))
		}
		a.item("which", strings.Join(places, ", "))
	}
	a.item("leaves open", strings.Join(c.NotExplained, ", "))
	if c.FellBecause != "" {
		a.item("less likely", "because "+c.FellBecause+" explains the same")
	}
	a.item("holds if", c.HoldsIf)
	a.item("running on", joined(c.RunOn, c.RunOnWhy))
	a.item("settled by", c.SettledBy)
	remedy := c.Remedy
	if c.RemedyMinutes > 0 && remedy != "" {
		remedy = strings.TrimSuffix(remedy, ".") + " (" + screen.Minutes(c.RemedyMinutes) + ", " + c.Who + ")"
	}
	a.item("cure", remedy)
}

// groundsAt is the column at which the text after a label of a cause begins.
const groundsAt = 18

func (a *answerPage) item(label, text string) {
	if text != "" {
		a.s.Pair(3, groundsAt, label, text)
	}
}

// lines writes lines of a ledger, each with its points.
func (a *answerPage) lines(label string, list []diagnose.Line) {
	if len(list) == 0 {
		a.item(label, "nothing that was told")
		return
	}
	for i, l := range list {
		if i == linesShown && !a.all {
			a.item("", fmt.Sprintf("and %d more", len(list)-i))
			return
		}
		a.s.Pair(3, groundsAt, label, lineWords(l))
		label = ""
	}
}

// lineWords tells one line of a ledger, with the figures that it rests on.
func lineWords(l diagnose.Line) string {
	text := screen.Points(l.Points) + "  " + strings.TrimSuffix(l.Means, ".")
	if how := howWords(l.How); how != "" && len(how) <= longestHow {
		text += " (" + how + ")"
	}
	return text
}

// longestHow is how long a ground may be on the page; --why shows all.
const longestHow = 72

// judged is one clause of a rule with the figure found, such as
// low(oil_pressure) (8 psi).
var judged = regexp.MustCompile(`(not )?\b(none|low|normal|high|over_stop|below_stop|rising|falling|unsteady|dead)\((\w+)\)(?: \(([^()]*)\))?`)

// moment is the moment at the end of a ground.
var moment = regexp.MustCompile(` \(moment \d+\)$`)

// howWords puts the ground of a line as it is spoken: "oil pressure low at
// 8 psi". What was simply told, or is several things together, says nothing
// more.
func howWords(how string) string {
	how = moment.ReplaceAllString(how, "")
	if how == "told" || how == "these things together" || how == "taken together" {
		return ""
	}
	return judged.ReplaceAllStringFunc(how, func(clause string) string {
		m := judged.FindStringSubmatch(clause)
		text := spaced(m[3]) + " " + m[1] + spaced(m[2])
		if m[4] != "" {
			text += " at " + m[4]
		}
		return text
	})
}

func (a *answerPage) normalThings() {
	if len(a.r.NormalThings) == 0 {
		return
	}
	a.s.Heading("What looks like a fault and is none")
	for _, n := range a.r.NormalThings {
		a.s.Item(0, "- ", sentence(joined(n.Seen, n.Why)))
		if n.NotNormalIf != "" {
			a.s.Text(2, "Not normal if: "+sentence(n.NotNormalIf))
		}
	}
}

func (a *answerPage) disagree() {
	if len(a.r.Disagree) == 0 {
		return
	}
	a.s.Heading("What does not go together")
	for _, d := range a.r.Disagree {
		a.s.Item(0, "- ", sentence(joined(strings.TrimSuffix(d.Means, "."), d.Why)))
	}
}

func (a *answerPage) assumed() { a.bullets("What was taken for granted", a.r.Assumed) }

func (a *answerPage) notes() { a.bullets("Notes: shown, not used", a.r.Notes) }

func (a *answerPage) bullets(heading string, list []string) {
	if len(list) == 0 {
		return
	}
	a.s.Heading(heading)
	for _, text := range list {
		a.s.Item(0, "- ", sentence(text))
	}
}

// closing says whose the figures are and who decides.
func (a *answerPage) closing() {
	a.s.Gap()
	a.s.Styled(screen.Quiet, 0, "Chances and points rest on the project's own scale of how common a fault is and how strong a sign, not on measurement. "+
		"The engine's own book, the rules of the place and the licensed engineer come first.")
}
