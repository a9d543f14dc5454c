package clearance

import q "swingwright/quantity"

// A Gap is the shortest way at one leaf angle between a thing on the frame and
// what comes nearest to it.
type Gap struct {
	// Distance is zero where they touch or overlap.
	Distance q.Length
	// Moving rides on the leaf or is a link; Fixed is on the frame.
	Moving, Fixed string
	// From is the near end on Moving, To the one on Fixed.
	From, To Point
}

// Gaps measures, at leaf angle theta, from each thing on the frame to the
// nearest thing that moves and shares a height with it, in the order of the
// bodies. Things that share no height with anything that moves, and links that
// are out of reach, are left out.
func (s *Scene) Gaps(theta q.Angle) []Gap {
	var out []Gap
	for i := range s.bodies {
		if g, ok := s.nearest(&s.bodies[i], theta); ok {
			out = append(out, g)
		}
	}
	return out
}

// Nearest is the smallest of the Gaps; ok is false when there is none.
func (s *Scene) Nearest(theta q.Angle) (Gap, bool) {
	var best Gap
	found := false
	for i := range s.bodies {
		if g, ok := s.nearest(&s.bodies[i], theta); ok && (!found || g.Distance < best.Distance) {
			best, found = g, true
		}
	}
	return best, found
}

func (s *Scene) nearest(fixed *Body, theta q.Angle) (best Gap, found bool) {
	for i := range s.pairs {
		p := &s.pairs[i]
		if p.other != fixed || p.inLeaf {
			continue
		}
		n, ok := p.look(float64(theta), 0)
		if d := q.Length(n.gap); ok && (!found || d < best.Distance) {
			best, found = Gap{d, p.mover.name, fixed.name, n.a.point(), n.b.point()}, true
		}
	}
	return best, found
}
