package clearance

// parted tells that the line square through the middle of a shortest way from
// corner to edge has all of one core on one side and all of the other beyond.
// Then they do not overlap, and the longer search for what they share is saved.
// Convex cores that are apart always pass.
func parted(a, b []vec, n near) bool {
	d := n.b.minus(n.a)
	middle := n.a.plus(n.b).dot(d) / 2
	for _, p := range a {
		if p.dot(d) >= middle {
			return false
		}
	}
	for _, p := range b {
		if p.dot(d) <= middle {
			return false
		}
	}
	return true
}

// shared gives a point that two cores share: where their boundaries cross, or a
// corner of one that lies within the other. Boundaries that only touch are
// left to the distances from corners to edges.
func shared(a, b []vec) (vec, bool) {
	for i := range edges(a) {
		p, r := edge(a, i)
		for j := range edges(b) {
			s, t := edge(b, j)
			if at, ok := crossing(p, r, s, t); ok {
				return at, true
			}
		}
	}
	if within(a[0], b) {
		return a[0], true
	}
	if within(b[0], a) {
		return b[0], true
	}
	return vec{}, false
}

// crossing is where two segments cross, each having an end on either side of the other.
func crossing(p, r, s, t vec) (vec, bool) {
	d, e := r.minus(p), t.minus(s)
	fromS, fromT := d.cross(s.minus(p)), d.cross(t.minus(p))
	if fromS == 0 || fromT == 0 || (fromS > 0) == (fromT > 0) {
		return vec{}, false
	}
	fromP, fromR := e.cross(p.minus(s)), e.cross(r.minus(s))
	if fromP == 0 || fromR == 0 || (fromP > 0) == (fromR > 0) {
		return vec{}, false
	}
	return p.plus(d.times(fromP / (fromP - fromR))), true
}

// within tells whether a point is inside a polygon: a ray from it toward +x
// crosses the boundary an odd number of times.
func within(p vec, pts []vec) bool {
	if len(pts) < 3 {
		return false
	}
	in := false
	for i := range pts {
		a, b := edge(pts, i)
		if (a.y > p.y) != (b.y > p.y) && p.x < a.x+(p.y-a.y)/(b.y-a.y)*(b.x-a.x) {
			in = !in
		}
	}
	return in
}
