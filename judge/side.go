package judge

import (
	"fmt"
	"math"
)

// A Side tells on which side of a limit a value must lie. Limits are inclusive.
type Side uint8

const (
	// AtLeast: the value may not be below the limit, as a closing time.
	AtLeast Side = iota
	// AtMost: the value may not be above the limit, as an opening force.
	AtMost
)

// String gives "at least" or "at most".
func (s Side) String() string {
	switch s {
	case AtLeast:
		return "at least"
	case AtMost:
		return "at most"
	}
	return fmt.Sprintf("side %d", uint8(s))
}

// rounding is the relative difference below which a value counts as lying on
// the limit: far below any measurement, above what floating-point sums lose.
const rounding = 1e-12

// Margin is how far a value lies from its limit, in their common unit:
// positive on the good side, negative on the bad. A difference that is only
// floating-point rounding gives zero. NaN for a Side that is neither, and when
// value or limit is NaN.
func Margin(side Side, value, limit float64) float64 {
	margin := value - limit
	if math.Abs(margin) <= rounding*math.Abs(limit) {
		margin = 0
	}
	switch side {
	case AtLeast:
		return margin
	case AtMost:
		return 0 - margin // never -0
	}
	return math.NaN()
}
