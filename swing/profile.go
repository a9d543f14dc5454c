package swing

import (
	"math"

	"swingwright/quantity"
)

// Profile is what the closer gives and what a hand feels at every whole degree, as
// LeastClosingMoment, LargestOpeningMoment and LargestHandMoment look for them one
// range at a time; many ranges of one model are found faster here.
type Profile struct {
	m     *Model
	drive [profileTo + 1]float64 // n·T_s, N·m
	hand  [profileTo + 1]float64 // HandMoment, N·m
	stall [profileTo + 1]float64 // StallMoment, N·m; only with an operator
}

// profileTo is the last degree of a profile.
const profileTo = 92

// degrees are sine and cosine of whole degrees.
var degrees = func() (table [profileTo + 1]struct{ sin, cos float64 }) {
	for i := range table {
		table[i].sin, table[i].cos = math.Sincos(float64(i) * float64(quantity.Degree))
	}
	return table
}()

// Profile fills in p for the model as it is. It holds until the model is changed.
func (m *Model) Profile(p *Profile) {
	p.m = m
	fade, step := m.pressure, math.Exp(-float64(quantity.Degree)/m.v[PressureFades])
	sin, cos := math.Sincos(m.v[LeanAzimuth])
	back := 0.0
	if m.motor.coupled {
		back = m.motor.back
	}
	full := m.motor.eta * m.motor.stall
	for i := range p.drive {
		theta := float64(i) * float64(quantity.Degree)
		drive := m.drive(theta)
		p.drive[i] = drive
		hand := drive + math.Abs(drive)*m.v[CloserLoss] + m.v[HingeFriction] - fade - m.push(theta)
		if m.lean != 0 {
			hand -= m.lean * (sin*degrees[i].cos - cos*degrees[i].sin)
		}
		p.hand[i] = hand
		if m.motor.on {
			n, _ := m.DriveArm().RatioAt(degrees[i].sin, degrees[i].cos)
			p.hand[i], p.stall[i] = hand+math.Abs(n)*back, n*full-hand
		}
		fade *= step
	}
}

// LargestHand is the largest HandMoment between two whole degrees.
func (p *Profile) LargestHand(from, to int) quantity.Torque {
	return quantity.Torque(largest(p.hand[from : to+1]))
}

// LargestStall is the largest StallMoment from closed to an angle.
func (p *Profile) LargestStall(to quantity.Angle) quantity.Torque {
	best, whole := math.Inf(-1), min(int(to/quantity.Degree), profileTo)
	if whole >= 0 {
		best = largest(p.stall[:whole+1])
	}
	return max(quantity.Torque(best), p.m.LargestStallMoment(min(to, quantity.Angle(whole+1)*quantity.Degree), to))
}

// LeastClosing is the least ClosingMoment between two whole degrees.
func (p *Profile) LeastClosing(from, to int) quantity.Torque {
	best := math.Inf(1)
	for _, drive := range p.drive[from : to+1] {
		best = min(best, drive)
	}
	return quantity.Torque(best * (1 - p.m.v[CloserLoss]))
}

// LargestOpening is the largest OpeningMoment between two whole degrees.
func (p *Profile) LargestOpening(from, to int) quantity.Torque {
	return quantity.Torque(largest(p.drive[from:to+1]) * (1 + p.m.v[CloserLoss]))
}

func largest(values []float64) float64 {
	best := math.Inf(-1)
	for _, x := range values {
		best = max(best, x)
	}
	return best
}
