package main

import (
	"errors"

	"github.com/spf13/cobra"

	"swingwright/report"
	"swingwright/rulebook"
	"swingwright/rulebook/author"
)

func (pr *program) rulesListCommand() *cobra.Command {
	var path string
	c := &cobra.Command{
		Use:   "list [BOOK...]",
		Short: "List the rulebooks, or the rules of some",
		Long: `Without an argument, lists the rulebooks that come with the program. With a job,
lists those that the job names and whether they hold on the day of its survey,
with their rules. BOOK is a rulebook's name, or a file that ends in .yaml.`,
		Example: `  swingwright rules list
  swingwright rules list a156.19-2007
  swingwright rules list -j job.yaml`,
		ValidArgsFunction: bookNames,
		RunE: func(_ *cobra.Command, args []string) error {
			return pr.rulesList(path, args)
		},
	}
	c.Flags().StringVarP(&path, "job", "j", "", "list the rulebooks of this `job`")
	return c
}

func (pr *program) rulesList(path string, names []string) error {
	style := styleFlags{}
	look, _ := style.style(nil, pr.out) // US units are always to be had
	t := report.NewText(pr.out, look)
	if path == "" && len(names) == 0 {
		books, err := author.Builtin()
		return errors.Join(err, t.Books(books, ""))
	}
	books, day, err := namedBooks(path, names)
	if err != nil {
		return err
	}
	if err := t.Books(books, day); err != nil {
		return err
	}
	for _, b := range books {
		if err := t.Rules(b); err != nil {
			return err
		}
	}
	return nil
}

// namedBooks are the books of the job, if one is given, then those named.
func namedBooks(path string, names []string) (books []*rulebook.Book, day rulebook.Date, err error) {
	var errs []error
	if path != "" {
		w, err := load(path)
		if err != nil {
			return nil, "", err
		}
		books, day = w.books, rulebook.Date(w.Date)
	}
	for _, name := range names {
		b, err := findBook(name, nil)
		errs = append(errs, err)
		books = append(books, b)
	}
	return books, day, errors.Join(errs...)
}
