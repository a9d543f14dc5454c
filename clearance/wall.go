package clearance

import (
	"math"

	q "swingwright/quantity"
)

// WallGap is the gap that installers leave between the open leaf, with all that
// is on it, and a wall or stop: 1/2 in, common practice.
const WallGap = q.Inch / 2

// WallStop is how far the leaf opens before it comes as near as keep to a wall
// beside the hinges, which runs square to the closed leaf at a distance from the
// pin. It gives that angle and what comes near first, the empty name being the
// leaf itself. ok is false where the leaf turns right round without coming so near.
//
// A corner at distance ρ and direction β from the pin has x = ρ cos(θ + β), which
// falls to −(wall − keep) at θ = arccos(−(wall − keep)/ρ) − β.
func WallStop(l Leaf, wall, keep q.Length, on ...Projection) (theta q.Angle, first string, ok bool) {
	room := float64(wall - keep)
	least := math.Inf(1)
	meet := func(name string, corners [4]Point) {
		for _, c := range corners {
			if at, ok := cornerStop(c.vec(), room); ok && at < least {
				least, first = at, name
			}
		}
	}
	meet("", l.corners())
	for _, p := range on {
		meet(p.Name, p.corners(l))
	}
	return q.Angle(least), first, !math.IsInf(least, 1)
}

// WallLeft is what is left at leaf angle theta between the leaf with all that is
// on it and a wall as in WallStop, and what comes nearest to it, the empty name
// being the leaf itself; below zero where that would stand in the wall.
func WallLeft(l Leaf, wall q.Length, theta q.Angle, on ...Projection) (left q.Length, first string) {
	least := math.Inf(1)
	look := func(name string, corners [4]Point) {
		for _, c := range corners {
			if x := c.vec().turned(float64(theta)).x; x < least {
				least, first = x, name
			}
		}
	}
	look("", l.corners())
	for _, p := range on {
		look(p.Name, p.corners(l))
	}
	return wall + q.Length(least), first
}

// cornerStop is the first angle from closed on at which a corner of the leaf is at x = −room or beyond.
func cornerStop(c vec, room float64) (float64, bool) {
	rho := c.length()
	switch {
	case c.x <= -room:
		return 0, true
	case rho < room:
		return 0, false
	}
	return math.Max(0, math.Acos(-room/rho)-math.Atan2(c.y, c.x)), true
}

// meetWall finds where a body on the leaf first meets a half-plane, seen as a
// wall at x = −room: the first of its corners does.
func (p *pair) meetWall(from, to, keep float64) run {
	wall := &p.other.shape
	room := wall.pts[0].dot(wall.solid) - wall.round - p.mover.shape.round - keep
	turn := from + math.Atan2(wall.solid.y, -wall.solid.x) // takes solid to −x
	best := run{theta: to}
	for _, c := range p.mover.shape.pts {
		at, ok := cornerStop(c.turned(turn), room)
		if ok && from+at < best.theta {
			at += from
			best = run{at, touched, c.turned(at).plus(wall.solid.times(p.mover.shape.round))}
		}
	}
	return best
}
