package main

import (
	"context"
	"io"
	"os"
	"runtime"
	"slices"

	"github.com/spf13/cobra"

	"swingwright/decision"
	"swingwright/internal/workbook"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/report"
	"swingwright/schedule"
	"swingwright/takeoff"
	"swingwright/takeoff/xlsx"
)

// takeoffFlags are the flags of takeoff.
type takeoffFlags struct {
	ask
	json, progress, commission bool
	xlsx                       string
}

func (pr *program) takeoffCommand() *cobra.Command {
	var f takeoffFlags
	c := &cobra.Command{
		Use:   "takeoff [JOB]",
		Short: "Count parts, hours, trades and visits of a job, and quote it",
		Long: `Counts what every opening of a job takes: parts, cable with what is cut off it,
signs, own hours with what makes them longer, other trades and their visits; and
what all that comes to at the job's rates. Openings that may stand in place of
others are priced as alternates.

Rates, hours and shares that the job does not give are from memory, and marked
so: put your own under rates. Parts have no price until you give one. Where a
rate is a range, sums are too: one case in twenty lies below the first number, one
above the second. What is refused, referred or to be changed first is not quoted,
nor is an operator that is fitted and suited as it is, unless --commission asks for it.

Exit status:
  0  it was counted
  2  the command or a file could not be understood, or the run was stopped`,
		Example: `  swingwright takeoff job.yaml
  swingwright takeoff job.yaml --all --units si
  swingwright takeoff job.yaml --xlsx takeoff.xlsx`,
		Args:              arguments(0, 1, "one job"),
		ValidArgsFunction: jobFiles,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.takeoff(c.Context(), &f)
		},
	}
	flags := c.Flags()
	flags.StringArrayVarP(&f.openings, "opening", "o", nil, "count this `opening` only; may be repeated")
	flags.BoolVar(&f.json, "json", false, "write JSON for programs, lengths in metres")
	flags.BoolVar(&f.progress, "progress", false, "count on the error stream even when it is no terminal")
	flags.BoolVar(&f.commission, "commission", false, "count hours to commission operators too that are fitted and suited as they are")
	flags.StringVar(&f.xlsx, "xlsx", "", "write a workbook with take-off and schedule to this `file`")
	flags.BoolVarP(&f.style.all, "all", "v", false, "list every line of every opening with its reason")
	f.style.addUnits(flags)
	f.spread.add(flags)
	completeOpenings(c)
	return c
}

func (pr *program) takeoff(ctx context.Context, f *takeoffFlags) error {
	t, err := f.understand(pr)
	if err != nil {
		return err
	}
	items, err := pr.items(ctx, t, f.progress)
	if err != nil {
		return err
	}
	for i := range items {
		items[i].Asked = f.commission
	}
	k, err := takeoff.Make(t.Job, items)
	if err != nil {
		return err
	}
	if f.xlsx != "" {
		if err := writeWhole(f.xlsx, func(w io.Writer) error {
			return xlsx.Write(w, k, t.style.Units, scheduleSheet(t.picked))
		}); err != nil {
			return err
		}
	}
	if f.json {
		return report.TakeoffJSON(pr.out, t.Job, k)
	}
	return report.Takeoff(report.NewText(pr.out, t.style), t.Job, k)
}

// items decides on all openings that are looked at, and on those that may stand in
// place of them.
func (pr *program) items(ctx context.Context, t *task, progress bool) ([]takeoff.Item, error) {
	return pr.decided(ctx, t, slices.Concat(t.picked, t.alternates()), progress)
}

// alternates are the openings that may stand in place of those that are looked at.
func (t *task) alternates() (all []*opening.Opening) {
	for i := range t.Openings {
		o := &t.Openings[i]
		for _, p := range t.picked {
			if o.InPlaceOf == p.ID {
				all = append(all, o)
			}
		}
	}
	return all
}

// decided decides on openings.
func (pr *program) decided(ctx context.Context, t *task, all []*opening.Opening, progress bool) ([]takeoff.Item, error) {
	workers := min(runtime.GOMAXPROCS(0), len(all))
	makers := make([]plan.Maker, workers)
	judged := t.judged()
	judged.Brief = true
	count := newCounter(pr.errOut, pr.out, len(all), progress)
	defer count.end()
	items := make([]takeoff.Item, 0, len(all))
	err := inOrder(ctx, len(all), workers,
		func(worker, i int) takeoff.Item {
			p := makers[worker].Make(all[i], &t.Sheets, t.books, t.opt)
			return takeoff.NewItem(all[i], decision.Make(p, &t.Sheets, judged))
		},
		func(it takeoff.Item) error {
			count.one()
			items = append(items, it)
			return nil
		})
	return items, err
}

// scheduleSheet is the schedule of openings as a sheet of a workbook.
func scheduleSheet(picked []*opening.Opening) workbook.Sheet {
	openings := make([]opening.Opening, len(picked))
	for i := range picked {
		openings[i] = *picked[i]
	}
	return schedule.Of(openings, nil).Sheet(openings)
}

// writeWhole writes a file whole or not at all: beside its place first.
func writeWhole(name string, write func(io.Writer) error) error {
	f, err := os.CreateTemp(folderOf(name), ".swingwright-*")
	if err != nil {
		return problem{what: err.Error(), hint: "make the folder first, or name a file elsewhere"}
	}
	defer os.Remove(f.Name()) // gone already where all went well
	err = write(f)
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		return err
	}
	mode := os.FileMode(0o644)
	if info, e := os.Stat(name); e == nil {
		mode = info.Mode().Perm()
	}
	if err := os.Chmod(f.Name(), mode); err != nil {
		return err
	}
	if err := os.Rename(f.Name(), name); err != nil {
		return problem{what: err.Error(), hint: "name a file that can be written"}
	}
	return nil
}
