package report

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// A Look is one opening looked at closely: its closing from one angle, mark by
// mark, and the forces along the way.
type Look struct {
	Plan    *plan.Plan
	From    quantity.Angle
	Motion  swing.Motion      // from that angle, at the usual pressure
	Radii   []quantity.Length // where hand forces are given: the handle, 25 mm from the latch edge, and any other asked for
	Marks   []LookMark        // from From down to closed
	Reached bool              // whether the arm reaches From
	Problem error             // why nothing could be followed; nil when it could
}

// LookMark is what happens at one leaf angle.
type LookMark struct {
	Angle   quantity.Angle
	Time    quantity.Time   // since it was let go; NaN where it never came there
	Hand    quantity.Torque // moment by hand that opens it slowly further, at the smallest pressure
	Closing quantity.Torque // moment with which the closer alone draws it shut
}

// lookAngles are the marks of a Look, in degrees.
var lookAngles = []quantity.Angle{90, 80, 70, 60, 45, 30, 20, 12, 10, 5, 2, 0}

// nearEdge is the distance from the latch edge at which accessibility standards
// measure: 25 mm or 1 in.
const nearEdge = 25 * quantity.Millimetre

// NewLook follows the closing from an angle, above zero and up to 180 degrees.
// More radii than the usual two may be asked for.
func NewLook(p *plan.Plan, from quantity.Angle, radii ...quantity.Length) *Look {
	l := &Look{Plan: p, From: from}
	m, err := p.Model()
	if err != nil {
		l.Problem = err
		return l
	}
	l.Radii = append([]quantity.Length{quantity.Length(p.Resolved.Handle.Value), m.LatchEdge() - nearEdge}, radii...)
	angles := []quantity.Angle{from}
	for _, a := range lookAngles {
		if a *= quantity.Degree; a < from {
			angles = append(angles, a)
		}
	}
	l.forces(m, p, angles)
	l.close(m, angles)
	return l
}

// forces fills in the moments at the marks.
func (l *Look) forces(m swing.Model, p *plan.Plan, angles []quantity.Angle) {
	m.SetAir(p.Resolved.Least.Value, p.Resolved.Rows[swing.OilFactor].Value)
	for _, a := range angles {
		mark := LookMark{Angle: a, Time: quantity.Time(math.NaN()), Hand: m.HandMoment(a), Closing: quantity.Torque(math.NaN())}
		if p.Resolved.Link.Closer {
			mark.Closing = m.ClosingMoment(a)
		}
		l.Marks = append(l.Marks, mark)
	}
}

// close follows the closing and times the marks.
func (l *Look) close(m swing.Model, angles []quantity.Angle) {
	if !l.Plan.Resolved.Link.Closer {
		return
	}
	if _, l.Reached = m.Arm().Reach(l.From); !l.Reached {
		return
	}
	marks := make([]swing.Mark, len(angles))
	for i, a := range angles {
		marks[i].Angle = a
	}
	var mover swing.Mover
	l.Motion = mover.Close(&m, l.From, marks)
	for i, mark := range marks {
		l.Marks[i].Time = mark.Time
	}
	if l.Motion.End == swing.Unfinished {
		l.Problem = cmp.Or(l.Problem, l.Motion.Err)
	}
}

// Text writes the look for people.
func (l *Look) Text(t *Text) error {
	t.heading(l.Plan)
	t.whatItIs(l.Plan)
	t.howItMoves(l.Plan)
	if l.Problem != nil {
		t.paragraph("problem", l.Problem.Error())
		return t.flush()
	}
	t.closing(l)
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

// hands writes the forces along the way.
func (t *Text) hands(l *Look) {
	t.head("By hand, power off, and by the closer alone")
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
