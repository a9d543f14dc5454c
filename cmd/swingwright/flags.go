package main

import (
	"fmt"
	"io"
	"os"

	"github.com/spf13/pflag"
	"golang.org/x/term"

	"swingwright/job"
	"swingwright/plan"
	"swingwright/report"
)

// styleFlags say how a report looks.
type styleFlags struct {
	units    string
	all, why bool
}

func (f *styleFlags) add(flags *pflag.FlagSet) {
	f.addUnits(flags)
	flags.BoolVarP(&f.all, "all", "v", false, "list rules that do not apply, and all that are not measured, too")
	flags.BoolVar(&f.why, "why", false, "show how far each limit was confirmed, and what was assumed")
}

func (f *styleFlags) addUnits(flags *pflag.FlagSet) {
	flags.StringVar(&f.units, "units", "", "show values in these `units`, us or si; the job's own when not given")
}

// style fits the report to the job, which may be nil, and to where it is written.
func (f *styleFlags) style(j *job.Job, out io.Writer) (report.Style, error) {
	units, err := unitsOf(j, f.units)
	s := report.Style{Units: units, All: f.all, Why: f.why}
	if width, ok := terminal(out); ok {
		s.Width = min(width, 100)
		s.Colour = os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"
	}
	return s, err
}

// terminal tells whether w is one, and how many characters wide it is.
func terminal(w io.Writer) (width int, ok bool) {
	file, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(file.Fd())) {
		return 0, false
	}
	width, _, _ = term.GetSize(int(file.Fd()))
	return width, true
}

// spreadFlags say how spreads are reckoned.
type spreadFlags struct {
	draws int
	seed  uint64
}

func (f *spreadFlags) add(flags *pflag.FlagSet) {
	flags.IntVar(&f.draws, "draws", 256, "reckon spreads from this `number` of random draws, 64 to 100000")
	flags.Uint64Var(&f.seed, "seed", 1, "seed of the draws; the same `number` gives the same draws")
}

// Fewer than 59 draws can never show that something holds in 95 of 100 cases
// (Wilks, Annals of Mathematical Statistics 12, 1941, 91).
const leastDraws, mostDraws = 64, 100_000

func (f *spreadFlags) options() (plan.Options, error) {
	if f.draws < leastDraws || f.draws > mostDraws {
		return plan.Options{}, problem{
			what: fmt.Sprintf("--draws %d is out of range", f.draws),
			hint: fmt.Sprintf("ask for %d to %d: fewer cannot show that a leaf always latches", leastDraws, mostDraws),
		}
	}
	if f.seed == 0 {
		return plan.Options{}, problem{what: "the seed is 0", hint: "choose a whole number above zero"}
	}
	return plan.Options{Draws: f.draws, Seed: f.seed}, nil
}

// first is the first argument, if there is one.
func first(args []string) string {
	if len(args) == 0 {
		return ""
	}
	return args[0]
}
