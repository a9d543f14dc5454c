package report

import (
	"fmt"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/window"
)

// A WindowCard is the setting window of an opening, as a small screen shows it.
type WindowCard struct {
	Missing   []string   `json:"missing"`
	Open      bool       `json:"open"`
	Low       float64    `json:"low"`  // spring power at which the window begins
	High      float64    `json:"high"` // and ends
	Marked    string     `json:"marked"`
	Power     string     `json:"power"` // the setting to choose
	Sweep     string     `json:"sweep"`
	Latch     string     `json:"latch"`
	Conflicts [][]string `json:"conflicts"`
	Changes   []string   `json:"changes"` // what would open a window
	Notes     []string   `json:"notes"`
	Left      []string   `json:"left"`
}

// NewWindowCard makes the card of a window.
func NewWindowCard(w *plan.Window, units quantity.System) *WindowCard {
	c := &WindowCard{Missing: texts(w.Missing), Conflicts: [][]string{}, Changes: []string{}, Notes: texts(w.Notes), Left: texts(w.Left)}
	if len(w.Missing) > 0 {
		return c
	}
	c.Open, c.Low, c.High, c.Marked = w.Open(), float64(w.Window.Low), float64(w.Window.High), span(w.Settings)
	t := Text{style: Style{Units: units}}
	if !c.Open {
		c.Low, c.High = 0, 0
	}
	if b := w.Best; b != nil {
		c.Power = fmt.Sprintf("%.1f", float64(b.Power.Setting))
		c.Sweep, c.Latch = valve(w.Sweep, w.SweepSet, b.Sweep), valve(w.Latch, w.LatchSet, b.Latch)
	}
	for i := range w.Conflicts {
		var names []string
		for _, g := range w.Conflicts[i].Of {
			names = append(names, fmt.Sprintf("%s: %s %s (%s)", g.Demand.What, g.Demand.Kind.Side(), t.amount(g.Demand.Kind.Dim(), g.Demand.Limit), g.Demand.Source))
		}
		c.Conflicts = append(c.Conflicts, names)
	}
	for i := range w.Changes {
		if ch := &w.Changes[i]; ch.Opens {
			far := ch.Arm
			if ch.Kind != window.OtherArm {
				far = t.amount(ch.Dim, ch.From) + " to " + t.amount(ch.Dim, ch.To)
			}
			c.Changes = append(c.Changes, fmt.Sprintf("%s: %s", ch.Kind, far))
		}
	}
	return c
}
