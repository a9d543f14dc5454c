package opening

import (
	"fmt"

	q "swingwright/quantity"
)

// room doubts what was taped around the swing.
func (ds *doubts) room(o *Opening) {
	const unit = "check the number and its unit"
	f, r := &o.Frame, &o.Room
	span(ds, "frame.opening_width", f.Width, 18*q.Inch, 61*q.Inch, unit)
	span(ds, "frame.stop", f.Stop, 0, 2*q.Inch, "it is how far the stop stands out from the jamb")
	span(ds, "frame.stop_depth", f.StopDeep, 0, 12*q.Inch, "it is measured from the closed leaf toward the push side")
	span(ds, "frame.proud", f.Proud, -12*q.Inch, 4*q.Inch, "it is measured from the pull face of the closed leaf")
	span(ds, "frame.face_width", f.Face, 0.5*q.Inch, 8*q.Inch, unit)
	span(ds, "doorway.depth", o.Doorway.Depth, 1*q.Inch, 36*q.Inch, unit)
	span(ds, "room.wall_beside_hinge", r.WallBeside, 0, 30*q.Foot, "it is measured from the hinge pin, away from the latch")
	span(ds, "room.above_head_pull", r.AbovePull, 0, 30*q.Foot, "it is measured from the head of the frame, not from the floor")
	span(ds, "room.above_head_push", r.AbovePush, 0, 30*q.Foot, "it is measured from the head of the frame, not from the floor")
	span(ds, "room.stops_at", r.StopsAt, 60*q.Degree, 180*q.Degree, "it is the leaf's angle from closed")
	if gap := f.Width.Value - o.Leaf.Width.Value; f.Width.Known && o.Leaf.Width.Known && (gap < 0 || gap > q.Inch) {
		ds.add("frame.opening_width", written(f.Width), "this does not go with the width of the leaf; it is measured where the leaf sits, not between the stops")
	}
	if at := o.Operator.OpenAngle; at.Known && r.StopsAt.Known && at.Value > r.StopsAt.Value {
		ds.add("operator.open_angle", written(at), "something stops the leaf before it gets there")
	}
	ds.projections(o)
	ds.sides(o.Controls)
}

// projections doubts what stands out of the leaf.
func (ds *doubts) projections(o *Opening) {
	for i := range o.Leaf.Projections {
		p, field := &o.Leaf.Projections[i], fmt.Sprintf("leaf.projections[%d].", i)
		span(ds, field+"out", p.Out, 0, 8*q.Inch, "it is how far it stands out from the face")
		if w := o.Leaf.Width; w.Known && p.FromHinge.Known && p.FromHinge.Value > w.Value+2*q.Inch {
			ds.add(field+"from_hinge", written(p.FromHinge), "this is beyond the latch edge; it is measured from the hinge pin")
		}
		if p.Bottom.Known && p.Top.Known && p.Top.Value <= p.Bottom.Value {
			ds.add(field+"top", written(p.Top), "it ends no higher than it begins")
		}
	}
	for i := range o.Room.Things {
		if t := &o.Room.Things[i]; t.Bottom.Known && t.Top.Known && t.Top.Value <= t.Bottom.Value {
			ds.add(fmt.Sprintf("room.things[%d].top", i), written(t.Top), "it ends no higher than it begins")
		}
	}
}

// sides doubts controls whose side and place do not go together.
func (ds *doubts) sides(all []Control) {
	const clear = 6 * q.Inch // of the leaf's own depth and pin
	for i := range all {
		c, off := &all[i], all[i].Place.Off
		if off.Known && (c.Side == PullSide && off.Value < -clear || c.Side == PushSide && off.Value > clear) {
			ds.add(fmt.Sprintf("controls[%d].side", i), string(c.Side), "its place is on the other side: off is above zero on the pull side")
		}
	}
}
