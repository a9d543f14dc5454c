package main

import (
	"errors"
	"io"

	"swingwright/opening"
	"swingwright/plan"
	"swingwright/report"
)

// ask is what check and swing are asked for alike.
type ask struct {
	job      string
	openings []string
	pictures string
	style    styleFlags
	spread   spreadFlags
}

// task is an ask that was understood.
type task struct {
	*work
	picked []*opening.Opening
	style  report.Style
	opt    plan.Options
	art    *gallery
}

// understand reads the job and everything asked of it, and collects all that is wrong.
func (a *ask) understand(out io.Writer) (*task, error) {
	w, err := load(a.job)
	if err != nil {
		_, other := a.spread.options()
		return nil, errors.Join(err, other)
	}
	t := &task{work: w}
	var errs [4]error
	t.picked, errs[0] = w.openings(a.openings)
	t.style, errs[1] = a.style.style(w.Job, out)
	t.opt, errs[2] = a.spread.options()
	if err := errors.Join(errs[:]...); err != nil {
		return nil, err
	}
	if t.opt.Collisions, err = w.collisions(); err != nil {
		return nil, err
	}
	t.art, err = newGallery(a.pictures, t.picked, t.style.Units)
	return t, err
}
