package leaf

import (
	"math"
	"testing"

	"pgregory.net/rapid"
	_ "swingwright/internal/steady"
	"swingwright/quantity"
)

// The radius of gyration squared is the mean of x² + y² over the slab, here by
// Gauss's rule of two points each way, which is exact for squares.
func TestGyrationIsTheMeanSquare(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) quantity.Length {
			return quantity.Length(rapid.Float64Range(low, high).Draw(t, name))
		}
		s := Slab{
			Width: draw("width", 0.3, 1.5), Height: 2, Thickness: draw("thickness", 0.01, 0.1),
			PinToEdge: draw("pin to edge", -0.02, 0.1), PinToFace: draw("pin to face", -0.02, 0.1),
		}
		sum := 0.0
		for _, a := range []float64{-1, 1} {
			for _, b := range []float64{-1, 1} {
				x := float64(s.PinToEdge) + float64(s.Width)/2*(1+a/math.Sqrt(3))
				y := float64(s.PinToFace) + float64(s.Thickness)/2*(1+b/math.Sqrt(3))
				sum += (x*x + y*y) / 4
			}
		}
		if k := float64(s.Gyration()); math.Abs(k*k/sum-1) > 1e-12 {
			t.Errorf("k² = %g, mean square %g", k*k, sum)
		}
	})
}

// A thin leaf hung on its edge is its own equivalent.
func TestEquivalentMassOfAThinLeaf(t *testing.T) {
	s := Slab{Width: 0.9, Height: 2.1}
	k := float64(s.Gyration())
	if m := EquivalentMass(quantity.Inertia(50*k*k), 0.9); math.Abs(float64(m)-50) > 1e-12 {
		t.Errorf("a thin leaf of 50 kg counts as %g kg", m)
	}
}

// An example of the trade: 36 in leaf of 120 lb, pushed at 33 in with a net
// 2.0 lbf through 60°, takes 2.06 s; with 0.5 lbf of friction 2.38 s. Times are
// printed to 0.01 s, which is 1 % of the mass.
func TestFreePushExample(t *testing.T) {
	const in, lbf = quantity.Inch, quantity.PoundForce
	for _, c := range []struct {
		net quantity.Force
		t   quantity.Time
	}{{2.0 * lbf, 2.06}, {1.5 * lbf, 2.38}} {
		i := InPlace(c.net, 33*in, 60*quantity.Degree, c.t)
		if m := EquivalentMass(i, 36*in) / quantity.Pound; math.Abs(float64(m)/120-1) > 0.01 {
			t.Errorf("%g N for %g s weighs %.1f lb, want 120 lb", c.net, c.t, m)
		}
	}
}

// 21 ft² at 5.7 lb/ft² make about 120 lb (common practice).
func TestByRule(t *testing.T) {
	if m := ByRule(3*quantity.Foot, 7*quantity.Foot) / quantity.Pound; math.Abs(float64(m)-119.7) > 1e-9 {
		t.Errorf("a 3-0 × 7-0 weighs %.2f lb, want 119.7 lb", m)
	}
}
