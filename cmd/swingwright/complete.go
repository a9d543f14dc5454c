package main

import (
	"github.com/spf13/cobra"

	"swingwright/rulebook/author"
)

// jobFiles completes a job's file name.
func jobFiles(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	if len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	return []string{"yaml", "yml"}, cobra.ShellCompDirectiveFilterFileExt
}

// completeOpenings completes --opening with the openings of the job at hand.
func completeOpenings(c *cobra.Command) {
	err := c.RegisterFlagCompletionFunc("opening", func(c *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		path := first(args)
		if flag := c.Flags().Lookup("job"); flag != nil {
			path = flag.Value.String()
		}
		w, err := load(path)
		if w == nil || w.Job == nil {
			return nil, cobra.ShellCompDirectiveError
		}
		_ = err // a rulebook amiss does not hide the openings
		var found []string
		picked, _ := w.openings(nil)
		for _, o := range picked {
			found = append(found, cobra.CompletionWithDesc(o.ID, o.Name))
		}
		return found, cobra.ShellCompDirectiveNoFileComp
	})
	if err != nil {
		panic(err) // the flag is not there: a slip in this program
	}
}

// bookNames completes the names of the rulebooks that come with the program.
func bookNames(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return author.BuiltinIDs(), cobra.ShellCompDirectiveDefault
}

// bookAndRule completes a rulebook's name, then the name of one of its rules.
func bookAndRule(c *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
	switch len(args) {
	case 0:
		return bookNames(c, args, typed)
	case 1:
		if b, err := findBook(args[0], nil); err == nil {
			return ruleIDs(b), cobra.ShellCompDirectiveNoFileComp
		}
	}
	return nil, cobra.ShellCompDirectiveNoFileComp
}
