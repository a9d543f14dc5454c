package clearance

import "math"

// An outline is what one thing covers in the plan: its core, grown on all sides
// by round. The core is a point, a segment, or a filled polygon without
// crossings; or, when solid is not zero, all that lies beyond the line through
// its one point, on the side to which the unit vector solid looks.
type outline struct {
	pts   []vec
	round float64 // m
	solid vec
}

func (o *outline) half() bool { return o.solid != vec{} }

// edges is how many segments bound the core. A point counts as a segment of no length.
func edges(pts []vec) int {
	if len(pts) <= 2 {
		return 1
	}
	return len(pts)
}

func edge(pts []vec, i int) (vec, vec) {
	if i+1 < len(pts) {
		return pts[i], pts[i+1]
	}
	return pts[i], pts[0]
}

// span is the least and the greatest distance of an outline from the hinge
// pin. Turning about the pin leaves both as they are.
func (o *outline) span() (least, most float64) {
	pin := outline{pts: []vec{{}}}
	least = between(&pin, o).gap
	if o.half() {
		return least, math.Inf(1)
	}
	for _, p := range o.pts {
		most = math.Max(most, p.length())
	}
	return least, most + o.round
}

// A near is the shortest way between two outlines.
type near struct {
	gap  float64 // m; 0 where they touch or overlap
	a, b vec     // its ends, on the first outline and on the second
}

// between finds the shortest way from a, which must not be a half-plane, to b.
func between(a, b *outline) near {
	var n near
	if b.half() {
		n = coreToHalf(a.pts, b)
	} else {
		n = coreToCore(a.pts, b.pts)
	}
	round := a.round + b.round
	if n.gap <= 0 || round == 0 {
		return n
	}
	along := n.b.minus(n.a).times(1 / n.gap)
	n.a = n.a.plus(along.times(math.Min(a.round, n.gap)))
	if n.gap <= round {
		return near{0, n.a, n.a} // within both
	}
	n.b = n.b.minus(along.times(b.round))
	n.gap -= round
	return n
}

func coreToHalf(pts []vec, b *outline) near {
	n := near{gap: math.Inf(1)}
	for _, p := range pts {
		if d := b.pts[0].minus(p).dot(b.solid); d < n.gap {
			n = near{d, p, p.plus(b.solid.times(math.Max(d, 0)))}
		}
	}
	n.gap = math.Max(n.gap, 0)
	return n
}

// coreToCore tries every corner of one against every edge of the other. Where
// no boundary crosses, the shortest way always starts at a corner.
func coreToCore(a, b []vec) near {
	best, n := cornersToEdges(a, b)
	if other, m := cornersToEdges(b, a); other < best {
		best, n = other, near{a: m.b, b: m.a}
	}
	if best == 0 {
		return n
	}
	if !parted(a, b, n) {
		if at, ok := shared(a, b); ok {
			return near{0, at, at}
		}
	}
	n.gap = math.Sqrt(best)
	return n
}

// cornersToEdges finds the shortest way from the corners of one core to the
// edges of another, and the square of its length. Its loop is the inner one of
// every sweep, so it keeps its own sums.
func cornersToEdges(corners, pts []vec) (float64, near) {
	best := math.Inf(1)
	var n near
	for j := range edges(pts) {
		from, to := edge(pts, j)
		along := to.minus(from)
		inverse := 0.0 // of the square of the edge's length
		if l := square(along); l > 0 {
			inverse = 1 / l
		}
		for _, p := range corners {
			foot := from
			switch t := p.minus(from).dot(along) * inverse; {
			case t >= 1:
				foot = to
			case t > 0:
				foot = from.plus(along.times(t))
			}
			if d := square(foot.minus(p)); d < best {
				best, n.a, n.b = d, p, foot
			}
		}
	}
	return best, n
}

func square(v vec) float64 { return v.x*v.x + v.y*v.y }

// foot is the point of an edge that is nearest to p.
func foot(p vec, pts []vec, i int) vec {
	from, to := edge(pts, i)
	d := to.minus(from)
	t := p.minus(from).dot(d)
	if t <= 0 {
		return from
	}
	l := square(d)
	if t >= l {
		return to
	}
	return from.plus(d.times(t / l))
}
