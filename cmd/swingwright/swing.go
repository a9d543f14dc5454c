package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"swingwright/quantity"
	"swingwright/report"
)

// swingFlags are the flags of swing.
type swingFlags struct {
	askOne
	at     []string
	from   string
	record string
}

func (pr *program) swingCommand() *cobra.Command {
	var f swingFlags
	c := &cobra.Command{
		Use:   "swing JOB -o OPENING",
		Short: "Look closely at how one opening moves",
		Long: `Follows one opening's closing mark by mark: times, speeds and energy, how it
ends from 90, 30 and 5 degrees, the push a hand needs along the way at the
handle and 25 mm from the latch edge, and the latch budget line by line. Where
an operator is described, follows its opening too, with the force that stops it.

It judges nothing; check does.

With --record it writes what a phone taped to the leaf would, rests, opening, hold and
closing, with the noise, bias and rounding of such a recorder: to try out read, and to
see what a good recording looks like. Where the job lists adjustments, spring and valves
are as the last one left them.`,
		Example: `  swingwright swing job.yaml -o 101
  swingwright swing job.yaml -o 101 --from "60 deg" --at "30 in"
  swingwright swing job.yaml -o 101 --json`,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.swing(&f)
		},
	}
	f.add(c, "to look at")
	flags := c.Flags()
	flags.StringArrayVar(&f.at, "at", nil, "give the push at this `distance` from the hinge pin, too; may be repeated")
	flags.StringVar(&f.from, "from", "90 deg", "let it go at this `angle`")
	f.addJSON(flags)
	flags.StringVar(&f.pictures, "pictures", "", "draw the opening into this `folder`, as SVG and PNG")
	flags.StringVar(&f.record, "record", "", "write a made-up recording of this opening to this `file`")
	flags.BoolVar(&f.style.why, "why", false, "show what was assumed")
	f.style.addUnits(flags)
	return c
}

func (pr *program) swing(f *swingFlags) error {
	from, radii, wrong := f.places()
	t, p, err := f.plan(pr, wrong)
	if err != nil {
		return err
	}
	if err := t.art.draw(p); err != nil {
		return err
	}
	if f.record != "" {
		if err := writeRecord(f.record, p, &t.Sheets, f.spread.seed); err != nil {
			return err
		}
	}
	look := report.NewLook(p, from, radii...)
	if f.json {
		return look.JSON(pr.out)
	}
	return look.Text(report.NewText(pr.out, t.style))
}

// places reads the angle to let go at and the radii to give forces at.
func (f *swingFlags) places() (quantity.Angle, []quantity.Length, error) {
	from, wrong := within("--from", f.from, 180*quantity.Degree, "an angle above 0 and up to 180 deg")
	errs := []error{wrong}
	radii := make([]quantity.Length, len(f.at))
	for i, text := range f.at {
		radii[i], wrong = within("--at", text, 10*quantity.Metre, `a distance above zero, such as "30 in" or "760 mm"`)
		errs = append(errs, wrong)
	}
	return from, radii, errors.Join(errs...)
}

// within reads a quantity above zero and up to most.
func within[Q quantity.Quantity](flag, text string, most Q, wanted string) (Q, error) {
	m, err := quantity.Parse[Q](text)
	switch {
	case err != nil:
		return 0, problem{what: flag + ": " + err.Error(), hint: "write " + wanted}
	case !(m.Value > 0 && m.Value <= most):
		return 0, problem{what: fmt.Sprintf("%s: %s is out of range", flag, text), hint: "write " + wanted}
	}
	return m.Value, nil
}
