package swing

import (
	"swingwright/quantity"
)

// Value numbers the quantities that a model is made of.
type Value int

// The quantities of a model, with the symbols of the equations; see Symbols.
const (
	LeafWidth Value = iota
	LeafHeight
	LeafThickness
	PinToEdge
	PinToFace
	SlabMass
	AttachedMass
	AttachedMoment
	AttachedInertia

	PinionX
	PinionY
	ShoeX
	ShoeY
	MainArm
	Forearm
	TrackLine

	SpringClosed
	SpringRise
	CloserLoss
	PinionInertia

	SweepViscous
	SweepOrifice
	LatchViscous
	LatchOrifice
	LatchZone
	Blend
	DelayViscous
	DelayFrom
	DelayTo
	FreeFlow
	CheckViscous
	CheckOrifice
	CheckZone
	OilFactor

	HingeFriction
	BoltForce
	BoltRadius
	BoltClears
	BoltMeets
	SealStiffness
	SealMeets
	Pressure
	PressureFades
	DragCoefficient
	AirDensity
	LeanAngle
	LeanAzimuth

	DrivePinionX
	DrivePinionY
	DriveShoeX
	DriveShoeY
	DriveMainArm
	DriveForearm
	DriveTrackLine
	DriveStall
	DriveFree
	DriveEfficiency
	DriveGain
	RotorInertia
	GearRatio
	BackDrive
	OpenRate
	RampTime
	SlowFrom
	CreepRate
	OpenAngle

	NumValues int = iota
)

// Values are the quantities of one model, in SI, by Value.
type Values [NumValues]float64

// A Symbol tells what one of the quantities is.
type Symbol struct {
	Key     string             // readable key, as printed in the resolved model
	Symbol  string             // symbol in the equations
	Dim     quantity.Dimension // kind of quantity, and so its SI unit
	Meaning string             // one sentence for people
}

// Symbols describes every quantity of a model.
var Symbols = [NumValues]Symbol{
	LeafWidth:       {"leaf.width", "w", quantity.DimLength, "Width of the leaf."},
	LeafHeight:      {"leaf.height", "h", quantity.DimLength, "Height of the leaf."},
	LeafThickness:   {"leaf.thickness", "t", quantity.DimLength, "Thickness of the leaf."},
	PinToEdge:       {"leaf.pin_to_edge", "e", quantity.DimLength, "Hinge axis to the leaf's hinge edge, along the leaf."},
	PinToFace:       {"leaf.pin_to_face", "g", quantity.DimLength, "Hinge axis to the leaf's pull face, square to it."},
	SlabMass:        {"leaf.slab_mass", "m", quantity.DimMass, "Mass of the leaf as an even slab."},
	AttachedMass:    {"attached.mass", "m_i", quantity.DimMass, "Mass of what is fixed to the leaf, lites counted with what they replace."},
	AttachedMoment:  {"attached.moment", "g·Σm_i·x_i", quantity.DimTorque, "Static moment about the hinge axis of the weight of what is fixed to the leaf, were it hung level."},
	AttachedInertia: {"attached.inertia", "Σm_i·(x_i² + y_i²)", quantity.DimInertia, "Moment of inertia about the hinge axis of what is fixed to the leaf."},

	PinionX:   {"arm.pinion_x", "p_x", quantity.DimLength, "Pinion, along the closed leaf from the hinge axis."},
	PinionY:   {"arm.pinion_y", "p_y", quantity.DimLength, "Pinion, square to the closed leaf, positive toward the pull side."},
	ShoeX:     {"arm.shoe_x", "s_x", quantity.DimLength, "Shoe, or a point of the track, along the closed leaf."},
	ShoeY:     {"arm.shoe_y", "s_y", quantity.DimLength, "Shoe, or a point of the track, square to the closed leaf."},
	MainArm:   {"arm.main", "L_1", quantity.DimLength, "Length of the arm on the pinion."},
	Forearm:   {"arm.forearm", "L_2", quantity.DimLength, "Length of the forearm; zero with a slide track."},
	TrackLine: {"arm.track_line", "u", quantity.DimAngle, "Direction of a slide track from the closed leaf."},

	SpringClosed:  {"spring.torque_closed", "T_0", quantity.DimTorque, "Spring torque at the pinion with the leaf closed."},
	SpringRise:    {"spring.rise", "k", quantity.DimTorsionRate, "Rise of the spring torque per turn of the pinion."},
	CloserLoss:    {"closer.loss", "mu", quantity.DimRatio, "Friction of the closer as a share of its spring torque."},
	PinionInertia: {"pinion.inertia", "J_p", quantity.DimInertia, "Inertia on the pinion's side."},

	SweepViscous: {"sweep.viscous", "a_S", quantity.DimDamping, "Viscous resistance at the pinion in the sweep zone."},
	SweepOrifice: {"sweep.orifice", "b_S", quantity.DimSquareDamping, "Orifice resistance at the pinion in the sweep zone."},
	LatchViscous: {"latch.viscous", "a_L", quantity.DimDamping, "Viscous resistance at the pinion in the latch zone."},
	LatchOrifice: {"latch.orifice", "b_L", quantity.DimSquareDamping, "Orifice resistance at the pinion in the latch zone."},
	LatchZone:    {"latch.zone", "psi_L", quantity.DimAngle, "Pinion turn below which the latch valve governs."},
	Blend:        {"valve.blend", "delta", quantity.DimAngle, "Pinion turn over which one valve hands over to the next."},
	DelayViscous: {"delay.viscous", "a_D", quantity.DimDamping, "Viscous resistance in the delay zone; zero without one."},
	DelayFrom:    {"delay.from", "psi_D1", quantity.DimAngle, "Pinion turn at which the delay zone ends on closing."},
	DelayTo:      {"delay.to", "psi_D2", quantity.DimAngle, "Pinion turn at which the delay zone begins on closing."},
	FreeFlow:     {"opening.viscous", "a_O", quantity.DimDamping, "Viscous resistance at the pinion to opening."},
	CheckViscous: {"backcheck.viscous", "a_B", quantity.DimDamping, "Viscous resistance added by backcheck."},
	CheckOrifice: {"backcheck.orifice", "b_B", quantity.DimSquareDamping, "Orifice resistance added by backcheck."},
	CheckZone:    {"backcheck.zone", "psi_B", quantity.DimAngle, "Pinion turn above which backcheck acts."},
	OilFactor:    {"oil.factor", "f_nu", quantity.DimRatio, "Viscosity of the oil over that at which the viscous resistances hold."},

	HingeFriction:   {"hinge.friction", "tau_h", quantity.DimTorque, "Friction of the hinges about their axis."},
	BoltForce:       {"bolt.force", "F_b", quantity.DimForce, "Force that pushes the latch bolt over the strike lip."},
	BoltRadius:      {"bolt.radius", "r_b", quantity.DimLength, "Hinge axis to where that force acts."},
	BoltClears:      {"bolt.clears", "theta_b0", quantity.DimAngle, "Leaf angle at which the bolt drops into the strike."},
	BoltMeets:       {"bolt.meets", "theta_b1", quantity.DimAngle, "Leaf angle at which the bolt meets the lip."},
	SealStiffness:   {"seal.stiffness", "k_s", quantity.DimTorsionRate, "Stiffness of the seals about the hinge axis."},
	SealMeets:       {"seal.meets", "theta_s", quantity.DimAngle, "Leaf angle at which the seals first touch."},
	Pressure:        {"air.pressure", "dp", quantity.DimPressure, "Pressure on the closed leaf, positive pushing it open."},
	PressureFades:   {"air.pressure_fades", "theta_p", quantity.DimAngle, "Leaf angle over which the pressure leaks away to 1/e."},
	DragCoefficient: {"air.drag", "C_d", quantity.DimRatio, "Drag coefficient of the leaf."},
	AirDensity:      {"air.density", "rho", quantity.DimDensity, "Density of the air."},
	LeanAngle:       {"hinge.lean", "epsilon", quantity.DimAngle, "Angle of the hinge axis from plumb."},
	LeanAzimuth:     {"hinge.lean_azimuth", "gamma", quantity.DimAngle, "Direction in plan toward which the top of the hinge axis leans."},

	DrivePinionX:    {"drive.pinion_x", "d_x", quantity.DimLength, "Shaft of the operator's own arm, along the closed leaf from the hinge axis."},
	DrivePinionY:    {"drive.pinion_y", "d_y", quantity.DimLength, "Shaft of the operator's own arm, square to the closed leaf, positive toward the pull side."},
	DriveShoeX:      {"drive.shoe_x", "f_x", quantity.DimLength, "Shoe of the operator's own arm, or a point of its track, along the closed leaf."},
	DriveShoeY:      {"drive.shoe_y", "f_y", quantity.DimLength, "Shoe of the operator's own arm, or a point of its track, square to the closed leaf."},
	DriveMainArm:    {"drive.main", "L_3", quantity.DimLength, "Length of the operator's own arm on its shaft."},
	DriveForearm:    {"drive.forearm", "L_4", quantity.DimLength, "Length of its forearm; zero with a slide track."},
	DriveTrackLine:  {"drive.track_line", "u_d", quantity.DimAngle, "Direction of its slide track from the closed leaf."},
	DriveStall:      {"drive.stall", "T_stall", quantity.DimTorque, "Torque of the drive at its shaft, standing still, before its losses."},
	DriveFree:       {"drive.free_speed", "psi'_0", quantity.DimAngularSpeed, "Rate of the shaft at which the drive has no torque left."},
	DriveEfficiency: {"drive.efficiency", "eta", quantity.DimRatio, "Torque that comes out at the shaft over torque of the drive."},
	DriveGain:       {"drive.gain", "K", quantity.DimDamping, "Torque that the control adds per rate that the leaf lacks of the commanded one."},
	RotorInertia:    {"drive.rotor_inertia", "J_r", quantity.DimInertia, "Inertia of the motor's rotor about its own axis."},
	GearRatio:       {"drive.gear_ratio", "i", quantity.DimRatio, "Turns of the rotor per turn of the shaft."},
	BackDrive:       {"drive.back_drive", "T_b", quantity.DimTorque, "Torque at the shaft that turns the drive without power."},
	OpenRate:        {"drive.rate", "omega_c", quantity.DimAngularSpeed, "Rate of the leaf that the speed setting commands."},
	RampTime:        {"drive.ramp", "t_a", quantity.DimTime, "Time in which the commanded rate rises to its full value."},
	SlowFrom:        {"drive.slow_from", "theta_slow", quantity.DimAngle, "Leaf angle from which the commanded rate falls."},
	CreepRate:       {"drive.creep", "omega_k", quantity.DimAngularSpeed, "Commanded rate of the leaf when it is fully open."},
	OpenAngle:       {"drive.open", "theta_open", quantity.DimAngle, "Leaf angle at which the operator stops."},
}

// Linkage is what a model has of an arm beside its lengths.
type Linkage struct {
	Closer bool // whether there is a closer with its arm at all
	Track  bool // slide track; else two bars
	OnLeaf bool // closer's body on the leaf; else on the frame
	Bend   int  // as in linkage.Spec
	Latch  bool // whether a latch bolt holds the closed leaf
}
