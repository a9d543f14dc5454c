package clearance

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
	q "swingwright/quantity"
)

// Without a scene the same is found as with one, which is held against Shapely.
func TestNearestAgreesWithScene(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, low, high float64) q.Length {
			return q.Length(rapid.Float64Range(low, high).Draw(t, name))
		}
		l := Leaf{length("e", 0, 0.03), length("g", 0, 0.03), length("w", 0.5, 1.3), length("t", 0.02, 0.06)}
		pull := Projection{Name: "pull", At: length("at", 0.2, 1), Along: length("along", 0, 0.2), Out: length("out", 0, 0.15), Heights: Band{0.9, 1.1}}
		moving := []Body{l.Body("leaf"), pull.On(l)}
		corner := Point{length("x", -2, 2), length("y", -2, 2)}
		fixed := []Body{
			HalfPlane("wall", Point{X: -length("wall", 0.05, 2)}, 180*q.Degree),
			Block("shelf", OnFrame, corner, Point{corner.X + 0.3, corner.Y + 0.5}).Between(1, 1.3),
			Disc("post", OnFrame, drawPoint(t, "post"), 0.05),
		}
		s, err := NewScene(append(moving, fixed...)...)
		if err != nil {
			t.Fatal(err)
		}
		theta := q.Angle(rapid.Float64Range(0, math.Pi).Draw(t, "open"))
		want, known := s.Nearest(theta)
		got, i, j, ok := Nearest(moving, fixed, theta)
		if ok != known || math.Abs(float64(got.Distance-want.Distance)) > 1e-15 {
			t.Fatalf("%+v (%v), in a scene %+v (%v)", got, ok, want, known)
		}
		if one, _ := Apart(moving[i], fixed[j], theta); one != got {
			t.Errorf("between the two %+v, said %+v", one, got)
		}
	})
}

// A shelf over a kick plate is not in its way.
func TestApartLooksAtHeights(t *testing.T) {
	l := Leaf{Width: 0.9, Thickness: 0.045}
	plate := Projection{Name: "plate", Side: Pull, At: 0.45, Along: 0.8, Out: 0.01, Heights: Band{0, 0.3}}.On(l)
	shelf := Block("shelf", OnFrame, Point{0.4, 0.5}, Point{0.6, 0.7}).Between(1, 1.5)
	if g, ok := Apart(plate, shelf, 30*q.Degree); ok {
		t.Errorf("a plate at the floor is %g m from a shelf at 1 m", g.Distance)
	}
	if g, ok := Apart(l.Body("leaf"), shelf, 0); !ok || math.Abs(float64(g.Distance)-0.5) > 1e-15 {
		t.Errorf("the closed leaf is %g m (%v) from the shelf, want 0.5", g.Distance, ok)
	}
}

// What is left to a wall where WallStop stops is what was to be kept; at 90° it
// is the wall's distance less what stands out, read off the drawing.
func TestWallLeft(t *testing.T) {
	leaf := Leaf{Face: 0.01, Width: 0.9, Thickness: 0.045}
	pull := Projection{Name: "pull", Side: Pull, At: 0.8, Along: 0.1, Out: 0.07}
	if left, first := WallLeft(leaf, 0.2, 90*q.Degree, pull); first != "pull" || math.Abs(float64(left)-(0.2+0.01-0.07)) > 1e-15 {
		t.Errorf("%g m left of %q, want 0.14 of the pull", left, first)
	}
	if left, first := WallLeft(leaf, 0.2, 90*q.Degree); first != "" || math.Abs(float64(left)-0.21) > 1e-15 {
		t.Errorf("%g m left of %q, want 0.21 of the leaf", left, first)
	}
	rapid.Check(t, func(t *rapid.T) {
		wall := q.Length(rapid.Float64Range(0.03, 0.8).Draw(t, "wall"))
		keep := q.Length(rapid.Float64Range(0, 0.02).Draw(t, "keep"))
		theta, first, ok := WallStop(leaf, wall, keep, pull)
		if !ok {
			t.Fatal("a leaf of 0.9 m does not come to the wall")
		}
		left, nearest := WallLeft(leaf, wall, theta, pull)
		if math.Abs(float64(left-keep)) > 1e-12 || nearest != first {
			t.Errorf("%g m left of %q at %g rad, %g were to be kept by %q", left, nearest, theta, keep, first)
		}
	})
}

// A switch on the wall beyond the latch, on either side, by right angles: the
// leaf 0.9 m wide and 0.04 m thick, its pull face through the pin.
func TestSwitchAt(t *testing.T) {
	l := Leaf{Width: 0.9, Thickness: 0.04}
	near := func(what string, got q.Length, want float64) {
		t.Helper()
		if math.Abs(float64(got)-want) > 1e-12 {
			t.Errorf("%s is %g m, want %g", what, got, want)
		}
	}
	pull := SwitchAt(l, 90*q.Degree, Point{1.5, 0.02})
	near("square to the pull face", pull.SwitchAhead, 0.02)
	near("beyond the open leaf", pull.SwitchPastOpenEdge, 0.02-0.9)
	near("from the latch edge", pull.SwitchToClosedEdge, math.Hypot(0.6, 0.04))
	near("from the middle", pull.SwitchToCentre, math.Hypot(1.05, 0.04))
	if pull.Side != Pull || pull.Hidden {
		t.Errorf("%+v", pull)
	}
	push := SwitchAt(l, 90*q.Degree, Point{0.45, -1.54})
	near("square to the push face", push.SwitchAhead, 1.5)
	near("from the sweep", push.SwitchToSweep, 1.5)
	if push.Side != Push {
		t.Errorf("%+v", push)
	}
	far := SwitchAt(l, 90*q.Degree, Point{-0.5, 2.3})
	near("beyond the open leaf", far.SwitchPastOpenEdge, 1.4)
	if !SwitchAt(l, 90*q.Degree, Point{-0.5, 0.3}).Hidden {
		t.Error("the open leaf does not hide a switch on the wall behind it")
	}
	rapid.Check(t, func(t *rapid.T) {
		at, open := drawPoint(t, "switch"), q.Angle(rapid.Float64Range(0.1, 2).Draw(t, "open"))
		want := StandAt(l, open, at, Floor{Centre: at, Length: 1.2, Width: 0.75})
		want.FloorToLeaf, want.FloorToSweep = 0, 0
		if got := SwitchAt(l, open, at); got != want {
			t.Errorf("%+v, with its floor %+v", got, want)
		}
	})
}
