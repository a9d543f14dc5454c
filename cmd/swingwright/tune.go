package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"swingwright/plan"
	"swingwright/report"
	"swingwright/trace"
	"swingwright/tune"
)

// tuneFlags are the flags of tune.
type tuneFlags struct {
	askOne
	said     string
	recorded []string
	openFlags
}

func (pr *program) tuneCommand() *cobra.Command {
	var f tuneFlags
	c := &cobra.Command{
		Use:   "tune JOB -o OPENING",
		Short: "Say which screw to turn next, which way and how far",
		Long: `Says what to turn next at an opening's closer so that every limit is kept that its
setting moves, from the times found and from what came of every turn so far, as the
job lists it under adjustments. It foretells every time before the turn is made, with
its uncertainty, and tells how good it was at that so far; how far a valve may go until
it is learned is an eighth of a turn, and never past the screw's resistance. It keeps
the setting that was found, to go back to, and says when no setting will do.

A recorder's scale cannot be seen in a leaf that closes again: measure how far it was
open, as an angle or as a chord, and give that, or keep what read made of the recording
so; else all that recordings tell is uncertain by as much.

With --said it looks up what the trade turns for a symptom, in your own words.

Exit status:
  0  everything is kept: leave it, or the next turn is told
  1  no setting of this closer keeps everything
  2  the command or a file could not be understood
  3  it cannot be told: something is not known`,
		Example: `  swingwright tune job.yaml -o 102
  swingwright tune job.yaml -o 102 --recording 0=found.csv --recording 1=after.csv --chord "50-3/4 in"
  swingwright tune --said "fast, then slow just before closed"`,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			if f.said != "" {
				return pr.symptoms(&f)
			}
			return pr.tune(&f)
		},
	}
	f.add(c, "to tune")
	flags := c.Flags()
	flags.StringVar(&f.said, "said", "", "what the door does, in `words`")
	flags.StringArrayVarP(&f.recorded, "recording", "r", nil, "a recording made at a `state`, as 0=found.csv or 1=after.csv, counted from the state found; may be repeated")
	f.offer(flags)
	f.addJSON(flags)
	flags.StringVar(&f.pictures, "pictures", "", "draw the closing before and after the turn, and how well recordings are followed, into this `folder`")
	f.style.addUnits(flags)
	return c
}

// stateRecording is a recording and the state of the closer that it was made at.
type stateRecording struct {
	name  string
	state int
	rec   *trace.Recording
}

// recordings reads the recordings asked for, and collects what is wrong.
func (f *tuneFlags) recordings() (all []stateRecording, err error) {
	var errs []error
	for _, text := range f.recorded {
		state, name, ok := strings.Cut(text, "=")
		n, wrong := strconv.Atoi(state)
		if !ok || wrong != nil {
			errs = append(errs, problem{what: fmt.Sprintf("--recording %q does not tell at which state it was made", text), hint: "write it as 0=found.csv: the state, 0 as found, and the file"})
			continue
		}
		data, err := recordingFile(name)
		if err != nil {
			errs = append(errs, err)
			continue
		}
		rec, err := trace.Read(name, data, nil)
		if err != nil {
			errs = append(errs, unreadable(err))
			continue
		}
		all = append(all, stateRecording{filepath.Base(name), n, rec})
	}
	return all, errors.Join(errs...)
}

// curved analyses recordings with what is known beside them: as the flags say, or else how
// far the leaf was open by what was kept of the same recording.
func (f *tuneFlags) curved(all []stateRecording, set trace.Settings, p *plan.Plan) (out []plan.Curved) {
	for _, one := range all {
		own := set
		if f.open == "" && f.chord == "" {
			own.Open = p.KeptAngle(one.name)
		}
		out = append(out, plan.Curved{Name: one.name, State: one.state, Trace: one.rec.Analyse(own)})
	}
	return out
}

// tune advises the next turn.
func (pr *program) tune(f *tuneFlags) error {
	recorded, wrong := f.recordings()
	set, unknown := f.settings()
	t, p, err := f.plan(pr, errors.Join(wrong, unknown))
	if err != nil {
		return err
	}
	if err := f.at(p, &set, t.style.Units); err != nil {
		return err
	}
	w, err := p.Tune(&t.Sheets, f.curved(recorded, set, p), t.opt.Policy)
	if err != nil {
		return problem{what: err.Error(), hint: "mend the job: turns, times and adjustments have to go together"}
	}
	if err := t.art.drawTuning(p, w); err != nil {
		return err
	}
	switch {
	case len(w.Missing) > 0:
		pr.status = exitUndecided
	case w.Do == tune.NoSetting:
		pr.status = exitBad
	}
	if f.json {
		return report.TuningJSON(pr.out, p, w)
	}
	return report.NewText(pr.out, t.style).Tuning(p, w)
}

// symptoms tells what the trade turns for a symptom.
func (pr *program) symptoms(f *tuneFlags) error {
	known := tune.Recognise(f.said)
	if len(known) == 0 {
		var names []string
		for _, s := range tune.Symptoms() {
			names = append(names, s.Name)
		}
		return problem{what: "no symptom is known by these words: " + f.said, hint: "there are: " + strings.Join(names, "; ")}
	}
	style, err := f.style.style(nil, pr.out)
	if err != nil {
		return err
	}
	text := report.NewText(pr.out, style)
	for i := range known {
		if err := text.Symptom(&known[i]); err != nil {
			return err
		}
	}
	return nil
}
