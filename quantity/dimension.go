package quantity

import "strconv"

// dimensionNames holds the trade's word for every kind of quantity, in the
// order of the constants.
var dimensionNames = [dimensions]string{
	DimRatio:          "ratio",
	DimLength:         "length",
	DimArea:           "area",
	DimAngle:          "angle",
	DimMass:           "mass",
	DimTime:           "time",
	DimForce:          "force",
	DimTorque:         "torque",
	DimEnergy:         "energy",
	DimPressure:       "pressure",
	DimInertia:        "moment of inertia",
	DimAngularSpeed:   "angular speed",
	DimTemperature:    "temperature",
	DimDensity:        "density",
	DimArealDensity:   "areal density",
	DimTorsionRate:    "torsion rate",
	DimDamping:        "damping",
	DimSquareDamping:  "square damping",
	DimViscosity:      "viscosity",
	DimTurns:          "turns",
	DimSpeed:          "speed",
	DimVoltage:        "voltage",
	DimCurrent:        "current",
	DimResistance:     "resistance",
	DimLineResistance: "resistance per length",
	DimPower:          "power",
	DimCharge:         "charge",
}

// Dimensions lists every kind of quantity, in a fixed order.
func Dimensions() []Dimension {
	all := make([]Dimension, dimensions)
	for i := range all {
		all[i] = Dimension(i)
	}
	return all
}

// DimensionOf finds a kind of quantity by the name that String gives; false
// when there is none of that name.
func DimensionOf(name string) (Dimension, bool) {
	for d, n := range dimensionNames {
		if n == name {
			return Dimension(d), true
		}
	}
	return 0, false
}

// String gives the trade's word for the kind of quantity, such as "force".
func (d Dimension) String() string {
	if d >= dimensions {
		return "dimension " + strconv.Itoa(int(d))
	}
	return dimensionNames[d]
}

// noun gives the word with its article, for sentences: "a force", "an angle".
func (d Dimension) noun() string {
	switch d {
	case DimTurns:
		return "a number of turns"
	case DimDamping, DimSquareDamping:
		return "a " + d.String() + " coefficient"
	case DimArea, DimAngle, DimEnergy, DimAngularSpeed, DimArealDensity:
		return "an " + d.String()
	}
	return "a " + d.String()
}
