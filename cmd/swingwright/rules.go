package main

import (
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"swingwright/rulebook"
	"swingwright/rulebook/author"
)

func (pr *program) rulesCommand() *cobra.Command {
	c := &cobra.Command{
		Use:   "rules",
		Short: "List, show and test rulebooks",
		Long: `A rulebook holds the limits of one edition of one published work. Jobs name the
rulebooks that they are judged by, and may bring files of their own.`,
		Args: noArguments,
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	c.AddCommand(pr.rulesListCommand(), pr.rulesShowCommand(), pr.rulesTestCommand())
	return c
}

// findBook is the book of the name among those of the job, in a file, or among
// those that come with the program.
func findBook(name string, of []*rulebook.Book) (*rulebook.Book, error) {
	for _, b := range of {
		if b.ID == name {
			return b, nil
		}
	}
	if strings.HasSuffix(name, ".yaml") {
		dir, file := filepath.Split(name)
		b, err := author.Load(os.DirFS(filepath.Clean(dir+".")), file)
		return b, under(dir, err)
	}
	b, err := author.BuiltinBook(name)
	return b, noBook(err)
}

func ruleIDs(b *rulebook.Book) []string {
	ids := make([]string, len(b.Rules))
	for i := range b.Rules {
		ids[i] = b.Rules[i].ID
	}
	return ids
}
