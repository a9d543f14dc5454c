package main

import (
	"errors"
	"fmt"

	"github.com/spf13/pflag"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/trace"
)

// openFlags tell what is known of an opening of the leaf beside its recording.
type openFlags struct {
	open   string
	chord  string
	by     string
	begins string
}

func (f *openFlags) offer(flags *pflag.FlagSet) {
	flags.StringVar(&f.open, "open", "", "the leaf `angle` at which it was held open, with its spread")
	flags.StringVar(&f.chord, "chord", "", "in its place the straight `distance` of the latch edge from where it is when closed")
	flags.StringVar(&f.by, "by", "", "who opened the leaf, `hand or power`; where it is not given the recording tells, or else the job")
	flags.StringVar(&f.begins, "begins", "", "how the leaf stood when the recording began, `closed or open`; where it is not given the recording tells")
}

// settings reads the flags, and collects what is wrong. The chord's radius takes a plan.
func (f *openFlags) settings() (set trace.Settings, err error) {
	var errs []error
	say := func(what, hint string) { errs = append(errs, problem{what: what, hint: hint}) }
	if f.open != "" {
		set.Open, err = quantity.Parse[quantity.Angle](f.open)
		if err != nil {
			say("--open: "+err.Error(), `write it as "91 deg ± 0.5 deg"`)
		} else if !(set.Open.Value > 0) {
			say("--open "+f.open+" is no angle of an open leaf", "give one above 0")
		}
		set.Open = set.Open.WithSpread(quantity.Degree)
	}
	if f.chord != "" {
		set.Chord, err = quantity.Parse[quantity.Length](f.chord)
		if err != nil {
			say("--chord: "+err.Error(), `write it as "50-3/4 in"`)
		} else if !(set.Chord.Value > 0) {
			say("--chord "+f.chord+" is no distance of an open leaf", "give one above 0")
		}
		set.Chord = set.Chord.WithSpread(quantity.Inch / 8)
	}
	if f.open != "" && f.chord != "" {
		say("--open and --chord both tell how far it was open", "give one of them")
	}
	switch f.by {
	case "":
	case "hand":
		set.By = trace.ByHand
	case "power":
		set.By = trace.ByPower
	default:
		say(fmt.Sprintf("--by %s is neither hand nor power", f.by), "write --by hand or --by power")
	}
	switch f.begins {
	case "":
	case "closed":
		set.Begins = trace.BegunClosed
	case "open":
		set.Begins = trace.BegunOpen
	default:
		say(fmt.Sprintf("--begins %s is neither closed nor open", f.begins), "write --begins closed or --begins open")
	}
	return set, errors.Join(errs...)
}

// at adds what the plan knows of the opening: the radius of a chord, and that a leaf
// without an operator was opened by hand.
func (f *openFlags) at(p *plan.Plan, set *trace.Settings, units quantity.System) error {
	if set.By == trace.NotTold && !p.Resolved.Drive.Fitted {
		set.By = trace.ByHand
	}
	if f.chord == "" {
		return nil
	}
	set.Radius = p.LatchRadius()
	if most := 2 * set.Radius.Value; set.Radius.Known && set.Chord.Value >= most {
		return problem{what: fmt.Sprintf("--chord %s is farther than the latch edge can come, %s", f.chord, quantity.FormatValue(most, units, -1)),
			hint: "measure straight from where the latch edge is closed to where it is held"}
	}
	return nil
}
