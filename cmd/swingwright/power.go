package main

import (
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"swingwright/opening"
	"swingwright/plan"
	"swingwright/report"
)

// powerFlags are the flags of power.
type powerFlags struct {
	askOne
	group    string
	circuits bool
}

func (pr *program) powerCommand() *cobra.Command {
	var f powerFlags
	c := &cobra.Command{
		Use:   "power JOB -o OPENING | -g GROUP | --circuits",
		Short: "Reckon whether the supplies can feed the devices of an opening",
		Long: `Follows the wiring of one opening, or of a group that shares one, from its supplies
to the devices, and tells what voltage each device has in its worst moment from the
press until the lock holds again; what every run of wire takes, and the thinnest
gauges that would do; whether the supply can give what is asked, and the smallest that
can; how long a battery carries on; how full the conduits are; and what a licensed
electrician has to do.

--circuits adds up the branch circuits of the mains over all openings of the job: the
wirings whose breakers name the same circuit. What is found there is for the licensed
electrician, who decides.

What no label or sheet says is taken as such devices commonly are, and marked: --why
lists it.

Exit status:
  0  every device is fed, and every supply can give what is asked
  1  a device is short of volts, a supply of current, or something is dangerous
  2  the command or a file could not be understood
  3  it cannot be told: something is not known or too close to call`,
		Example: `  swingwright power job.yaml -o 101
  swingwright power job.yaml -g vestibule --pictures pictures
  swingwright power job.yaml -o 101 --json
  swingwright power job.yaml --circuits`,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.power(&f)
		},
	}
	f.add(c, "to feed")
	flags := c.Flags()
	flags.StringVarP(&f.group, "group", "g", "", "the `group` whose openings share a wiring")
	flags.BoolVar(&f.circuits, "circuits", false, "add up the branch circuits of the mains over all openings")
	f.addJSON(flags)
	flags.StringVar(&f.pictures, "pictures", "", "draw the volts along the wires and the current over the sequence into this `folder`")
	f.style.addUnits(flags)
	flags.BoolVar(&f.style.why, "why", false, "show every value that was reckoned with, and what was assumed")
	return c
}

// power reckons how an opening or a group is fed.
func (pr *program) power(f *powerFlags) error {
	if f.circuits {
		return pr.circuits(f)
	}
	t, fed, err := f.feeding(pr)
	if err != nil {
		return err
	}
	if err := t.art.drawFeeding(fed); err != nil {
		return err
	}
	pr.status = statusOf(fed.Stand())
	if f.json {
		return report.FeedingJSON(pr.out, fed)
	}
	return report.NewText(pr.out, t.style).Feeding(fed)
}

// circuits adds up the branch circuits of a job.
func (pr *program) circuits(f *powerFlags) error {
	if f.opening != "" || f.group != "" {
		return problem{what: "circuits are added up over all openings", hint: "leave -o and -g away, or --circuits"}
	}
	t, err := f.understand(pr)
	if err != nil {
		return err
	}
	all, unnamed := plan.Circuits(t.Openings, t.Groups, &t.Sheets, t.opt.Policy)
	stand := plan.Good
	for i := range all {
		stand = max(stand, all[i].Stand())
	}
	pr.status = statusOf(stand)
	if f.json {
		return report.CircuitsJSON(pr.out, all, unnamed)
	}
	return report.NewText(pr.out, t.style).Circuits(all, unnamed)
}

// feeding reckons what was asked for.
func (f *powerFlags) feeding(pr *program) (*task, *plan.Feeding, error) {
	if f.group == "" {
		t, p, err := f.plan(pr, nil)
		if err != nil {
			return nil, nil, err
		}
		if g := opening.Sharing(t.Groups, p.Opening.ID); g != nil && p.Opening.Wiring.None() {
			return nil, nil, problem{what: "opening " + p.Opening.ID + " has no wiring of its own", hint: "it shares that of its group: add -g " + g.ID}
		}
		return t, p.Power(&t.Sheets, t.opt.Policy), nil
	}
	if f.opening != "" {
		return nil, nil, problem{what: "both an opening and a group are asked for", hint: "give -o or -g"}
	}
	t, err := f.understand(pr)
	if err != nil {
		return nil, nil, err
	}
	g, err := groupOf(t, f.group)
	if err != nil {
		return nil, nil, err
	}
	t.opt.Workers = runtime.GOMAXPROCS(0)
	var plans []*plan.Plan
	for _, id := range g.Of {
		for _, o := range t.picked {
			if o.ID == id {
				plans = append(plans, plan.Make(o, &t.Sheets, t.books, t.opt))
			}
		}
	}
	if len(plans) == 0 {
		return nil, nil, problem{what: "group " + g.ID + " has no opening of this job", hint: "name its openings under of"}
	}
	return t, plan.PowerOf(g, plans, &t.Sheets, t.opt.Policy), nil
}

// groupOf finds a group by its name.
func groupOf(t *task, id string) (*opening.Group, error) {
	var known []string
	for i := range t.Groups {
		if t.Groups[i].ID == id {
			return &t.Groups[i], nil
		}
		known = append(known, t.Groups[i].ID)
	}
	hint := "there are " + strings.Join(known, ", ")
	if len(known) == 0 {
		hint = "the job has no groups"
	}
	return nil, problem{what: "no group " + id, hint: hint}
}
