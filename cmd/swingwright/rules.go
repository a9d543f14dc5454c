package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"swingwright/plan"
	"swingwright/report"
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
	style := report.Style{}
	if width, ok := terminal(pr.out); ok {
		style.Width = min(width, 100)
	}
	t := report.NewText(pr.out, style)
	if path == "" && len(names) == 0 {
		books, err := author.Builtin()
		return errors.Join(err, t.Books(books, ""))
	}
	var books []*rulebook.Book
	var day rulebook.Date
	if path != "" {
		w, err := load(path)
		if err != nil {
			return err
		}
		books, day = w.books, rulebook.Date(w.Date)
	}
	var errs []error
	for _, name := range names {
		b, err := findBook(name, nil)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		books = append(books, b)
	}
	if err := errors.Join(errs...); err != nil {
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

// showFlags are the flags of rules show.
type showFlags struct {
	job, opening, units string
	spread              spreadFlags
}

func (pr *program) rulesShowCommand() *cobra.Command {
	var f showFlags
	c := &cobra.Command{
		Use:   "show BOOK [RULE]",
		Short: "Show a rulebook or one of its rules, with its source",
		Long: `Shows a rulebook with its tables, or one rule: what it demands, the formula,
where the limit stands and how far it was confirmed. With a job and an opening,
shows the working too: every part of the formula with its value there.`,
		Example: `  swingwright rules show a156.19-2007
  swingwright rules show a156.19-2007 knowing-act
  swingwright rules show a156.19-2007 knowing-act -j job.yaml -o 101`,
		Args:              arguments(1, 2, "a rulebook and a rule"),
		ValidArgsFunction: bookAndRule,
		RunE: func(_ *cobra.Command, args []string) error {
			return pr.rulesShow(args, &f)
		},
	}
	flags := c.Flags()
	flags.StringVarP(&f.job, "job", "j", "", "show the working for an opening of this `job`")
	flags.StringVarP(&f.opening, "opening", "o", "", "the `opening` whose working is shown")
	flags.StringVar(&f.units, "units", "", "show values in these `units`, us or si")
	f.spread.add(flags)
	completeOpenings(c)
	return c
}

func (pr *program) rulesShow(args []string, f *showFlags) error {
	w := &work{}
	if f.job != "" || f.opening != "" {
		var err error
		if w, err = load(f.job); err != nil {
			return err
		}
	}
	b, err := findBook(args[0], w.books)
	if err != nil {
		return err
	}
	style := styleFlags{units: f.units}
	look, err := style.style(w, pr.out)
	if err != nil {
		return err
	}
	t := report.NewText(pr.out, look)
	if len(args) == 1 {
		return t.Book(b)
	}
	rule, ok := b.Rule(args[1])
	if !ok {
		return problem{what: fmt.Sprintf("rulebook %s has no rule %q", b.ID, args[1]), hint: "it has " + listed(ruleIDs(b))}
	}
	if err := t.Rule(b, rule); err != nil || w.Job == nil {
		return err
	}
	return pr.working(t, w, b, rule, f)
}

// working shows the rule at work on the opening.
func (pr *program) working(t *report.Text, w *work, b *rulebook.Book, rule *rulebook.Rule, f *showFlags) error {
	if f.opening == "" {
		return problem{what: "which opening?", hint: "add -o and one of " + listed(w.ids())}
	}
	picked, err := w.openings([]string{f.opening})
	if err != nil {
		return err
	}
	opt, err := f.spread.options()
	if err != nil {
		return err
	}
	p := plan.Make(picked[0], &w.Sheets, []*rulebook.Book{b}, opt)
	for i := range p.Findings {
		if p.Findings[i].Rule == rule {
			return t.Working(p, &p.Findings[i])
		}
	}
	return nil
}

func ruleIDs(b *rulebook.Book) []string {
	ids := make([]string, len(b.Rules))
	for i := range b.Rules {
		ids[i] = b.Rules[i].ID
	}
	return ids
}

func (pr *program) rulesTestCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "test [FILE...]",
		Short: "Check rulebook files and run their cases",
		Long: `Reads each rulebook file, checks the types, units and sources of its rules, and
runs the cases in the folder cases beside it, in the file of the same name.
Without a file, tests the rulebooks that come with the program.`,
		Example: `  swingwright rules test
  swingwright rules test own/hospital.yaml`,
		RunE: func(_ *cobra.Command, files []string) error { return pr.rulesTest(files) },
	}
}

func (pr *program) rulesTest(files []string) error {
	var errs []error
	if len(files) == 0 {
		for _, id := range author.BuiltinIDs() {
			errs = append(errs, pr.testBook(rulebook.Builtin(), "", id+".yaml"))
		}
	}
	for _, file := range files {
		dir, name := filepath.Split(file)
		errs = append(errs, pr.testBook(os.DirFS(filepath.Clean(dir+".")), dir, name))
	}
	return errors.Join(errs...)
}

// testBook reads one book and runs its cases.
func (pr *program) testBook(folder fs.FS, dir, name string) error {
	if _, err := fs.Stat(folder, name); err != nil {
		return problem{what: "there is no rulebook file " + filepath.Join(dir, name), hint: "name a file"}
	}
	b, err := author.Load(folder, name)
	if err != nil {
		return under(dir, err)
	}
	cases, told := "cases/"+name, "no cases beside it"
	if _, err := fs.Stat(folder, cases); err == nil {
		n, err := author.RunCases(folder, cases, b)
		if err != nil {
			return under(dir, err)
		}
		told = fmt.Sprintf("%d cases hold", n)
	}
	_, err = fmt.Fprintf(pr.out, "%s: %d rules sound, %s\n", cmp.Or(b.ID, name), len(b.Rules), told)
	return err
}
