package draw

import "math"

// A stroke is the area that a pen of the path's width covers: butt ends, round
// joins, as contours that all turn the same way.
func (p Path) stroke() [][]Point {
	if p.Width <= 0 {
		return nil
	}
	if len(p.Dash) == 0 {
		return outline(p.Points, p.Closed, p.Width/2)
	}
	var all [][]Point
	for _, mark := range marks(p.Points, p.Closed, p.Dash) {
		all = append(all, outline(mark, false, p.Width/2)...)
	}
	return all
}

// distinct leaves out points that repeat the one before.
func distinct(points []Point, closed bool) []Point {
	var kept []Point
	for _, q := range points {
		if len(kept) == 0 || q != kept[len(kept)-1] {
			kept = append(kept, q)
		}
	}
	if n := len(kept); closed && n > 1 && kept[0] == kept[n-1] {
		kept = kept[:n-1]
	}
	return kept
}

// marks cuts a line into the marks of a dash pattern.
func marks(points []Point, closed bool, dash []float64) [][]Point {
	if closed && len(points) > 0 {
		points = append(points[:len(points):len(points)], points[0])
	}
	var all [][]Point
	mark, i, left := true, 0, dash[0]
	for k := 1; k < len(points); k++ {
		a, b := points[k-1], points[k]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		if mark && k == 1 {
			all = append(all, []Point{a})
		}
		done := 0.
		for length-done > left {
			done += left
			u := done / length
			q := Point{a.X + u*(b.X-a.X), a.Y + u*(b.Y-a.Y)}
			if mark {
				all[len(all)-1] = append(all[len(all)-1], q)
			} else {
				all = append(all, []Point{q})
			}
			mark, i = !mark, i+1
			left = dash[i%len(dash)]
		}
		left -= length - done
		if mark {
			all[len(all)-1] = append(all[len(all)-1], b)
		}
	}
	return all
}

// outline goes along the left side of a line and back along the right; a
// closed line has an outline on either side. r is half the width.
func outline(points []Point, closed bool, r float64) [][]Point {
	points = distinct(points, closed)
	n := len(points)
	if n < 2 {
		return nil
	}
	back := make([]Point, n)
	for i, q := range points {
		back[n-1-i] = q
	}
	if closed && n > 2 {
		return [][]Point{side(points, true, r), side(back, true, r)}
	}
	return [][]Point{append(side(points, false, r), side(back, false, r)...)}
}

// side is the line at distance r to the left, with a round join where the line
// turns right.
func side(points []Point, closed bool, r float64) []Point {
	n := len(points)
	normal := func(i int) Point { // to the left of the piece that begins at point i
		a, b := points[i%n], points[(i+1)%n]
		length := math.Hypot(b.X-a.X, b.Y-a.Y)
		return Point{-(b.Y - a.Y) / length * r, (b.X - a.X) / length * r}
	}
	var out []Point
	add := func(at, by Point) { out = append(out, Point{at.X + by.X, at.Y + by.Y}) }
	first, last := 0, n-1
	if closed {
		last = n
	} else {
		add(points[0], normal(0))
		first = 1
	}
	for i := first; i < last; i++ {
		join(add, points[i], normal((i+n-1)%n), normal(i), r)
	}
	if !closed {
		add(points[n-1], normal(n-2))
	}
	return out
}

// join leads round a corner from offset a to offset b.
func join(add func(at, by Point), corner, a, b Point, r float64) {
	turn := math.Atan2(a.X*b.Y-a.Y*b.X, a.X*b.X+a.Y*b.Y)
	if turn > 3.1 {
		turn -= 2 * math.Pi // straight back: round on this side too
	}
	switch {
	case math.Abs(turn) < 0.2: // nearly straight: one point where the sides meet
		k := 1 / (1 + (a.X*b.X+a.Y*b.Y)/(r*r))
		add(corner, Point{k * (a.X + b.X), k * (a.Y + b.Y)})
	case turn > 0: // inside: by way of the corner, so that all stays covered
		add(corner, a)
		add(corner, Point{})
		add(corner, b)
	default:
		from := math.Atan2(a.Y, a.X)
		out := ArcPoints(Arc{Radius: r, From: from, To: from + turn})
		for _, q := range out {
			add(corner, q)
		}
	}
}
