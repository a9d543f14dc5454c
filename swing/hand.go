package swing

import (
	"math"

	"swingwright/quantity"
)

// HandMoment is the moment by hand, about the hinge axis, that moves the
// released leaf slowly open at leaf angle theta, power off: spring with its
// friction, hinges, an operator turned along, and what air, seals and a hinge line
// out of plumb add or take away. It is negative where the leaf would go by itself. Divided by the radius
// at which the hand acts it is a force; with the closer, hinges and seals away it
// is the pressure term of the door-opening force, Δp·w·h·(e + w/2).
func (m *Model) HandMoment(theta quantity.Angle) quantity.Torque {
	p := phase{m: m}
	_, opening, friction := p.net(float64(theta))
	return quantity.Torque(friction - opening)
}

// LargestHandMoment is the largest HandMoment between two leaf angles, looked
// for at every degree and at both ends.
func (m *Model) LargestHandMoment(from, to quantity.Angle) quantity.Torque {
	return most(from, to, m.HandMoment)
}

// HandForce is the force that a moment about the hinge axis needs at a radius.
func HandForce(moment quantity.Torque, at quantity.Length) quantity.Force {
	return quantity.Force(float64(moment) / float64(at))
}

// DoorOpeningForce is the force at the handle that opens a leaf against a
// closer and a pressure difference: F = F_dc + W·A·Δp/(2(W − d)), with W the
// leaf's width, A = W·h its area and d from the handle to the latch edge
// (International Building Code 909.6.2, Eq. 9-1, with K = 1.00 in SI). The
// handle alone is taken to hold the leaf, about a hinge axis on its edge.
func DoorOpeningForce(closer quantity.Force, width, height, handle quantity.Length, dp quantity.Pressure) quantity.Force {
	w := float64(width)
	return closer + quantity.Force(float64(dp)*w*w*float64(height)/(2*(w-float64(handle))))
}

// ClosingMoment is the moment about the hinge axis with which the closer alone
// draws a leaf shut that is let close slowly, n·T_s·(1 − μ).
func (m *Model) ClosingMoment(theta quantity.Angle) quantity.Torque {
	return quantity.Torque(m.drive(float64(theta)) * (1 - m.v[CloserLoss]))
}

// OpeningMoment is the moment about the hinge axis with which the closer alone
// resists slow opening, n·T_s·(1 + μ).
func (m *Model) OpeningMoment(theta quantity.Angle) quantity.Torque {
	return quantity.Torque(m.drive(float64(theta)) * (1 + m.v[CloserLoss]))
}

// drive is n·T_s, N·m at the leaf.
func (m *Model) drive(theta float64) float64 {
	if m.chart.covers(theta) {
		return m.chart.pull(theta)
	}
	if !m.link.Closer {
		return 0
	}
	psi, n, _ := m.arm.Turn(theta)
	return n * m.spring(psi)
}

// LeafAngle is the leaf angle at which the pinion has turned by psi, by
// Newton's method; ok is false where the arm does not get there.
func (m *Model) LeafAngle(psi quantity.Angle) (theta quantity.Angle, ok bool) {
	for range 20 {
		at, n, ok := m.arm.At(theta)
		if !ok || !(n > 0) {
			return 0, false
		}
		step := (psi - at) / quantity.Angle(n)
		if theta += step; math.Abs(float64(step)) < 1e-10 {
			return theta, true
		}
	}
	return 0, false
}

// LeastClosingMoment is the least ClosingMoment between two leaf angles,
// looked for at every degree and at both ends.
func (m *Model) LeastClosingMoment(from, to quantity.Angle) quantity.Torque {
	return -most(from, to, func(theta quantity.Angle) quantity.Torque { return -m.ClosingMoment(theta) })
}

// LargestOpeningMoment is the largest OpeningMoment between two leaf angles,
// looked for at every degree and at both ends.
func (m *Model) LargestOpeningMoment(from, to quantity.Angle) quantity.Torque {
	return most(from, to, m.OpeningMoment)
}

func most(from, to quantity.Angle, f func(quantity.Angle) quantity.Torque) quantity.Torque {
	best := quantity.Torque(math.Inf(-1))
	for theta := from; ; theta = min(theta+quantity.Degree, to) {
		best = max(best, f(theta))
		if !(theta < to) {
			return best
		}
	}
}

// Budget is the latch budget: what the closer gives to shut the leaf's last
// degrees and what takes from it, as moments about the hinge axis. Compare
// moments, never forces at different radii.
type Budget struct {
	Closer   quantity.Torque // closing moment of the closer at the angle asked for
	Latch    quantity.Torque // the bolt riding its lip, F_b·r_b
	Seal     quantity.Torque // seals pressed home, k_s·θ_s
	Friction quantity.Torque // hinges
	Air      quantity.Torque // pressure on the closed leaf; negative where it helps
	Plumb    quantity.Torque // a hinge line out of plumb, leaf closed; negative where it helps
	Drive    quantity.Torque // an operator without power turned along, leaf closed
}

// BudgetAt is the latch budget with the closer's moment taken at leaf angle
// theta, 5 degrees by the trade's habit (common practice).
func (m *Model) BudgetAt(theta quantity.Angle) Budget {
	return Budget{
		Closer:   m.ClosingMoment(theta),
		Latch:    quantity.Torque(m.bolt),
		Seal:     quantity.Torque(m.push(0)),
		Friction: quantity.Torque(m.v[HingeFriction]),
		Air:      quantity.Torque(m.pressure),
		Plumb:    quantity.Torque(m.lean * math.Sin(m.v[LeanAzimuth])),
		Drive:    quantity.Torque(m.backDrive(0)),
	}
}

// Margin is what is left to latch with.
func (b Budget) Margin() quantity.Torque {
	return b.Closer - b.Latch - b.Seal - b.Friction - b.Air - b.Plumb - b.Drive
}
