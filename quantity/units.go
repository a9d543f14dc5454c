package quantity

import (
	"math"
	"strings"
)

// A unit turns numbers as written into SI: SI = number·num/den·scale + offset.
//
// The factor is kept as a quotient of whole numbers where it is one, so that
// lengths that are equal on paper are equal to the bit: 32 in, 2'-8" and
// 812.8 mm are all 8128/10000 m, rounded once.
type unit struct {
	dim      Dimension
	used     use
	symbol   string
	also     []string // other spellings; a dot stands for any separator
	num, den float64
	scale    float64 // what is irrational in the factor, else 1
	offset   float64 // SI value of the scale's zero; only temperatures have one
	places   int     // decimals worth printing when the spread is not known
	parts    int     // how many of the smaller unit make one, for 3 ft 6 in
	smaller  string  // that smaller unit
}

// use is the set of systems in which a unit is at home.
type use uint8

const (
	inSI use = 1 << SI
	inUS use = 1 << US
)

// is describes a unit of num/den SI units. The spellings are separated by spaces.
func is(d Dimension, used use, symbol string, places int, num, den float64, spellings string) unit {
	return unit{
		dim: d, used: used, symbol: symbol, places: places,
		num: num, den: den, scale: 1, also: strings.Fields(spellings),
	}
}

func (u unit) times(scale float64) unit        { u.scale = scale; return u }
func (u unit) from(offset float64) unit        { u.offset = offset; return u }
func (u unit) madeOf(n int, small string) unit { u.parts, u.smaller = n, small; return u }
func (u *unit) toSI(num, den float64) float64  { return num*u.num/(den*u.den)*u.scale + u.offset }
func (u *unit) fromSI(si float64) float64      { return u.spreadFromSI(si - u.offset) }
func (u *unit) spreadToSI(num, den float64) float64 {
	return num * u.num / (den * u.den) * u.scale
}
func (u *unit) spreadFromSI(si float64) float64 { return si / u.scale * u.den / u.num }
func (u *unit) factor() float64                 { return u.num / u.den * u.scale }

// The defined values that the table is built from, all exact:
// NIST SP 811 (2008), B.8 and its footnotes.
const (
	pound = 0.45359237 // kg
	inch  = 0.0254     // m
	foot  = 0.3048     // m

	// A pound-force is pound·StandardGravity = 45359237/10⁸ · 196133/20000 N.
	lbfNum, lbfDen = 45359237 * 196133, 2e12
	// An inch is 127/5000 m, a foot 381/1250 m.
	inLbfNum, inLbfDen = lbfNum * 127, lbfDen * 5000
	ftLbfNum, ftLbfDen = lbfNum * 381, lbfDen * 1250
	inLbf              = pound * StandardGravity * inch // N·m
	ftLbf              = pound * StandardGravity * foot // N·m

	perDegree = 180 / math.Pi // 1/deg in 1/rad
)

// table lists the units that are read. In each dimension the first unit of a
// system is the one that is printed there. A symbol that stands in two
// dimensions (ft·lbf is an energy, and is written for torques too) belongs
// first to the one that has it as its symbol, else to the earlier one.
var table = []unit{
	is(DimRatio, inSI|inUS, "", 4, 1, 1, ""),
	is(DimRatio, inSI|inUS, "%", 2, 1, 100, "percent pct"),

	is(DimLength, inUS, "in", 3, 254, 1e4, `inch inches "`),
	is(DimLength, inUS, "ft", 4, 3048, 1e4, "foot feet '").madeOf(12, "in"),
	is(DimLength, inSI, "mm", 1, 1, 1000, "millimetre millimetres millimeter millimeters"),
	is(DimLength, inSI, "cm", 2, 1, 100, "centimetre centimetres centimeter centimeters"),
	is(DimLength, inSI, "m", 4, 1, 1, "metre metres meter meters"),

	is(DimArea, inUS, "ft²", 2, 9290304, 1e8, "sq·ft sq·feet square·foot square·feet"),
	is(DimArea, inUS, "in²", 1, 64516, 1e8, "sq·in sq·inch sq·inches square·inch square·inches"),
	is(DimArea, inSI, "m²", 3, 1, 1, "sq·m square·metre square·metres square·meter square·meters"),
	is(DimArea, inSI, "cm²", 1, 1, 1e4, "sq·cm"),
	is(DimArea, inSI, "mm²", 0, 1, 1e6, "sq·mm"),

	is(DimAngle, inSI|inUS, "deg", 2, 1, 180, "° degree degrees").times(math.Pi),
	is(DimAngle, inSI, "rad", 4, 1, 1, "radian radians"),

	is(DimMass, inUS, "lb", 2, 45359237, 1e8, "lbs lbm pound pounds").madeOf(16, "oz"),
	is(DimMass, inUS, "oz", 2, 45359237, 16e8, "ounce ounces"), // a sixteenth of a pound
	is(DimMass, inSI, "kg", 2, 1, 1, "kgs kilogram kilograms"),
	is(DimMass, inSI, "g", 1, 1, 1000, "gram grams"),

	is(DimTime, inSI|inUS, "s", 3, 1, 1, "sec secs second seconds"),
	is(DimTime, inSI|inUS, "ms", 1, 1, 1000, "msec millisecond milliseconds"),
	is(DimTime, inSI|inUS, "min", 3, 60, 1, "mins minute minutes").madeOf(60, "s"),
	is(DimTime, inSI|inUS, "h", 3, 3600, 1, "hr hrs hour hours").madeOf(60, "min"),

	is(DimForce, inUS, "lbf", 2, lbfNum, lbfDen, "lbsf lb·f pound-force pounds-force"),
	is(DimForce, inUS, "ozf", 2, lbfNum, 16*lbfDen, "ounce-force"),
	is(DimForce, inSI, "N", 2, 1, 1, "newton newtons"),
	is(DimForce, inSI, "kN", 4, 1000, 1, "kilonewton kilonewtons"),
	// Exact: a kilogram times standard gravity (NIST SP 811, 2008, B.8).
	is(DimForce, inSI, "kgf", 3, 980665, 1e5, "kp kilogram-force"),

	// NIST SP 811 (2008), B.8: pound-force inch, 0.112 984 8 N·m; pound-force foot, 1.355 818 N·m.
	is(DimTorque, inUS, "in·lbf", 1, inLbfNum, inLbfDen, "lbf·in in·lb lb·in inch-pound inch-pounds"),
	is(DimTorque, inUS, "lbf·ft", 2, ftLbfNum, ftLbfDen, "ft·lbf ft·lb lb·ft foot-pound foot-pounds"),
	is(DimTorque, inSI, "N·m", 2, 1, 1, "newton·metre newton·metres newton·meter newton·meters"),
	is(DimTorque, inSI, "N·cm", 1, 1, 100, ""),
	// NIST SP 811 (2008), B.8: foot pound-force, 1.355 818 J.
	is(DimEnergy, inUS, "ft·lbf", 3, ftLbfNum, ftLbfDen, "ft·lb lbf·ft lb·ft foot-pound foot-pounds"),
	is(DimEnergy, inUS, "in·lbf", 2, inLbfNum, inLbfDen, "in·lb lbf·in lb·in"),
	is(DimEnergy, inSI, "J", 3, 1, 1, "joule joules"),
	// Standards print kinetic energies in N·m as well.
	is(DimEnergy, inSI, "N·m", 3, 1, 1, ""),

	// NIST SP 811 (2008), B.8: inch of water, conventional, 249.088 9 Pa
	// = 25.4 mm · 1000 kg/m³ · 9.806 65 m/s², exact.
	is(DimPressure, inUS, "in. w.g.", 4, 24908891, 1e5,
		"in·wg in·w·c in·wc in·water inch·of·water inches·of·water inch·w·g inches·w·g inch·wg inches·wg"),
	is(DimPressure, inUS, "psf", 3, pound*StandardGravity/(foot*foot), 1, "lbf/ft² lbf/sq·ft"),
	is(DimPressure, inUS, "psi", 5, pound*StandardGravity/(inch*inch), 1, "lbf/in² lbf/sq·in"),
	is(DimPressure, inSI, "Pa", 2, 1, 1, "pascal pascals N/m²"),
	is(DimPressure, inSI, "hPa", 4, 100, 1, "mbar"),
	is(DimPressure, inSI, "kPa", 5, 1000, 1, "kilopascal kilopascals"),

	is(DimInertia, inUS, "lb·ft²", 2, pound*foot*foot, 1, "lbm·ft² lb·sq·ft"),
	is(DimInertia, inUS, "lb·in²", 0, pound*inch*inch, 1, "lbm·in² lb·sq·in"),
	// A slug is the mass that a pound-force accelerates by a foot per second squared.
	is(DimInertia, inUS, "slug·ft²", 4, ftLbf, 1, "slug·sq·ft lbf·ft·s² ft·lbf·s²"),
	is(DimInertia, inSI, "kg·m²", 3, 1, 1, "kg·sq·m N·m·s²"),

	is(DimAngularSpeed, inSI|inUS, "deg/s", 2, 1, 180, "°/s deg/sec °/sec degrees/s degrees/sec degrees/second").times(math.Pi),
	is(DimAngularSpeed, inSI, "rad/s", 4, 1, 1, "rad/sec radians/s radians/second"),
	is(DimAngularSpeed, inSI|inUS, "rpm", 3, 1, 30, "r/min rev/min").times(math.Pi),

	// NIST SP 811 (2008), B.8: degree Fahrenheit, T/K = (t/°F + 459.67)/1.8; degree Celsius, T/K = t/°C + 273.15.
	is(DimTemperature, inUS, "°F", 1, 5, 9, "F deg·F degF degrees·F fahrenheit").from(459.67 / 1.8),
	is(DimTemperature, inSI, "°C", 1, 1, 1, "C deg·C degC degrees·C celsius").from(float64(Celsius0)),
	is(DimTemperature, inSI, "K", 2, 1, 1, "kelvin kelvins"),

	// NIST SP 811 (2008), B.8: pound per cubic foot, 16.018 46 kg/m³.
	is(DimDensity, inUS, "lb/ft³", 2, pound/(foot*foot*foot), 1, "pcf lb/cu·ft lbs/ft³ lbs/cu·ft lbm/ft³"),
	is(DimDensity, inSI, "kg/m³", 1, 1, 1, "kg/cu·m"),
	is(DimDensity, inSI, "g/cm³", 4, 1000, 1, "g/cc"),

	// NIST SP 811 (2008), B.8: pound per square foot, 4.882 428 kg/m².
	is(DimArealDensity, inUS, "lb/ft²", 3, pound/(foot*foot), 1, "lb/sq·ft lbs/ft² lbs/sq·ft lbm/ft²"),
	is(DimArealDensity, inSI, "kg/m²", 2, 1, 1, "kg/sq·m"),

	is(DimTorsionRate, inUS, "in·lbf/deg", 3, inLbfNum, inLbfDen, "lbf·in/deg in·lb/deg lb·in/deg in·lbf/° lbf·in/° in·lb/°").times(perDegree),
	is(DimTorsionRate, inUS, "in·lbf/rad", 1, inLbfNum, inLbfDen, "lbf·in/rad in·lb/rad lb·in/rad"),
	is(DimTorsionRate, inUS, "lbf·ft/rad", 2, ftLbfNum, ftLbfDen, "ft·lbf/rad lb·ft/rad ft·lb/rad"),
	is(DimTorsionRate, inSI, "N·m/rad", 2, 1, 1, ""),
	is(DimTorsionRate, inSI, "N·m/deg", 4, 1, 1, "N·m/°").times(perDegree),

	is(DimDamping, inUS, "in·lbf·s/rad", 2, inLbfNum, inLbfDen, "lbf·in·s/rad in·lb·s/rad lb·in·s/rad in·lbf·s lbf·in·s"),
	is(DimDamping, inUS, "in·lbf·s/deg", 4, inLbfNum, inLbfDen, "lbf·in·s/deg in·lbf·s/° lbf·in·s/°").times(perDegree),
	is(DimDamping, inSI, "N·m·s/rad", 3, 1, 1, "N·m·s"),
	is(DimDamping, inSI, "N·m·s/deg", 5, 1, 1, "N·m·s/°").times(perDegree),

	is(DimSquareDamping, inUS, "in·lbf·s²/rad²", 2, inLbfNum, inLbfDen, "lbf·in·s²/rad² in·lbf·s² lbf·in·s²"),
	is(DimSquareDamping, inSI, "N·m·s²/rad²", 3, 1, 1, "N·m·s²"),

	// NIST SP 811 (2008), B.8: centistokes, 1 mm²/s exactly.
	is(DimViscosity, inUS, "cSt", 2, 1, 1e6, "centistokes centistoke"),
	is(DimViscosity, inSI, "mm²/s", 2, 1, 1e6, "sq·mm/s"),
	is(DimViscosity, inSI, "m²/s", 8, 1, 1, "sq·m/s"),

	// NIST SP 811 (2008), B.8: mile per hour, 0.447 04 m/s; foot per second, 0.3048 m/s.
	is(DimSpeed, inUS, "mph", 1, 44704, 1e5, "mi/h mile/h miles/h mile/hour miles/hour"),
	is(DimSpeed, inUS, "ft/s", 2, 3048, 1e4, "ft/sec feet/s feet/sec feet/second foot/s"),
	is(DimSpeed, inSI, "m/s", 2, 1, 1, "m/sec metre/s metres/s meter/s meters/s"),
	is(DimSpeed, inSI, "km/h", 1, 10, 36, "km/hr kph"),

	is(DimVoltage, inSI|inUS, "V", 2, 1, 1, "volt volts Vdc Vac V·dc V·ac"),
	is(DimVoltage, inSI|inUS, "mV", 0, 1, 1000, "millivolt millivolts"),
	is(DimCurrent, inSI|inUS, "A", 3, 1, 1, "amp amps ampere amperes"),
	is(DimCurrent, inSI|inUS, "mA", 0, 1, 1000, "milliamp milliamps milliampere milliamperes"),

	is(DimResistance, inSI|inUS, "Ω", 3, 1, 1, "ohm ohms"),
	is(DimResistance, inSI|inUS, "mΩ", 1, 1, 1000, "milliohm milliohms"),
	is(DimLineResistance, inUS, "Ω/kft", 2, 10, 3048, "ohm/kft ohms/kft"),
	is(DimLineResistance, inSI, "Ω/km", 2, 1, 1000, "ohm/km ohms/km"),
	is(DimLineResistance, inSI, "Ω/m", 5, 1, 1, "ohm/m ohms/m"),
	// The volt-ampere is the watt; it is written where the power is apparent.
	is(DimPower, inSI|inUS, "W", 1, 1, 1, "VA V·A watt watts"),
	is(DimCharge, inSI|inUS, "A·h", 2, 3600, 1, "amp·hour amp·hours"),
	is(DimCharge, inSI|inUS, "mA·h", 0, 36, 10, ""),
	is(DimCharge, inSI, "A·s", 0, 1, 1, ""),

	is(DimTurns, inSI|inUS, "turn", 3, 1, 1, "turns rev revs revolution revolutions"),
}
