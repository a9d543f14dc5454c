package picture

import (
	"math"
	"strings"
	"testing"

	"swingwright/internal/draw"
	"swingwright/opening"
	"swingwright/plan"
	q "swingwright/quantity"
)

// surrounded is a leaf of 35-3/4 in, its pin on the corner of its pull face, in
// a 36 in opening with 5/8 in stops: a wall 4-1/4 in beside the pin, a post in its
// way, a shelf above it and two switches, one of them far off.
func surrounded(hand opening.Hand) *plan.Plan {
	in := func(x float64) q.Measured[q.Length] { return q.Exactly(q.Length(x) * q.Inch) }
	spot := func(along, off float64) opening.Spot { return opening.Spot{Along: in(along), Off: in(off)} }
	o := opening.Opening{
		ID: "1", Leaf: opening.Leaf{Width: in(35.75), Height: in(83), Thickness: in(1.75)},
		Frame:   opening.Frame{Hand: hand, PinAlong: in(0), PinOff: in(0), Width: in(36), Stop: in(0.625)},
		Doorway: opening.Doorway{Gaps: opening.Gaps{Hinge: in(0.125)}},
		Room: opening.Room{WallBeside: in(4.25), Things: []opening.Thing{
			{What: "post", From: spot(0, 32), Round: in(2)},
			{What: "shelf", From: spot(20, 20), To: spot(34, 28), Bottom: in(90), Top: in(95)},
		}},
		Operator: opening.Operator{OpenAngle: q.Exactly(95 * q.Degree)},
		Controls: []opening.Control{{What: "plate", Place: spot(48, 6)}, {What: "post by the street", Place: spot(48, -160)}},
	}
	return plan.Make(&o, &opening.Sheets{}, nil, quick)
}

// circle finds a circle by its title.
func circle(t *testing.T, s *draw.Scene, title string) draw.Circle {
	t.Helper()
	for _, item := range s.Items {
		if c, ok := item.(draw.Circle); ok && c.Title == title {
			return c
		}
	}
	t.Fatalf("the picture has no %q", title)
	return draw.Circle{}
}

// What is around the leaf is drawn to scale where it is, either hand: the post 32 in
// out from the pin, the wall 4-1/4 in beside it; the first contact by a shape and in words.
func TestSurroundingsAreDrawn(t *testing.T) {
	for _, hand := range []opening.Hand{"LH", "RH"} {
		p := surrounded(hand)
		for _, sys := range systems {
			s := Plan(p, sys)
			for _, fault := range faults(s) {
				t.Errorf("%s in %v: %s", hand, sys, fault)
			}
			pin, post := circle(t, s, "hinge pin").Center, circle(t, s, "post")
			mm := post.Radius // of 1 in
			if math.Abs(post.Center.Y-pin.Y-32*mm) > 1e-9 || math.Abs(post.Center.X-pin.X) > 1e-9 {
				t.Errorf("%s: post at %v, pin at %v", hand, post.Center, pin)
			}
			toward := map[opening.Hand]float64{"LH": 1, "RH": -1}[hand]
			wall := path(t, s, "wall beside the hinges")
			if at := toward * (wall.Points[1].X - pin.X); math.Abs(at+4.25*mm) > 1e-9 {
				t.Errorf("%s: the wall's face is %v in from the pin", hand, at/mm)
			}
			touch := circle(t, s, "first contact").Center
			if d := math.Hypot(touch.X-post.Center.X, touch.Y-post.Center.Y); math.Abs(d-mm) > 0.01 {
				t.Errorf("%s: touches %v in from the middle of a post of 1 in radius", hand, d/mm)
			}
			if shelf := path(t, s, "shelf"); len(shelf.Dash) == 0 {
				t.Error("a shelf above the leaf is not dashed")
			}
			text := words(s)
			for _, want := range []string{"touches at 8", "clear at 90°", "clear at 95°", "A post; B shelf, dashed: above the leaf", "1 plate:", "2 post by the street: ", "beyond the drawing", "leaf touches post", "Floor marks"} {
				if !strings.Contains(text, want) {
					t.Errorf("%s in %v: no %q in %s", hand, sys, want, text)
				}
			}
		}
	}
	text := words(Plan(surrounded("LH"), q.US))
	if !strings.Contains(text, "clear at 90° 33-1/2 in") {
		t.Errorf("no 33-1/2 in in %s", text)
	}
}
