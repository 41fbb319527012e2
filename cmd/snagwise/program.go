package main

// This file holds what all commands share: the streams, the flags that every
// command takes, and how it is said that the input is wrong.

import (
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"snagwise/cmd/snagwise/internal/load"
	"snagwise/cmd/snagwise/internal/screen"
	"snagwise/engine/problem"
	"snagwise/engine/rig"
)

// Exit statuses.
const (
	answered = 0
	firstDue = 1 // a first action is due
	wrong    = 2 // the input is wrong
)

// A program is one run of one command line.
type program struct {
	args   []string
	in     io.Reader
	stdout io.Writer
	stderr io.Writer
	page   *screen.Screen
	status int
	choice load.Choice
	text   map[string][]byte // texts that problems may point into, by file
	lib    *load.Library
}

func newProgram(args []string, in io.Reader, stdout, stderr io.Writer) *program {
	return &program{args: args, in: in, stdout: stdout, stderr: stderr, page: screen.Open(stdout, os.Getenv), text: map[string][]byte{}}
}

// run carries out the command line and returns the exit status.
func (p *program) run() int {
	root := p.root()
	root.SetArgs(p.args)
	root.SetIn(p.in)
	root.SetOut(p.stdout)
	root.SetErr(p.stderr)
	if err := root.Execute(); err != nil {
		p.refuse(err)
		return wrong
	}
	if err := p.page.Err(); err != nil {
		fmt.Fprintln(p.stderr, "snagwise: writing the answer:", err)
		return wrong
	}
	return p.status
}

// root returns the command of the bare name, with all others below it.
func (p *program) root() *cobra.Command {
	root := &cobra.Command{
		Use:   "snagwise",
		Short: "Find what is wrong with a piston aero engine on its ground-run rig",
		Long: `Snagwise takes what was seen on an engine rig, says what must be done at
once, what is most likely wrong and why, and what to look at next. It advises;
the keeper decides; the licensed engineer signs. The engine's own book and the
rules of the place come first.`,
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          cobra.ArbitraryArgs,
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				return unknownWord("command", args[0], commandNames(c))
			}
			return c.Help()
		},
		CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true},
	}
	root.PersistentFlags().StringVar(&p.choice.Rules, "rules", "", "folder of your own rules, laid over those that ship")
	root.SetFlagErrorFunc(p.flagError)
	root.SetHelpCommand(&cobra.Command{Use: "help [COMMAND]", Short: "Say how a command is used", RunE: func(c *cobra.Command, args []string) error {
		asked, rest, err := c.Root().Find(args)
		if err != nil || len(rest) > 0 {
			return unknownWord("command", strings.Join(args, " "), commandNames(c.Root()))
		}
		return asked.Help()
	}})
	cobra.AddTemplateFunc("narrow", func(f *pflag.FlagSet) string { return strings.TrimRight(f.FlagUsagesWrapped(80), "\n") })
	root.SetUsageTemplate(usageTemplate)
	root.AddCommand(p.diagnoseCommand(), p.rigCommand(), p.readingsCommand(), p.signsCommand(), p.causesCommand(), p.checksCommand(),
		p.sheetCommand(), p.sourcesCommand(), p.computeCommand(), p.completionCommand(), p.scoreCommand(), p.examineCommand(), p.huntCommand())
	if f := root.RegisterFlagCompletionFunc("rules", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return nil, cobra.ShellCompDirectiveFilterDirs
	}); f != nil {
		panic(f)
	}
	return root
}

// usageTemplate is how help shows a command, in eighty columns.
const usageTemplate = `Use:{{if .Runnable}}
  {{.UseLine}}{{end}}{{if .HasAvailableSubCommands}}
  {{.CommandPath}} COMMAND{{end}}{{if .HasExample}}

Examples:
{{.Example}}{{end}}{{if .HasAvailableSubCommands}}

Commands:{{range .Commands}}{{if .IsAvailableCommand}}
  {{rpad .Name .NamePadding}} {{.Short}}{{end}}{{end}}{{end}}{{if .HasAvailableLocalFlags}}

Flags:
{{.LocalFlags | narrow}}{{end}}{{if .HasAvailableInheritedFlags}}

Flags of every command:
{{.InheritedFlags | narrow}}{{end}}
`

// refuse says that the input is wrong, and nothing else.
func (p *program) refuse(err error) {
	s := screen.Open(p.stderr, os.Getenv)
	var l problem.List
	if errors.As(err, &l) {
		s.Problems(l, p.source)
		return
	}
	s.Styled(screen.Strong, 0, "snagwise: "+err.Error())
}

// source returns the text of a file that a problem points into.
func (p *program) source(file string) []byte {
	if text, ok := p.text[file]; ok {
		return text
	}
	if p.lib != nil {
		if text := p.lib.Text(file); text != nil {
			return text
		}
	}
	if text, l := load.ReadFile(file); len(l) == 0 {
		return text
	}
	return nil
}

// unknownWord returns the error for a word of the command line.
func unknownWord(kind, word string, known []string) error {
	return errors.New(screen.Unknown(kind, word, known))
}

func commandNames(root *cobra.Command) []string {
	var names []string
	for _, c := range root.Commands() {
		if !c.Hidden {
			names = append(names, c.Name())
		}
	}
	slices.Sort(names)
	return names
}

// flagError says in one line what is wrong with a flag.
func (p *program) flagError(c *cobra.Command, err error) error {
	var (
		unknown *pflag.NotExistError
		empty   *pflag.ValueRequiredError
		invalid *pflag.InvalidValueError
	)
	switch {
	case errors.As(err, &unknown):
		// A misspelt command leaves its flags to the bare name, which knows none.
		if c == c.Root() && len(p.args) > 0 && !strings.HasPrefix(p.args[0], "-") {
			return unknownWord("command", p.args[0], commandNames(c))
		}
		if unknown.GetSpecifiedShortnames() != "" {
			return unknownWord("flag", "-"+unknown.GetSpecifiedName(), flagNames(c))
		}
		return unknownWord("flag", "--"+unknown.GetSpecifiedName(), flagNames(c))
	case errors.As(err, &empty):
		return fmt.Errorf("the flag --%s wants a value: %s", empty.GetFlag().Name, empty.GetFlag().Usage)
	case errors.As(err, &invalid):
		return fmt.Errorf("the flag --%s cannot be %q: %s", invalid.GetFlag().Name, invalid.GetValue(), invalid.GetFlag().Usage)
	}
	return err
}

func flagNames(c *cobra.Command) []string {
	var names []string
	add := func(f *pflag.Flag) { names = append(names, "--"+f.Name) }
	c.LocalFlags().VisitAll(add)
	c.InheritedFlags().VisitAll(add)
	slices.Sort(names)
	return slices.Compact(names)
}

// rigFlag gives a command the flag --rig with its completion.
func (p *program) rigFlag(c *cobra.Command, usage string) {
	c.Flags().StringVar(&p.choice.Rig, "rig", "", usage)
	if err := c.RegisterFlagCompletionFunc("rig", p.completeRig); err != nil {
		panic(err) // the flag was made a line above
	}
}

// open loads the library that the flags choose.
func (p *program) open() (*load.Library, error) {
	lib, l := load.Open(p.choice)
	p.lib = lib
	return lib, l.Err()
}

// openRig loads the library and the rig that the flags choose.
func (p *program) openRig() (*load.Library, *rig.Rig, error) {
	lib, err := p.open()
	if err != nil {
		return nil, nil, err
	}
	r, l := lib.Rig(p.choice.Rig)
	return lib, r, l.Err()
}
