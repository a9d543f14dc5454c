package leaf

import (
	"swingwright/opening"
	"swingwright/quantity"
)

// HingePull is the force with which a leaf pulls at its top hinge and pushes into
// its bottom one, these being span apart: its weight and that of what is fixed to
// it, each times its distance from the hinge axis, over span. The weight itself
// hangs on all hinges together.
func HingePull(slab quantity.Mass, s Slab, on []opening.Hardware, span quantity.Length) quantity.Force {
	moment := float64(slab) * (float64(s.PinToEdge) + float64(s.Width)/2)
	for _, h := range on {
		moment += float64(h.Weight.Value) * float64(h.FromHinge.Value)
	}
	return quantity.Force(moment * quantity.StandardGravity / float64(span))
}
