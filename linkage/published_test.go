package linkage

import (
	"math"
	"testing"

	"swingwright/quantity"
)

// example is the illustrative regular arm whose ratios were worked out by hand
// for these notes of the trade: pinion 6.5 in from the hinge and 2.25 in out,
// shoe at 12.5 in and 1 in, arms of 11 and 10.47 in.
func example(shoeX quantity.Length) Spec {
	const in = quantity.Inch
	return Spec{OnLeaf: true, Bend: 1, Pinion: Point{6.5 * in, 2.25 * in}, Shoe: Point{shoeX, 1 * in}, Main: 11 * in, Fore: 10.47 * in}
}

// forearm is the angle (degrees) at the shoe between the forearm and the
// frame's line toward the hinge.
func forearm(p Posture) float64 {
	return math.Atan2(float64(p.Elbow.Y-p.Far.Y), float64(p.Far.X-p.Elbow.X)) / float64(quantity.Degree)
}

// Printed ratios hold to half a unit of their last place, forearm angles to half a degree.
func TestRegularArmExample(t *testing.T) {
	const in = quantity.Inch
	for _, c := range []struct {
		shoe, theta, n, forearm float64
	}{
		{12.5, 0, 2.08, 90}, {12.5, 10, 1.85, 95}, {12.5, 30, 1.47, 96},
		{12.5, 60, 1.20, 83}, {12.5, 90, 1.07, 65}, {12.5, 110, 0.99, 51},
		{11.5, 0, 2.22, 96}, {11.5, 90, 1.01, math.NaN()}, // shoe one inch toward the hinge
		{13.5, 0, 1.97, 85}, {13.5, 90, 1.13, math.NaN()}, // and one inch away
	} {
		a, err := New(example(quantity.Length(c.shoe) * in))
		if err != nil {
			t.Fatal(err)
		}
		theta := quantity.Angle(c.theta) * quantity.Degree
		_, n, ok := a.At(theta)
		p, _ := a.Posture(theta)
		if !ok || math.Abs(float64(n)-c.n) > 0.0051 {
			t.Errorf("shoe at %.1f in, %.0f°: n = %.4f, want %.2f", c.shoe, c.theta, n, c.n)
		}
		if got := forearm(p); math.Abs(got-c.forearm) > 0.5 {
			t.Errorf("shoe at %.1f in, %.0f°: forearm at %.2f°, want %.0f°", c.shoe, c.theta, got, c.forearm)
		}
	}
}
