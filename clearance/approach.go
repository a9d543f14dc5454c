package clearance

import q "swingwright/quantity"

// An Area is a rectangle along the axes, between two opposite corners.
type Area struct{ A, B Point }

func (a Area) x() (q.Length, q.Length) { return min(a.A.X, a.B.X), max(a.A.X, a.B.X) }

// An Approach is the floor before a doorway on one side, with what stands on
// it. It measures in the two directions of the 2010 ADA Standards,
// Table 404.2.4.1: perpendicular to the doorway, and parallel to it beyond the latch
// or hinge side. Things that touch the space asked for take no part of it.
type Approach struct {
	// Side is the side of the doorway.
	Side Side
	// Hinge and Latch are where the doorway begins and ends, along +x; Hinge is below Latch.
	Hinge, Latch q.Length
	// Face is the place across, on the y axis, from which depth is measured:
	// the face of the closed leaf on this side.
	Face q.Length
	// Blocks are walls, furniture and whatever else stands on the floor. What
	// only frames a shallow recess, which Stands measures, is for the caller to leave out.
	Blocks []Area
	// Far is how far the floor was surveyed: the answer where nothing nearer stands.
	Far q.Length
}

// depth is how far out from the face a block begins and ends.
func (a Approach) depth(b Area) (from, to q.Length) {
	from, to = b.A.Y-a.Face, b.B.Y-a.Face
	if a.Side == Push {
		from, to = -from, -to
	}
	return min(from, to), max(from, to)
}

// Depth is the clear depth perpendicular to the doorway, over the doorway's
// width and as far again as the two distances beyond its hinge and latch sides.
func (a Approach) Depth(beyondHinge, beyondLatch q.Length) q.Length {
	clear := a.Far
	for _, b := range a.Blocks {
		left, right := b.x()
		from, to := a.depth(b)
		if to > 0 && right > a.Hinge-beyondHinge && left < a.Latch+beyondLatch {
			clear = min(clear, max(from, 0))
		}
	}
	return clear
}

// BeyondLatch is the clear distance parallel to the doorway beyond its latch
// side, to a given depth. ok is false when the doorway's own width is not
// clear to that depth.
func (a Approach) BeyondLatch(depth q.Length) (clear q.Length, ok bool) {
	return a.beside(depth, func(left, _ q.Length) q.Length { return left - a.Latch })
}

// BeyondHinge is the same beyond the hinge side.
func (a Approach) BeyondHinge(depth q.Length) (clear q.Length, ok bool) {
	return a.beside(depth, func(_, right q.Length) q.Length { return a.Hinge - right })
}

// beside finds the nearest block on one side of a doorway that is itself clear:
// off is how far to that side a block begins, below zero for those on the other side.
func (a Approach) beside(depth q.Length, off func(left, right q.Length) q.Length) (q.Length, bool) {
	if a.Depth(0, 0) < depth {
		return 0, false
	}
	clear := a.Far
	for _, b := range a.Blocks {
		from, to := a.depth(b)
		if d := off(b.x()); d >= 0 && to > 0 && max(from, 0) < depth {
			clear = min(clear, d)
		}
	}
	return clear, true
}

// Stands is how far anything that begins within a distance beyond the latch
// side stands out from the face of the closed leaf: what 404.2.4.3 of the same
// Standards, recessed doors, looks at.
func (a Approach) Stands(within q.Length) q.Length {
	var most q.Length
	for _, b := range a.Blocks {
		left, right := b.x()
		if _, to := a.depth(b); right > a.Latch && left < a.Latch+within {
			most = max(most, to)
		}
	}
	return most
}
