package main

import (
	"context"
	"errors"
	"io"

	"github.com/spf13/cobra"
)

// Exit statuses.
const (
	exitGood      = 0 // everything meets its limit or does not apply
	exitBad       = 1 // something falls short of a confirmed limit
	exitError     = 2 // the command or a file could not be understood, or the run was stopped
	exitUndecided = 3 // nothing falls short, but something is open
)

// program is what the commands of one run share.
type program struct {
	in          io.Reader
	out, errOut io.Writer
	status      int
	letters     letters
}

// run is the whole program: it carries out the command in args and returns the
// exit status.
func run(ctx context.Context, args []string, in io.Reader, out, errOut io.Writer) int {
	pr := &program{in: in, out: out, errOut: errOut}
	root := pr.root()
	root.SetArgs(args)
	root.SetIn(in)
	root.SetOut(out)
	root.SetErr(errOut)
	err := root.ExecuteContext(ctx)
	pr.tellLetters()
	switch {
	case err == nil:
		return pr.status
	case errors.Is(err, context.Canceled):
		tell(errOut, problem{what: "stopped before the end", hint: "what is written holds for the openings it shows; the summary counts no others"})
	default:
		tell(errOut, err)
	}
	return exitError
}

func (pr *program) root() *cobra.Command {
	root := &cobra.Command{
		Use:   "swingwright",
		Short: "Reckon how a swing door moves and whether it may move so",
		Long: `Swingwright takes what a technician found at a set of openings and tells, for
each, how its leaf moves, how sure that is, which published limits it meets,
which it misses, and what to measure next.

A job is one file, job.yaml. To begin:

  swingwright new                 write a commented job file to fill in
  swingwright check               judge every opening of job.yaml
  swingwright swing job.yaml -o 101   look into one opening
  swingwright window job.yaml -o 101  find how to set its closer
  swingwright compare job.yaml -o 101 put possible changes beside it
  swingwright accept job.yaml -o 101  list what is measured and what is not
  swingwright holes job.yaml -o 101   tell where to drill, with templates
  swingwright takeoff job.yaml        count parts, hours and visits, and quote
  swingwright schedule in doors.csv   make a job of an owner's door schedule

It computes and records. It certifies nothing.`,
		SilenceUsage:  true,
		SilenceErrors: true,
		Args:          noArguments,
		RunE:          func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error { return misuse(c, flagWords(err)) })
	root.AddCommand(pr.newCommand(), pr.checkCommand(), pr.swingCommand(), pr.windowCommand(), pr.compareCommand(), pr.readCommand(), pr.acceptCommand(), pr.tuneCommand(), pr.marksCommand(), pr.holesCommand(), pr.powerCommand(), pr.wiringCommand(), pr.letterCommand(), pr.packetCommand(), pr.bookCommand(), pr.takeoffCommand(), pr.scheduleCommand(), pr.rulesCommand(), pr.schemaCommand(), pr.serveCommand(), pr.accountCommand(), pr.labelCommand())
	return root
}
