package quantity

import "testing"

func TestDimensionNames(t *testing.T) {
	seen := map[string]bool{}
	for _, d := range Dimensions() {
		name := d.String()
		back, ok := DimensionOf(name)
		if name == "" || seen[name] || !ok || back != d {
			t.Errorf("dimension %d is named %q, which finds %v, %v", d, name, back, ok)
		}
		seen[name] = true
	}
	if got := DimForce.String(); got != "force" {
		t.Errorf("the name of DimForce = %q, want force", got)
	}
	if got := dimensions.String(); got != "dimension 27" {
		t.Errorf("the name of no dimension = %q", got)
	}
	if d, ok := DimensionOf("velocity"); ok || d != 0 {
		t.Errorf("DimensionOf(velocity) = %v, %v; want none", d, ok)
	}
}

// Each type must report the dimension that its units have.
func TestTypesKnowTheirDimension(t *testing.T) {
	for want, got := range map[Dimension]Dimension{
		DimRatio: Ratio(0).Dimension(), DimLength: Length(0).Dimension(), DimArea: Area(0).Dimension(),
		DimAngle: Angle(0).Dimension(), DimMass: Mass(0).Dimension(), DimTime: Time(0).Dimension(),
		DimForce: Force(0).Dimension(), DimTorque: Torque(0).Dimension(), DimEnergy: Energy(0).Dimension(),
		DimPressure: Pressure(0).Dimension(), DimInertia: Inertia(0).Dimension(),
		DimAngularSpeed: AngularSpeed(0).Dimension(), DimTemperature: Temperature(0).Dimension(),
		DimDensity: Density(0).Dimension(), DimArealDensity: ArealDensity(0).Dimension(),
		DimTorsionRate: TorsionRate(0).Dimension(), DimDamping: Damping(0).Dimension(),
		DimSquareDamping: SquareDamping(0).Dimension(), DimViscosity: Viscosity(0).Dimension(),
		DimTurns: Turns(0).Dimension(), DimSpeed: Speed(0).Dimension(),
		DimVoltage: Voltage(0).Dimension(), DimCurrent: Current(0).Dimension(),
		DimResistance: Resistance(0).Dimension(), DimLineResistance: LineResistance(0).Dimension(),
		DimPower: Power(0).Dimension(), DimCharge: Charge(0).Dimension(),
	} {
		if got != want {
			t.Errorf("the type of %s reports %s", want, got)
		}
	}
}

func TestSystemNames(t *testing.T) {
	for _, s := range []System{SI, US} {
		if back, ok := SystemOf(s.String()); !ok || back != s {
			t.Errorf("%s finds %v, %v", s, back, ok)
		}
	}
	if s, ok := SystemOf("imperial"); ok || s != SI {
		t.Errorf("SystemOf(imperial) = %v, %v; want none", s, ok)
	}
	if got := systems.String(); got != "unknown system of units" {
		t.Errorf("the name of no system = %q", got)
	}
}
