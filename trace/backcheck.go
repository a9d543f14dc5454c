package trace

import (
	"math"

	"swingwright/quantity"
)

// byFit is the line of a budget for a border that is found by a fit.
const byFit = "where the rate bends"

// BackcheckAngle is the angle from which the opening is braked: that at which
// two straight lines of rate over angle, from where the leaf is fastest on to
// where it stops, fit best. An operator that slows of itself shows the same.
func (s *Swing) BackcheckAngle() Reading[quantity.Angle] {
	if why := s.Spoilt(); why != "" {
		return no[quantity.Angle]("%s", why)
	}
	if s.open.none() {
		return no[quantity.Angle]("there is no opening")
	}
	angle, rate := s.braking()
	if len(angle) < 12 {
		return no[quantity.Angle]("the opening does not show a stretch past its largest rate")
	}
	at, before, after, ok := bend(angle, rate)
	drop := rate[0] * 0.02 / degree // a fiftieth of the rate per degree
	if !ok || after > before-drop || after > -drop {
		return no[quantity.Angle]("the rate does not fall at any one angle")
	}
	grid := (angle[len(angle)-1] - angle[0]) / float64(len(angle))
	k := s.scale.k
	return got(k*at,
		Term[quantity.Angle]{byFit, quantity.Angle(k * math.Hypot(1*degree, grid))},
		Term[quantity.Angle]{s.scale.from, quantity.Angle(k * at * s.scale.u)},
		Term[quantity.Angle]{byNoise, quantity.Angle(k * s.angleSpread(s.leafAtTop()))})
}

// braking is rate over angle every half degree from where the opening first
// comes within a tenth of its largest rate until it is down to a tenth of it.
func (s *Swing) braking() (angle, rate []float64) {
	wide := s.strip.count(0.04)
	top := 0.0
	for i := s.open.from; i <= s.open.to; i++ {
		top = math.Max(top, smoothed(s.rate, i-s.lo, wide))
	}
	begun := false
	for i := s.open.from; i <= s.open.to; i++ {
		v := smoothed(s.rate, i-s.lo, wide)
		if begun = begun || v > 0.9*top; !begun {
			continue
		}
		if v < top/10 {
			break
		}
		if n := len(angle); n == 0 || s.theta(i) > angle[n-1]+degree/2 {
			angle, rate = append(angle, s.theta(i)), append(rate, v)
		}
	}
	return angle, rate
}

// bend finds where two straight lines, each through the points on its side, fit
// best, and their slopes.
func bend(x, y []float64) (at, before, after float64, ok bool) {
	least := math.Inf(1)
	for k := 4; k+4 <= len(x); k++ {
		a, ra := lineFit(x[:k], y[:k])
		b, rb := lineFit(x[k:], y[k:])
		if ra+rb < least {
			least, at, before, after, ok = ra+rb, (x[k-1]+x[k])/2, a, b, true
		}
	}
	return at, before, after, ok
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
