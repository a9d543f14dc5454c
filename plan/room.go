package plan

import (
	"swingwright/clearance"
	"swingwright/fact"
	"swingwright/judge"
	"swingwright/opening"
	q "swingwright/quantity"
	"swingwright/swing"
)

// Room is the room that the swing has, from the plan geometry of the best
// estimates: what the leaf can touch, how wide the way through is, where controls
// and marks are. Uncertainties are standard ones by the linear law; one that
// is NaN is not known.
type Room struct {
	// Known tells that the leaf's size is known; else all below is empty.
	Known bool
	// Surveyed tells that anything beside the leaf itself was measured.
	Surveyed bool
	Leaf     clearance.Leaf
	// Frame is the frame, its parts assumed where nobody measured them; Framed
	// tells that its opening and its stops were measured.
	Frame  clearance.Frame
	Framed bool
	// Open is the leaf angle that is planned: the operator's, else where
	// something stops the leaf, else 90 degrees.
	Open Row
	// Opens is how far the leaf can open at all.
	Opens Opens
	// Contacts are what would touch what, each as if nothing else were there,
	// the smallest angle first.
	Contacts []Contact
	// Wall is the wall beside the hinges, nil where none was measured.
	Wall *Wall
	// Nearest is what is nearest to the leaf at Open; nil where no wall and no
	// thing was measured.
	Nearest *Nearest
	// Widths are the clear widths at 90 degrees and at Open; empty unless Framed.
	Widths []Passage
	// Over is the room over the head for the operator; nil where its paper or the
	// survey says nothing of it.
	Over *HeadRoom
	// Cord is the flexible cord across the hinges; nil where it is not placed.
	Cord *Cord
	// Marks are the marks of the latch edge on the floor.
	Marks []FloorMark
	// Controls are the controls that are placed.
	Controls []Place
	// Movers and Fixed are what the geometry was made of, the leaf first.
	Movers, Fixed []clearance.Body
	// Doubt tells of measures that contradict what was seen; empty where none do.
	Doubt string
	// Problem tells why contacts could not be looked for; nil when they could.
	Problem error

	known readings
}

// Opens is how far the leaf can open.
type Opens struct {
	// Angle is the largest leaf angle, U its standard uncertainty, and By what
	// ends the swing there; By is empty where nothing that was measured does.
	Angle, U q.Angle
	By       string
	// Free tells whether the leaf comes to the planned angle without a contact.
	Free judge.Verdict
}

// Contact is something that the leaf, what is on it or its arm touches.
type Contact struct {
	Moving, Fixed string
	// Angle is the leaf angle, U its standard uncertainty.
	Angle, U q.Angle
	At       clearance.Point
}

// Wall is the wall that runs beside the hinges, square to the closed leaf.
type Wall struct {
	Distance q.Measured[q.Length] // from the hinge pin
	// Turns tells that the leaf turns right round without coming as near as
	// clearance.WallGap; else StopAt is where it has come so near, First with what.
	Turns  bool
	StopAt q.Measured[q.Angle]
	First  string
	// Left is what is left at the planned angle, Near what comes nearest, and
	// Keeps whether that is WallGap at least.
	Left  q.Measured[q.Length]
	Near  string
	Keeps judge.Verdict
}

// Nearest is the shortest way between the open leaf and what stands around it.
type Nearest struct {
	clearance.Gap
	U q.Length
}

// Passage is the clear width at a leaf angle; U is that of Bare.
type Passage struct {
	Angle q.Angle
	clearance.Width
	U q.Length
}

// HeadRoom is the free height over the head where the operator sits.
type HeadRoom struct {
	Side  opening.Side
	Free  q.Measured[q.Length]
	Needs q.Length // by its paper, cover included
	Keeps judge.Verdict
}

// Cord is the flexible cord across the hinges, over the swing to the largest of
// the planned angle and where something stops the leaf. U is that of Longest.
type Cord struct {
	clearance.Loop
	To q.Angle
	U  q.Length
}

// seenToStop is the source of an open angle to which the leaf was seen to come.
const seenToStop = "room.stops_at"

// openAngle is the leaf angle that is planned.
func openAngle(o *opening.Opening) Row {
	switch {
	case o.Operator.OpenAngle.Known:
		return row(o.Operator.OpenAngle.WithSpread(q.Degree), "operator.open_angle")
	case o.Room.StopsAt.Known:
		return row(o.Room.StopsAt.WithSpread(q.Degree), seenToStop)
	}
	return Row{Value: float64(openFully), U: float64(2 * q.Degree), Source: "assumed: 90 degrees (common practice)", Assumed: true, Known: true}
}

// roomOf looks at the room that the swing of an opening has.
func roomOf(o *opening.Opening, r *Resolved, best []float64, read readings, policy judge.Policy) *Room {
	out := &Room{Open: openAngle(o)}
	if !r.Sized {
		return out
	}
	l := lay(o, r, out.Open)
	out.Known, out.Leaf, out.Frame, out.Framed = true, l.leaf, l.frame, l.framed
	out.Surveyed = l.jambs || l.surroundings() > 0 || len(l.on) > 0 || l.corded || o.Room.StopsAt.Known
	out.contacts(o, r, l)
	s := out.spreads(o, l)
	out.opens(o, s, policy)
	out.passages(l, s)
	out.near(o, l, s, policy)
	out.over(o, r, policy)
	out.cord(l, s)
	out.marks(r, l, best)
	out.places(o, l, s)
	out.facts(o, r, s, read)
	return out
}

// passages are the clear widths.
func (r *Room) passages(l *layout, s *spreads) {
	if !l.framed {
		return
	}
	r.Widths = []Passage{
		{openFully, clearance.ClearWidth(l.leaf, l.frame, openFully, l.on...), q.Length(s.u(sWidth90))},
		{l.open, clearance.ClearWidth(l.leaf, l.frame, l.open, l.on...), q.Length(s.u(sWidthOpen))},
	}
}

// near is what is left to the wall and to the nearest thing at the planned angle.
func (r *Room) near(o *opening.Opening, l *layout, s *spreads, policy judge.Policy) {
	if s.near.ok {
		r.Nearest = &Nearest{s.near.gap, q.Length(s.u(sNear))}
	}
	if !l.walled {
		return
	}
	w := &Wall{Distance: o.Room.WallBeside.WithSpread(tape)}
	if theta, first, ok := clearance.WallStop(l.leaf, l.wall, clearance.WallGap, l.on...); ok {
		w.StopAt, w.First = q.Give(theta, q.Angle(s.u(sWallStop))), named(first)
	} else {
		w.Turns = true
	}
	left, near := clearance.WallLeft(l.leaf, l.wall, l.open, l.on...)
	w.Left, w.Near = q.Give(left, q.Length(s.u(sWallLeft))), named(near)
	w.Keeps = judge.Decide(float64(left-clearance.WallGap), float64(w.Left.U), policy)
	r.Wall = w
}

// named is the name of what comes near in clearance, which leaves the leaf without one.
func named(first string) string {
	if first == "" {
		return leafName
	}
	return first
}

// cord is how long the cord across the hinges must be.
func (r *Room) cord(l *layout, s *spreads) {
	if !l.corded {
		return
	}
	loop := clearance.DoorLoop(l.cord.frame, l.cord.leaf, s.cordTo, clearance.LoopSlack)
	r.Cord = &Cord{loop, s.cordTo, q.Length(s.u(sCord))}
}

// swings is how far the leaf may be swung: as planned, or on by hand to where something stops it.
func (l *layout) swings(o *opening.Opening) q.Angle {
	return max(l.open, min(o.Room.StopsAt.Value, halfTurn))
}

// over is the room over the head on the side on which the operator sits.
func (r *Room) over(o *opening.Opening, m *Resolved, policy judge.Policy) {
	if m.Operator == nil || !m.Operator.Limits.CeilingRoom.Known {
		return
	}
	y := m.Rows[swing.PinionY].Value
	if m.Operator.Kind == opening.OwnArm {
		y = m.Rows[swing.DrivePinionY].Value
	}
	over := HeadRoom{Side: opening.PushSide, Free: o.Room.AbovePush, Needs: m.Operator.Limits.CeilingRoom.Value}
	if y > 0 {
		over.Side, over.Free = opening.PullSide, o.Room.AbovePull
	}
	if over.Free = over.Free.WithSpread(tape); y != 0 && over.Free.Known {
		over.Keeps = judge.Decide(float64(over.Free.Value-over.Needs), float64(over.Free.U), policy)
		r.Over = &over
	}
}

// RoomWith is the room that the swing would have with something of the opening
// changed; what was taped is left out, for it holds for the opening as it is.
func (p *Plan) RoomWith(sheets *opening.Sheets, change func(o *opening.Opening)) *Room {
	o := *p.Opening
	change(&o)
	var best [fact.Count]float64
	for id := range p.Facts {
		best[id] = p.Facts[id].Value
	}
	return roomOf(&o, Resolve(&o, sheets), best[:], nil, judge.Policy{})
}
