package window

import "math"

// A seeker looks for the least x between two bounds at which a rising function
// is not below zero, by secants kept within the bracket found so far. It aims a
// little beyond zero, so that the last x is on the good side.
type seeker struct {
	low, high float64 // bounds
	bad, good float64 // bracket: the function is below zero at bad, not below at good
	x         float64 // where it is to be worked out next
	slope     float64
	lastX     float64
	last      float64
	begun     bool
}

// Of the logarithms of time and resistance, which are nearly proportional.
const (
	seekAim   = 2e-4 // how far beyond zero a seeker aims
	seekClose = 5e-4 // not farther beyond zero than this, x is least
	seekStep  = 1.0  // longest step before there is a bracket
	seekWidth = 1e-7 // bracket within which the function jumps
)

// newSeeker begins at a guess, with the slope of a search like it; zero stands
// for 1.
func newSeeker(low, high, guess, slope float64) seeker {
	if slope == 0 {
		slope = 1
	}
	return seeker{low: low, high: high, bad: math.Inf(-1), good: math.Inf(1), x: max(low, min(high, guess)), slope: slope}
}

// step takes the value r at x and moves x on. It reports false where x, or the
// good end of the bracket, is the least already, or the upper bound is too little.
func (k *seeker) step(r float64) bool {
	if k.begun && !math.IsInf(r, 0) && !math.IsInf(k.last, 0) && math.Abs(k.x-k.lastX) > 1e-6 {
		k.slope = max(0.2, min(3, (r-k.last)/(k.x-k.lastX)))
	}
	k.lastX, k.last, k.begun = k.x, r, true
	if r >= 0 {
		k.good = k.x
		if r <= seekClose || k.x <= k.low {
			return false
		}
	} else {
		k.bad = k.x
		if k.x >= k.high {
			return false
		}
	}
	if k.good-k.bad < seekWidth {
		return false
	}
	next := k.x - max(-seekStep, min(seekStep, (r-seekAim)/k.slope))
	if math.IsInf(r, 1) && math.IsInf(k.bad, -1) {
		next = k.low // does it jump at all?
	}
	next = max(k.low, min(k.high, next))
	if !(next > k.bad && next < k.good) {
		next = (max(k.bad, k.low) + min(k.good, k.high)) / 2
	}
	k.x = next
	return true
}

// near tells that the last value was close to zero: slope and place are worth
// remembering.
func (k *seeker) near() bool { return math.Abs(k.last) < 0.1 }
