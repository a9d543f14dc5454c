package main

import (
	"github.com/spf13/cobra"

	"swingwright/report"
)

func (pr *program) marksCommand() *cobra.Command {
	var f askOne
	c := &cobra.Command{
		Use:   "marks JOB -o OPENING",
		Short: "Tell where to lay floor marks for a stopwatch",
		Long: `Tells how far from the closed latch edge the edge of one leaf stands at every angle
that a rule times or looks at, straight along the floor, with how good the angle of
such a mark is. With --pictures the marks are drawn at full size, as strips to be
cut out of a page and laid end to end.

Exit status:
  0  the marks were told
  2  the command or a file could not be understood`,
		Example: `  swingwright marks job.yaml -o 101
  swingwright marks job.yaml -o 101 --pictures pictures`,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.marks(&f)
		},
	}
	f.add(c, "whose leaf it is")
	flags := c.Flags()
	flags.StringVar(&f.pictures, "pictures", "", "draw the marks at full size into this `folder`, as SVG and PNG")
	f.style.addUnits(flags)
	return c
}

func (pr *program) marks(f *askOne) error {
	t, p, err := f.plan(pr, nil)
	if err != nil {
		return err
	}
	if err := t.art.drawMarks(p); err != nil {
		return err
	}
	return report.Marks(report.NewText(pr.out, t.style), p)
}
