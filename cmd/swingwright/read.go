package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"swingwright/plan"
	"swingwright/report"
	"swingwright/trace"
)

// readFlags are the flags of read.
type readFlags struct {
	askOne
	file    string
	columns []string
	openFlags
	keep string
}

func (pr *program) readCommand() *cobra.Command {
	var f readFlags
	c := &cobra.Command{
		Use:   "read JOB -o OPENING --recording FILE",
		Short: "Read a recording of a swing and judge what it shows",
		Long: `Reads what a phone or any other recorder fixed to the leaf wrote down while the leaf
was opened and closed, once or several times: a text with a time and the rates about
three axes, with acceleration if there is any, or a rate about the hinge, or the
leaf's angle. Tells the phases of every swing, every time, rate and energy that the
rules ask for with its uncertainty, what is wrong with the recording and how to do
better, and holds what was measured against the job's rulebooks.

Hold the leaf still for three seconds before and after. A recorder's scale cannot be
seen in a leaf that closes again: measure once how far it was open, as an angle or as
a chord, and give that. Begin with the leaf closed; where the moves do not show whether
that was so, nothing is told until --begins tells it.

Exit status, of what was measured:
  0  everything meets its limit or does not apply
  1  something falls short of a confirmed limit
  2  the command or a file could not be understood
  3  nothing falls short, but something is undecided, or nothing could be read`,
		Example: `  swingwright read job.yaml -o 101 --recording door.csv
  swingwright read job.yaml -o 101 --recording door.csv --open "91 deg ± 0.5 deg" --by power
  swingwright read job.yaml -o 101 --recording door.csv --column "3=time:ms" --keep readings.yaml`,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.read(&f)
		},
	}
	f.add(c, "that was recorded")
	flags := c.Flags()
	flags.StringVarP(&f.file, "recording", "r", "", "the `file` that the recorder wrote")
	flags.StringArrayVar(&f.columns, "column", nil, "what a `column` holds, as 3=time:ms or spin=rate-z:deg/s; may be repeated")
	f.offer(flags)
	flags.StringVar(&f.keep, "keep", "", "add what was measured to this `file` of readings; it counts once the job, in the same folder, lists it under reading_files")
	f.addJSON(flags)
	flags.StringVar(&f.pictures, "pictures", "", "draw the recording into this `folder`, as SVG and PNG")
	f.style.add(flags)
	return c
}

// read reads, judges and writes a recording.
func (pr *program) read(f *readFlags) error {
	assigned, set, wrong := f.settings()
	data, err := recordingFile(f.file)
	t, p, other := f.plan(pr, errors.Join(wrong, err))
	if other != nil {
		return other
	}
	if err := f.at(p, &set, t.style.Units); err != nil {
		return err
	}
	rec, err := trace.Read(f.file, data, assigned)
	if err != nil {
		return unreadable(err)
	}
	tr := rec.Analyse(set)
	opened := tr.OpenedBy()
	recorded := p.Record(tr, f.driven(p, opened))
	opt := t.opt
	opt.Recorded = recorded
	r := &report.Recording{Trace: tr, Columns: rec.Columns, File: filepath.Base(f.file), Recorded: recorded,
		Plan: plan.Make(p.Opening, &t.Sheets, t.books, opt)}
	if err := t.art.drawRecording(r.Plan, tr); err != nil {
		return err
	}
	if f.keep != "" {
		if r.Kept, err = keep(f.keep, r, data); err != nil {
			return err
		}
	}
	pr.status = statusOf(report.RecordingStanding(r))
	if f.json {
		return report.RecordingJSON(pr.out, r)
	}
	return report.NewText(pr.out, t.style).Recording(r)
}

// driven tells whether the leaf was opened under power: as the flag says, or else the
// recording, or else the job.
func (f *readFlags) driven(p *plan.Plan, opened trace.Opened) bool {
	switch {
	case f.by != "":
		return f.by == "power"
	case opened.By != trace.NotTold:
		return opened.By == trace.ByPower && p.Resolved.Drive.Fitted // none is known: it was a steady hand
	}
	return p.Resolved.Drive.Fitted && p.Opening.Operator.Fitted == "yes"
}

// settings reads the flags that tell about the recording, and collects what is wrong.
func (f *readFlags) settings() (assigned []trace.Assign, set trace.Settings, err error) {
	var errs []error
	for _, text := range f.columns {
		a, err := trace.ParseAssign(text)
		if err != nil {
			errs = append(errs, problem{what: fmt.Sprintf("--column %q: %v", text, err), hint: "write it as 3=time:ms: the column's name or number, what it holds, and its unit"})
			continue
		}
		assigned = append(assigned, a)
	}
	set, err = f.openFlags.settings()
	return assigned, set, errors.Join(append(errs, err)...)
}

// mostRecording is the largest recording that is read: an hour at 200 Hz with ten columns.
const mostRecording = 128 << 20

// recordingFile is what the recorder wrote into the named file.
func recordingFile(name string) ([]byte, error) {
	if name == "" {
		return nil, problem{what: "which recording?", hint: "add --recording and the file that the recorder wrote"}
	}
	info, err := os.Stat(name)
	if err == nil && info.Size() > mostRecording {
		err = fmt.Errorf("%d MB are more than a recording takes", info.Size()>>20)
	}
	if err != nil {
		return nil, problem{what: "the recording cannot be read: " + plain(err), hint: "check the name, and the folder that you are in"}
	}
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, problem{what: "the recording cannot be read: " + plain(err), hint: "name the file that the recorder wrote, one that you may read"}
	}
	return data, nil
}

// unreadable tells the problems of a recording one by one.
func unreadable(err error) error {
	list, ok := errors.AsType[trace.Problems](err)
	if !ok {
		return problem{what: err.Error(), hint: "give a recording as text, a row for each sample"}
	}
	var errs []error
	for _, p := range list {
		what := p.Place.String() + ": needed " + p.Needed
		if p.Found != "" {
			what = p.Place.String() + ": found " + p.Found + ", needed " + p.Needed
		}
		errs = append(errs, problem{what: what, hint: p.Hint})
	}
	return errors.Join(errs...)
}
