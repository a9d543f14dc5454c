package quantity

import (
	"math"
	"slices"
	"testing"
)

// The factors as printed to seven digits in NIST SP 811 (2008), appendix B.8.
var printedFactors = []struct {
	symbol string
	factor float64
}{
	{"in", 2.54e-2},
	{"ft", 3.048e-1},
	{"ft²", 9.290304e-2},
	{"in²", 6.4516e-4},
	{"deg", 1.745329e-2},
	{"lb", 4.535924e-1},
	{"oz", 2.834952e-2},
	{"min", 6.0e1},
	{"h", 3.6e3},
	{"lbf", 4.448222},
	{"ozf", 2.780139e-1},
	{"kgf", 9.80665},
	{"lbf·in", 1.129848e-1},
	{"lbf·ft", 1.355818},
	{"ft·lbf", 1.355818},
	{"in. w.g.", 2.490889e2},
	{"psf", 4.788026e1},
	{"psi", 6.894757e3},
	{"hPa", 1.0e2},
	{"lb·ft²", 4.214011e-2},
	{"lb·in²", 2.926397e-4},
	{"slug·ft²", 1.459390e1 * 9.290304e-2}, // slug and square foot
	{"rpm", 1.047198e-1},
	{"lb/ft³", 1.601846e1},
	{"g/cm³", 1.0e3},
	{"lb/ft²", 4.882428},
	{"in·lbf/deg", 1.129848e-1 / 1.745329e-2}, // pound-force inch and degree
	{"in·lbf·s/rad", 1.129848e-1},
	{"in·lbf·s²/rad²", 1.129848e-1},
	{"cSt", 1.0e-6},
}

func TestFactorsAgreeWithPrintedTable(t *testing.T) {
	const lastDigit = 1.2e-6 // relative; two factors of seven digits multiplied
	for _, c := range printedFactors {
		_, factor, _, ok := UnitFactor(c.symbol)
		if !ok || math.Abs(factor/c.factor-1) > lastDigit {
			t.Errorf("factor of %s = %v, %v; the table prints %v", c.symbol, factor, ok, c.factor)
		}
	}
}

// The exported units are written down a second time, as constants.
func TestFactorsAgreeWithConstants(t *testing.T) {
	for symbol, want := range map[string]float64{
		"in": float64(Inch), "ft": float64(Foot), "mm": float64(Millimetre), "deg": float64(Degree),
		"lb": float64(Pound), "lbf": float64(PoundForce), "in-lbf": float64(InchPound),
		"lbf-ft": float64(FootPound), "ft-lbf": float64(FootPoundEnergy), "in wg": float64(InchOfWater),
	} {
		if _, factor, _, _ := UnitFactor(symbol); math.Abs(factor/want-1) > 3e-16 {
			t.Errorf("factor of %s = %v, the constant is %v", symbol, factor, want)
		}
	}
}

// NIST SP 811 (2008), B.8: T/K = t/°C + 273.15 and T/K = (t/°F + 459.67)/1.8.
// The fixed points are those at which the scales are known to agree.
func TestTemperatureScales(t *testing.T) {
	for _, c := range []struct {
		number float64
		unit   string
		kelvin float64
	}{
		{0, "°C", 273.15}, {100, "°C", 373.15}, {32, "°F", 273.15}, {212, "°F", 373.15},
		{-40, "°C", 233.15}, {-40, "°F", 233.15}, {-459.67, "°F", 0}, {300, "K", 300},
	} {
		got, err := FromUnit(DimTemperature, c.number, c.unit)
		if err != nil || math.Abs(got-c.kelvin) > 1e-10 {
			t.Errorf("%v %s = %v K, %v; want %v K", c.number, c.unit, got, err, c.kelvin)
		}
		back, err := InUnit(DimTemperature, c.kelvin, c.unit)
		if err != nil || math.Abs(back-c.number) > 1e-10 {
			t.Errorf("%v K = %v %s, %v; want %v", c.kelvin, back, c.unit, err, c.number)
		}
	}
}

// A spelling that two units of one dimension claim would go to the first in
// silence.
func TestNoSpellingHasTwoMeaningsInADimension(t *testing.T) {
	for i := range table {
		u := &table[i]
		for _, spelling := range append([]string{u.symbol}, u.also...) {
			if got := unitOf(u.dim, spelling); got != u {
				t.Errorf("%q as %s finds %s, not %s", spelling, u.dim.noun(), got.symbol, u.symbol)
			}
		}
	}
}

func TestEveryDimensionIsPrintedInBothSystems(t *testing.T) {
	for _, d := range Dimensions() {
		for _, s := range []System{SI, US} {
			if u := shown[d][s]; u == nil || u.dim != d {
				t.Errorf("no unit of %s is printed in %s", d, s)
			}
		}
	}
}

func TestUnitsShown(t *testing.T) {
	for _, c := range []struct {
		d      Dimension
		us, si string
	}{
		{DimRatio, "", ""}, {DimLength, "in", "mm"}, {DimAngle, "deg", "deg"}, {DimMass, "lb", "kg"},
		{DimTime, "s", "s"}, {DimForce, "lbf", "N"}, {DimTorque, "in·lbf", "N·m"}, {DimEnergy, "ft·lbf", "J"},
		{DimPressure, "in. w.g.", "Pa"}, {DimTemperature, "°F", "°C"}, {DimDensity, "lb/ft³", "kg/m³"},
	} {
		if us, si := Unit(c.d, US), Unit(c.d, SI); us != c.us || si != c.si {
			t.Errorf("units of %s = %q and %q, want %q and %q", c.d, us, si, c.us, c.si)
		}
	}
	if got := Unit(dimensions, SI) + Unit(DimLength, systems); got != "" {
		t.Errorf("the unit of nothing = %q, want none", got)
	}
}

func TestUnitsOfListsReadableSymbols(t *testing.T) {
	if got, want := UnitsOf(DimLength), []string{"in", "ft", "mm", "cm", "m"}; !slices.Equal(got, want) {
		t.Errorf("units of length = %q, want %q", got, want)
	}
	for _, d := range Dimensions() {
		for _, symbol := range UnitsOf(d) {
			one, err := FromUnit(d, 1, symbol)
			read, _, _, errRead := ParseAs(d, "1 "+symbol)
			if err != nil || errRead != nil || one != read {
				t.Errorf("1 %s = %v (%v), read as %v (%v)", symbol, one, err, read, errRead)
			}
		}
	}
}
