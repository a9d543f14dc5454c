package opening_test

import (
	"slices"
	"strings"
	"testing"

	"swingwright/opening"
	q "swingwright/quantity"
)

// Slips at the frame and around the swing: another edge, another unit, two
// values that exclude each other.
func TestImplausibleRoom(t *testing.T) {
	in := func(x float64) q.Measured[q.Length] { return q.Exactly(q.Length(x) * q.Inch) }
	for _, c := range []struct {
		name string
		slip func(o *opening.Opening)
		want string
	}{
		{"between the stops", func(o *opening.Opening) { o.Frame.Width = in(34.75) }, "frame.opening_width: 882.6 mm: this does not go with the width of the leaf"},
		{"wide in feet", func(o *opening.Opening) { o.Frame.Width = q.Exactly(36 * q.Foot) }, "frame.opening_width: "},
		{"stop and its depth exchanged", func(o *opening.Opening) { o.Frame.Stop = in(2.5) }, "frame.stop: 63.5 mm is outside"},
		{"face in feet", func(o *opening.Opening) { o.Frame.Face = q.Exactly(2 * q.Foot) }, "frame.face_width: "},
		{"reveal in feet", func(o *opening.Opening) { o.Doorway.Depth = q.Exactly(6 * q.Foot) }, "doorway.depth: "},
		{"wall across the street", func(o *opening.Opening) { o.Room.WallBeside = q.Exactly(40 * q.Foot) }, "room.wall_beside_hinge: "},
		{"ceiling from another floor", func(o *opening.Opening) { o.Room.AbovePull = q.Exactly(40 * q.Foot) }, "room.above_head_pull: "},
		{"stops in radians", func(o *opening.Opening) { o.Room.StopsAt = q.Exactly(1.6 * q.Degree) }, "room.stops_at: "},
		{"driven beyond its stop", func(o *opening.Opening) {
			o.Room.StopsAt, o.Operator.OpenAngle = q.Exactly(85*q.Degree), q.Exactly(90*q.Degree)
		}, "operator.open_angle: 90 deg: something stops"},
		{"pull from the latch", func(o *opening.Opening) {
			o.Leaf.Projections = []opening.Projection{{What: "pull", FromHinge: in(44), Out: in(2)}}
		}, "leaf.projections[0].from_hinge: "},
		{"bar upside down", func(o *opening.Opening) {
			o.Leaf.Projections = []opening.Projection{{What: "bar", FromHinge: in(18), Out: in(3), Bottom: in(40), Top: in(37)}}
		}, "leaf.projections[0].top: "},
		{"pull in feet", func(o *opening.Opening) {
			o.Leaf.Projections = []opening.Projection{{What: "pull", FromHinge: in(33), Out: q.Exactly(3 * q.Foot)}}
		}, "leaf.projections[0].out: "},
		{"shelf upside down", func(o *opening.Opening) {
			o.Room.Things = []opening.Thing{{What: "shelf", Bottom: in(40), Top: in(30)}}
		}, "room.things[0].top: "},
		{"switch on the other side", func(o *opening.Opening) {
			o.Controls = []opening.Control{{Side: opening.PullSide, Place: opening.Spot{Along: in(50), Off: in(-40)}}}
		}, "controls[0].side: pull: its place is on the other side"},
	} {
		o, _ := whole()
		o.Closer.Gauged = nil
		c.slip(&o)
		got := opening.Implausible(&o)
		if !slices.ContainsFunc(got, func(d opening.Doubt) bool { return strings.HasPrefix(d.String(), c.want) }) {
			t.Errorf("%s: doubts %v, want one that begins with %q", c.name, got, c.want)
		}
	}
}
