package quantity

import (
	"strings"
	"testing"
)

// Each line holds one unit in the spellings that it must be read in.
func TestSpellings(t *testing.T) {
	for _, c := range []struct {
		d         Dimension
		symbol    string
		spellings string // separated by |
	}{
		{DimLength, "in", `in|in.|inch|inches|"|''|″|”|IN|Inches`},
		{DimLength, "ft", `ft|ft.|foot|feet|'|′|’|FT`},
		{DimLength, "mm", `mm|MM|millimetres|millimeters`},
		{DimForce, "lbf", `lbf|LBF|lb-f|lbf.`},
		{DimForce, "N", `N|n|newtons`},
		{DimTorque, "in·lbf", `in-lbf|in·lbf|in lbf|in. lbf|in.-lbf|inlbf|in*lbf|in×lbf|in⋅lbf|lbf·in|lbf-in|lbf in|in-lb|IN-LBF|inch-pounds`},
		{DimTorque, "lbf·ft", `ft-lbf|lbf·ft|lbf-ft|ft-lb|lb-ft|ftlbf`},
		{DimTorque, "N·m", `N·m|Nm|N m|N-m|N.m|N*m|nm|N⋅m`},
		{DimEnergy, "ft·lbf", `ft-lbf|ft·lbf|ft lbf|ftlbf|lbf·ft|ft-lb`},
		{DimEnergy, "J", `J|joules`},
		{DimPressure, "Pa", `Pa|PA|pascals|N/m2`},
		{DimPressure, "kPa", `kPa|KPA`},
		{DimPressure, "in. w.g.", `inwg|in wg|in. w.g.|in.w.g.|in w.g.|inH2O|in H2O|in. H₂O|in w.c.|inches of water`},
		{DimPressure, "psf", `psf|lbf/ft²|lbf/ft2|lbf/ft^2|lbf per sq ft`},
		{DimAngle, "deg", `deg|°|degrees|º|deg.`},
		{DimAngle, "rad", `rad|radians`},
		{DimMass, "lb", `lb|lbs|lb.|lbs.|lbm|pounds|LB`},
		{DimTime, "s", `s|sec|sec.|seconds`},
		{DimTime, "ms", `ms`},
		{DimTime, "min", `min|minutes`},
		{DimTemperature, "°C", `°C|C|deg C|° C|℃|degC`},
		{DimTemperature, "°F", `°F|F|deg F|℉`},
		{DimTemperature, "K", `K`},
		{DimArealDensity, "lb/ft²", `lb/ft²|lb/ft2|lb/ft^2|lb / ft²|lb/sq ft|lb per sq. ft.|lb/sq. ft.|lbs/sqft`},
		{DimArealDensity, "kg/m²", `kg/m²|kg/m2|kg / m^2`},
		{DimDensity, "lb/ft³", `lb/ft³|lb/ft3|lb/cu ft|pcf`},
		{DimDensity, "kg/m³", `kg/m³|kg/m3`},
		{DimInertia, "kg·m²", `kg·m²|kg m2|kgm²|kg-m^2`},
		{DimInertia, "lb·ft²", `lb·ft²|lb-ft2|lb ft^2`},
		{DimInertia, "slug·ft²", `slug·ft²|slug-ft2`},
		{DimAngularSpeed, "deg/s", `deg/s|°/s|deg / s|deg per s|deg/sec`},
		{DimAngularSpeed, "rad/s", `rad/s`},
		{DimTorsionRate, "N·m/rad", `N·m/rad|Nm/rad|N m/rad`},
		{DimTorsionRate, "in·lbf/deg", `in-lbf/deg|in·lbf/°|lbf-in/deg`},
		{DimTorsionRate, "N·m/deg", `N·m/deg|Nm/°`},
		{DimDamping, "N·m·s/rad", `N·m·s/rad|N·m·s|Nms/rad|N m s/rad|Nm·s/rad`},
		{DimDamping, "in·lbf·s/rad", `in-lbf·s/rad|in-lbf-s/rad|lbf-in-s/rad`},
		{DimSquareDamping, "N·m·s²/rad²", `N·m·s²/rad²|N m s2/rad2|N·m·s^2/rad^2`},
		{DimViscosity, "m²/s", `m²/s|m2/s`},
		{DimViscosity, "mm²/s", `mm²/s|mm2/s`},
		{DimViscosity, "cSt", `cSt|cst|CST`},
		{DimTurns, "turn", `turn|turns|rev`},
		{DimSpeed, "mph", `mph|mi/h|miles/hour`},
		{DimSpeed, "m/s", `m/s|m / s|m per s`},
		{DimCurrent, "mA", `mA|milliamps`},
		{DimVoltage, "V", `V|volts`},
		{DimRatio, "%", `%|percent`},
	} {
		for spelling := range strings.SplitSeq(c.spellings, "|") {
			want, err := FromUnit(c.d, 7, c.symbol)
			if err != nil {
				t.Fatal(err)
			}
			for _, gap := range []string{" ", ""} {
				if got, _, _, err := ParseAs(c.d, "7"+gap+spelling); err != nil || got != want {
					t.Errorf("7%s%s = %v, %v; want 7 %s = %v", gap, spelling, got, err, c.symbol, want)
				}
			}
		}
	}
}

// A product may be closed up, a single unit may not be taken apart.
func TestUnitsAreNotGuessed(t *testing.T) {
	for _, c := range []struct {
		d    Dimension
		text string
	}{
		{DimLength, "5 m m"}, {DimLength, "5 i n"}, {DimMass, "5 k g"}, {DimPressure, "5 p s f"},
		{DimLength, "5 nm"}, {DimLength, "5 in wide"}, {DimForce, "5 lbf/"}, {DimTorque, "5 N/m"},
		{DimLength, `5 "in"`}, {DimRatio, "5 %%"},
	} {
		if got, _, _, err := ParseAs(c.d, c.text); err == nil {
			t.Errorf("%q was read as %s: %v", c.text, c.d.noun(), got)
		}
	}
}
