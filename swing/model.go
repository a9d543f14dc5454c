// Package swing computes how a leaf moves: its closing from any angle with the
// way it ends, its opening by a push, the force of a hand, the latch budget, and
// the energy of it all.
//
// The equations and their symbols are listed in GLOSSARY.md; Symbols describes
// every quantity. Angles of the leaf are from closed, rates are positive on opening.
package swing

import (
	"math"

	"swingwright/linkage"
	"swingwright/quantity"
)

// Assumed widths of the smoothed Coulomb friction, rad/s: of the closer at the
// pinion, and of the hinges at the leaf. A modelling choice of this project.
const (
	pinionSlip = 0.01
	hingeSlip  = 0.005
)

// Model is one leaf made ready to move. SetValves, SetAir and SetDrive change it.
// Following its motion changes nothing but its chart, which is brought up to date
// then, and does not allocate.
type Model struct {
	v    Values
	link Linkage
	arm  linkage.Arm

	inertia  float64 // I, leaf with what is fixed to it, kg·m²
	edge     float64 // r, hinge axis to latch edge, m
	pressure float64 // Δp·w·h·(e + w/2), N·m
	drag     float64 // ½ρ·C_d·h·r⁴/4, N·m·s²/rad²
	lean     float64 // g·(m·x_c + Σm_i·x_i)·sin ε, N·m
	seal     float64 // k_s, N·m/rad
	bolt     float64 // F_b·r_b, N·m

	sweep, latch, delay, check valve
	lnA, lnB                   float64 // ln of latch over sweep
	free                       float64

	motor  motor
	chart  chart
	course course
}

// valve is a zone's resistance: viscous (N·m·s/rad) and orifice (N·m·s²/rad²).
type valve struct{ a, b float64 }

// New makes a model ready. It fails when the arm cannot be assembled on the
// closed leaf; values are otherwise taken as they are.
func New(v *Values, link Linkage) (m Model, err error) {
	err = m.Remake(v, link)
	return m, err
}

// Remake is New in the memory of a model that is no longer needed, without an operator.
func (m *Model) Remake(v *Values, link Linkage) (err error) {
	m.v, m.link, m.arm, m.motor = *v, link, linkage.Arm{}, motor{}
	if link.Closer {
		if m.arm, err = linkage.New(v.Arm(PinionX, link.Track, link.OnLeaf, link.Bend)); err != nil {
			*m = Model{}
			return err
		}
	}
	w, h, t := v[LeafWidth], v[LeafHeight], v[LeafThickness]
	xc, yc := v[PinToEdge]+w/2, -v[PinToFace]-t/2
	m.inertia = v[SlabMass]*((w*w+t*t)/12+xc*xc+yc*yc) + v[AttachedInertia]
	m.edge = v[PinToEdge] + w
	m.pressure = float64(m.PressureMoment(quantity.Pressure(v[Pressure])))
	m.drag = 0.5 * v[AirDensity] * v[DragCoefficient] * h * math.Pow(m.edge, 4) / 4
	m.lean = (quantity.StandardGravity*v[SlabMass]*xc + v[AttachedMoment]) * math.Sin(v[LeanAngle])
	m.seal = v[SealStiffness]
	m.bolt = v[BoltForce] * v[BoltRadius]
	m.SetValves(v[SweepViscous], v[LatchViscous])
	m.chart.draw(m)
	m.chart.air(m)
	return nil
}

// Arm is the geometry of the arm whose quantities begin at first, PinionX for the
// closer's or DrivePinionX for an operator's own, in the order from PinionX to TrackLine.
func (v *Values) Arm(first Value, track, onLeaf bool, bend int) linkage.Spec {
	length := func(of Value) quantity.Length { return quantity.Length(v[first+of-PinionX]) }
	return linkage.Spec{
		Track: track, OnLeaf: onLeaf, Bend: bend,
		Pinion: linkage.Point{X: length(PinionX), Y: length(PinionY)},
		Shoe:   linkage.Point{X: length(ShoeX), Y: length(ShoeY)},
		Main:   length(MainArm), Fore: length(Forearm),
		Line: quantity.Angle(v[first+TrackLine-PinionX]),
	}
}

// PressureMoment is the moment of a pressure on the closed leaf about its hinge
// axis, Δp·w·h·(e + w/2).
func (m *Model) PressureMoment(dp quantity.Pressure) quantity.Torque {
	v := &m.v
	return quantity.Torque(float64(dp) * v[LeafWidth] * v[LeafHeight] * (v[PinToEdge] + v[LeafWidth]/2))
}

// SetValves puts other viscous resistances (N·m·s/rad at the pinion, at the
// oil's reference temperature) into the sweep and latch zones.
func (m *Model) SetValves(sweep, latch float64) {
	v, oil := &m.v, m.v[OilFactor]
	v[SweepViscous], v[LatchViscous] = sweep, latch
	m.sweep = valve{sweep * oil, v[SweepOrifice]}
	m.latch = valve{latch * oil, v[LatchOrifice]}
	m.delay = valve{v[DelayViscous] * oil, 0}
	m.check = valve{v[CheckViscous] * oil, v[CheckOrifice]}
	m.lnA = math.Log(m.latch.a / m.sweep.a)
	m.lnB = math.Log(m.latch.b / m.sweep.b)
	m.free = v[FreeFlow] * oil
	m.chart.stale = true
}

// SetAir puts another pressure (Pa) on the leaf and another temperature on the
// oil, as the ratio of its viscosity to that at which the valves were described.
func (m *Model) SetAir(pressure, oil float64) {
	if pressure != m.v[Pressure] {
		m.v[Pressure] = pressure
		m.pressure = float64(m.PressureMoment(quantity.Pressure(pressure)))
		m.chart.air(m)
	}
	if oil != m.v[OilFactor] {
		m.v[OilFactor] = oil
		m.SetValves(m.v[SweepViscous], m.v[LatchViscous])
	}
}

// Values returns the quantities that the model was made of.
func (m *Model) Values() *Values { return &m.v }

// Linkage returns what sort of arm the model has.
func (m *Model) Linkage() Linkage { return m.link }

// Arm returns the arm, ready only where the model has a closer.
func (m *Model) Arm() *linkage.Arm { return &m.arm }

// Inertia is the leaf's moment of inertia about the hinge axis, with what is fixed to it.
func (m *Model) Inertia() quantity.Inertia { return quantity.Inertia(m.inertia) }

// Mass is the leaf's total mass with what is fixed to it.
func (m *Model) Mass() quantity.Mass { return quantity.Mass(m.v[SlabMass] + m.v[AttachedMass]) }

// LatchEdge is the distance from the hinge axis to the latch edge.
func (m *Model) LatchEdge() quantity.Length { return quantity.Length(m.edge) }
