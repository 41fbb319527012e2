package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/physics"
	"snagwise/engine/rig"
)

// sheetCommand prints a sheet to fill in.
func (p *program) sheetCommand() *cobra.Command {
	var phase string
	c := &cobra.Command{
		Use:   "sheet",
		Short: "Print a sheet to fill in for a rig",
		Long: `Print a sheet to fill in, as a YAML file with the gauges and controls of a
rig, their units and what is usual. Take the # from the lines that you can
fill in; leave the rest: what is not told stays unknown.`,
		Example: "  snagwise sheet --rig teasel --phase run_up > snag.yaml",
		Args:    noArguments("sheet"),
		RunE: func(*cobra.Command, []string) error {
			_, r, err := p.openRig()
			if err != nil {
				return err
			}
			if err := checkPhase(r, phase); err != nil {
				return err
			}
			_, err = p.stdout.Write([]byte(blankSheet(r, phase)))
			return err
		},
	}
	p.rigFlag(c, "`NAME` or file of the rig (as a rule, hollin)")
	c.Flags().StringVar(&phase, "phase", "", "only this `PHASE` of the run, such as idle")
	if err := c.RegisterFlagCompletionFunc("phase", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return rig.Phases(), cobra.ShellCompDirectiveNoFileComp
	}); err != nil {
		panic(err) // the flag was made a line above
	}
	return c
}

// noArguments refuses words after a command that takes none.
func noArguments(command string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) == 0 {
			return nil
		}
		return fmt.Errorf("%s takes no word such as %q", command, screen.Clip(args[0], 40))
	}
}

// blankSheet returns a sheet with every line to fill in behind a #.
func blankSheet(r *rig.Rig, only string) string {
	var b strings.Builder
	line := func(format string, args ...any) {
		for i, part := range screen.Wrap(fmt.Sprintf(format, args...), 78) {
			if i > 0 {
				part = "# " + part
			}
			b.WriteString(part + "\n")
		}
	}
	line("# A snag on the %s. Take the # from what you can fill in.", r.Name)
	line("# What is not told stays unknown; a gauge that is dead goes under could_not_read.")
	line("rig: %s", r.ID)
	b.WriteString("# weather: {air_temperature: 12 degC, dew_point: 8 degC, air_pressure: 1012 hPa}\n")
	b.WriteString("moments:\n")
	for _, ph := range r.Phases {
		if only == "" || only == ph {
			blankMoment(&b, r, ph)
		}
	}
	b.WriteString(`
# What was done to a part, or how it was found; any part of the rig.
# parts:
#   - {part: PART, worked_on: refitted, when: before this run}
#   - {part: PART, changed: no better}  # cured, better, no better, worse
#   - {part: PART, looked_at: good}     # or how it was found
#   - {part: PART, leaks: oil, how_much: drips}
# What went before; "snagwise signs --find WORD" finds names.
# circumstances: [just_transported, cold_day]
# notes:
#   - Anything else, in your own words. It is shown and not used.
`)
	return strings.ReplaceAll(b.String(), "PART", r.Parts[0].ID)
}

// blankMoment writes one moment to fill in, with the gauges that have a usual
// figure in the phase.
func blankMoment(b *strings.Builder, r *rig.Rig, phase string) {
	fmt.Fprintf(b, "  - phase: %s\n", phase)
	if len(r.Controls) > 0 {
		c := r.Controls[0]
		fmt.Fprintf(b, "    # controls: {%s: %s}  # %s\n", c.ID, quoted(c.Positions[0]), strings.Join(c.Positions, " or "))
	}
	b.WriteString("    # readings:\n")
	for i := range r.Gauges {
		g := &r.Gauges[i]
		band, ok := g.Band(phase)
		if _, err := physics.Find(g.Reading); err == nil || !ok {
			continue // not usual here, or worked out and not read
		}
		example, usual := "", ""
		if len(band.Answers) > 0 {
			example, usual = quoted(band.Answers[0]), strings.Join(band.Answers, " or ")
		} else {
			example, usual = figure(g, band.Lo), between(g, band.Lo, band.Hi)
		}
		text := fmt.Sprintf("    #   %s: %s", g.Reading, example)
		if full := fmt.Sprintf("%-48s # normal: %s", text, usual); screen.Columns(full) <= 78 {
			text = full
		}
		b.WriteString(text + "\n")
	}
	b.WriteString("    # symptoms: []\n    # not_seen: []\n    # could_not_read: []\n")
}

// quoted returns a word as YAML text that no reader takes for anything else.
func quoted(word string) string {
	switch word {
	case "on", "off", "yes", "no", "true", "false", "null", "~":
		return `"` + word + `"`
	}
	if strings.ContainsAny(word, ":#{}[],&*!|>'\"%@`") || (word != "" && strings.Trim(word[:1], "0123456789-+.") == "") {
		return "'" + strings.ReplaceAll(word, "'", "''") + "'"
	}
	return word
}
