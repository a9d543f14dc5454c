package ode

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
)

// at evaluates the polynomial from its definition, the sum of the Bernstein
// polynomials binomial(5, i)·uⁱ·(1-u)⁵⁻ⁱ.
func (b bezier) at(u float64) float64 {
	sum := 0.
	for i, n := range []float64{1, 5, 10, 10, 5, 1} {
		sum += b[i] * n * math.Pow(u, float64(i)) * math.Pow(1-u, float64(5-i))
	}
	return sum
}

func TestCoefficientsDescribeTheSegment(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuintic(t)
		g := q.over(0.5, 1.25)
		level := rapid.Float64Range(-3, 3).Draw(t, "level")
		angle, rate := g.angleOver(level), g.rateOver(level)
		left, right := angle.halves()
		for i := range 11 {
			u := float64(i) / 10
			x := 0.5 + 0.75*u
			// Values reach some tens; differences of them are divided by 0.75 s.
			if e := math.Abs(angle.at(u) - (q.at(x, 0) - level)); e > 1e-12 {
				t.Fatalf("angle off by %v at %v", e, x)
			}
			if e := math.Abs(rate.at(u) - (q.at(x, 1) - level)); e > 1e-11 {
				t.Fatalf("rate off by %v at %v", e, x)
			}
			if e := math.Abs(left.at(u)-angle.at(u/2)) + math.Abs(right.at(u)-angle.at((1+u)/2)); e > 1e-12 {
				t.Fatalf("halves off by %v at %v", e, u)
			}
		}
	})
}

func TestSignChanges(t *testing.T) {
	for _, c := range []struct {
		b    bezier
		want int
	}{
		{bezier{1, 2, 3, 4, 5, 6}, 0},
		{bezier{-1, -2, -3, -4, -5, -6}, 0},
		{bezier{1, 2, 3, -4, -5, -6}, 1},
		{bezier{1, -2, 3, -4, 5, -6}, 5},
		{bezier{0, 0, 3, 0, 5, 6}, 0}, // begins on zero: no change
		{bezier{1, 2, 3, 4, 5, 0}, 1}, // ends on zero: a change
		{bezier{}, 0},                 // rests on zero
	} {
		if got := c.b.changes(); got != c.want {
			t.Errorf("%v changes %d times, want %d", c.b, got, c.want)
		}
		if c.b.clear() && c.want != 0 {
			t.Errorf("%v is called clear", c.b)
		}
	}
}
