package main

import (
	"github.com/spf13/cobra"

	"snagwise/engine/knowledge"
)

// completionCommand prints the script with which a shell completes names.
func (p *program) completionCommand() *cobra.Command {
	shells := []string{"bash", "fish", "powershell", "zsh"}
	return &cobra.Command{
		Use:   "completion SHELL",
		Short: "Print the script that lets a shell complete names",
		Long: `Print the script that lets your shell complete commands, rigs, readings,
symptoms and causes. For bash, as an example:

  snagwise completion bash > ~/.local/share/bash-completion/completions/snagwise`,
		ValidArgs: shells,
		Args:      cobra.ArbitraryArgs,
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) != 1 {
				return unknownWord("shell", "", shells)
			}
			switch root := c.Root(); args[0] {
			case "bash":
				return root.GenBashCompletionV2(p.stdout, true)
			case "fish":
				return root.GenFishCompletion(p.stdout, true)
			case "powershell":
				return root.GenPowerShellCompletionWithDesc(p.stdout)
			case "zsh":
				return root.GenZshCompletion(p.stdout)
			}
			return unknownWord("shell", args[0], shells)
		},
	}
}

// completeRig completes the name of a rig; files may follow too.
func (p *program) completeRig(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	p.choice.Rig = ""
	lib, err := p.open()
	if err != nil || len(args) > 0 && args[0] != "" {
		return nil, cobra.ShellCompDirectiveDefault
	}
	return lib.RigNames(), cobra.ShellCompDirectiveDefault
}

// completeTold completes the words of a telling: phases, readings, levers and
// all that stands alone.
func (p *program) completeTold(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	lib, r, err := p.openRig()
	if err != nil {
		return nil, cobra.ShellCompDirectiveDefault
	}
	f := lib.Base.On(r)
	var list []string
	for _, ph := range r.Phases {
		list = append(list, ph+":")
	}
	for i, rd := range f.Readings {
		if f.ReadOn[i] && !rd.Computed {
			list = append(list, rd.ID+"=")
		}
	}
	for _, c := range r.Controls {
		for _, pos := range c.Positions {
			list = append(list, c.ID+"="+pos)
		}
	}
	for i, s := range f.Signs {
		if f.SignOn[i] {
			list = append(list, s.ID)
		}
	}
	list = append(list, each(f.Circumstances, func(c knowledge.Circumstance) string { return c.ID })...)
	list = append(list, each(f.Courses, func(c knowledge.Course) string { return c.ID })...)
	return list, cobra.ShellCompDirectiveNoSpace
}

// completeCause completes the id of a cause.
func (p *program) completeCause(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	lib, err := p.open()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return each(lib.Base.Causes, func(c knowledge.Cause) string { return c.ID }), cobra.ShellCompDirectiveNoFileComp
}
