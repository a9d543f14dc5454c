package judge

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// DecideProbability judges a yes-or-no fact that n independent draws of the
// uncertain inputs answered with yes in the share pTrue, 0 to 1. It meets when
// the draws show, at the policy's risk, that yes has at least the probability
// 1-risk; it falls short when they show the same of no.
//
// The bound is the one-sided exact one of Clopper and Pearson (Biometrika 26,
// 1934, 404), since the fact is mostly near 0 or 1, where the normal
// approximations are at their worst, and since it never errs to the bold side.
// It takes 59 draws without exception to decide at 5 % (Wilks, Annals of
// Mathematical Statistics 12, 1941, 91). A fact that is known without draws is
// no case for it. NotMeasured when n is not positive or pTrue not a share.
func DecideProbability(pTrue float64, n int, p Policy) Verdict {
	switch {
	case n <= 0 || !(pTrue >= 0 && pTrue <= 1):
		return NotMeasured
	case p.Check() != nil:
		return TooClose
	}
	yes := math.Round(pTrue * float64(n))
	no := float64(n) - yes
	switch {
	case surely(yes, no, p.risk()):
		return Meets
	case surely(no, yes, p.risk()):
		return FallsShort
	}
	return TooClose
}

// surely tells whether the lower bound of the probability of hits is 1-risk or
// more. That is so when so many hits, or more, would be a chance of risk at
// most if the probability were just 1-risk.
func surely(hits, misses, risk float64) bool {
	return atLeastHits(hits, misses, 1-risk) <= risk
}

// atLeastHits is the binomial probability of that many hits or more among
// hits+misses draws of probability p each (NIST Handbook of Mathematical
// Functions, 2010, 8.17.5).
func atLeastHits(hits, misses, p float64) float64 {
	if hits == 0 {
		return 1
	}
	return mathext.RegIncBeta(hits, misses+1, p)
}
