package clearance

import q "swingwright/quantity"

// A Width is how wide the way through the opening is, measured along the
// closed leaf. Widths below zero mean that no way is left.
type Width struct {
	// Bare is from the leaf to the latch stop, or from stop to stop where the
	// leaf stands clear of the hinge stop.
	Bare q.Length
	// ToLeaf is from the leaf to the latch stop, whatever the hinge stop does.
	ToLeaf q.Length
	// Net is Bare less what the projections take of it.
	Net q.Length
	// Cuts are the projections that take something of it, in the order given.
	Cuts []Cut
}

// A Cut is how far one projection reaches into the bare width, and where in height.
type Cut struct {
	Name    string
	Into    q.Length
	Heights Band
}

// ClearWidth reckons the clear width with the leaf open by theta. With the
// leaf at 90° ToLeaf is the distance "between the face of the door and the
// stop" of the 2010 ADA Standards, 404.2.3.
//
// Of a leaf open by less than 90° the push corner at the latch edge reaches
// farthest, to x = (e + w) cos θ + (g + t) sin θ with pin at e from the edge and g
// from the pull face; at 90° and on the push corner at the hinge edge, to e cos θ +
// (g + t) sin θ. The latch stop stands at e − hinge gap + frame width − stop. Of
// swing-clear hinges e and g are such that the leaf stands behind the stop at 90°.
func ClearWidth(l Leaf, f Frame, theta q.Angle, on ...Projection) Width {
	stop := float64(f.LatchStopAt(l))
	leaf := farthest(l.corners(), float64(theta))
	edge := max(leaf, float64(f.hingeJamb(l)+f.HingeStop))
	w := Width{Bare: q.Length(stop - edge), ToLeaf: q.Length(stop - leaf)}
	reach := edge
	for _, p := range on {
		at := farthest(p.corners(l), float64(theta))
		if at <= edge {
			continue
		}
		reach = max(reach, at)
		w.Cuts = append(w.Cuts, Cut{p.Name, q.Length(at - edge), p.Heights})
	}
	w.Net = q.Length(stop - reach)
	return w
}
