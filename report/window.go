package report

import (
	"fmt"
	"math"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/window"
)

// Window writes the settings at which one opening satisfies everything asked of
// it, or why there are none, and what the months do to it; nil seasons are left out.
func Window(t *Text, p *plan.Plan, w *plan.Window, s *plan.Seasons) error {
	t.heading(p)
	t.whatItIs(p)
	switch {
	case len(w.Missing) > 0:
		t.head("The window of settings cannot be told")
		for _, what := range w.Missing {
			t.paragraph("missing:", what)
		}
	case w.Open():
		t.head(fmt.Sprintf("Everything is kept from power %.2f to %.2f (marked: %s)", w.Window.Low, w.Window.High, span(w.Settings)))
		t.setting(w)
		t.asked(w)
	default:
		t.head(fmt.Sprintf("No power from %s keeps everything", span(w.Settings)))
		t.conflicts(w)
		t.changes(w)
		t.asked(w)
	}
	t.aside("Could not be put", w.Left)
	t.aside("Taken for granted", w.Notes)
	t.seasons(s)
	t.remarks(p)
	return t.flush()
}

// WindowStanding is how the search ended: Good with a window, Bad without one,
// Undecided where it cannot be told.
func WindowStanding(w *plan.Window) plan.Standing {
	switch {
	case len(w.Missing) > 0:
		return plan.Undecided
	case w.Open():
		return plan.Good
	}
	return plan.Bad
}

func span(s window.Span) string {
	if s.Empty() {
		return "nowhere"
	}
	low, high := fmt.Sprintf("%.3g", s.Low), fmt.Sprintf("%.3g", s.High)
	if low == high {
		return low
	}
	return low + " to " + high
}

func (t *Text) aside(name string, texts []string) {
	if len(texts) > 0 {
		t.head(name)
	}
	for _, text := range texts {
		t.paragraph("-", text)
	}
}

// setting writes the setting to choose and what it will do.
func (t *Text) setting(w *plan.Window) {
	b := w.Best
	tab := t.section(20, 30)
	tab.add("set the spring to", fmt.Sprintf("power %.1f", float64(b.Power.Setting)))
	tab.add("leave the sweep valve", valve(w.Sweep, w.SweepSet, b.Sweep))
	tab.add("leave the latch valve", valve(w.Latch, w.LatchSet, b.Latch))
	tab.add("spared at the leaf", t.amount(quantity.DimTorque, float64(b.Margin))+" before the first limit on the spring")
	passed := func(i int) string { return fmt.Sprintf("%.2f s", float64(w.Marks[i].Time)) }
	tab.add("then 90 to 12 deg", passed(1))
	tab.add("90 to 10 deg", passed(2))
	tab.add("90 deg to closed", passed(3))
	tab.add("push to start it", t.amount(quantity.DimForce, float64(w.HandStart))+" at the handle, power off")
	tab.add("push to 90 deg", t.amount(quantity.DimForce, float64(w.HandOpen))+" at the handle, power off")
	t.put(tab)
}

// valve is between which positions a valve may be left.
func valve(turns [2]quantity.Turns, set quantity.Turns, resist [2]quantity.Damping) string {
	text := fmt.Sprintf("%.3g to %.3g N·m·s/rad at the pinion", float64(resist[0]), float64(resist[1]))
	if math.IsNaN(float64(turns[0])) {
		return text
	}
	return fmt.Sprintf("%.2f to %.2f turns open, reckoned at %.2f (%s)", float64(turns[0]), float64(turns[1]), float64(set), text)
}

// asked writes every demand: where it holds, and what is left at the best setting.
func (t *Text) asked(w *plan.Window) {
	t.head("What is asked")
	tab := t.section(20, 10, 10, 10, 20)
	tab.add("demand", "limit", "holds at power", "to spare", "source")
	for i, h := range w.Held {
		d := &h.Demand
		left := "-"
		if w.Best != nil {
			left = t.amount(d.Kind.Dim(), w.Best.Kept[i].Margin)
		}
		tab.add(d.What, d.Kind.Side().String()+" "+t.amount(d.Kind.Dim(), d.Limit), hold(span(h.Span)), left, d.Source)
	}
	t.put(tab)
}

// conflicts writes which demands exclude each other.
func (t *Text) conflicts(w *plan.Window) {
	for i := range w.Conflicts {
		c := &w.Conflicts[i]
		if len(c.Of) == 1 {
			t.paragraph("Kept at no power:", "")
		} else {
			t.paragraph("Exclude each other:", "")
		}
		for _, g := range c.Of {
			text := g.Demand.What + " (" + g.Demand.Kind.Side().String() + " " + t.amount(g.Demand.Kind.Dim(), g.Demand.Limit) + "): "
			if g.Enough {
				text += "would have to give by " + t.amount(g.Demand.Kind.Dim(), g.By)
			} else {
				text += "no easing of it is enough"
			}
			t.paragraph("-", text)
		}
	}
}

// changes writes what would open a window, least first, and what would not.
func (t *Text) changes(w *plan.Window) {
	if len(w.Changes) == 0 {
		return
	}
	t.head("What would change that, each by itself")
	tab := t.section(16, 24, 14)
	tab.add("change", "how far", "opens")
	for i := range w.Changes {
		c := &w.Changes[i]
		far := c.Arm
		if c.Kind != window.OtherArm {
			far = fmt.Sprintf("%s to %s (%.0f %%)", t.amount(c.Dim, c.From), t.amount(c.Dim, c.To), 100*float64(c.Share))
		}
		opens := "no window"
		if c.Opens {
			opens = "power " + span(c.Window)
		}
		tab.add(c.Kind.String(), far, opens)
		for _, name := range c.Waived {
			tab.note("beyond its limit then: " + what(w, name))
		}
	}
	t.put(tab)
}

// what is what a demand of the given name demands, with where it stands.
func what(w *plan.Window, name string) string {
	for i := range w.Held {
		if d := &w.Held[i].Demand; d.Name == name {
			return d.What + " (" + d.Source + ")"
		}
	}
	return name
}
