package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"swingwright/decision"
	"swingwright/job"
	"swingwright/opening"
	"swingwright/plan"
	"swingwright/report"
	"swingwright/rulebook"
)

// compareFlags are the flags of compare.
type compareFlags struct {
	askOne
	changes []string
	books   []string
}

func (pr *program) compareCommand() *cobra.Command {
	var f compareFlags
	c := &cobra.Command{
		Use:   "compare JOB -o OPENING",
		Short: "Put possible changes of an opening side by side",
		Long: `Reckons one opening as it is and as it would be with something changed, and puts
them side by side: what to do, what moves and how sure that is, the window of
settings, and the rules that judge them differently.

The changes are the openings of the job that say in_place_of: and the opening's
id, and those given by --if, each a piece of a job file as it would stand under
the opening. With --under the opening as it is is judged by other rulebooks.

Exit status:
  0  the opening was compared
  2  the command or a file could not be understood`,
		Example: `  swingwright compare job.yaml -o 102
  swingwright compare job.yaml -o 102 --if "closer: {arm: top jamb arm T}"
  swingwright compare job.yaml -o 110 --if "frame: {pin_to_edge: 2-1/4 in}" --if "leaf: {weight: 150 lb}"
  swingwright compare job.yaml -o 101 --under a156.19-1997,ada-2010`,
		RunE: func(c *cobra.Command, args []string) error {
			f.job = first(args)
			return pr.compare(&f)
		},
	}
	f.add(c, "to change")
	flags := c.Flags()
	flags.StringArrayVar(&f.changes, "if", nil, "a `change`, as it would stand under the opening; may be repeated")
	flags.StringArrayVar(&f.books, "under", nil, "judge the opening by these `rulebooks`, separated by commas; may be repeated")
	f.addJSON(flags)
	f.style.addUnits(flags)
	return c
}

// compare makes and writes the choices.
func (pr *program) compare(f *compareFlags) error {
	t, p, err := f.plan(pr, nil)
	if err != nil {
		return err
	}
	changed, err := changesOf(t, p.Opening, f.changes)
	books, wrong := otherBooks(f.books)
	if err := errors.Join(err, wrong); err != nil {
		return err
	}
	choices := []report.Choice{t.choice("as it is", p)}
	opt := t.opt
	opt.InPlaceOf = p
	for _, c := range changed {
		choices = append(choices, t.choice(c.name, plan.Make(c.opening, &t.Sheets, t.books, opt)))
	}
	for i, list := range books {
		choices = append(choices, t.choice("as it is, judged by "+f.books[i], plan.Make(p.Opening, &t.Sheets, list, t.opt)))
	}
	if len(choices) == 1 {
		return problem{what: "there is nothing to compare it with", hint: fmt.Sprintf("add --if and a change, --under and rulebooks, or an opening with in_place_of: %q to the job", p.Opening.ID)}
	}
	if f.json {
		return report.CompareJSON(pr.out, choices)
	}
	return report.Compare(report.NewText(pr.out, t.style), choices)
}

// choice decides on a plan and looks for its window.
func (t *task) choice(name string, p *plan.Plan) report.Choice {
	c := report.Choice{Name: name, Plan: p, Decision: decision.Make(p, &t.Sheets, t.judged())}
	if w, err := p.HasWindow(&t.Sheets); err == nil {
		c.Window = w
	}
	return c
}

// judged are the options of a decision.
func (t *task) judged() decision.Options {
	return decision.Options{Policy: t.opt.Policy, Brief: len(t.picked) > fewOpenings}
}

// change is a possible change of an opening.
type change struct {
	name    string
	opening *opening.Opening
}

// changesOf are those that the job names and those asked for, with all that is wrong
// with the latter.
func changesOf(t *task, of *opening.Opening, asked []string) ([]change, error) {
	var all []change
	for i := range t.Openings {
		if o := &t.Openings[i]; o.InPlaceOf == of.ID {
			all = append(all, change{strings.TrimSpace(o.ID + " " + o.Name), o})
		}
	}
	var errs []error
	for _, text := range asked {
		o, err := job.Change(t.Job, of.ID, text, "--if")
		if err != nil {
			errs = append(errs, err)
			continue
		}
		all = append(all, change{"if " + text, o})
	}
	return all, errors.Join(errs...)
}

// otherBooks are the rulebooks of each list that was asked for.
func otherBooks(asked []string) ([][]*rulebook.Book, error) {
	var all [][]*rulebook.Book
	var errs []error
	for _, list := range asked {
		w := work{Job: &job.Job{}}
		for id := range strings.SplitSeq(list, ",") {
			w.addBuiltin(strings.TrimSpace(id), &errs)
		}
		all = append(all, w.books)
	}
	return all, errors.Join(errs...)
}
