package draw

import "math"

// Box is an upright rectangle, mm.
type Box struct{ Min, Max Point }

// clip returns the runs of the line that lie inside the box. Points that are
// not finite interrupt the line.
func (b Box) clip(points []Point) [][]Point {
	var runs [][]Point
	open := false // whether the last run ends at the point before
	for i := 1; i < len(points); i++ {
		from, to, ok := b.cut(points[i-1], points[i])
		if !ok {
			open = false
			continue
		}
		if !open {
			runs = append(runs, []Point{from})
		}
		last := len(runs) - 1
		runs[last] = append(runs[last], to)
		open = to == points[i]
	}
	return runs
}

// cut returns the part of a straight piece inside the box (Liang, Barsky, "A
// new concept and method for line clipping", ACM Trans. Graph. 3 (1984) 1-22).
func (b Box) cut(p, q Point) (from, to Point, ok bool) {
	dx, dy := q.X-p.X, q.Y-p.Y
	if d := dx + dy; math.IsNaN(d) || math.IsInf(d, 0) {
		return p, q, false
	}
	enter, leave := 0., 1.
	for _, side := range [4][2]float64{{-dx, p.X - b.Min.X}, {dx, b.Max.X - p.X}, {-dy, p.Y - b.Min.Y}, {dy, b.Max.Y - p.Y}} {
		toward, room := side[0], side[1]
		switch {
		case toward == 0 && room < 0:
			return p, q, false
		case toward < 0:
			enter = max(enter, room/toward)
		case toward > 0:
			leave = min(leave, room/toward)
		}
	}
	if enter > leave {
		return p, q, false
	}
	from, to = p, q
	if enter > 0 {
		from = Point{p.X + enter*dx, p.Y + enter*dy}
	}
	if leave < 1 {
		to = Point{p.X + leave*dx, p.Y + leave*dy}
	}
	return from, to, true
}
