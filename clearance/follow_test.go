package clearance

import (
	"math"
	"testing"

	q "swingwright/quantity"
)

// crank turns about a fixed pivot by twice the leaf angle.
func crank(pivot Point, arm float64) Joints {
	return func(theta q.Angle) (Point, Point, bool) {
		return pivot, pivot.vec().plus(heading(2 * float64(theta)).times(arm)).point(), true
	}
}

// Links whose contact is known in closed form.
func TestLinkContacts(t *testing.T) {
	pivot := Point{0.2, 0}
	post := func(degrees, r float64) Body {
		return Polygon("it", OnFrame, pivot.vec().plus(heading(degrees*deg).times(r)).point())
	}
	slide := func(theta q.Angle) (Point, Point, bool) { // to and fro, from 0.2 to 0.4 m and back
		x := q.Length(0.3 - 0.1*math.Cos(8*float64(theta)))
		return Point{x, 0.5}, Point{x, 0.6}, true
	}
	for _, c := range []struct {
		what    string
		link    Body
		other   Body
		degrees float64
	}{
		{"crank of no width, thin post", Link("arm", 0, crank(pivot, 0.3)), post(100, 0.25), 50},
		{"crank 20 mm wide, thin post", Link("arm", 0.02, crank(pivot, 0.3)), post(100, 0.25), (100 - math.Asin(0.01/0.25)/deg) / 2},
		{"crank, post out of reach", Link("arm", 0.02, crank(pivot, 0.3)), post(100, 0.3101), 999},
		{"slide, wall on the way", Link("arm", 0, slide), HalfPlane("it", Point{X: 0.35}, 0), math.Acos(-0.5) / 8 / deg},
		{"slide, wall at the very end of its way", Link("arm", 0, slide), HalfPlane("it", Point{X: 0.4 - 1e-6}, 0), 180.0 / 8},
		{"slide, wall just past the end of its way", Link("arm", 0, slide), HalfPlane("it", Point{X: 0.4 + 3e-6}, 0), 999},
	} {
		got := scene(t, c.link, c.other).Sweep(0, 80*q.Degree)
		if c.degrees > 180 {
			if got.Touches || got.Angle != 80*q.Degree {
				t.Errorf("%s: contact at %g°, want none", c.what, float64(got.Angle/q.Degree))
			}
			continue
		}
		within := 0.01
		if c.degrees == 180.0/8 {
			within = 0.1 // where it turns back it creeps
		}
		if d := c.degrees - float64(got.Angle/q.Degree); !got.Touches || d < -1e-6 || d > within {
			t.Errorf("%s: contact at %.5f° (%v), want %.5f", c.what, float64(got.Angle/q.Degree), got.Touches, c.degrees)
		}
	}
}

// The leaf runs into an arm that stands still.
func TestLinkMeetsLeaf(t *testing.T) {
	a, b := at(0.4, 70), at(0.5, 70)
	still := Link("arm", 0, func(q.Angle) (Point, Point, bool) { return a, b, true })
	got := scene(t, plainLeaf.Body("leaf"), still).Sweep(0, 120*q.Degree)
	if d := 70 - float64(got.Angle/q.Degree); !got.Touches || d < -1e-9 || d > 0.01 {
		t.Errorf("contact at %g° (%v), want 70", float64(got.Angle/q.Degree), got.Touches)
	}
	if r := got.Touch.At.To(Point{}); got.Touch.Other != "leaf" || got.Touch.At.To(at(float64(r), 70)) > 1e-5 || r < 0.4-1e-5 || r > 0.5+1e-5 {
		t.Errorf("they touch at %+v, want a place on the arm", got.Touch)
	}
}

// An arm whose end is fixed to the leaf is told, and not looked at against it.
func TestJoinedLink(t *testing.T) {
	shoe := Point{0.4, 0}
	arm := Link("arm", 0.02, func(theta q.Angle) (Point, Point, bool) { return Point{0.3, 0.2}, shoe.Turned(theta), true })
	got := scene(t, plainLeaf.Body("leaf"), arm).Sweep(0, 90*q.Degree)
	if got.Touches || len(got.Joined) != 1 || got.Joined[0].Moving != "arm" || got.Joined[0].Other != "leaf" {
		t.Errorf("%+v, want a free swing and the arm joined to the leaf", got)
	}
}

func TestLinkGoesOutOfReach(t *testing.T) {
	reach := 40 * deg
	arm := Link("arm", 0, func(theta q.Angle) (Point, Point, bool) {
		a, b, _ := crank(Point{0.2, 0}, 0.3)(theta)
		return a, b, float64(theta) <= reach
	})
	wall := HalfPlane("wall", Point{X: -1}, 180*q.Degree)
	early, late := Polygon("post", OnFrame, at(1, 20)), Polygon("post", OnFrame, at(1, 70))
	got := scene(t, plainLeaf.Body("leaf"), arm, wall, late).Sweep(0, 90*q.Degree)
	if d := reach - float64(got.Lost[0].From); len(got.Lost) != 1 || got.Lost[0].Link != "arm" || d < 0 || d > 0.01*deg {
		t.Errorf("lost %+v, want the arm once, from 40°", got.Lost)
	}
	if got := scene(t, plainLeaf.Body("leaf"), arm, wall, early).Sweep(0, 90*q.Degree); len(got.Lost) != 0 {
		t.Errorf("lost %+v past the contact at 20°", got.Lost)
	}
	second := Link("other arm", 0, crank(Point{0.6, 0}, 0.3))
	if got := scene(t, arm, wall, second, Polygon("post", OnFrame, at(0.3, 20).vec().plus(vec{0.6, 0}).point())).Sweep(0, 90*q.Degree); len(got.Lost) != 0 || !got.Touches {
		t.Errorf("lost %+v, want none before the other arm touches at 10°", got.Lost)
	}
	never := Link("arm", 0, func(q.Angle) (Point, Point, bool) { return Point{}, Point{X: q.Length(math.NaN())}, true })
	if got := scene(t, never, wall).Sweep(0, 1); len(got.Lost) != 1 || got.Lost[0].From != 0 || got.Touches {
		t.Errorf("%+v, want a link without a place lost from the start", got)
	}
}

// Joints that jump over a wall are caught at the jump.
func TestJumpCountsAsContact(t *testing.T) {
	jump := Link("arm", 0, func(theta q.Angle) (Point, Point, bool) {
		x := q.Length(0.1)
		if theta > 30*q.Degree {
			x = 0.9
		}
		return Point{x, 0.1}, Point{x, 0.2}, true
	})
	got := scene(t, jump, Polygon("wall", OnFrame, Point{0.5, 0}, Point{0.5, 1})).Sweep(0, 60*q.Degree)
	if d := 30 - float64(got.Angle/q.Degree); !got.Touches || d < 0 || d > 1e-6 {
		t.Errorf("contact at %g° (%v), want 30", float64(got.Angle/q.Degree), got.Touches)
	}
}

// The bound holds on any parabola, wherever its turning point lies.
func TestBowBoundsParabolas(t *testing.T) {
	for turn := -1.0; turn <= 2; turn += 0.01 {
		x := func(s float64) vec { return vec{(s - turn) * (s - turn), 0.3 * s} }
		limit := bow(x(0), x(0.5), x(1))
		for s := 0.0; s <= 1; s += 0.01 {
			if d := x(s).minus(x(0)).length(); d > limit+1e-12 {
				t.Fatalf("turning at %g: %g from its start at %g, bound %g", turn, d, s, limit)
			}
		}
	}
}
