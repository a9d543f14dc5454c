// Package instrument turns what a stopwatch and a force gauge showed into values
// with their standard uncertainty: how often it was read, how the watch was started,
// where and how squarely the gauge was held. It knows no limits and no openings.
package instrument

import (
	"errors"
	"math"

	"swingwright/quantity"
)

// A Read is what repeated readings come to.
type Read struct {
	Value float64 // best estimate, in SI, corrected for what is known to be wrong with it
	U     float64 // standard uncertainty
	DF    float64 // degrees of freedom of U; infinite where it rests on what is known beforehand
	N     int     // readings
	// Corrected is what was added to the mean of the readings to come to Value.
	Corrected float64
	Budget    []Term
	Doubts    []string // what is wrong with the readings, or could be done better
}

// A Term is one part of an uncertainty.
type Term struct {
	What   string
	U      float64 // standard uncertainty of the result that comes from it, in SI
	DF     float64 // its degrees of freedom; infinite where it was not estimated from few readings
	Falls  bool    // whether it falls with the root of the number of readings
	Source string  // where its size comes from
}

// combine sums a budget: u² = Σuᵢ² (JCGM 100:2008, eq. 10), and the effective degrees
// of freedom ν = u⁴/Σ(uᵢ⁴/νᵢ) (Welch–Satterthwaite, eq. G.2b).
func combine(budget []Term) (u, df float64) {
	var square, fourth float64
	for _, t := range budget {
		square += t.U * t.U
		fourth += math.Pow(t.U, 4) / t.DF
	}
	return math.Sqrt(square), square * square / fourth
}

// mean is the mean of some readings and their standard deviation, NaN for less than two.
func mean[Q quantity.Quantity](all []Q) (m, s float64) {
	for _, x := range all {
		m += float64(x)
	}
	m /= float64(len(all))
	for _, x := range all {
		s += (float64(x) - m) * (float64(x) - m)
	}
	return m, math.Sqrt(s / float64(len(all)-1))
}

// positive reports readings that are none.
func positive[Q quantity.Quantity](what string, all []Q) error {
	if len(all) == 0 {
		return errors.New("there is no " + what + ": give one at least, better three")
	}
	for _, x := range all {
		if !(x > 0) || math.IsInf(float64(x), 0) {
			return errors.New("a " + what + " has to be above zero")
		}
	}
	return nil
}

// certain is the degrees of freedom of what was not estimated from few readings.
var certain = math.Inf(1)
