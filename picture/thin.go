package picture

import (
	"math"

	"swingwright/internal/draw"
)

// flat is how far a line may stray when points are left out, mm: a tenth of
// the thinnest line.
const flat = 0.02

// thinned leaves out the points without which a line stays where it is, within
// flat (Douglas and Peucker, "Algorithms for the reduction of the number of points
// required to represent a digitized line or its caricature", Cartographica 10
// (1973) 112-122).
func thinned(line []draw.Point) []draw.Point {
	if len(line) < 3 {
		return line
	}
	a, b := line[0], line[len(line)-1]
	far, most := 0, flat
	for i, p := range line {
		if d := apart(p, a, b); d > most {
			far, most = i, d
		}
	}
	if far == 0 {
		return []draw.Point{a, b}
	}
	head := thinned(line[:far+1])
	return append(head[:len(head)-1:len(head)-1], thinned(line[far:])...)
}

// apart is the distance of a point from the straight piece between two others.
func apart(p, a, b draw.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	u := 0.
	if square := dx*dx + dy*dy; square > 0 {
		u = max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/square))
	}
	return math.Hypot(p.X-a.X-u*dx, p.Y-a.Y-u*dy)
}
