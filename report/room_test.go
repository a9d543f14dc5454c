package report

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"swingwright/job"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
)

// roomy is the first demonstration opening in a 36 in opening with 5/8 in stops, a wall
// 4-1/4 in beside its pin, a cord and a switch.
func roomy(t *testing.T) *plan.Plan {
	t.Helper()
	j, err := job.Decode(os.DirFS("../demo/harbour-street-clinic"), "job.yaml")
	if err != nil {
		t.Fatal(err)
	}
	o := j.Openings[0]
	o.Controls, o.Room = nil, opening.Room{}
	in := func(x float64) q.Measured[q.Length] { return q.Exactly(q.Length(x) * q.Inch) }
	spot := func(along, off float64) opening.Spot { return opening.Spot{Along: in(along), Off: in(off)} }
	o.Frame.Width, o.Frame.Stop, o.Room.WallBeside = in(36), in(0.625), in(4.25)
	o.Frame.PinAlong, o.Frame.PinOff, o.Leaf.Width, o.Leaf.Thickness = in(0), in(0), in(35.75), in(1.75)
	o.Doorway = opening.Doorway{Gaps: opening.Gaps{Hinge: in(0.125)}}
	o.Operator.OpenAngle = q.Exactly(90 * q.Degree)
	o.Leaf.Projections = []opening.Projection{{What: "bar", Side: opening.PushSide, FromHinge: in(18), Along: in(30), Out: in(3), Bottom: in(37), Top: in(40)}}
	o.DoorLoop = opening.DoorLoop{Frame: spot(-1, 0), Leaf: spot(2, 0)}
	o.Controls = []opening.Control{{What: "plate", Place: spot(60, -0.875), Side: opening.PullSide}}
	return plan.Make(&o, &j.Sheets, nil, plan.Options{Draws: 16})
}

// bare is the head of a job of which nothing is known.
var bare = Head{Job: &job.Job{}, Options: plan.Options{Draws: 16}}

// People read the trade's 33.5 in at 90 degrees in their own units, with what stands into it.
func TestRoomIsWritten(t *testing.T) {
	p := roomy(t)
	for units, want := range map[q.System][]string{
		q.US: {"Room for the swing", "clear width at 90 deg 33-1/2 in; bar (push side) stands 3 in into it", "1/2 in asked for (common practice)",
			"cord at least 3-7/16 in", "90 deg 50-9/16 in", "24-1/4 in", "leaf touches wall beside the hinges"},
		q.SI: {"clear width at 90 deg 851 mm", "stands 76 mm into it", "cord at least 88 mm", "90 deg 1284 mm", "616 mm"},
	} {
		var out bytes.Buffer
		text := NewText(&out, Style{Units: units, Width: 400})
		if err := text.Plan(p, decided(bare, p)); err != nil {
			t.Fatal(err)
		}
		got := strings.Join(strings.Fields(out.String()), " ")
		for _, w := range want {
			if !strings.Contains(got, w) {
				t.Errorf("%v: no %q in %s", units, w, got[max(0, strings.Index(got, "Room for")):])
			}
		}
	}
}

// An opening of which nothing but the leaf was measured has no such section.
func TestNoRoomWithoutSurvey(t *testing.T) {
	o := opening.Opening{ID: "1", Leaf: opening.Leaf{Width: q.Exactly(0.9 * q.Metre), Height: q.Exactly(2.1 * q.Metre)}}
	var out bytes.Buffer
	p := plan.Make(&o, &opening.Sheets{}, nil, plan.Options{Draws: 16})
	if err := NewText(&out, Style{}).Plan(p, decided(bare, p)); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(out.String(), "Room for the swing") {
		t.Error("a section of nothing")
	}
}

// Programs read the same in SI.
func TestRoomInJSON(t *testing.T) {
	text, err := json.Marshal(planOf(roomy(t)))
	if err != nil {
		t.Fatal(err)
	}
	var doc struct {
		Room struct {
			Opens  struct{ By, Free string }
			Widths []struct {
				Angle float64
				Clear struct{ Value, U float64 }
				Net   float64
			}
			Wall     struct{ Keeps string }
			Cord     struct{ Length float64 }
			Controls []struct {
				Swing struct{ Value float64 } `json:"from_swing"`
			}
			Marks []struct{ Angle, Chord float64 } `json:"floor_marks"`
		}
	}
	if err := json.Unmarshal(text, &doc); err != nil {
		t.Fatal(err)
	}
	r := doc.Room
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("%s %v, want %v", what, got, want)
		}
	}
	near("clear", r.Widths[0].Clear.Value, 33.5*0.0254)
	near("net", r.Widths[0].Net, 30.5*0.0254)
	near("cord", r.Cord.Length, 3.45*0.0254)
	near("from the swing", r.Controls[0].Swing.Value, (math.Hypot(60, 0.875)-math.Hypot(35.75, 1.75))*0.0254)
	for _, m := range r.Marks {
		near("chord", m.Chord, 2*35.75*0.0254*math.Sin(m.Angle/2))
	}
	if r.Wall.Keeps != "meets" || r.Opens.Free != "meets" || r.Opens.By != "leaf touches wall beside the hinges" {
		t.Errorf("%+v", r)
	}
}
