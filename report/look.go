package report

import (
	"cmp"
	"math"
	"slices"

	"swingwright/plan"
	"swingwright/quantity"
	"swingwright/swing"
)

// A Look is one opening looked at closely: its closing from one angle and its
// opening under power, mark by mark, and the forces along the way.
type Look struct {
	Plan    *plan.Plan
	From    quantity.Angle
	Motion  swing.Motion      // from that angle, at the usual pressure
	Radii   []quantity.Length // where hand forces are given: the handle, 25 mm from the latch edge, and any other asked for
	Marks   []LookMark        // from From down to closed
	Reached bool              // whether the arm reaches From
	Driven  swing.Powered     // the opening under power, at the usual pressure
	Opening []DrivenMark      // along it, up to where the operator stops; empty without one
	Problem error             // why nothing could be followed; nil when it could
}

// LookMark is what happens at one leaf angle.
type LookMark struct {
	Angle   quantity.Angle
	Time    quantity.Time   // since it was let go; NaN where it never came there
	Hand    quantity.Torque // moment by hand that opens it slowly further, at the smallest pressure; NaN where a closer is not known
	Closing quantity.Torque // moment with which the closer alone draws it shut
}

// DrivenMark is what happens at one leaf angle while an operator opens the leaf.
type DrivenMark struct {
	Angle quantity.Angle
	Time  quantity.Time   // since the signal; NaN where it never came there
	Stall quantity.Torque // moment that holds the driven leaf still
}

// lookAngles are the marks of a Look, in degrees.
var lookAngles = []quantity.Angle{90, 80, 70, 60, 45, 30, 20, 12, 10, 5, 2, 0}

// NewLook follows the closing from an angle, above zero and up to 180 degrees.
// More radii than the usual two may be asked for.
func NewLook(p *plan.Plan, from quantity.Angle, radii ...quantity.Length) *Look {
	l := &Look{Plan: p, From: from}
	m, err := p.Model()
	if err != nil {
		l.Problem = err
		return l
	}
	l.Radii = append([]quantity.Length{quantity.Length(p.Resolved.Handle.Value), m.StallRadius()}, radii...)
	angles := []quantity.Angle{from}
	for _, a := range lookAngles {
		if a *= quantity.Degree; a < from {
			angles = append(angles, a)
		}
	}
	l.forces(m, p, angles)
	l.close(m, angles)
	l.drive(m)
	return l
}

// drive follows the opening under power and times its marks.
func (l *Look) drive(m swing.Model) {
	if !l.Plan.Swing.Power.Fitted {
		return
	}
	from, stop := l.Plan.Swing.Power.From, quantity.Angle(l.Plan.Resolved.Rows[swing.OpenAngle].Value)
	var marks []swing.Mark
	for _, a := range slices.Backward(lookAngles) {
		if a *= quantity.Degree; a > from && a < stop {
			marks = append(marks, swing.Mark{Angle: a})
		}
	}
	marks = append(marks, swing.Mark{Angle: stop})
	var mover swing.Mover
	l.Driven = mover.Drive(&m, 0, from, marks)
	for _, mark := range marks {
		l.Opening = append(l.Opening, DrivenMark{mark.Angle, mark.Time, m.StallMoment(mark.Angle)})
	}
}

// forces fills in the moments at the marks.
func (l *Look) forces(m swing.Model, p *plan.Plan, angles []quantity.Angle) {
	m.SetAir(p.Resolved.Least.Value, p.Resolved.Rows[swing.OilFactor].Value)
	for _, a := range angles {
		mark := LookMark{Angle: a, Time: quantity.Time(math.NaN()), Hand: m.HandMoment(a), Closing: quantity.Torque(math.NaN())}
		if p.Resolved.Link.Closer {
			mark.Closing = m.ClosingMoment(a)
		}
		if p.HandUnknown() != "" {
			mark.Hand = quantity.Torque(math.NaN())
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
