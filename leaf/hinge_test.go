package leaf

import (
	"math"
	"testing"

	"swingwright/opening"
	"swingwright/quantity"
)

// An example of the trade, worked by hand and printed to 0.1 lbf: 3-0 × 7-0 of
// 120 lb on hinges 64.5 in apart pulls with 33.5 lbf; a unit of 20 lb, 10 in from the
// hinge, adds 3.1 lbf, 9 %.
func TestHingePullExample(t *testing.T) {
	const in = quantity.Inch
	s := Slab{Width: 36 * in, Height: 84 * in}
	bare := float64(HingePull(120*quantity.Pound, s, nil, 64.5*in) / quantity.PoundForce)
	unit := opening.Hardware{Weight: quantity.Exactly(20 * quantity.Pound), FromHinge: quantity.Exactly(10 * in)}
	more := float64(HingePull(120*quantity.Pound, s, []opening.Hardware{unit}, 64.5*in)/quantity.PoundForce) - bare
	if math.Abs(bare-33.5) > 0.051 || math.Abs(more-3.1) > 0.051 || math.Abs(more/bare-0.09) > 0.005 {
		t.Errorf("%.3f lbf and %.3f lbf more, want 33.5 and 3.1", bare, more)
	}
}
