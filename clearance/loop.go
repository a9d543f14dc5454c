package clearance

import (
	"math"

	q "swingwright/quantity"
)

// LoopSlack is what a cord across the hinges gets beyond its longest reach:
// 15 %, common practice.
const LoopSlack q.Ratio = 0.15

// A Loop is the flexible cord that carries wires from the frame to the leaf.
type Loop struct {
	// Longest and Shortest are the greatest and the least distance between its
	// anchors over the swing, and LongestAt and ShortestAt the leaf angles.
	Longest, Shortest     q.Length
	LongestAt, ShortestAt q.Angle
	// Length is Longest with the slack.
	Length q.Length
}

// DoorLoop finds how far apart the anchors get while the leaf opens from closed
// to an angle; leaf is where the leaf's anchor is with the leaf closed.
//
// With anchors at F and R(θ)L the distance is √(F² + L² − 2FL cos(θ − δ)), δ the
// direction of F as seen from L about the pin. So it is shortest at θ = δ and
// longest half a turn from there, or at an end of the swing.
func DoorLoop(frame, leaf Point, open q.Angle, slack q.Ratio) Loop {
	f, l := frame.vec(), leaf.vec()
	delta := math.Atan2(l.cross(f), l.dot(f))
	loop := Loop{Longest: frame.To(leaf), Shortest: frame.To(leaf)}
	try := func(theta q.Angle) {
		d := frame.To(leaf.Turned(theta))
		if d > loop.Longest {
			loop.Longest, loop.LongestAt = d, theta
		}
		if d < loop.Shortest {
			loop.Shortest, loop.ShortestAt = d, theta
		}
	}
	for _, theta := range []float64{delta, delta + math.Pi, delta + 2*math.Pi} {
		if theta > 0 && theta < float64(open) {
			try(q.Angle(theta))
		}
	}
	try(open)
	loop.Length = loop.Longest * q.Length(1+slack)
	return loop
}
