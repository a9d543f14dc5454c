package quantity

import "testing"

// The coherent units of the SI brochure (BIPM, 9th edition, 2019, 2.3.4); a turn counts as one.
func TestSIUnit(t *testing.T) {
	want := map[Dimension]string{
		DimRatio: "", DimLength: "m", DimArea: "m²", DimAngle: "rad", DimMass: "kg", DimTime: "s", DimForce: "N",
		DimTorque: "N·m", DimEnergy: "J", DimPressure: "Pa", DimInertia: "kg·m²", DimAngularSpeed: "rad/s",
		DimTemperature: "K", DimDensity: "kg/m³", DimArealDensity: "kg/m²", DimTorsionRate: "N·m/rad",
		DimDamping: "N·m·s/rad", DimSquareDamping: "N·m·s²/rad²", DimViscosity: "m²/s", DimTurns: "turn",
		DimSpeed: "m/s", DimVoltage: "V", DimCurrent: "A",
		DimResistance: "Ω", DimLineResistance: "Ω/m", DimPower: "W", DimCharge: "A·s",
	}
	for _, d := range append(Dimensions(), 200) {
		if got := SIUnit(d); got != want[d] {
			t.Errorf("%v is in %q, want %q", d, got, want[d])
		}
	}
}
