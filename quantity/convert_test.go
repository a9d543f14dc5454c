package quantity

import "testing"

// The two symbols that NIST SP 811 (2008), B.8 keeps apart, and those that the
// trade uses for a torque.
func TestUnitFactorOfSharedSymbols(t *testing.T) {
	for symbol, want := range map[string]Dimension{
		"ft·lbf": DimEnergy, "lbf·ft": DimTorque, "in-lbf": DimTorque, "N·m": DimTorque,
		"lb": DimMass, "psf": DimPressure, "lb/ft²": DimArealDensity, "°": DimAngle, "%": DimRatio, "": DimRatio,
	} {
		if d, _, _, ok := UnitFactor(symbol); !ok || d != want {
			t.Errorf("dimension of %q = %v, %v; want %v", symbol, d, ok, want)
		}
	}
	if d, factor, offset, ok := UnitFactor("furlong"); ok || d != 0 || factor != 0 || offset != 0 {
		t.Errorf("UnitFactor(furlong) = %v, %v, %v, %v; want zeros and false", d, factor, offset, ok)
	}
}

func TestConversionErrors(t *testing.T) {
	for _, c := range []struct {
		d            Dimension
		symbol, want string
	}{
		{DimMass, "N", `"N" is a unit of force, not of mass: use lb, oz, kg or g`},
		{DimAngle, "grad", `"grad" is not a unit known here: for an angle use deg or rad`},
		{DimRatio, "deg", `"deg" is a unit of angle, not of ratio: use a bare number or %`},
	} {
		_, err := InUnit(c.d, 1, c.symbol)
		_, errBack := FromUnit(c.d, 1, c.symbol)
		if err == nil || errBack == nil || err.Error() != c.want || errBack.Error() != c.want {
			t.Errorf("%s in %s: %v and %v, want %s", c.d, c.symbol, err, errBack, c.want)
		}
	}
}
