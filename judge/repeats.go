package judge

import "math"

// mostRepeats is the largest number of repeats worth naming.
const mostRepeats = 1000

// Repeats tells how often a measurement has to be made, all in all, so that
// the mean decides, if it comes out at the same margin. One measurement has the
// standard uncertainty u, of which uCommon is common to all of them (the
// gauge, the mark) and does not shrink with repeating:
//
//	u_n² = uCommon² + (u² - uCommon²)/n
//
// (JCGM 100:2008, 4.2.3 for the part that varies.) It is 1 when one already
// decides. It reports false when no number does, because the common part alone
// spans the margin, or only one above a thousand: then measure with something
// better. False also when an argument is no number, or not 0 <= uCommon <= u.
func Repeats(margin, u, uCommon float64, p Policy) (n int, ok bool) {
	if !(0 <= uCommon && uCommon <= u) || math.IsInf(u, 0) || math.IsNaN(margin) {
		return 0, false
	}
	decides := func(n int) bool {
		return Decide(margin, spreadOfMean(u, uCommon, n), p) != TooClose
	}
	switch {
	case decides(1):
		return 1, true
	case !decides(mostRepeats):
		return 0, false
	}
	low, high := 1, mostRepeats // low does not decide, high does
	for high-low > 1 {
		if middle := (low + high) / 2; decides(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high, true
}

// spreadOfMean is the standard uncertainty of the mean of n measurements.
func spreadOfMean(u, uCommon float64, n int) float64 {
	if n == 1 {
		return u // to the bit, as the one measurement is judged
	}
	varying := (u - uCommon) * (u + uCommon)
	return math.Sqrt(uCommon*uCommon + varying/float64(n))
}
