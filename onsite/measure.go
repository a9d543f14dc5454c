package onsite

import (
	"errors"
	"fmt"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/report"
	"swingwright/trace"
)

// Mark is a floor mark as the app shows it.
type Mark struct {
	Degrees float64 `json:"degrees"`
	US      string  `json:"us"` // straight from the closed latch edge
	SI      string  `json:"si"`
	For     string  `json:"for"`
}

// Marked is the answer to "marks".
type Marked struct {
	Marks []Mark `json:"marks"`
}

// marks answers where to lay floor marks for this leaf.
func (e *Engine) marks(a *Asked) (any, error) {
	t, err := e.understand(a)
	if err != nil {
		return nil, err
	}
	t.Draws = fewDraws // the marks are laid by lengths alone
	out := Marked{Marks: []Mark{}}
	for _, m := range e.plan(t).Room.Marks {
		out.Marks = append(out.Marks, Mark{Degrees: float64(m.Angle / quantity.Degree), US: quantity.ByTape(m.Chord, quantity.US), SI: quantity.ByTape(m.Chord, quantity.SI), For: m.For})
	}
	return out, nil
}

// Recorded is the answer to "read".
type Recorded struct {
	*report.RecordingCard
	Picture Picture `json:"picture"`
}

// read answers what a recording shows.
func (e *Engine) read(a *Asked) (any, error) {
	t, err := e.understand(a)
	if err != nil {
		return nil, err
	}
	var set trace.Settings
	if a.Open != "" {
		if set.Open, err = quantity.Parse[quantity.Angle](a.Open); err != nil {
			return nil, fmt.Errorf("the angle at which it was held open: %w", err)
		}
		set.Open = set.Open.WithSpread(quantity.Degree)
	}
	switch a.By {
	case "hand":
		set.By = trace.ByHand
	case "power":
		set.By = trace.ByPower
	}
	switch a.Begins {
	case "closed":
		set.Begins = trace.BegunClosed
	case "open":
		set.Begins = trace.BegunOpen
	}
	rec, err := trace.Read(a.File, []byte(a.Data), nil)
	if err != nil {
		return nil, told(err)
	}
	tr := rec.Analyse(set)
	p := e.plan(t)
	driven := a.By == "power" || a.By == "" && p.Resolved.Drive.Fitted && t.opening.Operator.Fitted == "yes"
	recorded := p.Record(tr, driven)
	opt := e.options(t)
	opt.Recorded = recorded
	r := &report.Recording{Trace: tr, Columns: rec.Columns, File: a.File, Recorded: recorded, Plan: plan.Make(t.opening, &t.job.Sheets, t.books, opt)}
	out := &Recorded{RecordingCard: report.NewRecordingCard(r, t.units)}
	out.Picture, err = drawn("recording", e.to(a, t).Recording(r.Plan, tr))
	return out, err
}

// told tells the problems of a recording one by one.
func told(err error) error {
	list, ok := errors.AsType[trace.Problems](err)
	if !ok {
		return err
	}
	var all []error
	for _, p := range list {
		all = append(all, fmt.Errorf("%s: found %s, needed %s; %s", p.Place, p.Found, p.Needed, p.Hint))
	}
	return errors.Join(all...)
}
