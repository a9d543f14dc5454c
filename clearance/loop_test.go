package clearance

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	q "swingwright/quantity"
)

// Anchors placed so that distances follow from right angles and 3-4-5.
func TestDoorLoop(t *testing.T) {
	for _, c := range []struct {
		what              string
		frame, leaf       Point
		open              q.Angle
		longest, shortest float64
		longAt, shortAt   float64 // degrees
	}{
		{"pull side: longest closed", Point{-0.03, 0.04}, Point{0.05, 0}, 90, math.Hypot(0.08, 0.04), 0, 0, 0},
		{"push side: longest open", Point{-0.03, -0.04}, Point{0.03, -0.04}, 90, 0, 0.06, 90, 0},
		{"in line half a turn on", Point{-0.1, 0}, Point{0.06, 0}, 180, 0.16, 0.04, 0, 180},
		{"longest between the ends", Point{0, -0.1}, Point{0.06, 0}, 120, 0.16, 0, 90, 0},
		{"shortest between the ends", Point{0, 0.1}, Point{0.06, 0}, 180, 0, 0.04, 0, 90},
	} {
		got := DoorLoop(c.frame, c.leaf, c.open*q.Degree, 0.15)
		if c.what == "pull side: longest closed" {
			// At 90° the leaf's anchor is at (0, 0.05); nearest in the direction of the frame's, at 127°, past the end.
			c.shortest, c.shortAt = math.Hypot(0.03, 0.01), 90
		}
		if c.longest == 0 {
			c.longest = float64(max(c.frame.To(c.leaf), c.frame.To(c.leaf.Turned(c.open*q.Degree))))
			if c.what == "shortest between the ends" {
				c.longest = math.Hypot(0.1, 0.06)
			}
		}
		if c.shortest == 0 {
			c.shortest = math.Hypot(0.1, 0.06) // closed
		}
		if math.Abs(float64(got.Longest)-c.longest) > 1e-15 || math.Abs(float64(got.Shortest)-c.shortest) > 1e-15 {
			t.Errorf("%s: %g to %g m, want %g to %g", c.what, got.Shortest, got.Longest, c.shortest, c.longest)
		}
		if c.what != "shortest between the ends" && math.Abs(float64(got.LongestAt/q.Degree)-c.longAt) > 1e-12 || math.Abs(float64(got.ShortestAt/q.Degree)-c.shortAt) > 1e-12 {
			t.Errorf("%s: longest at %g°, shortest at %g°", c.what, float64(got.LongestAt/q.Degree), float64(got.ShortestAt/q.Degree))
		}
		if math.Abs(float64(got.Length)-1.15*c.longest) > 1e-15 {
			t.Errorf("%s: %g m of cord, want %g", c.what, got.Length, 1.15*c.longest)
		}
	}
}

// No angle between the ends lies beyond the extremes, which are really had.
func TestDoorLoopBoundsTheSwing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		frame, leaf := drawPoint(t, "frame"), drawPoint(t, "leaf")
		open := q.Angle(rapid.Float64Range(0, math.Pi).Draw(t, "open"))
		got := DoorLoop(frame, leaf, open, LoopSlack)
		d := frame.To(leaf.Turned(open * q.Angle(rapid.Float64Range(0, 1).Draw(t, "part"))))
		if d > got.Longest+1e-14 || d < got.Shortest-1e-14 {
			t.Errorf("%g m apart, said to be %g to %g", d, got.Shortest, got.Longest)
		}
		for at, want := range map[q.Angle]q.Length{got.LongestAt: got.Longest} {
			if math.Abs(float64(frame.To(leaf.Turned(at))-want)) > 1e-14 {
				t.Errorf("not %g m apart at %g rad", want, at)
			}
		}
	})
}
