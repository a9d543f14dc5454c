package clearance

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	q "swingwright/quantity"
)

// Anchors placed so that the distances follow from right angles.
func TestDoorLoop(t *testing.T) {
	for _, c := range []struct {
		what              string
		frame, leaf       Point
		open              q.Angle // degrees
		longest, shortest float64 // m
		longAt, shortAt   q.Angle // degrees
	}{
		{"pull side: longest closed", Point{-0.03, 0.04}, Point{0.05, 0}, 90, math.Hypot(0.08, 0.04), math.Hypot(0.03, 0.01), 0, 90},
		{"push side: longest open", Point{-0.03, -0.04}, Point{0.03, -0.04}, 90, math.Hypot(0.07, 0.07), 0.06, 90, 0},
		{"in line at both ends", Point{-0.1, 0}, Point{0.06, 0}, 180, 0.16, 0.04, 0, 180},
		{"longest between the ends", Point{0, -0.1}, Point{0.06, 0}, 120, 0.16, math.Hypot(0.1, 0.06), 90, 0},
		{"shortest between the ends", Point{0, 0.1}, Point{0.06, 0}, 170, math.Hypot(0.1, 0.06), 0.04, 0, 90},
	} {
		got := DoorLoop(c.frame, c.leaf, c.open*q.Degree, 0.15)
		near := func(got, want float64) bool { return math.Abs(got-want) < 1e-12 }
		if !near(float64(got.Longest), c.longest) || !near(float64(got.Shortest), c.shortest) {
			t.Errorf("%s: %g to %g m, want %g to %g", c.what, got.Shortest, got.Longest, c.shortest, c.longest)
		}
		if !near(float64(got.LongestAt), float64(c.longAt*q.Degree)) || !near(float64(got.ShortestAt), float64(c.shortAt*q.Degree)) {
			t.Errorf("%s: longest at %g°, shortest at %g°", c.what, float64(got.LongestAt/q.Degree), float64(got.ShortestAt/q.Degree))
		}
		if !near(float64(got.Length), 1.15*c.longest) {
			t.Errorf("%s: %g m of cord, want %g", c.what, got.Length, 1.15*c.longest)
		}
	}
}

// The trade's illustration of a cord: on the pull side its anchors are 4.5 in
// apart at 0° and 2.3 at 110°, on the push side 3.5 and 5.8 (derived there, the anchors
// not given). Anchors that have these distances are where two circles meet; with 15 % more
// the cord is 5.175 in long for a leaf that pulls it closed, 6.67 for one that pulls it open.
func TestDoorLoopOfTheTrade(t *testing.T) {
	const open = 110 * q.Degree
	for _, c := range []struct {
		what                 string
		frame                Point // inches
		closed, opened, cord float64
		longAt               q.Angle
	}{
		{"pull side", Point{-2, 1.5}, 4.5, 2.3, 5.175, 0},
		{"push side", Point{-1.5, -2.5}, 3.5, 5.8, 6.67, open},
	} {
		frame := Point{c.frame.X * q.Inch, c.frame.Y * q.Inch}
		// the leaf's anchor is at closed from the frame's, and at opened from that turned back
		a, b := frame.vec(), frame.Turned(-open).vec()
		r, s := c.closed*float64(q.Inch), c.opened*float64(q.Inch)
		d := b.minus(a).length()
		along := (r*r - s*s + d*d) / (2 * d)
		ahead := b.minus(a).times(1 / d)
		leaf := a.plus(ahead.times(along)).plus(vec{-ahead.y, ahead.x}.times(math.Sqrt(r*r - along*along))).point()
		got := DoorLoop(frame, leaf, open, LoopSlack)
		if at := got.LongestAt; at != c.longAt || math.Abs(float64(got.Length/q.Inch)-c.cord) > 1e-9 {
			t.Errorf("%s: %g in of cord, longest at %g°, want %g at %g", c.what, float64(got.Length/q.Inch), float64(at/q.Degree), c.cord, float64(c.longAt/q.Degree))
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
		for _, had := range []q.Length{
			frame.To(leaf.Turned(got.LongestAt)) - got.Longest, frame.To(leaf.Turned(got.ShortestAt)) - got.Shortest,
		} {
			if math.Abs(float64(had)) > 1e-14 {
				t.Errorf("%+v: off by %g m at the angles it names", got, had)
			}
		}
	})
}
