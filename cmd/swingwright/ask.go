package main

import (
	"errors"
	"runtime"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"swingwright/opening"
	"swingwright/plan"
	"swingwright/report"
)

// ask is what every command that looks at openings is asked for alike.
type ask struct {
	job      string
	openings []string
	pictures string
	style    styleFlags
	spread   spreadFlags
}

// task is an ask that was understood.
type task struct {
	*work
	picked []*opening.Opening
	style  report.Style
	opt    plan.Options
	art    *gallery
}

// understand reads the job and everything asked of it, and collects all that is wrong.
func (a *ask) understand(pr *program) (*task, error) {
	w, err := load(a.job)
	if err != nil {
		_, other := a.spread.options()
		return nil, errors.Join(err, other)
	}
	t := &task{work: w}
	var errs [4]error
	t.picked, errs[0] = w.openings(a.openings)
	t.style, errs[1] = a.style.style(w.Job, pr.out)
	t.opt, errs[2] = w.options(&a.spread)
	if err := errors.Join(errs[:]...); err != nil {
		return nil, err
	}
	if t.opt.Collisions, err = w.collisions(); err != nil {
		return nil, err
	}
	t.art, err = newGallery(a.pictures, t.picked, t.style.Units, &pr.letters)
	return t, err
}

// options are those of the plans of a job's openings.
func (w *work) options(f *spreadFlags) (plan.Options, error) {
	opt, err := f.options()
	opt.Climate, opt.Groups, opt.Openings = w.Climate, w.Groups, w.Openings
	return opt, err
}

// askOne is an ask about one opening.
type askOne struct {
	ask
	opening string
	json    bool
}

// add lets the command take a job, and flags for the opening and the spreads; to
// tells what the opening is wanted for.
func (a *askOne) add(c *cobra.Command, to string) {
	c.Args, c.ValidArgsFunction = arguments(0, 1, "one job"), jobFiles
	c.Flags().StringVarP(&a.opening, "opening", "o", "", "the `opening` "+to+"; needed where the job has several")
	a.spread.add(c.Flags())
	completeOpenings(c)
}

func (a *askOne) addJSON(flags *pflag.FlagSet) {
	flags.BoolVar(&a.json, "json", false, "write JSON for programs, all values in SI")
}

// plan understands the ask and makes the plan of the one opening. wrong is what
// is known to be wrong with the ask already.
func (a *askOne) plan(pr *program, wrong error) (*task, *plan.Plan, error) {
	if a.opening != "" {
		a.openings = []string{a.opening}
	}
	t, err := a.understand(pr)
	if err := errors.Join(wrong, err); err != nil {
		return nil, nil, err
	}
	if len(t.picked) != 1 {
		return nil, nil, problem{what: "which opening?", hint: "add -o and one of " + listed(t.ids())}
	}
	t.opt.Workers = runtime.GOMAXPROCS(0)
	return t, plan.Make(t.picked[0], &t.Sheets, t.books, t.opt), nil
}
