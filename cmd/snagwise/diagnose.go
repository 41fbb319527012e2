package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/spf13/cobra"

	"snagwise/cases"
	"snagwise/cmd/snagwise/internal/load"
	"snagwise/engine/diagnose"
	"snagwise/engine/problem"
	"snagwise/engine/sheet"
)

// An asking is what is asked of one sheet.
type asking struct {
	json  bool
	why   string   // id or words of a cause
	all   bool     // all causes and checks
	tools []string // at hand; nil for all
	state string   // that the rig is in now

	engineer bool    // a licensed engineer is there
	minutes  float64 // left for checks; 0 for no limit
}

// diagnoseCommand goes from a sheet to what to do.
func (p *program) diagnoseCommand() *cobra.Command {
	var ask asking
	c := &cobra.Command{
		Use:   "diagnose [SHEET.yaml | - | WORD...]",
		Short: "Say what to do at once, what is likely, what to check next",
		Long: `Say what must be done at once, what is likely wrong and why, and what to check
next. What was seen comes from a sheet (a YAML file; - reads one from standard
input) or is typed:

  PHASE:          begins a moment, such as idle: or display:
  READING=VALUE   a gauge, such as oil_pressure=60psi or oil_pressure=low
  CONTROL=SETTING a lever or switch, such as booster=on
  SYMPTOM         what was seen, heard, felt or smelt, such as black_smoke
  !SYMPTOM        what was looked for and not there; READING? could not be read
  PART.leaks=oil  and .felt= .looked_at= .changed= .worked_on=; then, of the
                  same part, .how_much= of a leak, .when= of work
  FLOW.good_as_far_as=PART and FLOW.gone_at=PART, such as fuel.gone_at=

The exit status is 0 if it answered, 1 if something must be done at once, 2 if
what was told is wrong.`,
		Example: `  snagwise diagnose snag.yaml
  snagwise diagnose --rig teasel run_up: surges fuel_delivery_pressure=unsteady
  snagwise diagnose snag.yaml --why fuel_filter_choked`,
		RunE: func(c *cobra.Command, args []string) error {
			if !c.Flags().Changed("tools") {
				ask.tools = nil
			} else if ask.tools == nil {
				ask.tools = []string{}
			}
			err := p.diagnose(args, ask)
			var l problem.List
			if ask.json && errors.As(err, &l) {
				p.status = wrong
				return p.printJSON(diagnose.Fault{Problems: l.Sorted()})
			}
			return err
		},
		ValidArgsFunction: p.completeTold,
	}
	p.rigFlag(c, "`NAME` or file of the rig (as a rule, the sheet's own; else hollin)")
	c.Flags().BoolVar(&ask.json, "json", false, "the same content as JSON")
	c.Flags().StringVar(&ask.why, "why", "", "everything that bears on one `CAUSE`, with the whole proof")
	c.Flags().BoolVar(&ask.all, "all", false, "all causes and checks, not only the first")
	c.Flags().StringSliceVar(&ask.tools, "tools", nil, "the `TOOLS` at hand, parted by commas (as a rule, all)")
	c.Flags().StringVar(&ask.state, "state", "", "the `STATE` the rig is in now: running, cranked, earthed or cold")
	c.Flags().Float64Var(&ask.minutes, "minutes", 0, "the `MINUTES` left for checks (as a rule, no limit)")
	c.Flags().BoolVar(&ask.engineer, "engineer", false, "a licensed engineer is at the rig")
	for name, f := range map[string]cobra.CompletionFunc{"why": p.completeCause, "state": p.completeState, "tools": p.completeTool} {
		if err := c.RegisterFlagCompletionFunc(name, f); err != nil {
			panic(err) // the flags were made above
		}
	}
	return c
}

// diagnose answers one sheet.
func (p *program) diagnose(args []string, ask asking) error {
	raw, told := p.told(args)
	if raw == nil {
		return told
	}
	lib, r, err := p.rigOf(raw)
	if err != nil {
		return append(told, listOf(err)...).Sorted()
	}
	e, l := lib.Engine(r)
	if len(l) > 0 {
		return l
	}
	account, l := e.Read(raw)
	if l = append(told, l...).Sorted(); len(l) > 0 {
		return l
	}
	return p.answer(e, account, ask)
}

// listOf returns the problems that an error holds, or the error as one.
func listOf(err error) problem.List {
	var l problem.List
	if errors.As(err, &l) {
		return l
	}
	return problem.List{{Check: "failed", Text: err.Error()}}
}

// told reads the sheet that the arguments name or are.
func (p *program) told(args []string) (*sheet.Sheet, problem.List) {
	file := ""
	if len(args) == 1 && (args[0] == "-" || load.IsFile(args[0]) && !strings.Contains(args[0], "=") || exists(args[0])) {
		file = args[0]
	}
	var text []byte
	var l problem.List
	switch file {
	case "":
		p.text[sheet.ArgsFile] = []byte(sheet.ArgsLine(args))
		return sheet.ParseArgs(args)
	case "-":
		file = load.StandardInput
		text, l = load.Read(p.in, file)
	default:
		text, l = load.ReadFile(file)
	}
	if len(l) > 0 {
		return nil, l
	}
	text, _ = cases.Split(text) // what a kept snag expects of the answer is no part of it
	p.text[file] = text
	return sheet.Parse(file, text)
}

func exists(name string) bool {
	_, err := os.Stat(name)
	return err == nil
}

// printJSON writes a value as JSON for programs.
func (p *program) printJSON(v any) error {
	enc := json.NewEncoder(p.stdout)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	if err := enc.Encode(v); err != nil {
		return fmt.Errorf("writing the answer: %w", err)
	}
	return nil
}
