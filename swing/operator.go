package swing

import (
	"errors"
	"math"

	"swingwright/linkage"
	"swingwright/quantity"
)

// Drive is what a model has of a power operator beside the quantities of its
// table. The zero Drive is none.
type Drive struct {
	// Fitted tells that there is an operator.
	Fitted bool
	// Own tells a unit with an arm of its own; else it acts through the closer's pinion.
	Own bool
	// Track, OnLeaf and Bend describe its own arm, as in Linkage.
	Track, OnLeaf bool
	Bend          int
	// LetsGo tells that without power the drive lets go of the leaf: then
	// neither hand nor closer turns it along.
	LetsGo bool
}

// motor is an operator made ready.
type motor struct {
	on, own bool
	coupled bool        // turned along without power
	arm     linkage.Arm // its own
	stall   float64     // T_stall, N·m at the shaft
	slope   float64     // T_stall/ψ̇_0, N·m·s/rad
	eta     float64
	gain    float64 // K, N·m·s/rad
	inertia float64 // i²·J_r at the shaft, kg·m²
	back    float64 // T_b, N·m at the shaft
	rate    float64 // ω_c, rad/s of the leaf
	ramp    float64 // t_a, s
	open    float64 // θ_open, rad
	// slowFrom is θ_slow, beyond all angles where the rate never falls; fall is
	// the rate's slope from there on, (ω_k − ω_c)/(θ_open − θ_slow) in 1/s.
	slowFrom, fall float64
}

// errNoPinion tells an add-on without a closer.
var errNoPinion = errors.New("an add-on operator acts through the closer's pinion, and no closer is described: describe the closer with its arm, or take a unit with its own arm")

// SetDrive puts an operator on the leaf, whose quantities are among the model's
// values, or takes it off. It fails where an add-on finds no closer and where a
// unit's own arm cannot be assembled on the closed leaf; the model is then without.
func (m *Model) SetDrive(d Drive) error {
	m.motor = motor{}
	if !d.Fitted {
		return nil
	}
	v := &m.v
	g := motor{
		on: true, own: d.Own, coupled: !d.LetsGo,
		stall: v[DriveStall], slope: v[DriveStall] / v[DriveFree], eta: v[DriveEfficiency], gain: v[DriveGain],
		inertia: v[GearRatio] * v[GearRatio] * v[RotorInertia], back: v[BackDrive],
		rate: v[OpenRate], ramp: v[RampTime], open: v[OpenAngle], slowFrom: math.Inf(1),
	}
	if v[SlowFrom] < g.open && v[CreepRate] < g.rate {
		g.slowFrom, g.fall = v[SlowFrom], (v[CreepRate]-g.rate)/(g.open-v[SlowFrom])
	}
	if !d.Own && !m.link.Closer {
		return errNoPinion
	}
	if d.Own {
		arm, err := linkage.New(v.Arm(DrivePinionX, d.Track, d.OnLeaf, d.Bend))
		if err != nil {
			return err
		}
		g.arm = arm
	}
	m.motor = g
	m.course.draw(m)
	return nil
}

// Unfitted is the model without its operator while f uses it.
func (m *Model) Unfitted(f func()) {
	fitted := m.motor
	m.motor = motor{}
	f()
	m.motor = fitted
}

// Driven tells that the model has an operator.
func (m *Model) Driven() bool { return m.motor.on }

// DriveArm returns the arm that the operator acts through: its own, or the
// closer's. It is ready only where the model has an operator.
func (m *Model) DriveArm() *linkage.Arm {
	if m.motor.own {
		return &m.motor.arm
	}
	return &m.arm
}

// SlowsFrom is the leaf angle from which the commanded rate falls, or where the
// operator stops if it does not.
func (m *Model) SlowsFrom() quantity.Angle {
	return quantity.Angle(min(m.motor.slowFrom, m.motor.open))
}

// mode is what an operator does in a phase of the motion.
type mode uint8

const (
	unpowered    mode = iota
	proportional      // torque in proportion to the rate that the leaf lacks
	saturated         // all the torque that the drive has at this rate
	coasting          // the leaf is faster than commanded, or the drive than it can: none
)

// geared tells that the drive turns with the leaf.
func (p *phase) geared() bool { return p.mode != unpowered || p.m.motor.coupled }

// command is the commanded rate of the leaf, rad/s: it rises in proportion to
// time over the ramp and falls in proportion to the angle from θ_slow to θ_open.
func (p *phase) command(t, theta float64) float64 {
	g := &p.m.motor
	rate := g.commanded(theta, p.slow)
	if p.ramp {
		rate *= t / g.ramp
	}
	return rate
}

// commanded is that rate with the ramp over; slow tells that theta lies beyond θ_slow.
func (g *motor) commanded(theta float64, slow bool) float64 {
	if slow {
		return g.rate + g.fall*(theta-g.slowFrom)
	}
	return g.rate
}

// shaft is the torque at the operator's shaft, N·m toward opening, at the rate
// omega of the leaf and spin of the shaft (rad/s). Driven, its losses are in its
// efficiency; without power they are its back-drive torque.
func (p *phase) shaft(t, theta, omega, spin float64) float64 {
	g := &p.m.motor
	switch p.mode {
	case proportional:
		return g.eta * g.gain * (p.command(t, theta) - omega)
	case saturated:
		return g.eta * (g.stall - g.slope*spin)
	case coasting:
		return 0
	}
	return -g.back * slip(spin/pinionSlip)
}

// spare is how far the operator is from leaving its mode, in N·m at the shaft,
// negative beyond, and the mode that then follows.
func (p *phase) spare(t, theta, omega float64) (float64, mode) {
	g := &p.m.motor
	has := g.stall - g.slope*p.ratio(theta)*omega // T_m
	wants := g.gain * (p.command(t, theta) - omega)
	switch p.mode {
	case saturated:
		if has < wants-has {
			return has, coasting
		}
		return wants - has, proportional
	case coasting:
		if wants > has {
			return -has, saturated
		}
		return -wants, proportional
	}
	if wants < has-wants {
		return wants, coasting
	}
	return has - wants, saturated
}

// ratio is that between shaft and leaf, read off the course where the motion is.
func (p *phase) ratio(theta float64) float64 {
	if p.charted && !p.close {
		s, _, _ := p.m.course.read(theta)
		return s.nd
	}
	return p.m.ratio(theta)
}

// ratio is that between shaft and leaf at leaf angle theta.
func (m *Model) ratio(theta float64) float64 {
	n, _ := m.DriveArm().Ratio(theta)
	return n
}

// standing is what the operator gives the leaf at rest, N·m toward opening, the
// ramp over; without power it holds by its back-drive torque, N·m either way.
func (p *phase) standing(theta float64) (torque, back float64) {
	m := p.m
	if p.mode == unpowered {
		return 0, m.backDrive(theta)
	}
	return m.thrust(theta), 0
}

// asked is the torque that the control asks of the drive for a leaf at rest, the
// ramp over, N·m at the shaft.
func (m *Model) asked(theta float64) float64 {
	g := &m.motor
	return g.gain * g.commanded(theta, theta > g.slowFrom)
}

// thrust is what of it the drive has and brings to the leaf, N·m.
func (m *Model) thrust(theta float64) float64 {
	g := &m.motor
	return m.ratio(theta) * g.eta * max(0, min(m.asked(theta), g.stall))
}

// backDrive is what it takes at the leaf to turn the operator along without
// power, N·m; zero without an operator, and where it lets go.
func (m *Model) backDrive(theta float64) float64 {
	if !m.motor.coupled || m.motor.back == 0 {
		return 0
	}
	return math.Abs(m.ratio(theta)) * m.motor.back
}
