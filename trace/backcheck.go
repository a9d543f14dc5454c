package trace

import (
	"math"

	"swingwright/quantity"
)

// byFit is the line of a budget for a border that is found by a fit.
const byFit = "where the rate bends"

// Widths of what is looked at about a bend, rad. The rate is smoothed over braked
// to either side, s. The zone in which backcheck sets in, some degrees wide, is not
// known (1.5° assumed).
const (
	braked     = 0.03
	gridStep   = degree / 2
	bendBefore = 15 * degree
	bendAfter  = 12 * degree
)

// BackcheckAngle is the angle from which the opening is braked: where rate over
// angle bends from one straight line to a falling one, and is told from a rate
// that falls ever more, as under a hand that slows, by fitting a parabola
// worse. An operator that slows of itself shows the same.
func (s *Swing) BackcheckAngle() Reading[quantity.Angle] {
	if why := s.Spoilt(); why != "" {
		return no[quantity.Angle]("%s", why)
	}
	if s.open.none() {
		return no[quantity.Angle]("there is no opening")
	}
	angle, rate := s.braking()
	at, ok := sharpest(angle, rate)
	if !ok {
		return no[quantity.Angle]("the rate does not begin to fall at any one angle")
	}
	k := s.scale.k
	blur := s.rateAt(at.i, s.strip.t[at.i]) * (braked + s.strip.step)
	return got(k*at.angle,
		Term[quantity.Angle]{byFit, quantity.Angle(k * math.Hypot(1.5*degree, blur))},
		Term[quantity.Angle]{s.scale.from, quantity.Angle(k * at.angle * s.scale.u)},
		Term[quantity.Angle]{byNoise, quantity.Angle(k * s.angleSpread(s.atShare(at.i, 0)))})
}

// braking is rate over angle every half degree of the opening beyond 25°, up to
// where the leaf stops, and not so near that the stop shows.
func (s *Swing) braking() (angle []gridPoint, rate []float64) {
	wide := s.strip.count(braked)
	last := s.open.to - 2*s.strip.count(smoothHalf) - wide - 2
	for i := s.open.from; i <= last; i++ {
		if s.theta(i) < 25*degree {
			continue
		}
		if n := len(angle); n == 0 || s.theta(i) > angle[n-1].angle+gridStep {
			angle, rate = append(angle, gridPoint{s.theta(i), i}), append(rate, smoothed(s.rate, i-s.lo, wide))
		}
	}
	return angle, rate
}

// gridPoint is an angle of the opening and the sample there.
type gridPoint struct {
	angle float64
	i     int
}

// sharpest finds the bend with the largest fall of slope that is a bend.
func sharpest(angle []gridPoint, rate []float64) (at gridPoint, ok bool) {
	x := make([]float64, len(angle))
	for i, a := range angle {
		x[i] = a.angle
	}
	most := 0.0
	from, to := 0, 0
	for k := range x {
		for x[k]-x[from] > bendBefore {
			from++
		}
		for to < len(x) && x[to]-x[k] <= bendAfter {
			to++
		}
		if k-from < 4 || to-k < 5 || to == len(x) && x[to-1]-x[k] < bendAfter/2 {
			continue
		}
		before, left1 := lineFit(x[from:k+1], rate[from:k+1])
		after, left2 := lineFit(x[k:to], rate[k:to])
		fall := before - after
		if fall <= most || after > -0.3 || after*bendAfter > -0.05*rate[k] || before < after/3 {
			continue
		}
		if curve := parabolaLeft(x[from:to], rate[from:to]); left1+left2 < 0.8*curve {
			most, at, ok = fall, angle[k], true
		}
	}
	return at, ok
}

// lineFit is the slope of the line through points and the sum of squares that
// it leaves.
func lineFit(x, y []float64) (b, left float64) {
	b = slope(x, y)
	var mx, my float64
	for i := range x {
		mx += x[i]
		my += y[i]
	}
	mx, my = mx/float64(len(x)), my/float64(len(x))
	for i := range x {
		d := y[i] - my - b*(x[i]-mx)
		left += d * d
	}
	return b, left
}

// parabolaLeft is the sum of squares that the best parabola leaves: what a line
// leaves, less what the part of x² that is no line explains.
func parabolaLeft(x, y []float64) float64 {
	mid := x[len(x)/2]
	square := make([]float64, len(x))
	for i := range x {
		square[i] = (x[i] - mid) * (x[i] - mid)
	}
	by, bs := slope(x, y), slope(x, square)
	var mx, my, ms float64
	n := float64(len(x))
	for i := range x {
		mx, my, ms = mx+x[i]/n, my+y[i]/n, ms+square[i]/n
	}
	var ss, sy, left float64
	for i := range x {
		q := square[i] - ms - bs*(x[i]-mx)
		r := y[i] - my - by*(x[i]-mx)
		ss += q * q
		sy += q * r
		left += r * r
	}
	if ss > 0 {
		left -= sy * sy / ss
	}
	return math.Max(0, left)
}
