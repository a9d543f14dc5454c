package clearance

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
	q "swingwright/quantity"
)

// Distances to the swept floor in closed form: straight out from the arc, off
// the open leaf's pull face, off the closed leaf's push face, and none within.
func TestToSweep(t *testing.T) {
	reach := math.Hypot(1, 0.04)
	for _, c := range []struct {
		what string
		p    Point
		want float64
	}{
		{"beyond the arc", at(1.5, 45), 1.5 - reach},
		{"within the slice", at(0.5, 45), 0},
		{"behind the open leaf", Point{-0.3, 0.5}, 0.3},
		{"before the closed leaf's push face", Point{0.5, -0.34}, 0.3},
		{"off the latch corner, 3-4-5", Point{1.03, -0.08}, 0.05},
		{"under the closed leaf", Point{0.5, -0.02}, 0},
	} {
		if got := float64(plainLeaf.ToSweep(90*q.Degree, c.p)); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: %g m, want %g", c.what, got, c.want)
		}
	}
	if got := plainLeaf.ToSweep(90 * q.Degree); !math.IsInf(float64(got), 1) {
		t.Errorf("nothing is %g m from the sweep", got)
	}
	// A wide thing, no corner of which is near: its edge is 1.2 m from the pin at 45°.
	edge := []Point{{1.2*math.Sqrt2 + 3, -3}, {-3, 1.2*math.Sqrt2 + 3}}
	if got := float64(plainLeaf.ToSweep(90*q.Degree, edge...)); math.Abs(got-(1.2-reach)) > 1e-12 {
		t.Errorf("a slanting wall: %g m, want %g", got, 1.2-reach)
	}
	// A strip whose corners lie outside the slice and whose edge crosses it.
	if got := plainLeaf.ToSweep(90*q.Degree, Point{-1, 1.5}, Point{1.5, -1}); got != 0 {
		t.Errorf("a line across the slice is %g m away", got)
	}
}

// The swept floor is as near as the leaf ever comes, and touches exactly what the sweep touches.
func TestToSweepAgreesWithSweep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ref, l, _, f := draw{rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 2))}.floor()
		open := q.Angle(ref.Open)
		got := l.ToSweep(open, f.corners()...)
		s, err := NewScene(l.Body("leaf"), f.Body("floor"))
		if err != nil {
			t.Fatal(err)
		}
		at := open * q.Angle(rapid.Float64Range(0, 1).Draw(t, "part"))
		if g, ok := s.Nearest(at); ok && g.Distance < got-1e-12 {
			t.Errorf("%g m from the leaf at %g rad, %g from its sweep", g.Distance, at, got)
		}
		if g, ok := s.Nearest(0); ok && g.Distance < 2*hair {
			return // touches from the start, where a sweep lets go
		}
		swing := s.Sweep(0, open)
		if got == 0 && !swing.Touches || got > 2*hair && swing.Touches {
			t.Errorf("%g m from the sweep, and the leaf touches it: %v", got, swing.Touches)
		}
	})
}

// A switch on the latch side wall and one behind the open leaf, placed by hand
// before a leaf 1 m wide that opens to 90°.
func TestStandAt(t *testing.T) {
	clear := Floor{Centre: Point{1.5, 0.9}, Length: 1.22, Width: 0.76, Turn: 90 * q.Degree} // x from 1.12, y from 0.29
	got := StandAt(plainLeaf, 90*q.Degree, Point{1.5, 0}, clear)
	reach := math.Hypot(1, 0.04)
	for what, c := range map[string][2]float64{
		"switch to sweep":       {float64(got.SwitchToSweep), 1.5 - reach}, // the push corner passes before it
		"switch to open leaf":   {float64(got.SwitchToLeaf), 1.46},
		"switch to centre":      {float64(got.SwitchToCentre), math.Hypot(1, 0.02)},
		"switch to closed edge": {float64(got.SwitchToClosedEdge), math.Hypot(0.5, 0.02)},
		"switch to open edge":   {float64(got.SwitchToOpenEdge), math.Hypot(1.48, 1)},
		"floor to sweep":        {float64(got.FloorToSweep), math.Hypot(1.12, 0.29) - reach},
		"floor to open leaf":    {float64(got.FloorToLeaf), 1.12 - 0.04},
	} {
		if math.Abs(c[0]-c[1]) > 1e-12 {
			t.Errorf("%s: %g m, want %g", what, c[0], c[1])
		}
	}
	if got.Side != Pull || got.Hidden {
		t.Errorf("side %v, hidden %v; want the pull side in sight", got.Side, got.Hidden)
	}
	if behind := StandAt(plainLeaf, 90*q.Degree, Point{-0.3, 0.3}, clear); !behind.Hidden || behind.SwitchToSweep != 0.3 {
		t.Errorf("behind the open leaf: hidden %v, %g m from the sweep, want 0.3", behind.Hidden, behind.SwitchToSweep)
	}
	if push := StandAt(plainLeaf, 90*q.Degree, Point{0.5, -1}, clear); push.Side != Push || push.Hidden {
		t.Errorf("before the push side: side %v, hidden %v", push.Side, push.Hidden)
	}
	if in := StandAt(plainLeaf, 90*q.Degree, Point{1.5, 0}, Floor{Centre: Point{0.9, 0.9}, Length: 1.22, Width: 0.76}); in.FloorToSweep != 0 {
		t.Errorf("a floor in the way of the leaf is %g m from its sweep", in.FloorToSweep)
	}
}
