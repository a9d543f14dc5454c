package decision

import (
	"fmt"

	"swingwright/fact"
	"swingwright/judge"
	q "swingwright/quantity"
	"swingwright/swing"
)

// Limits of a leaf that swings freely, arm off (common practice, figures from memory).
const (
	mostFriction = 1.5 * q.PoundForce // at the latch edge
	mostDrift    = 5 * q.Degree
)

// hanging: does the leaf swing freely in a sound frame?
func (l *ladder) hanging() {
	f := &l.o.Frame
	if !l.powered && f.Sound == "" && f.Binds == "" && !f.Drift.Known && !f.Friction.Known {
		return
	}
	r := answered("The frame is straight, fast and fit to carry an operator", practice, f.Sound, "yes", "frame.sound")
	if r.Verdict == judge.FallsShort {
		l.call("structural or glazing contractor", "a frame that is not straight and fast")
	}
	l.put(r, Refer)
	l.friction()
	r = answered("The leaf nowhere drags or binds", practice, f.Binds, "no", "frame.binds")
	if r.Verdict == judge.FallsShort {
		if f.BindsAt.Known {
			r.Why = fmt.Sprintf("it binds at %s; an operator will stall there", q.Format(f.BindsAt, q.SI))
		}
		r.Cures = []Cure{rehang}
	}
	l.put(r, Repair)
	drift := l.number("Let go half open, the leaf stays", ours,
		Number{Dim: q.DimAngle, Side: judge.AtMost, Value: float64(f.Drift.Value), U: float64(f.Drift.U), Limit: float64(mostDrift)}, f.Drift.Known, "frame.drift")
	if drift.Verdict == judge.FallsShort {
		drift.Cures = []Cure{{What: "shim the hinges until the hinge line is plumb", Effort: Repairing, Answer: Repair, Works: true}}
	}
	l.put(drift, Repair)
}

var rehang = Cure{What: "see to the hinges, shim, plane, set the sweep", Effort: Repairing, Answer: Repair, Works: true}

// friction: how hard is it to move with the arm off?
func (l *ladder) friction() {
	row, edge := l.p.Resolved.Rows[swing.HingeFriction], l.p.Facts[fact.LatchEdge].Value
	n := Number{Dim: q.DimForce, Side: judge.AtMost, Value: row.Value / edge, U: row.U / edge, Limit: float64(mostFriction)}
	r := l.number("The leaf moves freely, arm off", ours, n, !row.Assumed && edge > 0, "frame.friction")
	if r.Verdict == judge.FallsShort {
		r.Cures = []Cure{rehang}
	}
	l.put(r, Repair)
}
