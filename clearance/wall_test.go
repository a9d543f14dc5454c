package clearance

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	q "swingwright/quantity"
)

// Largest opening beside a wall, with 1/2 in left, by the printed table of the
// trade. Its formula 90° + arcsin((s − 1/2 − p)/r) leaves out that a projection
// leans back past 90°, which is worth 0.05° here, besides the 0.05° of its last digit. The cell of 8 in,
// bare, is printed as 102.0; the formula gives 102.11.
func TestWallTable(t *testing.T) {
	leaf := Leaf{Width: 35.75 * q.Inch, Thickness: 1.75 * q.Inch}
	pull := Projection{Name: "pull", Side: Pull, At: 33 * q.Inch, Out: 3 * q.Inch}
	for _, c := range []struct{ wall, bare, pull float64 }{ // inches, degrees; 0 below 90°
		{2, 92.4, 0},
		{3, 94.0, 0},
		{3.75, 95.2, 90.4},
		{5, 97.2, 92.6},
		{8, 102.11, 97.8},
	} {
		wall := q.Length(c.wall) * q.Inch
		theta, first, ok := WallStop(leaf, wall, WallGap)
		if got := float64(theta / q.Degree); !ok || first != "" || math.Abs(got-c.bare) > 0.0501 {
			t.Errorf("wall at %g in: bare leaf to %.3f° (%q, %v), the table has %.1f", c.wall, got, first, ok, c.bare)
		}
		theta, first, ok = WallStop(leaf, wall, WallGap, pull)
		got := float64(theta / q.Degree)
		if c.pull == 0 {
			if !ok || first != "pull" || got >= 90 {
				t.Errorf("wall at %g in: with the pull to %.3f° (%q, %v), the table has less than 90", c.wall, got, first, ok)
			}
			continue
		}
		if !ok || first != "pull" || math.Abs(got-c.pull) > 0.101 {
			t.Errorf("wall at %g in: with the pull to %.3f° (%q, %v), the table has %.1f", c.wall, got, first, ok, c.pull)
		}
	}
}

// The opening worked end to end in the trade's reference: 4-1/4 in of wall gap,
// 2-1/2 in of pull at 33 in give 92.2°.
func TestWallWorkedByHand(t *testing.T) {
	leaf := Leaf{Width: 35.75 * q.Inch, Thickness: 1.75 * q.Inch}
	theta, _, _ := WallStop(leaf, 4.25*q.Inch, WallGap, Projection{Side: Pull, At: 33 * q.Inch, Out: 2.5 * q.Inch})
	if got := float64(theta / q.Degree); math.Abs(got-92.2) > 0.0501 {
		t.Errorf("to %.3f°, want 92.2", got)
	}
}

func TestWallOutOfReach(t *testing.T) {
	if theta, first, ok := WallStop(Leaf{Width: 0.9, Thickness: 0.045}, 1.5, WallGap); ok {
		t.Errorf("a wall 1.5 m away stops a 0.9 m leaf at %g rad (%q)", theta, first)
	}
	if theta, _, ok := WallStop(Leaf{Width: 0.9, Thickness: 0.045}, -1, 0); !ok || theta != 0 {
		t.Errorf("a wall before the whole leaf stops it at %g rad (%v), want 0", theta, ok)
	}
}

// A sweep toward a thick wall, which knows nothing of the closed form, finds
// its angle; toward a half-plane it finds it to rounding.
func TestWallAgreesWithSweep(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, low, high float64) q.Length {
			return q.Length(rapid.Float64Range(low, high).Draw(t, name))
		}
		l := Leaf{length("e", 0, 0.03), length("g", 0, 0.03), length("w", 0.5, 1.3), length("t", 0.02, 0.06)}
		p := Projection{Name: "pull", Side: Side(rapid.IntRange(0, 1).Draw(t, "side")), At: length("at", 0.2, 1), Along: length("along", 0, 0.2), Out: length("out", 0, 0.15)}
		wall, keep := length("wall", 0.03, 1.2), length("keep", 0, 0.02)
		want, _, stops := WallStop(l, wall, keep, p)
		s, err := NewScene(l.Body("leaf"), p.On(l), HalfPlane("plane", Point{X: -wall}, 180*q.Degree),
			Block("wall", OnFrame, Point{-wall, -4}, Point{-wall - 4, 4}))
		if err != nil {
			t.Fatal(err)
		}
		got, err := s.KeepOff("wall", keep, 0, 180*q.Degree)
		plane, err2 := s.KeepOff("plane", keep, 0, 180*q.Degree)
		if err != nil || err2 != nil {
			t.Fatal(err, err2)
		}
		stops = stops && want <= 180*q.Degree
		if plane.Touches != stops || stops && math.Abs(float64(plane.Angle-want)) > 1e-12 {
			t.Errorf("half-plane met (%v) at %g rad, by the closed form (%v) at %g", plane.Touches, plane.Angle, stops, want)
		}
		if got.Touches != stops {
			t.Fatalf("touches is %v at %g rad, by the closed form %v at %g", got.Touches, got.Angle, stops, want)
		}
		if !stops {
			return
		}
		// Where the sweep ends, no more than the gap that counts as contact is left.
		left := math.Inf(1)
		for _, b := range s.bodies[:2] {
			corners, _, _ := b.Outline(got.Angle)
			for _, c := range corners {
				left = math.Min(left, float64(c.X+wall-keep))
			}
		}
		if got.Angle > want+1e-9 || left > 1.01*hair {
			t.Errorf("contact at %g rad with %g m left, by the closed form at %g", got.Angle, left, want)
		}
		if d := float64(want - got.Angle); wall > 0.05 && wall < 0.9*l.Width && d > 0.01*deg {
			t.Errorf("contact at %g rad, by the closed form at %g", got.Angle, want)
		}
	})
}
