package propagate

import (
	"errors"
	"fmt"
	"math"
)

// Input is a quantity that is known with a spread: normally distributed with
// mean Mean and standard deviation U, cut off at Low and High.
type Input struct {
	// Mean is the best estimate.
	Mean float64
	// U is its standard uncertainty, not negative; 0 is a value known exactly.
	U float64
	// Low and High bound the draws, so that a mass never comes out negative.
	// They count when Low < High; one side is left open with an infinity. What
	// would lie outside is redrawn inside (truncated normal), so that a bound
	// nearer than about 2 U moves the mean away from it and narrows the spread.
	Low, High float64
}

// bounded tells whether Low and High count.
func (in Input) bounded() bool { return in.Low < in.High }

// check reports everything about the inputs that cannot be used.
func check(inputs []Input) error {
	var problems []error
	for i, in := range inputs {
		switch {
		case !finite(in.Mean) || !finite(in.U) || in.U < 0:
			problems = append(problems, fmt.Errorf("propagate: input %d has mean %v and standard uncertainty %v; give finite numbers, the uncertainty not negative", i, in.Mean, in.U))
		case math.IsNaN(in.Low) || math.IsNaN(in.High) || in.Low > in.High:
			problems = append(problems, fmt.Errorf("propagate: input %d has bounds %v and %v; give the lower one first, or two zeros for none", i, in.Low, in.High))
		case in.bounded() && (in.Mean < in.Low || in.Mean > in.High):
			problems = append(problems, fmt.Errorf("propagate: input %d has mean %v outside its bounds %v to %v; correct one of them", i, in.Mean, in.Low, in.High))
		}
	}
	return errors.Join(problems...)
}

// shares are the shares of the whole normal distribution below Low and below
// High, between which draws may come from.
func (in Input) shares() (low, high float64) {
	if !in.bounded() || in.U == 0 {
		return 0, 1
	}
	return standardShare((in.Low - in.Mean) / in.U), standardShare((in.High - in.Mean) / in.U)
}

// quantile is the value below which the given share of the whole normal
// distribution lies, kept from leaving the bounds by rounding.
func (in Input) quantile(share float64) float64 {
	if in.U == 0 {
		return in.Mean
	}
	x := in.Mean + in.U*standardQuantile(share)
	if in.bounded() {
		x = min(max(x, in.Low), in.High)
	}
	return x
}

// standardQuantile is the inverse of the standard normal distribution function.
// Shares nearer to 0 or 1 than numbers can tell give about ±8.2, never infinity.
func standardQuantile(share float64) float64 {
	return math.Sqrt2 * math.Erfinv(2*min(max(share, 0x1p-54), 1-0x1p-53)-1)
}

// standardShare is the standard normal distribution function.
func standardShare(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

func finite(x float64) bool { return x-x == 0 }
