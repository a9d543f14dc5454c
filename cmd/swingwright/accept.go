package main

import (
	"github.com/spf13/cobra"

	"swingwright/report"
)

func (pr *program) acceptCommand() *cobra.Command {
	var f askOne
	c := &cobra.Command{
		Use:   "accept JOB -o OPENING",
		Short: "List what was measured at an opening, and what is still to be",
		Long: `Lists, for one opening, everything that was measured with its uncertainty, the limit
it is held against, where that stands, and the verdict; and what the rules still
want measured, with which instrument, how and how often.

Exit status:
  0  all is measured and meets its limit
  1  something measured falls short of a confirmed limit
  2  the command or a file could not be understood
  3  something is undecided, or still to be measured`,
		Example: `  swingwright accept job.yaml -o 101
  swingwright accept job.yaml -o 101 --json`,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.accept(&f)
		},
	}
	f.add(c, "to list")
	flags := c.Flags()
	f.addJSON(flags)
	flags.BoolVar(&f.style.why, "why", false, "show how far each limit was confirmed")
	f.style.addUnits(flags)
	return c
}

func (pr *program) accept(f *askOne) error {
	t, p, err := f.plan(pr, nil)
	if err != nil {
		return err
	}
	pr.status = statusOf(report.AcceptanceStanding(p))
	if f.json {
		return report.AcceptanceJSON(pr.out, p)
	}
	return report.Acceptance(report.NewText(pr.out, t.style), p)
}
