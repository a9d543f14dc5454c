package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"swingwright/internal/paper"
	"swingwright/opening"
	"swingwright/packet"
)

// packetFlags are the flags of packet.
type packetFlags struct {
	ask
	out, size      string
	revision, date string
	only           []string
	progress       bool
	fresh          bool
}

func (pr *program) packetCommand() *cobra.Command {
	var f packetFlags
	c := &cobra.Command{
		Use:   "packet [JOB]",
		Short: "Make the papers that go to site",
		Long: `Writes one PDF of papers for every opening of a job, and one for the job: sheets
to survey, work, commission and hand over by, requests to the other trades, and
who does what. JOB is a job file or the folder of one; job.yaml here when it is
not given.

A paper that does not apply is named on the first page, with the reason. A run
that was stopped goes on where it was: what is there, whole and made from the
same inputs, is left as it is. After a change only those packets are made again
that could tell of it: where a sheet was changed, those of the openings that name
it or that it was tried for. Letters that the font has no picture of are told
of, and stand as question marks.

Papers: ` + strings.Join(packet.Names(), ", ") + `.

Exit status:
  0  the papers were written
  2  the command or a file could not be understood, or the run was stopped`,
		Example: `  swingwright packet
  swingwright packet harbour/job.yaml -o 101 --paper a4 --units si
  swingwright packet --only work,commissioning --out site --revision B --date 2026-12-01`,
		Args:              arguments(0, 1, "one job"),
		ValidArgsFunction: jobFiles,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.packet(c.Context(), &f)
		},
	}
	flags := c.Flags()
	flags.StringArrayVarP(&f.openings, "opening", "o", nil, "papers of this `opening` only, and none for the job; may be repeated")
	flags.StringVar(&f.out, "out", "packet", "write into this `folder`")
	flags.StringVar(&f.size, "paper", "letter", "`size` of paper, letter or a4")
	flags.StringVar(&f.revision, "revision", "A", "`revision` that stands on every page")
	flags.StringVar(&f.date, "date", "", "`date` that stands on every page; the job's own when not given")
	flags.StringSliceVar(&f.only, "only", nil, "only these `papers`, by name, with commas between them")
	flags.BoolVar(&f.fresh, "fresh", false, "make every packet again, also those that are there")
	flags.BoolVar(&f.progress, "progress", false, "count on the error stream even when it is no terminal")
	f.style.addUnits(flags)
	f.spread.add(flags)
	completeOpenings(c)
	return c
}

// packet writes the papers.
func (pr *program) packet(ctx context.Context, f *packetFlags) error {
	size, wrong := f.paperSize()
	t, err := f.understand(pr)
	if err := errors.Join(wrong, f.known(), err); err != nil {
		return err
	}
	if err := os.MkdirAll(f.out, 0o777); err != nil {
		return problem{what: "--out: " + plain(err), hint: "name a folder that can be written"}
	}
	b := &binder{task: t, folder: f.out, fresh: f.fresh, whole: len(f.openings) == 0, source: &packet.Source{Job: t.Job, Books: t.books, Collisions: t.opt.Collisions, Draws: t.opt}}
	b.stems = stems(append([]*opening.Opening{{ID: jobStem}}, t.picked...)) // no opening gets the job's file
	if b.source.Program, err = programHash(); err != nil {
		return err
	}
	if b.files, err = filesOf(f.job, t.Job); err != nil {
		return err
	}
	b.opt = packet.Options{Size: size, Units: t.style.Units, Revision: f.revision, Date: cmp.Or(f.date, b.source.Dated()), Only: f.only}
	return b.bind(ctx, pr, f.progress)
}

// paperSize is the size of paper asked for.
func (f *packetFlags) paperSize() (paper.Size, error) {
	s, err := paper.SizeOf(strings.ToLower(f.size))
	if err != nil {
		return s, problem{what: fmt.Sprintf("there is no paper %q", f.size), hint: "write --paper letter or --paper a4"}
	}
	return s, nil
}

// known tells whether all papers asked for exist.
func (f *packetFlags) known() error {
	var errs []error
	for _, name := range f.only {
		if !slices.Contains(packet.Names(), name) {
			errs = append(errs, problem{what: fmt.Sprintf("there is no paper %q", name), hint: among(name, packet.Names())})
		}
	}
	return errors.Join(errs...)
}
