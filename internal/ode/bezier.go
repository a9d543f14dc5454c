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
	v0, v1 := h*g.From.Rate/5, h*g.To.Rate/5
	a0, a1 := h*h*g.FromAcceleration/20, h*h*g.ToAcceleration/20
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
