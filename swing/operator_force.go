package swing

import (
	"cmp"
	"math"
	"slices"

	"swingwright/quantity"
)

// StallInset is how far from the latch edge the force of a stopped leaf is
// taken, 1 in or 25 mm (ANSI/BHMA A156.19-2007, 4.4).
const StallInset = 25 * quantity.Millimetre

// StallRadius is the distance from the hinge axis at which the force of a
// stopped leaf is taken.
func (m *Model) StallRadius() quantity.Length { return quantity.Length(m.edge) - StallInset }

// StallMoment is the moment about the hinge axis that holds the leaf still at
// theta against all that the drive has, n·η·T_m(0) less spring, friction, air,
// seals and plumb: the net force of the drive, so that pressure and a stronger
// spring take from it. It is negative where the drive cannot move the leaf.
func (m *Model) StallMoment(theta quantity.Angle) quantity.Torque {
	full := m.ratio(float64(theta)) * m.motor.eta * m.motor.stall
	return quantity.Torque(full - m.resisting(float64(theta)))
}

// LargestStallMoment is the largest StallMoment between two leaf angles, looked
// for at every degree and at both ends.
func (m *Model) LargestStallMoment(from, to quantity.Angle) quantity.Torque {
	return most(from, to, m.StallMoment)
}

// LargestPressure is the largest pressure, pushing the leaf shut, against which
// the operator moves the leaf on from rest anywhere between the angles from and
// where it stops, looked for at every degree: what control and drive bring to the
// leaf, less all that resists but the pressure, over w·h·(e + w/2) as far as the
// pressure lasts. It is negative where the operator fails without any.
func (m *Model) LargestPressure(from quantity.Angle) quantity.Pressure {
	still := *m
	still.pressure = 0
	area := float64(m.PressureMoment(quantity.Pascal)) // m³
	return quantity.Pressure(-most(from, quantity.Angle(m.motor.open), func(theta quantity.Angle) quantity.Torque {
		left := m.thrust(float64(theta)) - still.resisting(float64(theta))
		return quantity.Torque(-left / (area * math.Exp(-float64(theta)/m.v[PressureFades])))
	}))
}

// HoldingTorque is the torque at the operator's shaft that holds the leaf fully
// open against the closer and all else, with friction, which helps; zero where
// friction alone holds it.
func (m *Model) HoldingTorque() quantity.Torque {
	p := phase{m: m, mode: coasting}
	closing, _, friction := p.net(m.motor.open)
	closing -= m.thrust(m.motor.open)
	return quantity.Torque(max(0, -closing-friction) / m.ratio(m.motor.open))
}

// resisting is the moment that moves the leaf slowly open at theta, drive apart, N·m.
func (m *Model) resisting(theta float64) float64 {
	return float64(m.HandMoment(quantity.Angle(theta))) - m.backDrive(theta)
}

// Obstacle is what resists the opening of a leaf.
type Obstacle uint8

// The obstacles.
const (
	Spring Obstacle = iota
	CloserFriction
	HingeDrag
	AirPressure
	OutOfPlumb
	HandAgainst
	obstacles // how many there are
)

var obstacleNames = [obstacles]string{"closer spring", "friction in the closer", "friction of the hinges", "air pressure", "hinge line out of plumb", "hand"}

// String is the obstacle in words.
func (o Obstacle) String() string { return obstacleNames[o] }

// MarshalText writes the obstacle in words.
func (o Obstacle) MarshalText() ([]byte, error) { return []byte(o.String()), nil }

// Resistance is what one obstacle puts against opening.
type Resistance struct {
	Against Obstacle
	Moment  quantity.Torque // about the hinge axis, above zero
}

// Resistances lists what stands against opening a leaf at rest at theta, largest
// first. push is the torque of a hand, toward opening. What helps to open, as
// seals do, is left out.
func (m *Model) Resistances(theta quantity.Angle, push quantity.Torque) []Resistance {
	at := float64(theta)
	drive := m.drive(at)
	moments := [obstacles]float64{
		Spring:         drive,
		CloserFriction: math.Abs(drive) * m.v[CloserLoss],
		HingeDrag:      m.v[HingeFriction],
		AirPressure:    -m.pressure * math.Exp(-at/m.v[PressureFades]),
		OutOfPlumb:     -m.lean * math.Sin(m.v[LeanAzimuth]-at),
		HandAgainst:    -float64(push),
	}
	var all []Resistance
	for o, moment := range moments {
		if moment > 0 {
			all = append(all, Resistance{Obstacle(o), quantity.Torque(moment)})
		}
	}
	slices.SortStableFunc(all, func(a, b Resistance) int { return cmp.Compare(b.Moment, a.Moment) })
	return all
}
