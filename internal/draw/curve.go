package draw

import "math"

// flatness is how far a chord may lie from its arc, mm: below what a printer shows.
const flatness = 0.01

// point is the point of the circle in the given direction.
func (a Arc) point(direction float64) Point {
	sin, cos := math.Sincos(direction)
	return Point{a.Center.X + a.Radius*cos, a.Center.Y + a.Radius*sin}
}

// ArcPoints are points along the arc, both ends included, so close that a line
// through them lies within 0.01 mm of it: for outlines that are part straight,
// part round.
func ArcPoints(a Arc) []Point {
	sweep := a.To - a.From
	n := 2
	if a.Radius > flatness {
		n = max(n, int(math.Ceil(math.Abs(sweep)/(2*math.Acos(1-flatness/a.Radius)))))
	}
	points := make([]Point, n+1)
	for i := range points {
		points[i] = a.point(a.From + sweep*float64(i)/float64(n))
	}
	return points
}

// outline is the circle as a closed path.
func (c Circle) outline() Path {
	points := ArcPoints(Arc{Center: c.Center, Radius: c.Radius, To: 2 * math.Pi})
	return Path{Points: points[:len(points)-1], Closed: true, Style: c.Style}
}

// outline is the arc as an open path.
func (a Arc) outline() Path {
	style := a.Style
	style.Fill.A = 0
	return Path{Points: ArcPoints(a), Style: style}
}
