package trace

import (
	"fmt"
	"math"

	"swingwright/quantity"
)

// scale is what recorded angles are multiplied by, and its relative spread.
type scale struct {
	k, u float64
	from string
}

// The scale's line in a budget.
const (
	scaleAssumed  = "scale, not measured"
	scaleMeasured = "scale, by the measured open angle"
)

// findScale takes the scale from the measured angle of the held leaf, by all
// swings that open as far, else it is one with the spread of the recorder.
func (t *Trace) findScale(r *Recording, set Settings) scale {
	u := float64(set.Scale)
	if !(u > 0) {
		u = float64(DefaultScale)
		if r.axes == 0 {
			u = float64(angleScale)
		}
	}
	none := scale{1, u, scaleAssumed}
	angle, ok := set.angle()
	if !ok {
		return none
	}
	want := float64(angle.Value)
	sum, n, spread, nearest := 0.0, 0.0, 0.0, 0.0
	for _, s := range t.Swings {
		top := s.heldAt()
		if !s.closes || s.Spoilt() != "" || top < falseStart {
			continue
		}
		if nearest == 0 || math.Abs(top-want) < math.Abs(nearest-want) {
			nearest = top
		}
		if math.Abs(want/top-1) < mostScale {
			sum, n = sum+top, n+1
			spread = math.Hypot(spread, s.angleSpread(s.leafAtTop())/top)
		}
	}
	if n == 0 {
		if nearest > 0 {
			t.tell(true, "measure the chord from the closed to the held position at one point of the leaf, and see that the unit of the rates is right",
				"the measured open angle is %s, but the leaf opens to %s by the recording", degreesText(want), degreesText(nearest))
		}
		return none
	}
	return scale{want * n / sum, math.Hypot(float64(angle.U)/want, spread/n), scaleMeasured}
}

// mostScale is the largest error of a scale that is believed: a swing that seems
// farther off was not to the measured position.
const mostScale = 0.1

// angle is the measured open angle: chord = 2·r·sin(θ/2).
func (set *Settings) angle() (a quantity.Measured[quantity.Angle], ok bool) {
	c, r := float64(set.Chord.Value), float64(set.Radius.Value)
	if set.Chord.Known && set.Radius.Known && c > 0 && c < 2*r {
		half := math.Asin(c / (2 * r))
		u := math.Hypot(float64(set.Chord.U), c/r*float64(set.Radius.U)) / (r * math.Cos(half))
		return quantity.Give(quantity.Angle(2*half), quantity.Angle(u)), true
	}
	return set.Open, set.Open.Known && set.Open.Value > 0
}

// heldAt is the angle at which the leaf was held, or turned where it was not, rad
// before the scale.
func (s *Swing) heldAt() float64 {
	if !s.hold.none() {
		return s.theta((s.hold.from + s.hold.to) / 2)
	}
	return s.top()
}

// leafAtTop is the leaf where it is held, or turns.
func (s *Swing) leafAtTop() passage {
	i := s.lo
	if !s.hold.none() {
		i = (s.hold.from + s.hold.to) / 2
	} else {
		for k, a := range s.angle {
			if a > s.theta(i) {
				i = s.lo + k
			}
		}
	}
	return s.atShare(min(i, s.lo+len(s.angle)-2), 0)
}

func degreesText(rad float64) string { return fmt.Sprintf("%.1f°", rad/degree) }
