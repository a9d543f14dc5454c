package clearance

import q "swingwright/quantity"

// Apart is the shortest way at leaf angle theta from something that moves to
// something on the frame. ok is false where they share no height, or where a link
// is out of reach.
func Apart(moving, fixed Body, theta q.Angle) (gap Gap, ok bool) {
	if !moving.band.Meets(fixed.band) {
		return Gap{}, false
	}
	p := pair{mover: &moving, other: &fixed}
	n, ok := p.look(float64(theta), 0)
	return Gap{q.Length(n.gap), moving.name, fixed.name, n.a.point(), n.b.point()}, ok
}

// Nearest is the smallest of the ways from any of the things that move to any of
// those on the frame, at leaf angle theta, with the places of the two in
// their lists; ok is false where no two share a height.
func Nearest(moving, fixed []Body, theta q.Angle) (gap Gap, mover, other int, ok bool) {
	for i := range moving {
		for j := range fixed {
			if g, near := Apart(moving[i], fixed[j], theta); near && (!ok || g.Distance < gap.Distance) {
				gap, mover, other, ok = g, i, j, true
			}
		}
	}
	return gap, mover, other, ok
}
