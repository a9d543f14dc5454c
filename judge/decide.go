package judge

import "math"

// Decide judges a margin, as Margin gives it, with its standard uncertainty u
// in the same unit. The guard band is p.Coverage()·u; its outer edge still
// meets, so without spread a value exactly on the limit meets. NotMeasured when
// margin or u is NaN or u is negative; TooClose when u is infinite.
func Decide(margin, u float64, p Policy) Verdict {
	return decide(margin, u, p.Coverage())
}

// DecideDF judges as Decide does when u was estimated with nu degrees of
// freedom, such as n-1 for the mean of n readings (JCGM 100:2008, 4.2.3 and G.3).
func DecideDF(margin, u, nu float64, p Policy) Verdict {
	return decide(margin, u, p.CoverageDF(nu))
}

func decide(margin, u, coverage float64) Verdict {
	guard := coverage * u
	switch {
	case math.IsNaN(margin) || !(u >= 0):
		return NotMeasured
	case math.IsNaN(guard) || math.IsInf(guard, 0):
		return TooClose
	case margin >= guard:
		return Meets
	case margin < -guard:
		return FallsShort
	}
	return TooClose
}

// AcceptanceLimit is the value that just meets: the limit moved by the guard
// band to the good side (JCGM 106:2012, 8.3). All three are in one unit.
func AcceptanceLimit(side Side, limit, u float64, p Policy) float64 {
	if side == AtMost {
		return limit - p.Coverage()*u
	}
	return limit + p.Coverage()*u
}
