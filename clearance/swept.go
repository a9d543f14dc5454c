package clearance

import (
	"math"

	q "swingwright/quantity"
)

// ToSweep is the shortest distance from a polygon with the given corners (or
// from a point, or a segment) to the floor that the leaf sweeps while it opens
// from closed to an angle: all places at which the bare leaf is at any angle
// between. It is zero where they touch or overlap, and exact.
func (l Leaf) ToSweep(open q.Angle, corners ...Point) q.Length {
	pts := make([]vec, len(corners))
	for i, c := range corners {
		pts[i] = c.vec()
	}
	return q.Length(l.toSweep(float64(open), pts))
}

// toSweep uses that the leaf comes nearest at an end of the swing or else with
// a corner: with one of its own, which runs along an arc, or with an edge at a
// corner of the polygon, which seen from the leaf runs along an arc the other way.
func (l Leaf) toSweep(open float64, pts []vec) float64 {
	if len(pts) == 0 {
		return math.Inf(1)
	}
	var closed, opened [4]vec
	for i, c := range l.corners() {
		closed[i], opened[i] = c.vec(), c.vec().turned(open)
	}
	least := math.Min(coreToCore(closed[:], pts).gap, coreToCore(opened[:], pts).gap)
	for _, p := range closed {
		least = math.Min(least, arcToCore(p, open, pts))
	}
	for _, p := range pts {
		least = math.Min(least, arcToCore(p, -open, closed[:]))
	}
	return least
}

// arcToCore is the shortest distance between the path of a point that turns
// about the pin and the edges of a core.
func arcToCore(p vec, turn float64, pts []vec) float64 {
	least := math.Inf(1)
	for i := range edges(pts) {
		least = math.Min(least, arcToEdge(p, turn, pts, i))
	}
	return least
}

// arcToEdge is zero where the edge crosses the arc. Otherwise the shortest way
// leaves from an end of the arc, or runs along a ray from the pin to the end of
// the edge or to its point nearest to the pin.
func arcToEdge(p vec, turn float64, pts []vec, i int) float64 {
	rho := p.length()
	a, b := edge(pts, i)
	middle := foot(vec{}, pts, i)
	end := p.turned(turn)
	least := math.Min(p.minus(foot(p, pts, i)).length(), end.minus(foot(end, pts, i)).length())
	for _, s := range [...]vec{a, b, middle} {
		if passes(p, turn, s) {
			least = math.Min(least, math.Abs(s.length()-rho))
		}
	}
	for _, s := range [...]vec{a, b} {
		if at, ok := reaches(middle, s, rho); ok && passes(p, turn, at) {
			return 0
		}
	}
	return least
}

// reaches is the point at distance rho from the pin on the way from the point
// of an edge that is nearest to the pin to one of its ends.
func reaches(nearest, s vec, rho float64) (vec, bool) {
	if nearest.length() > rho || s.length() < rho {
		return vec{}, false
	}
	// |nearest + k d| = rho, of which the root at or above zero is wanted.
	d := s.minus(nearest)
	along, l := nearest.dot(d), square(d)
	if l == 0 {
		return s, true
	}
	k := (math.Sqrt(math.Max(0, along*along+l*(rho*rho-square(nearest)))) - along) / l
	return nearest.plus(d.times(math.Min(k, 1))), true
}

// passes tells whether a point that starts at p and turns about the pin comes
// to lie in the direction of s.
func passes(p vec, turn float64, s vec) bool {
	ahead := math.Atan2(p.cross(s), p.dot(s))
	if turn < 0 {
		ahead, turn = -ahead, -turn
	}
	if ahead < 0 {
		ahead += 2 * math.Pi
	}
	return ahead <= turn
}
