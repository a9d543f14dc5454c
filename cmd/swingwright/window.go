package main

import (
	"github.com/spf13/cobra"

	"swingwright/plan"
	"swingwright/report"
)

func (pr *program) windowCommand() *cobra.Command {
	var f askOne
	c := &cobra.Command{
		Use:   "window JOB -o OPENING",
		Short: "Find the closer settings that keep everything at once",
		Long: `Finds the spring settings of one opening's closer at which, with valves that
fit, everything asked of it is kept at once: pushes by hand, latching against
the largest pressure, closing times, energy, and the powers that the operator
allows. It tells which setting to choose and what the leaf will do there. Where
no setting will do, it tells which demands exclude each other, by how much, and
what change would let them agree.

Where the job tells its climate, an opening to the outdoors is followed through
the months: at today's setting, and at the one that serves the whole year best.

It reckons with best estimates. Set it, measure it, then check.

Exit status:
  0  some setting keeps everything
  1  none does
  2  the command or a file could not be understood
  3  it cannot be told: something is not known`,
		Example: `  swingwright window job.yaml -o 101
  swingwright window job.yaml -o 103 --units si --pictures pictures
  swingwright window job.yaml -o 101 --json`,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.window(&f)
		},
	}
	f.add(c, "to look at")
	flags := c.Flags()
	f.addJSON(flags)
	flags.StringVar(&f.pictures, "pictures", "", "draw the window into this `folder`, as SVG and PNG")
	f.style.addUnits(flags)
	return c
}

func (pr *program) window(f *askOne) error {
	t, p, err := f.plan(pr, nil)
	if err != nil {
		return err
	}
	w, err := p.Window(&t.Sheets)
	if err != nil {
		return problem{what: err.Error(), hint: "mend the job or its sheets"}
	}
	s, err := seasons(t, p)
	if err != nil {
		return err
	}
	if err := t.art.drawWindow(p, w, s); err != nil {
		return err
	}
	pr.status = statusOf(report.WindowStanding(w))
	if f.json {
		return report.WindowJSON(pr.out, p, w, s)
	}
	return report.Window(report.NewText(pr.out, t.style), p, w, s)
}

// seasons are the months at the opening; nil where the job tells no climate.
func seasons(t *task, p *plan.Plan) (*plan.Seasons, error) {
	if len(t.Climate.Months) == 0 || !p.Opening.Use.Outdoors() {
		return nil, nil
	}
	s, err := p.Seasons(&t.Sheets, t.opt)
	if err != nil {
		return nil, problem{what: err.Error(), hint: "mend the climate of the job, the opening or its sheets"}
	}
	return s, nil
}
