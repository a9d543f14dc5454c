package main

import (
	"github.com/spf13/cobra"

	"swingwright/decision"
	"swingwright/report"
)

func (pr *program) letterCommand() *cobra.Command {
	var f askOne
	c := &cobra.Command{
		Use:   "letter JOB -o OPENING",
		Short: "Write to the customer why an opening cannot be powered as it is",
		Long: `Writes, as plain text, the letter to a customer about one opening: what was found
and against which limit, the least that would change it, and who has to be asked.
It is meant for an opening that check refuses or refers; for another it tells
what has to be done first.

Exit status:
  0  the letter was written
  2  the command or a file could not be understood`,
		Example: `  swingwright letter job.yaml -o 113 > letter.txt`,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.letter(&f)
		},
	}
	f.add(c, "to write about")
	f.style.addUnits(c.Flags())
	return c
}

func (pr *program) letter(f *askOne) error {
	t, p, err := f.plan(pr, nil)
	if err != nil {
		return err
	}
	style := t.style
	if style.Width == 0 {
		style.Width = 80
	}
	return report.Letter(pr.out, style, t.Job, p, decision.Make(p, &t.Sheets, t.judged()))
}
