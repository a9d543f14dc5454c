package trace

import (
	"math"

	"swingwright/quantity"
)

// PeakEnergy is ½Iω² at the largest rate of the opening or the closing, with the
// leaf's moment of inertia and its standard uncertainty from the caller.
func (s *Swing) PeakEnergy(inertia quantity.Measured[quantity.Inertia], closing bool) Reading[quantity.Energy] {
	return kinetic(inertia, s.PeakRate(closing))
}

// ImpactEnergy is ½Iω² as the leaf reaches its frame.
func (s *Swing) ImpactEnergy(inertia quantity.Measured[quantity.Inertia]) Reading[quantity.Energy] {
	return kinetic(inertia, s.ImpactRate())
}

// byInertia is the inertia's line in a budget.
const byInertia = "moment of inertia"

// kinetic is ½Iω². The square is not a straight line, which the second order
// of its spread counts: Var(ω²) = 4ω²u² + 2u⁴ for a normal ω.
func kinetic(inertia quantity.Measured[quantity.Inertia], rate Reading[quantity.AngularSpeed]) Reading[quantity.Energy] {
	if !rate.Known {
		return no[quantity.Energy]("%s", rate.Why)
	}
	if !inertia.Known || !(inertia.Value > 0) {
		return no[quantity.Energy]("the leaf's moment of inertia is not known")
	}
	i, w := float64(inertia.Value), float64(rate.Value)
	terms := []Term[quantity.Energy]{{byInertia, quantity.Energy(w * w / 2 * float64(inertia.U))}}
	for _, t := range rate.Terms {
		u := float64(t.U)
		terms = gather(terms, t.Name, quantity.Energy(i*u*math.Sqrt(w*w+u*u/2)))
	}
	return got(i*w*w/2, terms...)
}
