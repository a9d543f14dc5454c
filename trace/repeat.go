package trace

import (
	"math"

	"swingwright/quantity"
)

// Repeated is what several readings of one quantity come to.
type Repeated[Q quantity.Quantity] struct {
	N    int // readings that have a value
	Mean Q
	// S is the standard deviation of the readings, n − 1 degrees of freedom; NaN
	// of one reading.
	S Q
	// U is the standard uncertainty of the mean: scatter, S/√n, and what all
	// readings share, each reading's own budget without its random lines.
	U Q
	// DF are the effective degrees of freedom of U (Welch and Satterthwaite, JCGM
	// 100:2008, G.4); infinite where scatter does not count.
	DF float64
}

// Repeat takes together the readings of several swings of one recording, such as
// a time between the same marks. Those without a value are passed over. With
// fewer than two the reading's own uncertainty is all there is.
func Repeat[Q quantity.Quantity](readings ...Reading[Q]) Repeated[Q] {
	var r Repeated[Q]
	var sum, common, own float64
	for _, x := range readings {
		if !x.Known {
			continue
		}
		r.N++
		sum += float64(x.Value)
		for _, t := range x.Terms {
			u := float64(t.U)
			if own += u * u; shared(t.Name) {
				common += u * u
			}
		}
	}
	n := float64(r.N)
	if r.N == 0 {
		return Repeated[Q]{Mean: nan[Q](), S: nan[Q](), U: nan[Q](), DF: math.NaN()}
	}
	mean := sum / n
	r.Mean, r.S, r.DF = Q(mean), nan[Q](), math.Inf(1)
	if r.N == 1 {
		r.U = Q(math.Sqrt(own))
		return r
	}
	squares := 0.0
	for _, x := range readings {
		if x.Known {
			d := float64(x.Value) - mean
			squares += d * d
		}
	}
	s := math.Sqrt(squares / (n - 1))
	scatter := s * s / n
	u := math.Sqrt(common/n + scatter)
	r.S, r.U = Q(s), Q(u)
	if scatter > 0 {
		r.DF = math.Pow(u, 4) * (n - 1) / (scatter * scatter)
	}
	return r
}

// shared tells a line of a budget that all swings of one recording have in common.
func shared(name string) bool {
	switch name {
	case scaleAssumed, scaleMeasured, byInertia, byRounding:
		return true
	}
	return false
}

func nan[Q quantity.Quantity]() Q { return Q(math.NaN()) }
