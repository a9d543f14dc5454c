// Package leaf tells how heavy a leaf is and how hard it is to turn: built up
// from its construction, weighed in place, or by the trade's rule of size.
package leaf

import (
	"math"

	"swingwright/quantity"
)

// Spread of a leaf's mass by how it was got, relative standard uncertainty;
// assumed by this project.
const (
	WeighedSpread quantity.Ratio = 0.02
	BuiltUpSpread quantity.Ratio = 0.08
	RuleSpread    quantity.Ratio = 0.20
)

// ArealRule is the trade's rule of size, 5.7 lb/ft²: 21 ft² of leaf make about
// 120 lb, the usual weight of a 3-0 × 7-0 (common practice).
const ArealRule = quantity.ArealDensity(5.7 * 0.45359237 / (0.3048 * 0.3048))

// ByRule is a leaf's mass by its size alone.
func ByRule(width, height quantity.Length) quantity.Mass {
	return quantity.Mass(float64(ArealRule) * float64(width) * float64(height))
}

// Slab is a leaf as an even slab hung on a hinge axis.
type Slab struct {
	Width, Height, Thickness quantity.Length
	PinToEdge                quantity.Length // hinge axis to hinge edge, along the leaf
	PinToFace                quantity.Length // hinge axis to pull face, square to it
}

// Gyration is the slab's radius of gyration about the hinge axis: with centre
// x_c = e + w/2, y_c = −g − t/2, its square is (w² + t²)/12 + x_c² + y_c².
func (s Slab) Gyration() quantity.Length {
	w, t := float64(s.Width), float64(s.Thickness)
	xc, yc := float64(s.PinToEdge)+w/2, float64(s.PinToFace)+t/2
	return quantity.Length(math.Sqrt((w*w+t*t)/12 + xc*xc + yc*yc))
}

// EquivalentMass is the mass of the even, thin leaf that would be as hard to
// turn: 3I/r², r from the hinge axis to the latch edge. The standards' time
// formula takes the total mass, which is the cautious reading.
func EquivalentMass(i quantity.Inertia, latchEdge quantity.Length) quantity.Mass {
	return quantity.Mass(3 * float64(i) / (float64(latchEdge) * float64(latchEdge)))
}

// InPlace is the inertia of a leaf that a constant net force F at radius r
// swings from rest through Δθ in time t: I = F·r·t²/(2Δθ), which is
// Δθ = ½·(F·r/I)·t² solved for I. net is the push less the friction gauged at
// the same radius.
func InPlace(net quantity.Force, at quantity.Length, swept quantity.Angle, t quantity.Time) quantity.Inertia {
	return quantity.Inertia(float64(net) * float64(at) * float64(t) * float64(t) / (2 * float64(swept)))
}
