package judge

import "math"

// Conformance is the probability, 0 to 1, that a quantity lies from lower to
// upper when it was found to be value with standard uncertainty u, normally
// distributed: JCGM 106:2012, 7.4. An open side is an infinite limit. Without
// spread it is 1 or 0, limits included. NaN when an argument is NaN or u is
// negative.
func Conformance(value, u, lower, upper float64) float64 {
	switch {
	case math.IsNaN(value) || math.IsNaN(lower) || math.IsNaN(upper) || !(u >= 0):
		return math.NaN()
	case lower > upper:
		return 0
	case u == 0 && lower <= value && value <= upper:
		return 1
	case u == 0:
		return 0
	}
	a, b := (lower-value)/u, (upper-value)/u
	if a > 0 {
		a, b = -b, -a // the far tails keep their digits on the negative side
	}
	return normal(b) - normal(a)
}

// normal is the standard normal distribution function.
func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
