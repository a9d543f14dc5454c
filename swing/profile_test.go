package swing

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	"swingwright/quantity"
)

// A profile tells what looking range by range tells.
func TestProfileAgreesWithEachRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, link := typical()
		v[SpringRise] = rapid.Float64Range(-1, 4).Draw(t, "rise")
		v[Pressure] = rapid.Float64Range(-20, 40).Draw(t, "pressure")
		v[LeanAngle] = rapid.Float64Range(-0.02, 0.02).Draw(t, "lean")
		v[LeanAzimuth] = rapid.Float64Range(-3, 3).Draw(t, "azimuth")
		m, err := New(&v, link)
		if err != nil {
			t.Fatal(err)
		}
		var p Profile
		m.Profile(&p)
		for _, r := range [][2]int{{0, 0}, {0, 4}, {0, 30}, {30, 60}, {1, 90}, {88, 92}} {
			from, to := quantity.Angle(r[0])*quantity.Degree, quantity.Angle(r[1])*quantity.Degree
			for _, c := range [][2]quantity.Torque{
				{p.LargestHand(r[0], r[1]), m.LargestHandMoment(from, to)},
				{p.LeastClosing(r[0], r[1]), m.LeastClosingMoment(from, to)},
				{p.LargestOpening(r[0], r[1]), m.LargestOpeningMoment(from, to)},
			} {
				if math.Abs(float64(c[0]-c[1])) > 1e-9*(1+math.Abs(float64(c[1]))) {
					t.Errorf("%d to %d degrees: %v, range by range %v", r[0], r[1], c[0], c[1])
				}
			}
		}
	})
}

// With an operator, too.
func TestProfileAgreesWithTheOperator(t *testing.T) {
	for _, stop := range []float64{60, 90, 91.5, 93, 97.25} {
		v, link := ordinary()
		v[OpenAngle] = stop * deg
		m := driven(t, &v, link, Drive{})
		var p Profile
		m.Profile(&p)
		to := quantity.Angle(stop * deg)
		if got, want := p.LargestStall(to), m.LargestStallMoment(0, to); math.Abs(float64(got-want)) > 1e-9 {
			t.Errorf("stalled up to %v degrees: %v, degree by degree %v", stop, got, want)
		}
		if got, want := p.LargestHand(0, 90), m.LargestHandMoment(0, 90*quantity.Degree); math.Abs(float64(got-want)) > 1e-9 {
			t.Errorf("by hand: %v, degree by degree %v", got, want)
		}
	}
}
