package judge

import (
	"math"
	"testing"
)

// JCGM 106:2012, 7.4: y = 13.6, u = 1.8, limits 12.5 and 16.3. The rest are
// values of the normal distribution.
func TestConformance(t *testing.T) {
	inf := math.Inf(1)
	for _, c := range []struct{ value, u, lower, upper, want, tolerance float64 }{
		{13.6, 1.8, 12.5, 16.3, 0.6626, 0.00005},
		{0, 1, -1, 1, 0.6826895, 5e-8},
		{0, 1, -2, 2, 0.9544997, 5e-8},
		{0, 1, 0, inf, 0.5, 1e-15},
		{0, 1, -inf, inf, 1, 1e-15},
		{0, 1, 6, inf, 9.8658765e-10, 5e-17}, // a far tail keeps its digits
		{0, 1, -inf, -6, 9.8658765e-10, 5e-17},
		{5, 0, 5, 6, 1, 0}, // limits are inclusive
		{5, 0, 4, 5, 1, 0},
		{5, 0, 5.1, 6, 0, 0},
		{5, 1, 6, 4, 0, 0}, // no such range
	} {
		got := Conformance(c.value, c.u, c.lower, c.upper)
		if math.Abs(got-c.want) > c.tolerance {
			t.Errorf("%v with %v within %v to %v: %v, want %v", c.value, c.u, c.lower, c.upper, got, c.want)
		}
	}
	nan := math.NaN()
	for _, got := range []float64{Conformance(nan, 1, 0, 1), Conformance(1, nan, 0, 1), Conformance(1, 1, nan, 1), Conformance(1, 1, 0, nan), Conformance(1, -1, 0, 1)} {
		if !math.IsNaN(got) {
			t.Errorf("the probability of what is no number = %v", got)
		}
	}
}
