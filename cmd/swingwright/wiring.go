package main

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"swingwright/logic"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/report"
)

type wiringFlags struct {
	ask
	opening, group string
	json, progress bool
}

func (pr *program) wiringCommand() *cobra.Command {
	var f wiringFlags
	c := &cobra.Command{
		Use:   "wiring JOB -o OPENING | -g GROUP",
		Short: "Prove that a wiring is safe in every order of events, or show what breaks it",
		Long: `Takes the wiring of an opening, or the one that the openings of a group share,
as it is written down point to point, and works out what the contacts, coils and
inputs do. It follows every order in which people, the fire-alarm panel, the
mains and time can act on it, and proves each rule of safety, or gives a shortest
order of events that breaks it, with what one sees on site.

Through the two doors of a vestibule it follows people in time, with what each leaf
takes: one alone each way, and a second one who sets out at any moment after the
first, the same way or toward them. It tells how long they need, and what is short.

It tells as well how long the drive has to wait for the lock, the sequence of
operation in plain sentences, what each device does in alarm, and every
connection. --pictures draws the riser, the connections, the map of inputs and
outputs, and a timing diagram for every broken rule.

Exit status:
  0  every rule holds
  1  one is broken, or a fault is seen
  2  the command or a file could not be understood
  3  not every order of events could be followed`,
		Example: `  swingwright wiring job.yaml -o 101
  swingwright wiring job.yaml -o 101 --pictures pictures
  swingwright wiring job.yaml -g "street vestibule" --json`,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.wiring(c, &f)
		},
	}
	c.Args, c.ValidArgsFunction = arguments(0, 1, "one job"), jobFiles
	flags := c.Flags()
	flags.StringVarP(&f.opening, "opening", "o", "", "the `opening` whose wiring to prove")
	flags.StringVarP(&f.group, "group", "g", "", "the `group` whose wiring to prove")
	flags.BoolVar(&f.json, "json", false, "write JSON for programs, all values in SI")
	flags.BoolVarP(&f.style.all, "all", "v", false, "list rules that do not apply, too")
	flags.StringVar(&f.pictures, "pictures", "", "draw the wiring into this `folder`, as SVG, PNG and PDF")
	flags.BoolVar(&f.progress, "progress", false, "count the states while they are followed")
	f.style.addUnits(flags)
	f.spread = spreadFlags{draws: leastDraws, seed: 1}
	completeOpenings(c)
	return c
}

func (pr *program) wiring(c *cobra.Command, f *wiringFlags) error {
	if f.opening != "" {
		f.openings = []string{f.opening}
	}
	t, err := f.understand(pr)
	if err != nil {
		return err
	}
	effort := logic.Effort{Progress: func(states int) bool {
		if f.progress {
			fmt.Fprintf(pr.errOut, "\r%d states", states)
		}
		return c.Context().Err() == nil
	}}
	name, w, err := t.wired(f, effort)
	if f.progress {
		fmt.Fprintln(pr.errOut)
	}
	if err := cmp.Or(err, c.Context().Err()); err != nil {
		return err
	}
	if err := t.art.drawWiring(name, w); err != nil {
		return err
	}
	pr.status = statusOf(w.Standing())
	if f.json {
		return report.WiredJSON(pr.out, w)
	}
	return report.Wired(report.NewText(pr.out, t.style), name, w)
}

// wired proves the wiring that was asked for.
func (t *task) wired(f *wiringFlags, by logic.Effort) (string, *plan.Wired, error) {
	if f.group != "" {
		return t.wiredGroup(f.group, by)
	}
	if f.opening == "" && len(t.picked) != 1 {
		return "", nil, problem{what: "which wiring?", hint: "add -o and one of " + listed(t.withWiring()) + ", or -g and a group"}
	}
	o := t.picked[0]
	if o.Wiring.None() {
		return "", nil, noWiring("opening "+o.ID, t.withWiring())
	}
	p := plan.Make(o, &t.Sheets, t.books, t.opt)
	return o.Name, plan.Wire(o, &t.Sheets, by, p.Clearing()), nil
}

func (t *task) wiredGroup(name string, by logic.Effort) (string, *plan.Wired, error) {
	var names []string
	for i := range t.Groups {
		names = append(names, t.Groups[i].ID)
	}
	i := slices.Index(names, name)
	if i < 0 {
		return "", nil, problem{what: fmt.Sprintf("the job has no group %q", name), hint: among(name, names)}
	}
	g := &t.Groups[i]
	if g.Wiring.None() {
		return "", nil, noWiring("group "+name, t.withWiring())
	}
	var of []*opening.Opening
	var errs []error
	for _, id := range g.Of {
		picked, err := t.openings([]string{id})
		of, errs = append(of, picked...), append(errs, err)
	}
	if err := errors.Join(errs...); err != nil {
		return "", nil, err
	}
	var members []*plan.Member
	for _, o := range of {
		members = append(members, plan.Make(o, &t.Sheets, t.books, t.opt).Member(&t.Sheets))
	}
	return "", plan.WireGroup(g, of, &t.Sheets, by, t.opt.Policy, members...), nil
}

func noWiring(of string, with []string) error {
	hint := "write it down under wiring: devices and wires; swingwright new shows how"
	if len(with) > 0 {
		hint += ". There is one for " + listed(with)
	}
	return problem{what: of + " has no wiring", hint: hint}
}

// withWiring are the openings that have a wiring of their own.
func (t *task) withWiring() (ids []string) {
	for i := range t.Openings {
		if o := &t.Openings[i]; !o.Wiring.None() && o.InPlaceOf == "" {
			ids = append(ids, o.ID)
		}
	}
	return ids
}
