package onsite

import (
	"swingwright/judge"
	"swingwright/report"
)

// Tuned is the answer to "tune".
type Tuned struct {
	*report.TuningCard
	Picture *Picture `json:"picture"` // the closing before and after the turn; null where nothing is turned
}

// tune answers what to turn next.
func (e *Engine) tune(a *Asked) (any, error) {
	t, err := e.understand(a)
	if err != nil {
		return nil, err
	}
	p := e.plan(t)
	w, err := p.Tune(&t.job.Sheets, nil, judge.Policy{})
	if err != nil {
		return nil, err
	}
	out := &Tuned{TuningCard: report.NewTuningCard(w, report.Style{Units: t.units})}
	if w.Advice != nil && w.After != nil {
		drawn, err := drawn("foretold", e.to(a, t).Foretold(p, w))
		if err != nil {
			return nil, err
		}
		out.Picture = &drawn
	}
	return out, nil
}

// Windowed is the answer to "window".
type Windowed struct {
	*report.WindowCard
	Picture *Picture `json:"picture"` // null where the window cannot be told
}

// window answers which settings keep everything asked of the closer.
func (e *Engine) window(a *Asked) (any, error) {
	t, err := e.understand(a)
	if err != nil {
		return nil, err
	}
	p := e.plan(t)
	w, err := p.Window(&t.job.Sheets)
	if err != nil {
		return nil, err
	}
	out := &Windowed{WindowCard: report.NewWindowCard(w, t.units)}
	if len(w.Missing) == 0 {
		drawn, err := drawn("window", e.to(a, t).Window(p, w))
		if err != nil {
			return nil, err
		}
		out.Picture = &drawn
	}
	return out, nil
}
