package drilling

import (
	"math"

	"swingwright/linkage"
	q "swingwright/quantity"
)

// ArmForce is the force along the line of an arm that a moment about the hinge axis
// has to hold: F = M/b, b the distance of that line from the axis.
func ArmForce(moment q.Torque, b q.Length) q.Force {
	return q.Force(float64(moment) / float64(b))
}

// Lever is how far the line along which an arm pushes lies from the hinge axis, and
// from its pinion, at a leaf angle: the line of the forearm, or that through the
// roller square to its track. ok is false where the arm is out of reach.
func Lever(a *linkage.Arm, theta q.Angle) (hinge, pinion q.Length, ok bool) {
	p, ok := a.Posture(theta)
	if !ok {
		return 0, 0, false
	}
	ux, uy := float64(p.Far.X-p.Elbow.X), float64(p.Far.Y-p.Elbow.Y)
	if s := a.Spec(); s.Track {
		turn := float64(s.Line)
		if !s.OnLeaf {
			turn += float64(theta) // the track rides on the leaf
		}
		sin, cos := math.Sincos(turn)
		ux, uy = -sin, cos
	}
	d := math.Hypot(ux, uy)
	cross := func(x, y q.Length) q.Length { // distance of a point from the line
		return q.Length(math.Abs((float64(x-p.Elbow.X)*uy - float64(y-p.Elbow.Y)*ux) / d))
	}
	return cross(0, 0), cross(p.Pinion.X, p.Pinion.Y), true
}

// Strain is the largest force that a torque at the pinion, the same all along the way,
// puts on the arm's shoe, its roller or its bracket.
type Strain struct {
	Torque q.Torque // at the pinion
	Force  q.Force  // along the arm
	At     q.Angle  // leaf angle at which it is largest
	Lever  q.Length // distance of its line from the hinge axis there
	// Moment is what the same force is about the hinge axis.
	Moment q.Torque
	// Fixings are the fasteners of the shoe or track that share it; Each is the share
	// of one, taken as even. 0 where the sheet has no holes for them.
	Fixings int
	Each    q.Force
}

// ArmStrain looks for the largest force between closed and an angle, in half degrees.
// ok is false where the arm reaches nowhere there.
func ArmStrain(a *linkage.Arm, torque q.Torque, to q.Angle) (s Strain, ok bool) {
	const step = q.Degree / 2
	for i := 0; ; i++ {
		theta := min(q.Angle(i)*step, to)
		if hinge, pinion, reached := Lever(a, theta); reached && pinion > 0 {
			if f := q.Force(float64(torque) / float64(pinion)); f > s.Force {
				s = Strain{Torque: torque, Force: f, At: theta, Lever: hinge, Moment: q.Torque(float64(f) * float64(hinge))}
				ok = true
			}
		}
		if theta >= to {
			return s, ok
		}
	}
}

// Hang is what hangs at the top hinge.
type Hang struct {
	Before, After q.Force // pull at the top hinge, without what is added and with it
	Span          q.Length
	Mass          q.Mass  // of the leaf
	Added         q.Mass  // on the leaf
	U             q.Force // standard uncertainty of either pull, from the leaf's mass
}
