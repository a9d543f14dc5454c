// Package linkage turns the angle of the leaf into the turn of the closer's
// pinion, for two-bar arms and for the slide track, with the turning ratio
// between them in closed form.
//
// The plan view has the hinge pin as origin, the closed leaf along +x and the
// pull side toward +y. The sums are done in the frame of the closer's body: seen
// from there the far end of the arm (the shoe, or the track) turns about the hinge
// pin by κθ, κ = −1 with the body on the leaf and κ = +1 with it on the frame.
package linkage

import (
	"fmt"
	"math"

	"swingwright/quantity"
)

// A Point is a place in the plan view, in metres from the hinge pin.
type Point struct{ X, Y quantity.Length }

// Spec is the geometry of an arm with the leaf closed.
type Spec struct {
	// Track is true for a slide track, false for a two-bar arm.
	Track bool
	// OnLeaf tells that the closer's body rides on the leaf; else it is on the frame.
	OnLeaf bool
	// Pinion is the axis of the closer's pinion, Shoe the far end of the
	// forearm, or any point on the line that the track's roller runs along.
	Pinion, Shoe Point
	// Main is the arm on the pinion, Fore the forearm (unused with a track).
	Main, Fore quantity.Length
	// Line is the direction of the track from the closed leaf's +x.
	Line quantity.Angle
	// Bend is +1 or −1. With a two-bar arm, +1 puts the elbow to the left of
	// the line from pinion to shoe; with a track, +1 puts the roller on the
	// side toward which Line points.
	Bend int
}

// An Arm is a Spec made ready. Its methods do not allocate.
type Arm struct {
	track        bool
	kappa        float64 // turn of the far part per turn of the leaf, seen from the body
	ax, ay       float64 // shoe, closed
	bx, by       float64 // pinion
	ux, uy       float64 // track direction, closed
	l1, l2       float64
	bend         float64
	square, half float64 // L1² − L2² and 1/(2 L1)
	sign         float64 // makes ψ grow on opening
	wide         bool    // the far end is farther from the hinge axis than the pinion
	closed       float64 // direction of the main arm with the leaf closed, rad; see direction
	onLeaf       bool
	spec         Spec
}

// New makes an arm ready. It fails when a length is not positive or when the arm
// cannot be assembled with the leaf closed.
func New(s Spec) (Arm, error) {
	a := Arm{
		track: s.Track, onLeaf: s.OnLeaf, spec: s, kappa: 1,
		ax: float64(s.Shoe.X), ay: float64(s.Shoe.Y),
		bx: float64(s.Pinion.X), by: float64(s.Pinion.Y),
		l1: float64(s.Main), l2: float64(s.Fore),
		bend: 1, sign: 1,
	}
	if s.OnLeaf {
		a.kappa = -1
	}
	if s.Bend < 0 {
		a.bend = -1
	}
	a.square, a.half = a.l1*a.l1-a.l2*a.l2, 1/(2*a.l1)
	a.wide = math.Hypot(a.ax, a.ay) > math.Hypot(a.bx, a.by)
	a.uy, a.ux = math.Sincos(float64(s.Line))
	for _, v := range []float64{a.ax, a.ay, a.bx, a.by, a.l1, a.l2, float64(s.Line)} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return Arm{}, fmt.Errorf("the arm's geometry holds a number that is not finite")
		}
	}
	if a.l1 <= 0 || (!a.track && a.l2 <= 0) {
		return Arm{}, fmt.Errorf("arm lengths must be above zero, got main arm %g m and forearm %g m", a.l1, a.l2)
	}
	h, ok := a.hold(0)
	if !ok {
		return Arm{}, fmt.Errorf("the arm cannot be assembled on the closed leaf: %s", a.reachText())
	}
	if h.rate < 0 {
		a.sign = -1
	}
	a.closed = a.direction(0, &h)
	return a, nil
}

func (a *Arm) reachText() string {
	d := math.Hypot(a.ax-a.bx, a.ay-a.by)
	if a.track {
		off := math.Abs((a.ax-a.bx)*a.uy - (a.ay-a.by)*a.ux)
		return fmt.Sprintf("the track's line passes %.0f mm from the pinion, beyond the arm of %.0f mm", off*1e3, a.l1*1e3)
	}
	return fmt.Sprintf("pinion and shoe are %.0f mm apart, the arms span %.0f to %.0f mm", d*1e3, math.Abs(a.l1-a.l2)*1e3, (a.l1+a.l2)*1e3)
}

// Ready tells that the arm was made by New.
func (a *Arm) Ready() bool { return a.l1 > 0 }

// Spec returns the geometry the arm was made from.
func (a *Arm) Spec() Spec { return a.spec }
