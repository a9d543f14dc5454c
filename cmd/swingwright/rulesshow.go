package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"swingwright/plan"
	"swingwright/report"
	"swingwright/rulebook"
)

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
	look, err := style.style(w.Job, pr.out)
	if err != nil {
		return err
	}
	t := report.NewText(pr.out, look)
	if len(args) == 1 {
		return t.Book(b)
	}
	rule, ok := b.Rule(args[1])
	if !ok {
		return problem{what: fmt.Sprintf("rulebook %s has no rule %q", b.ID, args[1]), hint: among(args[1], ruleIDs(b))}
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
	opt, err := w.options(&f.spread)
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
