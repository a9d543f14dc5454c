package main

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"swingwright/decision"
	"swingwright/phrasebook"
	"swingwright/plan"
	"swingwright/report"
)

// checkFlags are the flags of check.
type checkFlags struct {
	ask
	json     bool
	progress bool
	language string
}

func (pr *program) checkCommand() *cobra.Command {
	var f checkFlags
	c := &cobra.Command{
		Use:   "check [JOB]",
		Short: "Judge every opening of a job",
		Long: `Reckons how every opening of a job moves and judges it by the job's rulebooks.
JOB is a job file or the folder of one; job.yaml here when it is not given.

Each finding says what was found, with its spread, the limit and where that
stands. Marks: ok meets, !! falls short, ?? too close to call, .. not measured.
Both the value's spread and the confidence in the limit count: what is within
the spread of its limit, or meets a limit that nobody has compared with its
published text, is not passed. Pairs, double egress and vestibules are judged
as one after all openings, where both of their openings are looked at.

Exit status:
  0  everything meets its limit or does not apply
  1  something falls short of a confirmed limit
  2  the command or a file could not be understood, or the run was stopped
  3  nothing falls short, but something is undecided`,
		Example: `  swingwright check
  swingwright check harbour/job.yaml -o 101 -o 103 --why
  swingwright check --json > findings.json
  swingwright check --pictures pictures --units si
  swingwright check --language es-MX`,
		Args:              arguments(0, 1, "one job"),
		ValidArgsFunction: jobFiles,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.check(c.Context(), &f)
		},
	}
	flags := c.Flags()
	flags.StringArrayVarP(&f.openings, "opening", "o", nil, "judge this `opening` only; may be repeated")
	flags.BoolVar(&f.json, "json", false, "write JSON for programs, all values in SI")
	flags.BoolVar(&f.progress, "progress", false, "count on the error stream even when it is no terminal")
	flags.StringVar(&f.pictures, "pictures", "", "draw every opening into this `folder`, as SVG and PNG")
	flags.StringVar(&f.language, "language", "en", "write the report in this `language`, en, es or one of its regions such as es-MX; JSON and pictures stay as they are")
	f.style.add(flags)
	f.spread.add(flags)
	completeOpenings(c)
	return c
}

// phrases are those of the language that is asked for.
func phrases(language string) (*phrasebook.Book, error) {
	if b := phrasebook.For(language); b != nil || language == "en" || strings.HasPrefix(language, "en-") {
		return b, nil
	}
	return nil, problem{what: fmt.Sprintf("there is no report in the language %q", language), hint: "ask for en, es, or a region of theirs such as es-MX"}
}

// writer writes plans one after another: report.Text or report.JSON.
type writer interface {
	Start(report.Head) error
	Plan(*plan.Plan, *decision.Decision) error
	Group(*plan.Group) error
	End() error
}

// check makes and writes the plans.
func (pr *program) check(ctx context.Context, f *checkFlags) error {
	t, err := f.understand(pr)
	if err != nil {
		return err
	}
	if t.style.Phrases, err = phrases(f.language); err != nil {
		return err
	}
	var out writer = report.NewText(pr.out, t.style)
	if f.json {
		out = report.NewJSON(pr.out)
	}
	head := report.Head{Job: t.Job, Openings: len(t.picked), Books: t.books, Cautions: report.Cautions(t.Job, t.books), Options: t.opt}
	if err := out.Start(head); err != nil {
		return err
	}
	err = pr.plans(ctx, t, f.progress, out)
	return errors.Join(err, out.End()) // also when stopped: what is written stays whole
}

// made is the plan of an opening and what was decided of it, with what went wrong
// in drawing it.
type made struct {
	plan     *plan.Plan
	decision *decision.Decision
	err      error
}

// fewOpenings is the number of openings up to which check looks for what would open a
// window of settings where there is none.
const fewOpenings = 100

// plans makes the plans on all cores and writes them in order.
func (pr *program) plans(ctx context.Context, t *task, progress bool, out writer) error {
	t.opt.Wiring = true
	opt, workers := t.opt, min(runtime.GOMAXPROCS(0), len(t.picked))
	if len(t.picked) == 1 {
		opt.Workers = runtime.GOMAXPROCS(0)
	}
	judged := t.judged()
	makers := make([]plan.Maker, workers)
	count := newCounter(pr.errOut, pr.out, len(t.picked), progress)
	defer count.end()
	worst, together := plan.Good, newGroups(t)
	err := inOrder(ctx, len(t.picked), workers,
		func(worker, i int) made {
			p := makers[worker].Make(t.picked[i], &t.Sheets, t.books, opt)
			return made{p, decision.Make(p, &t.Sheets, judged), t.art.draw(p)}
		},
		func(m made) error {
			if m.err != nil {
				return m.err
			}
			worst = max(worst, plan.Stand(m.plan.Findings))
			together.take(m.plan, nil)
			count.one()
			return out.Plan(m.plan, m.decision)
		})
	if err == nil {
		var groups plan.Standing
		groups, err = together.write(out)
		worst = max(worst, groups)
	}
	pr.status = statusOf(worst)
	return err
}

func statusOf(s plan.Standing) int {
	switch s {
	case plan.Bad:
		return exitBad
	case plan.Undecided:
		return exitUndecided
	}
	return exitGood
}
