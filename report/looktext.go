package report

import (
	"fmt"
	"math"
	"slices"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// Text writes the look for people.
func (l *Look) Text(t *Text) error {
	t.heading(l.Plan)
	t.whatItIs(l.Plan)
	t.howItMoves(l.Plan)
	t.howItIsDriven(l.Plan)
	t.roomForTheSwing(l.Plan)
	if l.Problem != nil {
		t.paragraph("problem", l.Problem.Error())
		return t.flush()
	}
	t.closing(l)
	t.driven(l)
	t.hands(l)
	if l.Plan.Resolved.Link.Closer {
		t.budget(l.Plan)
	}
	t.remarks(l.Plan)
	if t.style.Why {
		t.assumed(l.Plan)
	}
	return t.flush()
}

// closing writes the closing mark by mark.
func (t *Text) closing(l *Look) {
	t.head("Closing from " + degrees(l.From))
	switch {
	case !l.Plan.Resolved.Link.Closer:
		t.paragraph("", "not reckoned: closer or arm is not known")
		return
	case !l.Reached:
		t.paragraph("", "the arm does not reach that far")
		return
	}
	tab := t.section(8, 10, 12)
	tab.add("passes", "after", "since the last")
	last := quantity.Time(0)
	for _, m := range l.Marks {
		if math.IsNaN(float64(m.Time)) {
			tab.add(degrees(m.Angle), "-", "-")
			continue
		}
		tab.add(degrees(m.Angle), fmt.Sprintf("%.2f s", float64(m.Time)), fmt.Sprintf("%.2f s", float64(m.Time-last)))
		last = m.Time
	}
	t.put(tab)
	t.blank()
	sum := t.section(16, 30)
	sum.add("ending", ending(&l.Motion))
	sum.add("fastest", quantity.FormatValue(l.Motion.Peak, t.style.Units, 1)+" at "+degrees(l.Motion.PeakAt))
	sum.add("largest energy", quantity.FormatValue(l.Motion.Energy, t.style.Units, 3))
	if l.Motion.End.Shut() {
		sum.add("energy left at the frame", quantity.FormatValue(l.Motion.Impact, t.style.Units, 3))
	}
	if !l.Plan.Resolved.Times {
		sum.add("note", "the valves are assumed, so times, rates and energies here only show an ordinary setting")
	}
	t.put(sum)
}

// driven writes the opening under power mark by mark.
func (t *Text) driven(l *Look) {
	if len(l.Opening) == 0 {
		return
	}
	t.head("Opening under power from " + degrees(l.Driven.From))
	tab := t.section(8, 10, 12, 12)
	tab.add("passes", "after", "since the last", "stopped there by, 25 mm from the edge")
	last := quantity.Time(0)
	for _, m := range l.Opening {
		force := "-"
		if m.Stall > 0 {
			force = hold(quantity.FormatValue(swing.HandForce(m.Stall, stallRadius(l.Plan)), t.style.Units, 2))
		}
		after, since := "-", "-"
		if !math.IsNaN(float64(m.Time)) {
			after, since = fmt.Sprintf("%.2f s", float64(m.Time)), fmt.Sprintf("%.2f s", float64(m.Time-last))
			last = m.Time
		}
		tab.add(degrees(m.Angle), after, since, force)
	}
	t.put(tab)
}

// hands writes the forces along the way.
func (t *Text) hands(l *Look) {
	t.head("By hand, power off, and by the closer alone")
	if why := l.Plan.HandUnknown(); why != "" {
		t.paragraph("", "not reckoned. "+why)
		return
	}
	least := []int{8}
	title := []string{"leaf at"}
	for i, r := range l.Radii {
		name := "push"
		switch i {
		case 0:
			name = "push at the handle"
		case 1:
			name = "push 25 mm from the edge"
		}
		title = append(title, fmt.Sprintf("%s, %s", name, distance(r, t.style.Units)))
		least = append(least, 8)
	}
	last := l.Radii[len(l.Radii)-1]
	title, least = append(title, "closer draws shut, "+distance(last, t.style.Units)), append(least, 8)
	tab := t.section(least...)
	tab.add(title...)
	force := func(m quantity.Torque, at quantity.Length) string {
		if math.IsNaN(float64(m)) {
			return "-"
		}
		return hold(quantity.FormatValue(swing.HandForce(m, at), t.style.Units, 2))
	}
	for _, m := range slices.Backward(l.Marks) {
		cells := []string{degrees(m.Angle)}
		for _, r := range l.Radii {
			cells = append(cells, force(m.Hand, r))
		}
		tab.add(append(cells, force(m.Closing, last))...)
	}
	t.put(tab)
}

// budget writes the latch budget line by line.
func (t *Text) budget(p *plan.Plan) {
	b := p.Swing.Budget
	t.head("Latch budget: moments about the hinge pin, at the largest pressure")
	tab := t.section(20, 12, 20)
	line := func(name string, m quantity.Torque, note string) {
		tab.add(name, hold(quantity.FormatValue(m, t.style.Units, 2)), note)
	}
	line("closer at 5 deg", b.Closer, "draws shut")
	line("latch bolt", -b.Latch, "rides over its lip")
	line("seals", -b.Seal, "are pressed home")
	line("hinges", -b.Friction, "rub")
	line("air", -b.Air, pushes(b.Air))
	line("hinge line", -b.Plumb, pushes(b.Plumb))
	if b.Drive != 0 {
		line("operator", -b.Drive, "is turned along, power off")
	}
	line("left over", b.Margin(), marginWord(b.Margin()))
	t.put(tab)
}

func pushes(m quantity.Torque) string {
	switch {
	case m > 0:
		return "holds it open"
	case m < 0:
		return "helps it shut"
	}
	return ""
}

func marginWord(m quantity.Torque) string {
	if m < 0 {
		return "too little: slowly let close, it would not latch"
	}
	return "to latch with, slowly let close"
}
