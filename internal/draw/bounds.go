package draw

import "math"

// Bounds is an upright box that holds all of an item, mm; it may be somewhat too large.
func Bounds(item Item) Box {
	switch it := item.(type) {
	case Path:
		return around(it.Points, it.Width)
	case Circle:
		r := it.Radius + it.Width
		return Box{Point{it.Center.X - r, it.Center.Y - r}, Point{it.Center.X + r, it.Center.Y + r}}
	case Arc:
		r := it.Radius + it.Width
		return Box{Point{it.Center.X - r, it.Center.Y - r}, Point{it.Center.X + r, it.Center.Y + r}}
	case Text:
		return it.bounds()
	}
	return Box{}
}

// bounds of a text, from below its descenders to above its accents, turned about its place.
func (t Text) bounds() Box {
	b := t.box(-0.4, 1.4)
	return around([]Point{b.Min, b.Max}, 2*t.Halo)
}

// box is an upright box of a text between two levels, in heights of its capitals above
// its base line, turned about its place.
func (t Text) box(low, high float64) Box {
	sin, cos := math.Sincos(t.Rotation)
	width, at := t.Width(), t.baseline()
	left := -[...]float64{Start: 0, Middle: 0.5, End: 1}[t.Anchor] * width
	var corners []Point
	for _, x := range []float64{left, left + width} {
		for _, y := range []float64{low * t.Height, high * t.Height} {
			corners = append(corners, Point{at.X + x*cos - y*sin, at.Y + x*sin + y*cos})
		}
	}
	return around(corners, 0)
}

// around is the box of some points, wider by a rim.
func around(points []Point, rim float64) Box {
	b := Box{Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}}
	for _, p := range points {
		b.Min = Point{min(b.Min.X, p.X-rim), min(b.Min.Y, p.Y-rim)}
		b.Max = Point{max(b.Max.X, p.X+rim), max(b.Max.Y, p.Y+rim)}
	}
	return b
}

// meets tells boxes that have a point in common.
func (b Box) meets(o Box) bool {
	return b.Min.X <= o.Max.X && o.Min.X <= b.Max.X && b.Min.Y <= o.Max.Y && o.Min.Y <= b.Max.Y
}
