package draw

import "math"

// Part is what lies between two levels of a scene, mm from its lower edge, as a scene of
// its own, to be printed by itself. Outlines end at the levels; a text is there whole or
// not at all, so that nobody reads half a word: see [Levels] for those that cross
// none.
func (s *Scene) Part(low, high float64) *Scene {
	p := &Scene{Width: s.Width, Height: high - low, Title: s.Title, Description: s.Description, ID: s.ID}
	band := Box{Point{math.Inf(-1), low}, Point{math.Inf(1), high}}
	for _, item := range s.Items {
		b := reach(item)
		switch inside := b.Min.Y >= low && b.Max.Y <= high; {
		case b.Max.Y < low || b.Min.Y > high:
		case inside:
			p.Add(lowered(item, low))
		default:
			p.Add(cut(item, band)...)
		}
	}
	return p
}

// reach is how far an item goes: a text from its descenders to its capitals.
func reach(item Item) Box {
	if t, ok := item.(Text); ok {
		return t.box(-0.3, 1.1)
	}
	return Bounds(item)
}

// cut is what of an item lies in a band over the whole width, the lower edge of which
// becomes zero.
func cut(item Item, band Box) (all []Item) {
	var points []Point
	var style Style
	title, closed := "", true
	switch it := item.(type) {
	case Path:
		points, style, title, closed = it.Points, it.Style, it.Title, it.Closed
	case Circle:
		points, style, title = ArcPoints(Arc{Center: it.Center, Radius: it.Radius, To: 2 * math.Pi}), it.Style, it.Title
	case Arc:
		points, style, title, closed = ArcPoints(it), it.Style, it.Title, false
	default:
		return nil // a text that is not whole
	}
	if ground := style; closed && style.Fill.A > 0 {
		ground.Width = 0
		if area := between(points, band); len(area) > 2 {
			all = append(all, lowered(Path{Points: area, Closed: true, Style: ground, Title: title}, band.Min.Y))
		}
	}
	style.Fill.A = 0
	style.Fill.R, style.Fill.G, style.Fill.B = 0, 0, 0
	if style.Width == 0 {
		return all
	}
	if closed && len(points) > 0 {
		points = append(points[:len(points):len(points)], points[0])
	}
	for _, run := range band.clip(points) {
		all = append(all, lowered(Path{Points: run, Style: style, Title: title}, band.Min.Y))
	}
	return all
}

// between is the part of a polygon in a band (Sutherland, Hodgman, "Reentrant polygon
// clipping", Comm. ACM 17 (1974) 32-42), by its lower level and then by its upper one.
func between(points []Point, band Box) []Point {
	for _, side := range [2]struct{ level, sign float64 }{{band.Min.Y, 1}, {band.Max.Y, -1}} {
		var kept []Point
		for i, q := range points {
			p := points[(i+len(points)-1)%len(points)]
			in, was := side.sign*(q.Y-side.level) >= 0, side.sign*(p.Y-side.level) >= 0
			if in != was {
				kept = append(kept, Point{p.X + (side.level-p.Y)/(q.Y-p.Y)*(q.X-p.X), side.level})
			}
			if in {
				kept = append(kept, q)
			}
		}
		points = kept
	}
	return points
}

// lowered is an item moved down, mm.
func lowered(item Item, by float64) Item {
	down := func(p Point) Point { return Point{p.X, p.Y - by} }
	switch it := item.(type) {
	case Path:
		points := make([]Point, len(it.Points))
		for i, p := range it.Points {
			points[i] = down(p)
		}
		it.Points = points
		return it
	case Circle:
		it.Center = down(it.Center)
		return it
	case Arc:
		it.Center = down(it.Center)
		return it
	case Text:
		it.At = down(it.At)
		return it
	}
	return item
}

// Levels are how far up and down every item of a scene goes.
type Levels struct {
	texts  []Box
	shapes []Box // closed ones
}

// Levels looks at the items of a scene.
func (s *Scene) Levels() *Levels {
	l := &Levels{}
	for _, item := range s.Items {
		switch it := item.(type) {
		case Text:
			l.texts = append(l.texts, reach(it))
		case Path:
			if it.Closed {
				l.shapes = append(l.shapes, reach(it))
			}
		}
	}
	return l
}

// Crossed tells how many texts, and how many closed shapes, a level cuts through, mm
// from the lower edge of the scene. Shapes higher than most are not counted.
func (l *Levels) Crossed(level, most float64) (texts, shapes int) {
	for _, b := range l.texts {
		if b.Min.Y < level && level < b.Max.Y {
			texts++
		}
	}
	for _, b := range l.shapes {
		if b.Min.Y < level && level < b.Max.Y && b.Max.Y-b.Min.Y <= most {
			shapes++
		}
	}
	return texts, shapes
}

// Over is the upper end of the highest text that a level cuts through, mm from the lower
// edge; the level itself where it cuts through none.
func (l *Levels) Over(level float64) float64 {
	high := level
	for _, b := range l.texts {
		if b.Min.Y < level && level < b.Max.Y {
			high = max(high, b.Max.Y)
		}
	}
	return high
}

// Smallest is the height of the capitals of the smallest text, mm; infinite without one.
func (s *Scene) Smallest() float64 {
	least := math.Inf(1)
	for _, item := range s.Items {
		if t, ok := item.(Text); ok && t.Body != "" {
			least = min(least, t.Height)
		}
	}
	return least
}

// Under is how many lines and outlines of some items run below the letters of a text, or
// close by.
func Under(t Text, items []Item) (n int) {
	const rim = 0.6 // mm
	b := t.box(-0.3, 1.1)
	b = around([]Point{b.Min, b.Max}, rim)
	for _, item := range items {
		var points []Point
		switch it := item.(type) {
		case Path:
			if it.Width == 0 || !Bounds(it).meets(b) {
				continue
			}
			points = it.Points
			if it.Closed && len(points) > 0 {
				points = append(points[:len(points):len(points)], points[0])
			}
		case Circle:
			points = ArcPoints(Arc{Center: it.Center, Radius: it.Radius, To: 2 * math.Pi})
		case Arc:
			if !Bounds(it).meets(b) {
				continue
			}
			points = ArcPoints(it)
		}
		if len(b.clip(points)) > 0 {
			n++
		}
	}
	return n
}
