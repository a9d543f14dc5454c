package opening_test

import (
	"slices"
	"testing"

	"swingwright/opening"
	q "swingwright/quantity"
)

// What the plan geometry lacks is missed where an operator is meant, and nowhere else.
func TestMissingRoom(t *testing.T) {
	width := opening.Doorway{ClearWidth: q.Exactly(33 * q.Inch), PoweredWidth: q.Exactly(33 * q.Inch)}
	spot := opening.Spot{Along: q.Exactly(1 * q.Inch), Off: q.Exactly(20 * q.Inch)}
	for _, c := range []struct {
		name string
		take func(o *opening.Opening, s *opening.Sheets)
		want []string
	}{
		{"nothing", func(*opening.Opening, *opening.Sheets) {}, nil},
		{"all of it", func(o *opening.Opening, _ *opening.Sheets) { bare(o) }, []string{"frame.opening_width", "frame.stop", "room.wall_beside_hinge"}},
		{"power assist", func(o *opening.Opening, _ *opening.Sheets) { bare(o); o.Use.Operation = "power-assist" }, []string{"frame.opening_width", "frame.stop", "room.wall_beside_hinge"}},
		{"pushed by hand", func(o *opening.Opening, _ *opening.Sheets) { bare(o); o.Use.Operation = "manual" }, nil},
		{"nobody knows how", func(o *opening.Opening, _ *opening.Sheets) { bare(o); o.Use.Operation = "" }, []string{"use.operation"}},
		{"both widths taped", func(o *opening.Opening, _ *opening.Sheets) { bare(o); o.Doorway = width }, []string{"room.wall_beside_hinge"}},
		{"seen to stop", func(o *opening.Opening, _ *opening.Sheets) { bare(o); o.Room.StopsAt = q.Exactly(95 * q.Degree) }, []string{"frame.opening_width", "frame.stop"}},
		{"things named only", func(o *opening.Opening, _ *opening.Sheets) {
			o.Room.Things = []opening.Thing{{What: "post"}, {What: "shelf", From: spot, To: spot}, {What: "stop", From: spot, Round: q.Exactly(2 * q.Inch)}}
			o.Use.Operation = "manual"
		}, []string{"room.things[0].from"}},
		{"ceiling", func(o *opening.Opening, s *opening.Sheets) {
			o.Operator = opening.Operator{Sheet: "D", OpenAngle: q.Exactly(90 * q.Degree), Dwell: q.Exactly(q.Time(5)), Speed: q.Exactly(q.AngularSpeed(0.3))}
			s.Operators = []opening.OperatorSheet{{Name: "D", Kind: opening.AddOn, Limits: opening.UseLimits{CeilingRoom: q.Exactly(6 * q.Inch)}}}
		}, []string{"room.above_head_push"}},
	} {
		o, s := whole()
		c.take(&o, &s)
		var got []string
		for _, g := range opening.Missing(&o, &s) {
			got = append(got, g.Field)
			if g.Why == "" || g.How == "" {
				t.Errorf("%s: %s says not why or how", c.name, g.Field)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: missing %v, want %v", c.name, got, c.want)
		}
	}
}

// bare leaves out what is known of the room.
func bare(o *opening.Opening) {
	o.Frame.Width, o.Frame.Stop, o.Room = q.Measured[q.Length]{}, q.Measured[q.Length]{}, opening.Room{}
}
