package decision

import (
	"fmt"
	"math"

	"swingwright/clearance"
	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
	"swingwright/rulebook"
)

// room: is there room for leaf and operator, and is the way wide enough?
func (l *ladder) room() {
	if l.powered && l.p.Room.Known {
		l.besideLeaf()
		l.shortOfStop()
		l.overHead()
	}
	l.clearWidth()
}

// besideLeaf: is there the space that the operator's paper asks for beside the open leaf?
func (l *ladder) besideLeaf() {
	if l.operator == nil || !l.operator.Limits.WallClearance.Known {
		return
	}
	needs := l.operator.Limits.WallClearance.Value
	n := Number{Dim: q.DimLength, Side: judge.AtLeast, Limit: float64(needs)}
	known := true
	switch wall, taped := l.p.Room.Wall, l.p.Facts[fact.BehindLeaf]; {
	case wall != nil:
		n.Value, n.U = float64(wall.Left.Value), float64(wall.Left.U)
	case taped.Known && taped.Origin != plan.Computed:
		n.Value, n.U = taped.Value, taped.U
	default:
		known = false
	}
	r := l.number("Beside the open leaf there is the space that the operator needs", paper("operator", l.operator.Name, l.operator.Page), n, known, "room.wall_beside_hinge")
	if severity(r.Verdict) >= severity(judge.TooClose) {
		r.Cures = l.smallerAngle(func(room *plan.Room) bool {
			return room.Wall != nil && float64(room.Wall.Left.Value-needs) >= l.opt.Policy.Coverage()*n.U
		})
	}
	l.put(r, Refuse)
}

// shortOfStop: does the leaf, driven open, stay short of wall and stop?
func (l *ladder) shortOfStop() {
	room, edge := l.p.Room, l.p.Facts[fact.LatchEdge].Value
	short := func(at *plan.Room) float64 { return (float64(at.Opens.Angle) - at.Open.Value) * edge }
	n := Number{Dim: q.DimLength, Side: judge.AtLeast, Limit: float64(clearance.WallGap), Value: short(room), U: math.Hypot(float64(room.Opens.U), room.Open.U) * edge}
	wall := room.Wall
	if wall != nil && wall.Left.Value < q.Length(n.Value) {
		n.Value, n.U = float64(wall.Left.Value), float64(wall.Left.U)
	}
	r := l.number("Driven open, the leaf stays short of wall and stop", practice, n, room.Opens.By != "" || wall != nil, "room.stops_at", "room.wall_beside_hinge")
	if r.Verdict == judge.FallsShort {
		if room.Opens.By != "" {
			r.Why = "it opens no farther than " + degrees(room.Opens.Angle) + ": " + room.Opens.By
		}
		r.Cures = append(l.smallerAngle(func(room *plan.Room) bool {
			gap := short(room)
			if room.Wall != nil {
				gap = math.Min(gap, float64(room.Wall.Left.Value))
			}
			return gap-n.Limit >= l.opt.Policy.Coverage()*n.U
		}), Cure{What: "move the stop, or what stands in the way", Effort: Repairing, Answer: Repair, Works: room.Opens.By != "" && (wall == nil || float64(wall.Left.Value)-n.Limit >= l.opt.Policy.Coverage()*float64(wall.Left.U))})
	}
	l.put(r, Refuse)
}

// smallerAngle looks for the largest whole degree below the planned one at which
// something is kept and the way stays wide enough; a cure that does not work where
// there is none from plan.LeastOpenAngle.
func (l *ladder) smallerAngle(kept func(*plan.Room) bool) []Cure {
	wanted := l.widthWanted()
	for a := math.Ceil(l.p.Room.Open.Value/float64(q.Degree)) - 1; a >= float64(plan.LeastOpenAngle/q.Degree); a-- {
		angle := q.Angle(a) * q.Degree
		room := l.p.RoomWith(l.sheets, func(o *opening.Opening) { o.Operator.OpenAngle = q.Give(angle, q.Degree) })
		if !kept(room) {
			continue
		}
		c := Cure{What: "set the operator to stop at " + degrees(angle), Effort: Adjusting, Answer: Repair, Works: true}
		if len(room.Widths) > 1 {
			width := room.Widths[1]
			c.Works = float64(width.Bare)-wanted >= l.opt.Policy.Coverage()*float64(width.U)
			c.But = "the clear width there is " + both(width.Bare)
		} else if wanted > 0 {
			c.Works, c.But = false, "the clear width there cannot be told without frame.opening_width and frame.stop"
		}
		return []Cure{c}
	}
	return []Cure{{What: fmt.Sprintf("a smaller open angle; from %.0f degrees none is enough", plan.LeastOpenAngle/q.Degree), Effort: Adjusting, Answer: Repair}}
}

func degrees(a q.Angle) string { return fmt.Sprintf("%.4g degrees", float64(a/q.Degree)) }

// overHead: is there room over the head for the operator and its cover?
func (l *ladder) overHead() {
	if l.operator == nil || !l.operator.Limits.CeilingRoom.Known {
		return
	}
	n := Number{Dim: q.DimLength, Side: judge.AtLeast, Limit: float64(l.operator.Limits.CeilingRoom.Value)}
	over := l.p.Room.Over
	if over != nil {
		n.Value, n.U = float64(over.Free.Value), float64(over.Free.U)
	}
	r := l.number("There is room over the head for the operator", paper("operator", l.operator.Name, l.operator.Page), n, over != nil, "room.above_head_pull", "room.above_head_push")
	if r.Verdict == judge.FallsShort {
		r.Cures = []Cure{l.otherSeat()}
	}
	l.put(r, Refuse)
}

// otherSeat is another operator of the job whose limits the leaf keeps and that needs
// no more room than there is.
func (l *ladder) otherSeat() Cure {
	if s := l.suitable(func(s *opening.OperatorSheet) bool {
		return s != l.operator && s.Limits.CeilingRoom.Known && s.Limits.CeilingRoom.Value <= l.p.Room.Over.Free.Value
	}); s != nil {
		return Cure{What: s.Name + ", which needs less room", Effort: Replacing, Answer: Change, Works: true}
	}
	return Cure{What: "an operator that needs less room; the job has no sheet of one for this leaf", Effort: Replacing, Answer: Change}
}

// clearWidth gathers what the rulebooks ask of the clear width.
func (l *ladder) clearWidth() {
	worst := l.widthFinding()
	if worst == nil {
		return
	}
	r := ofFinding(worst)
	r.Test = "The clear width is wide enough"
	if severity(r.Verdict) >= severity(judge.TooClose) {
		r.Cures = l.wider(worst)
		if r.Cure() == nil {
			l.call("architect or accessibility consultant", "the clear width")
		}
	}
	l.put(r, Refuse)
}

// widthFinding is the worst finding about the clear width; nil where none applies.
func (l *ladder) widthFinding() (worst *plan.Finding) {
	for i := range l.p.Findings {
		f := &l.p.Findings[i]
		if !aboutWidth(f.Rule.Of) || f.Verdict == judge.DoesNotApply || f.Rule.Advice {
			continue
		}
		if worst == nil || severity(f.Verdict) > severity(worst.Verdict) || severity(f.Verdict) == severity(worst.Verdict) && f.Margin < worst.Margin {
			worst = f
		}
	}
	return worst
}

// widthWanted is the largest clear width that the rulebooks ask for, m; zero for none.
func (l *ladder) widthWanted() (most float64) {
	for i := range l.p.Findings {
		if f := &l.p.Findings[i]; aboutWidth(f.Rule.Of) && f.Verdict != judge.DoesNotApply && !f.Rule.Advice && f.Limit > most {
			most = f.Limit
		}
	}
	return most
}

// swingClear is how far a swing-clear hinge sets its pin out from the hinge edge
// beyond pin offset and thickness, so that the leaf at 90 degrees stands clear of
// the opening (common practice, figure from memory).
const swingClear = q.Inch / 8

// wider tries what widens the way: swing-clear hinges, and a larger open angle.
func (l *ladder) wider(f *plan.Finding) []Cure {
	room := l.p.Room
	if !room.Framed || len(room.Widths) < 2 || f.Verdict == judge.NotMeasured {
		return []Cure{{What: "swing-clear hinges; what they give cannot be reckoned without frame.opening_width and frame.stop", Effort: Replacing, Answer: Change}}
	}
	at := 0
	if f.Rule.Of == fact.PoweredClearWidth {
		at = 1
	}
	u := f.U
	try := func(c Cure, change func(o *opening.Opening)) Cure {
		with := l.p.RoomWith(l.sheets, change)
		gain := float64(with.Widths[at].Bare - room.Widths[at].Bare)
		c.Number = &Number{Dim: q.DimLength, Side: judge.AtLeast, Value: f.Value + gain, U: u, Limit: f.Limit}
		c.Works = judge.Decide(c.Number.Margin(), u, l.opt.Policy) == judge.Meets
		return c
	}
	var cures []Cure
	if open := q.Angle(room.Open.Value); at == 1 && open < 95*q.Degree && room.Opens.Angle > open+q.Degree {
		angle := min(95*q.Degree, room.Opens.Angle-2*q.Degree)
		cures = append(cures, try(Cure{What: "set the operator to open to " + degrees(angle), Effort: Adjusting, Answer: Repair},
			func(o *opening.Opening) { o.Operator.OpenAngle = q.Give(angle, q.Degree) }))
	}
	leaf := room.Leaf
	if out := leaf.Face + leaf.Thickness + swingClear; leaf.Edge < out {
		cures = append(cures, try(Cure{What: "swing-clear hinges", Effort: Replacing, Answer: Change},
			func(o *opening.Opening) { o.Frame.PinAlong = q.Give(out, q.Inch/16) }))
	}
	return sorted(cures)
}

func aboutWidth(id fact.ID) bool { return id == fact.ClearWidth || id == fact.PoweredClearWidth }

// ofFinding makes a rung of a finding.
func ofFinding(f *plan.Finding) Rung {
	r := Rung{Test: f.Rule.Title, Source: f.Cited(), Verdict: f.Verdict, Why: f.Why}
	for _, id := range f.Missing {
		r.Missing = append(r.Missing, id.String())
	}
	if f.Verdict != judge.NotMeasured && f.U == f.U {
		r.Number = &Number{Dim: f.Rule.Dim(), Side: side(f.Rule.Side), Value: f.Value, U: f.U, Limit: f.Limit}
	}
	return r
}

func side(s rulebook.Side) judge.Side {
	if s == rulebook.AtMost {
		return judge.AtMost
	}
	return judge.AtLeast
}
