// Package quantity gives every quantity of the trade a type of its own, held in
// SI, reads what people write and prints it back in the units of the reader.
package quantity

// A Quantity is one of this package's named float64 types. Every one holds its
// value in the coherent SI unit named in its own comment.
type Quantity interface {
	~float64
	// Dimension tells which kind of quantity the type is.
	Dimension() Dimension
}

type (
	// Length is a distance in metres.
	Length float64
	// Area is a surface in square metres.
	Area float64
	// Angle is a plane angle in radians.
	Angle float64
	// Mass is a mass in kilograms. The trade says weight and means this.
	Mass float64
	// Time is a length of time in seconds.
	Time float64
	// Force is a force in newtons.
	Force float64
	// Torque is a moment of force in newton metres.
	Torque float64
	// Energy is an energy in joules.
	Energy float64
	// Pressure is a pressure or pressure difference in pascals.
	Pressure float64
	// Inertia is a moment of inertia in kilogram square metres.
	Inertia float64
	// AngularSpeed is a rate of turn in radians per second.
	AngularSpeed float64
	// Temperature is a thermodynamic temperature in kelvins.
	Temperature float64
	// Density is a mass per volume in kilograms per cubic metre.
	Density float64
	// ArealDensity is a mass per area in kilograms per square metre.
	ArealDensity float64
	// TorsionRate is a torque per angle in newton metres per radian.
	TorsionRate float64
	// Damping is a torque per rate of turn in newton metre seconds per radian.
	Damping float64
	// SquareDamping is a torque per square of the rate of turn in
	// newton metre seconds squared per radian squared.
	SquareDamping float64
	// Viscosity is a kinematic viscosity in square metres per second.
	Viscosity float64
	// Turns counts turns of a screw, whole and parts, from closed.
	Turns float64
	// Speed is a speed along a line in metres per second.
	Speed float64
	// Voltage is an electric tension in volts.
	Voltage float64
	// Current is an electric current in amperes.
	Current float64
	// Resistance is an electric resistance in ohms.
	Resistance float64
	// LineResistance is a resistance per length of wire in ohms per metre.
	LineResistance float64
	// Power is an electric power, true or apparent, in watts.
	Power float64
	// Charge is an electric charge, such as a battery holds, in ampere seconds.
	Charge float64
	// Ratio is a pure number, such as an efficiency.
	Ratio float64
)

// Dimension names a kind of quantity. The zero Dimension is DimRatio.
type Dimension uint8

// The kinds of quantity that this program knows, one for every type above.
const (
	DimRatio Dimension = iota
	DimLength
	DimArea
	DimAngle
	DimMass
	DimTime
	DimForce
	DimTorque
	DimEnergy
	DimPressure
	DimInertia
	DimAngularSpeed
	DimTemperature
	DimDensity
	DimArealDensity
	DimTorsionRate
	DimDamping
	DimSquareDamping
	DimViscosity
	DimTurns
	DimSpeed
	DimVoltage
	DimCurrent
	DimResistance
	DimLineResistance
	DimPower
	DimCharge
	dimensions // how many there are
)

// Dimension reports the kind of quantity.
func (Length) Dimension() Dimension         { return DimLength }
func (Area) Dimension() Dimension           { return DimArea }
func (Angle) Dimension() Dimension          { return DimAngle }
func (Mass) Dimension() Dimension           { return DimMass }
func (Time) Dimension() Dimension           { return DimTime }
func (Force) Dimension() Dimension          { return DimForce }
func (Torque) Dimension() Dimension         { return DimTorque }
func (Energy) Dimension() Dimension         { return DimEnergy }
func (Pressure) Dimension() Dimension       { return DimPressure }
func (Inertia) Dimension() Dimension        { return DimInertia }
func (AngularSpeed) Dimension() Dimension   { return DimAngularSpeed }
func (Temperature) Dimension() Dimension    { return DimTemperature }
func (Density) Dimension() Dimension        { return DimDensity }
func (ArealDensity) Dimension() Dimension   { return DimArealDensity }
func (TorsionRate) Dimension() Dimension    { return DimTorsionRate }
func (Damping) Dimension() Dimension        { return DimDamping }
func (SquareDamping) Dimension() Dimension  { return DimSquareDamping }
func (Viscosity) Dimension() Dimension      { return DimViscosity }
func (Turns) Dimension() Dimension          { return DimTurns }
func (Speed) Dimension() Dimension          { return DimSpeed }
func (Voltage) Dimension() Dimension        { return DimVoltage }
func (Current) Dimension() Dimension        { return DimCurrent }
func (Resistance) Dimension() Dimension     { return DimResistance }
func (LineResistance) Dimension() Dimension { return DimLineResistance }
func (Power) Dimension() Dimension          { return DimPower }
func (Charge) Dimension() Dimension         { return DimCharge }
func (Ratio) Dimension() Dimension          { return DimRatio }

// Units to multiply in and divide out: 36 * quantity.Inch, l / quantity.Inch.
const (
	Metre      Length = 1
	Millimetre Length = 0.001
	// Inch is exact: 1959 international yard and pound agreement (NIST SP 811, 2008, B.6).
	Inch Length = 0.0254
	// Foot is exact: twelve inches.
	Foot Length = 0.3048

	Radian Angle = 1
	// Degree is pi/180 rad.
	Degree Angle = 3.14159265358979323846 / 180

	Kilogram Mass = 1
	// Pound is the avoirdupois pound, exact (NIST SP 811, 2008, B.8).
	Pound Mass = 0.45359237

	Second Time = 1

	Newton Force = 1
	// PoundForce is a pound times standard gravity, exact by definition (NIST SP 811, 2008, B.8).
	PoundForce Force = 0.45359237 * 9.80665

	NewtonMetre Torque = 1
	// InchPound is one pound-force inch of torque.
	InchPound Torque = 0.45359237 * 9.80665 * 0.0254
	// FootPound is one pound-force foot of torque.
	FootPound Torque = 0.45359237 * 9.80665 * 0.3048

	Joule Energy = 1
	// FootPoundEnergy is one foot pound-force of energy.
	FootPoundEnergy Energy = 0.45359237 * 9.80665 * 0.3048

	Pascal Pressure = 1
	// InchOfWater is the conventional inch of water gauge (NIST SP 811, 2008, B.8: 249.0889 Pa);
	// exact as 25.4 mm of water of 1000 kg/m³ under standard gravity.
	InchOfWater Pressure = 249.08891

	// FootPerSecond is exact (NIST SP 811, 2008, B.8).
	FootPerSecond Speed = 0.3048
	// MilePerHour is exact: the international mile of 5280 ft (NIST SP 811, 2008, B.8).
	MilePerHour Speed = 5280 * 0.3048 / 3600

	Volt   Voltage    = 1
	Ampere Current    = 1
	Ohm    Resistance = 1
	Watt   Power      = 1

	// OhmPerKilofoot is one ohm per 1000 ft of wire, as wire tables print it.
	OhmPerKilofoot LineResistance = 1 / 304.8
	// AmpereHour is exact: an ampere for 3600 s.
	AmpereHour Charge = 3600

	// Celsius0 is 0 degrees Celsius.
	Celsius0 Temperature = 273.15
)

// StandardGravity is the acceleration of free fall that the pound-force is
// defined by, m/s², exact (3rd CGPM, 1901; NIST SP 811, 2008, B.8).
const StandardGravity = 9.80665
