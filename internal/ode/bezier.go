package ode

// bezier holds the six Bernstein coefficients of a polynomial of degree five
// over the unit interval (Farin, "Curves and Surfaces for CAGD", 5th ed. 2002,
// chapters 5 and 6). The polynomial has no more sign changes in the interval
// than its coefficients have, and begins and ends on the first and last of them.
type bezier [6]float64

// angleOver is the angle less level, over the segment.
func (g *Segment) angleOver(level float64) bezier {
	h := g.T1 - g.T0
	x0, x1 := g.From.Angle-level, g.To.Angle-level
	fifth, square := h*(1./5), h*h*(1./20)
	v0, v1 := fifth*g.From.Rate, fifth*g.To.Rate
	a0, a1 := square*g.FromAcceleration, square*g.ToAcceleration
	return bezier{x0, x0 + v0, x0 + 2*v0 + a0, x1 - 2*v1 + a1, x1 - v1, x1}
}

// rateOver is the rate less level, over the segment, raised from degree four.
func (g *Segment) rateOver(level float64) bezier {
	h := g.T1 - g.T0
	v0, v1 := g.From.Rate-level, g.To.Rate-level
	q1 := v0 + h*g.FromAcceleration/4
	q3 := v1 - h*g.ToAcceleration/4
	q2 := 5*(g.To.Angle-g.From.Angle)/h - 2*(g.From.Rate+g.To.Rate) +
		h*(g.ToAcceleration-g.FromAcceleration)/4 - level
	return bezier{v0, (v0 + 4*q1) / 5, (2*q1 + 3*q2) / 5, (3*q2 + 2*q3) / 5, (4*q3 + v1) / 5, v1}
}

// clear tells that all coefficients lie on the same side of zero, so that the
// polynomial does too. It settles most questions, in a few nanoseconds.
func (b *bezier) clear() bool {
	return b[0] > 0 && b[1] > 0 && b[2] > 0 && b[3] > 0 && b[4] > 0 && b[5] > 0 ||
		b[0] < 0 && b[1] < 0 && b[2] < 0 && b[3] < 0 && b[4] < 0 && b[5] < 0
}

// changes counts the sign changes along the coefficients, zeros left out; but
// to end on zero is a change, so that a crossing at the very end is seen.
func (b *bezier) changes() int {
	n, last := 0, 0.
	for _, x := range b {
		if x == 0 {
			continue
		}
		if last != 0 && (x < 0) != (last < 0) {
			n++
		}
		last = x
	}
	if b[5] == 0 && last != 0 {
		n++
	}
	return n
}

// halves splits the polynomial at the middle of its interval (de Casteljau).
func (b bezier) halves() (left, right bezier) {
	for i := range b {
		left[i], right[5-i] = b[0], b[5-i]
		for j := range 5 - i {
			b[j] = (b[j] + b[j+1]) / 2
		}
	}
	return left, right
}

// stretch is a part of the unit interval.
type stretch struct{ from, to float64 }

// isolate finds the first part of the stretch in which the polynomial changes
// sign once, in direction d, and a value with the sign that it has before, 0 if
// there is no such part. Parts narrower than width are not divided.
func (b *bezier) isolate(on stretch, width float64, d Direction) (part stretch, before float64) {
	n := b.changes()
	switch {
	case n == 0:
		return on, 0
	case n == 1 && b[0] != 0 || on.to-on.from <= width:
		if start := b.start(); n%2 == 1 && d.from(start) {
			return on, start
		}
		return on, 0
	}
	left, right := b.halves()
	mid := on.from + (on.to-on.from)/2
	if part, before = left.isolate(stretch{on.from, mid}, width, d); before != 0 {
		return part, before
	}
	return right.isolate(stretch{mid, on.to}, width, d)
}

// start is the first coefficient that is not zero: it has the sign with which
// the polynomial sets out.
func (b *bezier) start() float64 {
	for _, x := range b {
		if x != 0 {
			return x
		}
	}
	return 0
}
