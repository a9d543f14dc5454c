package ode

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// quintic is a polynomial in t by rising powers.
type quintic [6]float64

// at is the polynomial's nth derivative at t.
func (q quintic) at(t float64, n int) float64 {
	sum := 0.
	for k := len(q) - 1; k >= n; k-- {
		c := q[k]
		for j := range n {
			c *= float64(k - j)
		}
		sum = sum*t + c
	}
	return sum
}

// over is the segment that follows the polynomial from t0 to t1.
func (q quintic) over(t0, t1 float64) Segment {
	return Segment{
		T0: t0, T1: t1,
		From: State{q.at(t0, 0), q.at(t0, 1)}, To: State{q.at(t1, 0), q.at(t1, 1)},
		FromAcceleration: q.at(t0, 2), ToAcceleration: q.at(t1, 2),
	}
}

func drawQuintic(t *rapid.T) (q quintic) {
	for i := range q {
		q[i] = rapid.Float64Range(-2, 2).Draw(t, "coefficient")
	}
	return q
}

func TestSegmentFollowsAnyQuintic(t *testing.T) {
	// Six conditions fix a quintic, so any quintic comes back (HNW II.6, Hermite).
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuintic(t)
		t0 := rapid.Float64Range(-1, 1).Draw(t, "t0")
		g := q.over(t0, t0+rapid.Float64Range(0.01, 2).Draw(t, "length"))
		h := g.T1 - g.T0
		for i := range 11 {
			x := g.T0 + h*float64(i)/10
			y := g.At(x)
			// Rounding of numbers up to about 1000, divided by h once per derivative.
			if e := math.Abs(y.Angle - q.at(x, 0)); e > 1e-11 {
				t.Fatalf("angle off by %v at %v", e, x)
			}
			if e := math.Abs(y.Rate - q.at(x, 1)); e > 1e-11/h {
				t.Fatalf("rate off by %v at %v", e, x)
			}
			if e := math.Abs(g.Acceleration(x) - q.at(x, 2)); e > 1e-10/(h*h) {
				t.Fatalf("acceleration off by %v at %v", e, x)
			}
		}
	})
}

func TestUntilKeepsTheCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawQuintic(t).over(0, 1)
		cut := rapid.Float64Range(0.05, 1).Draw(t, "cut")
		part := g.Until(cut)
		if part.T0 != 0 || part.T1 != cut || part.From != g.From || part.To != g.At(cut) {
			t.Fatalf("ends of %+v", part)
		}
		for i := range 11 {
			x := cut * float64(i) / 10
			if e := math.Abs(part.At(x).Angle - g.At(x).Angle); e > 1e-12 {
				t.Fatalf("angle off by %v at %v", e, x)
			}
		}
	})
}

func TestSegmentEndsAreExact(t *testing.T) {
	g := Segment{T0: 0.1, T1: 0.3, From: State{1. / 3, 0.7}, To: State{2. / 3, 1.9}, FromAcceleration: 3, ToAcceleration: 4}
	if g.At(0.1) != g.From || g.At(0.3) != g.To {
		t.Errorf("ends %v and %v", g.At(0.1), g.At(0.3))
	}
	if g.Until(0.3) != g {
		t.Errorf("cut at its end it is %+v", g.Until(0.3))
	}
}
