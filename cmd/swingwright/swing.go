package main

import (
	"fmt"
	"runtime"

	"github.com/spf13/cobra"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/report"
)

// swingFlags are the flags of swing.
type swingFlags struct {
	opening  string
	at       []string
	from     string
	json     bool
	pictures string
	style    styleFlags
	spread   spreadFlags
}

func (pr *program) swingCommand() *cobra.Command {
	var f swingFlags
	c := &cobra.Command{
		Use:   "swing JOB -o OPENING",
		Short: "Look closely at how one opening moves",
		Long: `Follows one opening's closing mark by mark: times, speeds and energy, how it
ends from 90, 30 and 5 degrees, the push a hand needs along the way at the
handle and 25 mm from the latch edge, and the latch budget line by line.

It judges nothing; check does.`,
		Example: `  swingwright swing job.yaml -o 101
  swingwright swing job.yaml -o 101 --from "60 deg" --at "30 in"
  swingwright swing job.yaml -o 101 --json`,
		Args:              arguments(0, 1, "one job"),
		ValidArgsFunction: jobFiles,
		RunE: func(c *cobra.Command, args []string) error {
			return pr.swing(c, first(args), &f)
		},
	}
	flags := c.Flags()
	flags.StringVarP(&f.opening, "opening", "o", "", "the `opening` to look at; needed where the job has several")
	flags.StringArrayVar(&f.at, "at", nil, "give the push at this `distance` from the hinge pin, too; may be repeated")
	flags.StringVar(&f.from, "from", "90 deg", "let it go at this `angle`")
	flags.BoolVar(&f.json, "json", false, "write JSON for programs, all values in SI")
	flags.StringVar(&f.pictures, "pictures", "", "draw the opening into this `folder`, as SVG and PNG")
	flags.BoolVar(&f.style.why, "why", false, "show what was assumed")
	f.style.addUnits(flags)
	f.spread.add(flags)
	completeOpenings(c)
	return c
}

func (pr *program) swing(c *cobra.Command, path string, f *swingFlags) error {
	w, err := load(path)
	if err != nil {
		return err
	}
	if f.opening == "" && len(w.Openings) != 1 {
		return problem{what: "which opening?", hint: "add -o and one of " + listed(w.ids())}
	}
	var names []string
	if f.opening != "" {
		names = []string{f.opening}
	}
	picked, err := w.openings(names)
	if err != nil {
		return err
	}
	from, radii, err := f.places()
	if err != nil {
		return err
	}
	style, err := f.style.style(w, pr.out)
	if err != nil {
		return err
	}
	opt, err := f.spread.options()
	if err != nil {
		return err
	}
	art, err := newGallery(f.pictures, picked, style.Units)
	if err != nil {
		return err
	}
	opt.Workers = runtime.GOMAXPROCS(0)
	p := plan.Make(picked[0], &w.Sheets, w.books, opt)
	if err := art.draw(p); err != nil {
		return err
	}
	look := report.NewLook(p, from, radii...)
	if f.json {
		return look.JSON(pr.out)
	}
	return look.Text(report.NewText(pr.out, style))
}

// places reads the angle to let go at and the radii to give forces at.
func (f *swingFlags) places() (from quantity.Angle, radii []quantity.Length, err error) {
	angle, err := quantity.Parse[quantity.Angle](f.from)
	if err != nil {
		return 0, nil, problem{what: "--from: " + err.Error(), hint: `write an angle such as "60 deg"`}
	}
	if !(angle.Value > 0 && angle.Value <= 180*quantity.Degree) {
		return 0, nil, problem{what: fmt.Sprintf("--from: a leaf cannot be let go at %s", f.from), hint: "choose an angle above 0 and up to 180 deg"}
	}
	for _, text := range f.at {
		at, err := quantity.Parse[quantity.Length](text)
		if err != nil {
			return 0, nil, problem{what: "--at: " + err.Error(), hint: `write a distance such as "30 in" or "760 mm"`}
		}
		if !(at.Value > 0) {
			return 0, nil, problem{what: fmt.Sprintf("--at: no force turns a leaf at %s", text), hint: "choose a distance above zero"}
		}
		radii = append(radii, at.Value)
	}
	return angle.Value, radii, nil
}
