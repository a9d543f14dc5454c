package linkage

import (
	"math"

	"swingwright/quantity"
)

// Posture is where the arm's joints are in the plan view.
type Posture struct {
	Pinion Point // axis of the pinion
	Elbow  Point // elbow of a two-bar arm; with a track, the roller
	Far    Point // shoe; with a track, the roller
}

// Posture gives the joints at leaf angle theta, in the fixed plan view. ok is
// false where the arm is out of reach.
func (a *Arm) Posture(theta quantity.Angle) (Posture, bool) {
	h, ok := a.hold(float64(theta))
	if !ok {
		return Posture{}, false
	}
	turn := 0.0 // from the body's frame to the plan view
	if a.onLeaf {
		turn = float64(theta)
	}
	sin, cos := math.Sincos(turn)
	place := func(x, y float64) Point {
		return Point{quantity.Length(x*cos - y*sin), quantity.Length(x*sin + y*cos)}
	}
	return Posture{
		Pinion: place(a.bx, a.by),
		Elbow:  place(a.bx+a.l1*h.qx, a.by+a.l1*h.qy),
		Far:    place(h.ax, h.ay),
	}, true
}

// Fault is the first leaf angle at which an arm stops working.
type Fault struct {
	// Theta is the leaf angle.
	Theta quantity.Angle
	// DeadPoint is true where the pinion stops turning on (n ≤ 0), false where
	// the arm is out of reach.
	DeadPoint bool
}

// Reach walks the swing from closed to the given angle and reports the first
// fault, to within 0.01 degree; ok is true when there is none.
func (a *Arm) Reach(to quantity.Angle) (Fault, bool) {
	step := 0.5 * float64(quantity.Degree)
	good := 0.0
	for theta := 0.0; ; theta = math.Min(theta+step, float64(to)) {
		if !a.works(theta) {
			lo, hi := good, theta
			for hi-lo > 0.01*float64(quantity.Degree) {
				if mid := (lo + hi) / 2; a.works(mid) {
					lo = mid
				} else {
					hi = mid
				}
			}
			_, ok := a.Ratio(hi)
			return Fault{Theta: quantity.Angle(hi), DeadPoint: ok}, false
		}
		if theta >= float64(to) {
			return Fault{}, true
		}
		good = theta
	}
}

func (a *Arm) works(theta float64) bool {
	n, ok := a.Ratio(theta)
	return ok && n > 0
}
